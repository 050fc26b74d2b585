"""Who practises: how far they are with the reasons, and what is signed off for them."""

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import replace
from zoneinfo import ZoneInfo

from armorplan.app.derived import Derived
from armorplan.app.practice_protocol import Practiser, SkillRow
from armorplan.app.practice_reasons import BuildReasons
from armorplan.app.practice_record import Records
from armorplan.app.skill_desk import SkillDesk
from armorplan.app.skill_words import practised_sentence, row_sentence
from armorplan.kernel.clock import Clock
from armorplan.practice.memory import Memory, state_of
from armorplan.practice.progress import Progress, Standing, progress_of
from armorplan.workshop.skill_how import SkillHow


class PracticePeople:
    """The people of practice and the reasons of the build; ``practice_desk`` adds exercises."""

    def __init__(
        self,
        derived: Callable[[], Derived],
        skill_desk: SkillDesk,
        records: Records,
        clock: Clock,
        *,
        who: str = "",
    ) -> None:
        self._derived, self._skill_desk = derived, skill_desk
        self._records, self._clock = records, clock
        self._who = who
        self._known: BuildReasons | None = None

    def _reasons(self) -> BuildReasons:
        derived = self._derived()
        if self._known is None or self._known.derived.relations is not derived.relations:
            self._known = BuildReasons(derived)
        return self._known

    def _called(self, person: str) -> str:
        found = self._derived().shop.called(person)
        return found.name if found else person

    @property
    def why_not_kept(self) -> str:
        """Return why results cannot be kept here; empty where they are."""
        return self._records.why_not_kept

    @property
    def who(self) -> str:
        """Return whoever works in this window, by id or name; empty: nobody is named."""
        return self._who

    def people(self) -> tuple[Practiser, ...]:
        """Return the shop's people, then whoever else has results."""
        named = {person.id: person.name for person in self._derived().shop.people}
        others = {person: person for person in self._records.people() if person not in named}
        return tuple(Practiser(id=one, name=name) for one, name in {**named, **others}.items())

    def progress(self, person: str) -> Progress:
        """Return how far a person is, as of now."""
        derived = self._derived()
        results, memories = self._records.of(person)
        standing = Standing(
            person=person,
            name=self._called(person),
            results=results,
            memories=memories,
            at=self._clock.now(),
            zone=ZoneInfo(derived.shop.zone),
        )
        pattern = derived.pattern
        return progress_of(
            standing, self._reasons().pieces(), pattern=pattern.uuid, title=pattern.name
        )

    def skills(self, person: str = "") -> tuple[SkillRow, ...]:
        """Return every kind of step of the build for a person, or for everybody; as worked."""
        zone = ZoneInfo(self._derived().shop.zone)
        rows = self._skill_desk.rows(person)
        known = {one: self._records.of(one)[1] for one in {row.person for row in rows}}
        return tuple(
            replace(
                row,
                practised=self._practised(known[row.person], row.kind),
                sentence=row_sentence(row, zone),
            )
            for row in rows
        )

    def _practised(self, memories: Mapping[str, Memory], kind: str) -> str:
        now_at = self._clock.now()
        states = (state_of(memories.get(key), now_at) for key in self._reasons().of_kind(kind))
        return practised_sentence(Counter(states), kind)

    def sign_off(self, person: str, kind: str, how: SkillHow, by: str, note: str = "") -> str:
        """Sign a kind of step off, or say that it is not to be done yet."""
        return self._skill_desk.sign_off(person, kind, how, by, note)

    def take_back_skill(self, person: str) -> str:
        """Take back what was signed off last for a person."""
        return self._skill_desk.take_back(person)

    def can_take_back(self, person: str) -> str:
        """Return what would be taken back, in a sentence; empty: nothing was signed off."""
        return self._skill_desk.can_take_back(person)

    def read_new(self) -> bool:
        """Take in what was signed off in other windows; tell whether plans change for it.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        return self._skill_desk.read_new()

    def read_results(self) -> bool:
        """Tell whether another window kept a result since this was asked last.

        Raises:
            WorkshopError: the workshop file cannot be read.
        """
        return self._records.read_new()
