"""What a view may ask of practice and tell it. ``practice_desk.PracticeDesk`` fulfils it."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime
from typing import Protocol

from armorplan.app.drills.source import Solve
from armorplan.app.practice_asked import SheetAsked
from armorplan.app.rows import Diagram
from armorplan.practice.drill import (
    Answer,
    Asked,
    Drill,
    DrillKind,
    Judged,
    Level,
    Solved,
    WhyAsked,
)
from armorplan.practice.grades import Grade
from armorplan.practice.progress import Progress
from armorplan.sheets.worksheet_model import Worksheet
from armorplan.workshop.skill_how import SkillHow


@dataclass(frozen=True, slots=True, kw_only=True)
class Practiser:
    """Somebody who practises: of the shop, or whoever has results."""

    id: str
    name: str


@dataclass(frozen=True, slots=True, kw_only=True)
class SkillRow:
    """How one kind of step stands with one person.

    Attributes:
        person: id; ``name``: what they are called.
        kind: the kind of step, a ``StepKind`` value.
        how: what was signed off; ``None``: nothing was, or it was taken back, so that the shop's
            file counts.
        holds: how they do it now, in whichever way it is said: ``how``, else by the shop's file.
        by: who signed it off; ``at``: when, aware and UTC; ``note``: what was seen.
        practised: what practice says of the reasons of this kind, in a sentence.
        sentence: how it stands, in words.
    """

    person: str
    name: str
    kind: str
    holds: SkillHow
    how: SkillHow | None = None
    by: str = ""
    at: datetime | None = None
    note: str = ""
    practised: str = ""
    sentence: str = ""


class Practising(Protocol):
    """Exercises of the build at the bench, who did which, and what was signed off.

    What takes longer than a few milliseconds is returned as something to call in any thread. All
    that is said in a sentence says so where nothing could be kept, and why.
    """

    @property
    def why_not_kept(self) -> str:
        """Why results cannot be kept here; empty where they are."""
        ...

    @property
    def who(self) -> str:
        """Whoever works in this window, by id or name; empty: nobody is named."""
        ...

    def people(self) -> tuple[Practiser, ...]:
        """Return the shop's people, then whoever else has results."""
        ...

    def kinds(self) -> tuple[DrillKind, ...]:
        """Return the kinds of exercise, in the order they are offered."""
        ...

    def pieces(self) -> tuple[tuple[str, str], ...]:
        """Return the build's pieces: ids and names, in the pattern's order."""
        ...

    def setting(self, asked: Asked, *, solve: Solve | None = None) -> Callable[[], Drill | None]:
        """Return what makes this very exercise; ``None``: the build holds none of its kind."""
        ...

    def number_of(self, asked: Asked) -> int:
        """Return the number of an exercise: with its kind, level and piece it makes it again."""
        ...

    def numbered(self, number: int, like: Asked) -> Asked:
        """Return what is asked by a number, of the kind, level, piece and part of another exercise.

        Raises:
            ArmorplanError: this build has no exercise of such a number.
        """
        ...

    def coming(
        self,
        person: str,
        *,
        kind: DrillKind | None = None,
        level: Level | None = None,
        piece: str = "",
        solve: Solve | None = None,
    ) -> Callable[[], Drill | None]:
        """Return what makes the exercise that is worth most now; asked again: another one.

        What was missed lately comes first, then what is due, then what was never seen, then what
        sits least. ``None`` as the answer: the build holds none like this.

        Args:
            person: id; nobody's results count where it is empty.
            kind: only such; ``None``: what fits best.
            level: only this much at once; ``None``: what fits best.
            piece: only of this one; empty: of any.
            solve: asks the solver; without it what needs it is not set.
        """
        ...

    def judging(
        self, drill: Drill, answer: Answer, *, solve: Solve | None = None
    ) -> Callable[[], Judged]:
        """Return what judges an answer; called, it raises ArmorplanError where it is none."""
        ...

    def why(self, drill: Drill, judged: Judged) -> Callable[[], WhyAsked | None]:
        """Return what makes the second question; ``None`` as the answer: there is none to ask."""
        ...

    def solving(self, drill: Drill, *, solve: Solve | None = None) -> Callable[[], Solved]:
        """Return what finds the answer."""
        ...

    def worksheet(self, asked: SheetAsked) -> Callable[[], Worksheet]:
        """Return what makes a worksheet; called, it raises ArmorplanError where there is no exercise."""
        ...

    def diagram(
        self,
        done: tuple[str, ...],
        amiss: tuple[str, ...] = (),
        ghosts: tuple[str, ...] = (),
    ) -> Diagram:
        """Return the parts as they look with these steps done.

        Args:
            done: steps done, in order.
            amiss: steps that can no more be done.
            ghosts: joints out of reach.
        """
        ...

    def keep(  # noqa: PLR0913 - all that a result is
        self,
        person: str,
        drill: Drill,
        answer: Answer,
        judged: Judged,
        grade: Grade,
        seconds: float,
        *,
        hint: bool = False,
    ) -> str:
        """Keep how a first try went; return it in a sentence.

        Args:
            person: id.
            drill: the exercise.
            answer: the first answer to it.
            judged: what that was worth.
            grade: see ``practice.grades.grade_of``.
            seconds: from showing it to the answer.
            hint: the reason was asked for before the answer.
        """
        ...

    def progress(self, person: str) -> Progress:
        """Return how far a person is, as of now; asked in any thread, for it may read a good while."""
        ...

    def skills(self, person: str = "") -> tuple[SkillRow, ...]:
        """Return every kind of step of the build for a person, or for everybody; as worked.

        Asked in any thread.
        """
        ...

    def sign_off(self, person: str, kind: str, how: SkillHow, by: str, note: str = "") -> str:
        """Sign a kind of step off, or say that it is not to be done yet; plans go by it at once."""
        ...

    def take_back_skill(self, person: str) -> str:
        """Take back what was signed off last for a person; what held before it holds again."""
        ...

    def can_take_back(self, person: str) -> str:
        """Return what would be taken back, in a sentence; empty: nothing was signed off."""
        ...
