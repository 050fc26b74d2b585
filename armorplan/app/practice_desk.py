"""Practice at the bench: exercises of its build, who answered which, and what was signed off."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from functools import partial
from math import isfinite

from armorplan.app.derived import Derived
from armorplan.app.drills.numbering import number_of, numbered
from armorplan.app.drills.registry import KINDS
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource, Solve
from armorplan.app.entries import NOT_RECORDED
from armorplan.app.practice_asked import SheetAsked
from armorplan.app.practice_people import PracticePeople
from armorplan.app.practice_record import Records
from armorplan.app.practice_results import FirstTry, result_of
from armorplan.app.practice_setting import ComingAsked, FindComing
from armorplan.app.practice_shelf import PracticeShelves
from armorplan.app.rows import Diagram
from armorplan.app.skill_desk import SkillDesk
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.practice.coming import next_seed
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
from armorplan.sheets.worksheet_model import Worksheet

_FORMER = 16
"""So many exercises back it counts which kind was asked."""


class PracticeDesk(PracticePeople):
    """Fulfils ``practice_protocol.Practising``.

    Args:
        derived: the build as it stands, without what is done at its bench.
        go_on_in: lets it go on in a shop whose people do other work.
        change: shows everything anew.
        shelves: keep results and skills; where results are kept nowhere, that is said.
        clock: of the machine.
        who: whoever works in this window.
    """

    def __init__(
        self,
        derived: Callable[[], Derived],
        go_on_in: Callable[[Derived], None],
        change: Callable[[], None],
        shelves: PracticeShelves,
        clock: Clock,
        *,
        who: str = "",
    ) -> None:
        skills = SkillDesk(derived, go_on_in, change, shelves.skills, clock, who=who)
        super().__init__(derived, skills, Records(shelves.drills, clock), clock, who=who)
        self._set: dict[str, list[Drill]] = {}

    def kinds(self) -> tuple[DrillKind, ...]:
        """Return the kinds of exercise, in the order they are offered."""
        return KINDS

    def pieces(self) -> tuple[tuple[str, str], ...]:
        """Return the build's pieces: ids and names."""
        return tuple((piece.id, piece.name) for piece in self._derived().pattern.pieces)

    def _source(self, solve: Solve | None = None) -> DrillSource:
        return DrillSource(derived=self._derived(), solve=solve)

    def setting(self, asked: Asked, *, solve: Solve | None = None) -> Callable[[], Drill | None]:
        """Return what makes this very exercise."""
        return partial(drill_for, self._source(solve), asked)

    def number_of(self, asked: Asked) -> int:
        """Return the number of an exercise: with its kind, level and piece it makes it again."""
        return number_of(self._derived(), asked)

    def numbered(self, number: int, like: Asked) -> Asked:
        """Return what is asked by a number, of the kind, level, piece and part of another exercise."""
        return numbered(self._derived(), number, like)

    def coming(
        self,
        person: str,
        *,
        kind: DrillKind | None = None,
        level: Level | None = None,
        piece: str = "",
        solve: Solve | None = None,
    ) -> Callable[[], Drill | None]:
        """Return what makes the exercise that is worth most now; asked again: another one."""
        source, reasons = self._source(solve), self._reasons()
        shown = self._set.setdefault(person, [])
        asked = ComingAsked(
            kinds=KINDS if kind is None else tuple(one for one in KINDS if one is kind),
            at=self._clock.now(),
            level=level,
            piece=piece,
        )

        def make() -> Drill | None:
            # What somebody answered is read here: it may be thousands of exercises.
            behind = self._behind(person, source.derived.pattern.uuid, shown, asked)
            drill = FindComing(source, reasons, behind)()
            if drill is not None:
                shown[:] = [*shown, drill][-_FORMER:]
            return drill

        return make

    def _behind(
        self, person: str, pattern: str, shown: Sequence[Drill], asked: ComingAsked
    ) -> ComingAsked:
        """Return what is asked for with all that somebody answered, and was shown, before it."""
        results, memories = self._records.of(person)
        here = tuple(one.asked for one in shown)
        before = (one.asked for one in results[-_FORMER:])
        kept = results[-1].asked if results and results[-1].pattern == pattern else None
        return replace(
            asked,
            former=(*(one for one in before if one not in here), *here),
            last=shown[-1] if shown else kept,
            memories=memories,
            seed=next_seed(len(results), here[-1] if here else kept),
        )

    def judging(
        self, drill: Drill, answer: Answer, *, solve: Solve | None = None
    ) -> Callable[[], Judged]:
        """Return what judges an answer."""
        return partial(judged, self._source(solve), drill, answer)

    def why(self, drill: Drill, judged: Judged) -> Callable[[], WhyAsked | None]:
        """Return what makes the second question."""
        # It is asked for after an answer only; a window opens sooner without it.
        from armorplan.app.drills.reasoning import why_asked

        return partial(why_asked, self._source(), drill, judged)

    def solving(self, drill: Drill, *, solve: Solve | None = None) -> Callable[[], Solved]:
        """Return what finds the answer."""
        return partial(solved, self._source(solve), drill)

    def worksheet(self, asked: SheetAsked) -> Callable[[], Worksheet]:
        """Return what makes a worksheet."""
        # Layout loads only where paper is asked for.
        from armorplan.app.practice_paper import worksheet

        return partial(worksheet, self._source(), asked)

    def diagram(
        self,
        done: tuple[str, ...],
        amiss: tuple[str, ...] = (),
        ghosts: tuple[str, ...] = (),
    ) -> Diagram:
        """Return the parts as they look with these steps done."""
        # Made off the window's thread, once an exercise is asked; a window opens sooner without it.
        from armorplan.app.drills.playing import drill_diagram

        return drill_diagram(self._source(), done, amiss, ghosts)

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
        """Keep how a first try went; return it in a sentence."""
        if not person:
            return f"{NOT_RECORDED} Say who practises, and it is kept."
        tried = FirstTry(
            person=person,
            drill=drill,
            answer=answer,
            judged=judged,
            grade=grade,
            seconds=max(seconds, 0.0) if isfinite(seconds) else 0.0,
            hint=hint,
        )
        try:
            self._records.keep(result_of(self._derived(), tried, self._clock.now()))
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        return f"Kept for {self._called(person)}: {grade.value}."
