"""Tomorrow laid anew around what dries tonight, at one key and off the window's thread."""

from typing import NamedTuple

from PySide6.QtCore import QObject, Signal

from armorplan.app.plan_naming import naming_of
from armorplan.app.session_protocol import BenchSession
from armorplan.app.wishes import Wishes
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.desktop.planning import PlanDesk
from armorplan.schedule.checker import CheckedPlan


class _Laid(NamedTuple):
    session: BenchSession
    answer: CheckedPlan
    words: str


class TonightDesk(QObject):
    """Asks for it, and shows what comes of it unless something happened meanwhile.

    ``told`` carries what is said; ``begun`` and ``ended`` frame the laying.
    """

    told = Signal(str)
    begun = Signal()
    ended = Signal()

    def __init__(
        self, bridge: Bridge, desk: PlanDesk, wishes: Wishes | None, parent: QObject | None = None
    ) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._desk = desk
        self._wishes = wishes
        self._runner = Runner(self)
        self._runner.begun.connect(self.begun)
        self._runner.ended.connect(self.ended)
        self._runner.answered.connect(self._show)
        self._runner.failed.connect(self._fail)

    @property
    def is_busy(self) -> bool:
        """Whether tomorrow is being laid."""
        return self._runner.is_busy

    def arrange(self) -> None:
        """Lay tomorrow anew around what runs now; everything else stays where it can."""
        session, wishes = self._bridge.session, self._wishes
        week = session.week()
        if wishes is None or week is None or not week.shown.plan.placed:
            self._say(self.tr("There is no plan yet that could be kept to."))
            return
        at_hand, shop = week.shown, session.shop()
        session.plan_from_now()
        self._desk.leave_to_another()
        asking = session.asking()
        self._bridge.said.emit(self.tr("Tomorrow is laid anew around what runs now …"))

        def work(_report: Report, should_stop: ShouldStop) -> object:
            problem = asking()
            found = wishes.tonight(problem, at_hand, naming_of(shop, problem), should_stop)
            answer = CheckedPlan(problem=problem, plan=found.plan)
            return _Laid(session, answer, found.words)

        self._runner.ask(work)

    def stop(self) -> None:
        """End the search for a plan, and this, with what was found so far."""
        self._desk.stop()
        self._runner.stop()

    def close(self) -> bool:
        """Stop for good; tell whether the thread ended in time."""
        return self._runner.close()

    def _show(self, laid: _Laid) -> None:
        if self._bridge.session is not laid.session:
            return
        if laid.answer.plan.placed and not self._desk.take(laid.answer):
            self._say(self.tr("Something happened meanwhile; the week is planned anew instead."))
            return
        self._say(laid.words)

    def _fail(self, error: Exception) -> None:
        self._say(
            self.tr("Tomorrow was not laid anew: {0}. The plan shown still holds.").format(
                str(error).rstrip(".") or type(error).__name__
            )
        )

    def _say(self, words: str) -> None:
        self._bridge.said.emit(words)
        self.told.emit(words)
