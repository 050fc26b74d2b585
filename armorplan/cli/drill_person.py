"""Somebody's practice on the command line: what is kept of a first try, and what comes next."""

from argparse import Namespace
from collections.abc import Iterator
from contextlib import closing, contextmanager
from dataclasses import dataclass
from pathlib import Path

from armorplan.app.derived import Derived
from armorplan.app.practice_desk import PracticeDesk
from armorplan.cli.reading import tell
from armorplan.cli.workshop_turn import turn_of_a_window
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import Answer, Asked, Drill, Judged
from armorplan.practice.grades import Grade, grade_of
from armorplan.practice.results import Result
from armorplan.store.places import default_workshop_path
from armorplan.store.workshop_file import WorkshopFile


@dataclass(frozen=True, slots=True, kw_only=True)
class Practice:
    """One person's practice in a workshop file.

    Attributes:
        person: id; ``name``: what they are called.
        pattern: uuid of the pattern that is practised with.
    """

    desk: PracticeDesk
    workshop: WorkshopFile
    person: str
    name: str
    pattern: str

    def former(self, asked: Asked) -> Result | None:
        """Return what was kept last of this very exercise; ``None``: nothing was."""
        results = self.workshop.drills.since(self.person, 0)
        same = (one for one in reversed(results) if one.asked == asked)
        return next((one for one in same if one.pattern == self.pattern), None)

    def keep(self, tried: "Tried") -> str:
        """Keep how a first try went; what was answered before is kept once, its reason beside it."""
        grade = grade_of(right=tried.judged.right, hint=tried.hint, why_right=tried.why_right)
        former = self.former(tried.drill.asked)
        adds = grade is Grade.COULD_TEACH and former is not None and former.grade is Grade.KNEW
        if former is not None and not adds:
            return "This exercise was answered before: its first try is kept, and counts."
        return self.desk.keep(
            self.person,
            tried.drill,
            tried.answer,
            tried.judged,
            grade,
            tried.seconds,
            hint=tried.hint,
        )


@dataclass(frozen=True, slots=True, kw_only=True)
class Tried:
    """An answer with all that says how it was known; ``seconds`` is 0 where nobody said."""

    drill: Drill
    answer: Answer
    judged: Judged
    hint: bool
    why_right: bool
    seconds: float


@contextmanager
def practice_of(chosen: Namespace, derived: Derived) -> Iterator[Practice]:
    """Open somebody's practice; where a window writes in the workshop, what is kept says so.

    Raises:
        ArmorplanError: the shop's file names its people, and nobody is called so.
        WorkshopError: the workshop file cannot be opened.
    """
    path: Path = chosen.workshop or default_workshop_path()
    person, name = _who(chosen, derived)
    clock = SystemClock()
    if chosen.workshop is not None and not path.exists():
        tell(f"A new workshop file is begun: {path}.")
    with (
        turn_of_a_window(path, clock, write_here=False) as turn,
        closing(WorkshopFile.open(path, clock, turn)) as workshop,
    ):
        desk = PracticeDesk(
            lambda: derived, lambda _: None, lambda: None, workshop, clock, who=name
        )
        pattern = derived.pattern.uuid
        yield Practice(desk=desk, workshop=workshop, person=person, name=name, pattern=pattern)


def _who(chosen: Namespace, derived: Derived) -> tuple[str, str]:
    wanted = chosen.who.strip()
    if not wanted:
        raise ArmorplanError("--who names nobody. Write --who NAME.")
    found = derived.shop.called(wanted)
    if found is not None:
        return found.id, found.name
    if chosen.shop is not None:
        people = ", ".join(person.name for person in derived.shop.people)
        raise ArmorplanError(
            f"Nobody called '{wanted}' works in the shop of {chosen.shop}. Its people: {people}."
        )
    return wanted, wanted
