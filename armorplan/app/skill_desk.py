"""Skills signed off at the bench: every plan goes by them from then on, in every window."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from dataclasses import replace

from armorplan.app.derived import Derived
from armorplan.app.entries import NOT_RECORDED
from armorplan.app.practice_protocol import SkillRow
from armorplan.app.practice_shelf import SkillShelf
from armorplan.app.skill_history import last_said, standing, taking_back
from armorplan.app.skill_signers import why_not
from armorplan.app.skill_words import does_words
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import Person
from armorplan.workshop.skill_how import SkillHow
from armorplan.workshop.skills import SignedOff, with_skills

_KINDS = tuple(kind.value for kind in StepKind)


class SkillDesk:
    """Says who does which kind of step, in the shop of the build at the bench.

    Args:
        derived: the build as it stands.
        go_on_in: lets it go on in a shop whose people do other work.
        change: shows everything anew.
        shelf: keeps what is said.
        clock: of the machine.
        who: whoever works in this window.
    """

    def __init__(
        self,
        derived: Callable[[], Derived],
        go_on_in: Callable[[Derived], None],
        change: Callable[[], None],
        shelf: SkillShelf,
        clock: Clock,
        *,
        who: str = "",
    ) -> None:
        self._derived, self._go_on_in, self._change = derived, go_on_in, change
        self._shelf, self._clock, self._who = shelf, clock, who
        self._number = 0
        self._words: tuple[SignedOff, ...] = ()
        # What cannot be read now is read with the next look.
        with suppress(WorkshopError):
            self._words = shelf.all()

    def rows(self, person: str = "") -> tuple[SkillRow, ...]:
        """Return how each kind of step of the build stands, or was signed off, as worked.

        Args:
            person: id, or name; empty: everybody who works here.
        """
        derived = self._derived()
        there = {step.kind.value for step in derived.work.steps if step.attended}
        one = derived.shop.called(person)
        people = (one,) if one else () if person else derived.shop.people
        return tuple(row for each in people for row in self._rows_of(each, there))

    def _rows_of(self, person: Person, there: set[str]) -> list[SkillRow]:
        said = standing(self._words, person.id)
        kinds = [kind for kind in _KINDS if kind in there or kind in said]
        return [_row(person, kind, said.get(kind), self._called) for kind in kinds]

    def _called(self, name: str) -> str:
        person = self._derived().shop.called(name)
        return person.name if person else name

    def sign_off(self, person: str, kind: str, how: SkillHow, by: str, note: str = "") -> str:
        """Say how somebody does a kind of step; return it in a sentence."""
        shop = self._derived().shop
        who, signer = shop.called(person), by.strip()
        if who is None:
            return f"{NOT_RECORDED} Nobody called '{person}' works in this shop."
        if kind not in _KINDS:
            return f"{NOT_RECORDED} '{kind}' is no kind of step. One is '{StepKind.RIVET.value}'."
        if not signer:
            return f"{NOT_RECORDED} Say who signs it off."
        refused = why_not(shop, who, kind, how, signer)
        if refused:
            return f"{NOT_RECORDED} {refused}"
        word = SignedOff(
            person=who.id, kind=kind, how=how, by=signer, at=self._clock.now(), note=note.strip()
        )
        return self._keep((word,), who, f"said by {self._called(signer)}")

    def take_back(self, person: str) -> str:
        """Take back what was said last of somebody's skills; return what holds then."""
        who = self._derived().shop.called(person)
        if who is None:
            return f"{NOT_RECORDED} Nobody called '{person}' works in this shop."
        try:
            self.read_new()
            words = taking_back(self._words, who.id, by=self._who, at=self._clock.now())
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        if not words:
            return f"{NOT_RECORDED} Nothing is signed off for {who.name}."
        return self._keep(words, who, "as before")

    def can_take_back(self, person: str) -> str:
        """Return what would be taken back, in a sentence; empty: nothing stands."""
        who = self._derived().shop.called(person)
        last = last_said(self._words, who.id) if who else None
        if who is None or last is None:
            return ""
        return f"{does_words(who.name, last.kind, last.how)}: said by {self._called(last.by)}."

    def _keep(self, words: Sequence[SignedOff], who: Person, said: str) -> str:
        try:
            self._shelf.keep(*words)
            if self.read_new():
                self._change()
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        kind = words[-1].kind
        now = self._derived().shop.called(who.id) or who
        filed = words[-1].how is SkillHow.AS_FILED
        source = SkillHow.AS_FILED.value if filed else said
        left = any(person.does(kind) for person in self._derived().shop.people)
        warned = "" if left else f" But nobody in this shop does '{kind}' alone now."
        does = does_words(who.name, kind, now.how(kind))
        return f"{does}, {source}. Plans go by it from now on.{warned}"

    def read_new(self) -> bool:
        """Take in what was said, in whichever window; tell whether the shop is another one for it.

        Raises:
            WorkshopError: the file cannot be read.
        """
        number = self._shelf.number()
        if number == self._number:
            return False
        self._words, self._number = self._shelf.all(), number
        derived = self._derived()
        shop = with_skills(derived.shop, self._words)
        if shop is derived.shop:
            return False
        self._go_on_in(replace(derived, shop=shop))
        return True


def _row(
    person: Person, kind: str, said: SignedOff | None, called: Callable[[str], str]
) -> SkillRow:
    row = SkillRow(person=person.id, name=person.name, kind=kind, holds=person.how(kind))
    if said is None:
        return row
    return replace(row, how=said.how, by=called(said.by), at=said.at, note=said.note)
