"""Keeps the plan fresh: when the bench has moved on, a new one is sought off the window's thread."""

from collections.abc import Callable
from typing import NamedTuple, Protocol

from PySide6.QtCore import QObject, QTimer, Signal

from armorplan.app.plan_naming import naming_of
from armorplan.app.replanned import replanned_words
from armorplan.app.shown_plan import ShownPlan
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.problem import Plan, Problem
from armorplan.workshop.shop import Shop

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
        at_hand: ShownPlan | None,
        on_better: Callable[[Plan], None],
        should_stop: Callable[[], bool],
    ) -> Plan:
        """Return the best plan found, telling better ones on the way; one close to ``at_hand``."""
        ...


class _Asked(NamedTuple):
    """The plan that the one asked for keeps to, and the shop whose names tell what moved."""

    at_hand: ShownPlan
    shop: Shop


class PlanDesk(QObject):
    """Asks for a plan when the bench has changed, and shows what comes back.

    Once a search has ended, people go by its plan: from then on plans keep to it, and what they
    move is told with ``replanned``. Asked for from this moment on, a plan keeps to nothing.
    """

    begun = Signal()
    ended = Signal()
    replanned = Signal(str)

    def __init__(self, bridge: Bridge, planner: Planner, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._planner = planner
        self._hint: Plan | None = None
        self._is_free = bridge.session.at_hand() is None
        self._asked_for: _Asked | None = None
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
        self._is_free = True
        self._bridge.session.plan_from_now()
        self.plan()

    def plan(self) -> None:
        """Seek a plan for the build as it stands now; it is checked off the window's thread too."""
        session, hint, planner = self._bridge.session, self._hint, self._planner
        at_hand = None if self._is_free else session.at_hand()
        self._asked, asking = session.problem_mark(), session.asking()
        self._asked_for = None if at_hand is None else _Asked(at_hand, session.shop())

        def work(report: Report, should_stop: ShouldStop) -> object:
            problem = asking()

            def better(plan: Plan) -> None:
                report(CheckedPlan(problem=problem, plan=plan))

            plan = planner(
                problem, hint=hint, at_hand=at_hand, on_better=better, should_stop=should_stop
            )
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
        self._is_free = self._bridge.session.at_hand() is None
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
        if self._take(answer):
            self._is_free = False

    def _take(self, answer: CheckedPlan) -> bool:
        self._waiting = None
        was_taken = self.take(answer)
        if was_taken and self._asked_for is not None:
            at_hand, shop = self._asked_for
            naming = naming_of(shop, answer.problem)
            words = replanned_words(answer.problem, at_hand, answer.plan, naming, shop)
            if words:
                self.replanned.emit(words)
        return was_taken

    def _tell(self, error: Exception) -> None:
        self._bridge.said.emit(
            self.tr("No new plan: {0}. The plan shown still holds.").format(
                str(error).rstrip(".") or type(error).__name__
            )
        )
