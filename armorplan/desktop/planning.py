"""Keeps the plan fresh: when the bench has moved on, a new one is sought off the window's thread."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import QObject, QTimer, Signal

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Plan, Problem

SETTLE_MS = 250
"""Wait after a change before planning, so that a row of key presses is planned once."""
SHOW_MS = 400
"""Better plans found on the way are shown at once, but no more often than this."""


class Planner(Protocol):
    """Answers a problem. Runs off the window's thread and looks at ``should_stop``."""

    def __call__(
        self,
        problem: Problem,
        *,
        hint: Plan | None,
        on_better: Callable[[Plan], None],
        should_stop: Callable[[], bool],
    ) -> Plan:
        """Return the best plan found, telling better ones on the way."""
        ...


class PlanDesk(QObject):
    """Asks for a plan when the bench has changed, and shows what comes back."""

    begun = Signal()
    ended = Signal()

    def __init__(self, bridge: Bridge, planner: Planner, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._planner = planner
        self._hint: Plan | None = None
        self._waiting: CheckedPlan | None = None
        self._runner = Runner(self)
        self._runner.begun.connect(self.begun)
        self._runner.ended.connect(self.ended)
        self._runner.better.connect(self._keep)
        self._runner.answered.connect(self._take_last)
        self._runner.failed.connect(self._tell)
        self._asked: object = None
        self._settle = self._once(SETTLE_MS, self._plan_if_new)
        self._show = self._once(SHOW_MS, self._take_waiting)
        bridge.changed.connect(self._settle.start)
        bridge.opened.connect(self._forget)

    def _once(self, after_ms: int, slot: Callable[[], None]) -> QTimer:
        timer = QTimer(self, singleShot=True, interval=after_ms)
        timer.timeout.connect(slot)
        return timer

    @property
    def is_busy(self) -> bool:
        """Tell whether a plan is being sought."""
        return self._runner.is_busy

    def plan_again(self) -> None:
        """Seek a plan that counts from this moment."""
        self._bridge.session.plan_from_now()
        self.plan()

    def plan(self) -> None:
        """Seek a plan for the build as it stands now; it is checked off the window's thread too."""
        session, hint, planner = self._bridge.session, self._hint, self._planner
        self._asked, asking = session.problem_mark(), session.asking()

        def work(report: Report, should_stop: ShouldStop) -> object:
            problem = asking()

            def better(plan: Plan) -> None:
                report(CheckedPlan(problem=problem, plan=plan))

            plan = planner(problem, hint=hint, on_better=better, should_stop=should_stop)
            return CheckedPlan(problem=problem, plan=plan)

        self._settle.stop()
        self._waiting = None
        self._runner.ask(work)

    def leave_to_another(self) -> None:
        """Seek nothing for the build as it stands now: somebody else answers it."""
        self._settle.stop()
        self._runner.drop()
        self._waiting = None
        self._asked = self._bridge.session.problem_mark()

    def take(self, answer: CheckedPlan) -> bool:
        """Show a plan that somebody else made, and go on from it; tell whether it still answers."""
        was_taken = self._bridge.session.take_plan(answer)
        if was_taken:
            self._hint = answer.plan
        return was_taken

    def stop(self) -> None:
        """End with the best plan found so far."""
        self._runner.stop()

    def close(self) -> bool:
        """Stop for good; tell whether the thread ended in time."""
        self._settle.stop()
        self._show.stop()
        return self._runner.close()

    def _plan_if_new(self) -> None:
        """Seek a plan where the bench has moved on; showing a plan changes rows, not the problem."""
        if self._bridge.session.problem_mark() != self._asked:
            self.plan()

    def _forget(self) -> None:
        self._hint = None
        self.plan()

    def _keep(self, answer: CheckedPlan) -> None:
        self._waiting = answer
        if not self._show.isActive():
            self._take_waiting()

    def _take_waiting(self) -> None:
        if self._waiting is not None:
            self._take(self._waiting)
            self._show.start()

    def _take_last(self, answer: CheckedPlan) -> None:
        self._show.stop()
        self._take(answer)

    def _take(self, answer: CheckedPlan) -> None:
        self._waiting = None
        if self._bridge.session.take_plan(answer):
            self._hint = answer.plan

    def _tell(self, error: Exception) -> None:
        self._bridge.said.emit(
            self.tr("No new plan: {0}. The plan shown still holds.").format(
                str(error).rstrip(".") or type(error).__name__
            )
        )
