"""Exercises set, judged and asked about off the window's thread; stale answers are dropped."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from armorplan.app.practice_protocol import Practising
from armorplan.app.rows import Diagram
from armorplan.app.way_back_protocol import Solve
from armorplan.desktop.bridge import Bridge, solve_with
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import Answer, Asked, Drill, DrillKind, Frame, Judged, Level


@dataclass(frozen=True, slots=True, kw_only=True)
class Wanted:
    """Which exercise is wanted; ``kind`` and ``level`` ``None`` and ``piece`` empty: any."""

    person: str = ""
    kind: DrillKind | None = None
    level: Level | None = None
    piece: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Posed:
    """An exercise, the practice that set it, and the parts as they look before it."""

    practice: Practising
    drill: Drill
    diagram: Diagram


@dataclass(frozen=True, slots=True, kw_only=True)
class Worth:
    """What an answer is worth, with the pictures of how it goes."""

    answer: Answer
    judged: Judged
    pictures: tuple[tuple[Frame, Diagram], ...] = ()

    def diagram_of(self, frame: Frame) -> Diagram:
        """Return the parts in a frame; KeyError where it is none of these."""
        found = next((one for known, one in self.pictures if known == frame), None)
        if found is None:
            raise KeyError(frame.said)
        return found


class PracticeDesk(QObject):
    """Sets, judges and asks why.

    ``posed`` carries a ``Posed``, or ``None`` where the build holds none like it; ``judged`` a
    ``Worth``; ``questioned`` a ``WhyAsked`` or ``None``; ``refused`` what could not be done, and why.
    """

    posed = Signal(object)
    judged = Signal(object)
    questioned = Signal(object)
    refused = Signal(str)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._setter, self._judge, self._asker = Runner(self), Runner(self), Runner(self)
        self._setter.answered.connect(self.posed)
        self._judge.answered.connect(self.judged)
        self._asker.answered.connect(self.questioned)
        for runner in (self._setter, self._judge):
            runner.failed.connect(lambda error: self.refused.emit(_words(error)))
        # Without its second question an exercise is told as it stands.
        self._asker.failed.connect(lambda _error: self.questioned.emit(None))
        bridge.opened.connect(self.drop)

    @property
    def practice(self) -> Practising:
        """Practice of the build that is shown."""
        return self._bridge.session.practice

    @property
    def is_busy(self) -> bool:
        """Tell whether something is still set, judged or asked for."""
        return any(one.is_busy for one in (self._setter, self._judge, self._asker))

    def pose_next(self, wanted: Wanted) -> None:
        """Have the exercise set that is worth most now."""
        practice = self.practice

        def making(solve: Solve | None) -> Callable[[], Drill | None]:
            return practice.coming(
                wanted.person,
                kind=wanted.kind,
                level=wanted.level,
                piece=wanted.piece,
                solve=solve,
            )

        self._pose(practice, making)

    def pose(self, asked: Asked) -> None:
        """Have this very exercise set."""
        practice = self.practice
        self._pose(practice, lambda solve: practice.setting(asked, solve=solve))

    def _pose(
        self,
        practice: Practising,
        making: Callable[[Solve | None], Callable[[], Drill | None]],
    ) -> None:
        self._judge.drop()
        self._asker.drop()
        stops: list[ShouldStop] = []
        try:
            make = making(solve_with(self._bridge.solver, lambda: any(stop() for stop in stops)))
        except ArmorplanError as error:
            self._setter.drop()
            self.refused.emit(str(error))
            return

        def work(_report: Report, should_stop: ShouldStop) -> Posed | None:
            stops.append(should_stop)
            drill = make()
            if drill is None:
                return None
            return Posed(practice=practice, drill=drill, diagram=practice.diagram(drill.done))

        self._setter.ask(work)

    def judge(self, posed: Posed, answer: Answer) -> None:
        """Have an answer judged, and the pictures made of how it goes."""
        practice = posed.practice
        stops: list[ShouldStop] = []
        solve = solve_with(self._bridge.solver, lambda: any(stop() for stop in stops))
        judging = practice.judging(posed.drill, answer, solve=solve)

        def work(_report: Report, should_stop: ShouldStop) -> Worth:
            stops.append(should_stop)
            judged = judging()
            pictures = tuple(
                (frame, practice.diagram(frame.done, frame.amiss, frame.ghosts))
                for frame in judged.play
            )
            return Worth(answer=answer, judged=judged, pictures=pictures)

        self._judge.ask(work)

    def ask_why(self, posed: Posed, judged: Judged) -> None:
        """Have the second question made."""
        # Asked for within the thread: the first time what makes it is read from disk.
        self._asker.ask(lambda _report, _stop: posed.practice.why(posed.drill, judged)())

    def finish_judging(self) -> None:
        """Have the answer judged to its end, and heard: somebody leaves."""
        self._judge.finish()

    def drop(self) -> None:
        """Want no answer any more."""
        for runner in (self._setter, self._judge, self._asker):
            runner.drop()

    def close(self) -> bool:
        """Wait for what is still under way; tell whether it ended in time."""
        ended = [one.close() for one in (self._setter, self._judge, self._asker)]
        return all(ended)


def _words(error: Exception) -> str:
    return str(error) or type(error).__name__
