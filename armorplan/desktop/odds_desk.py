"""Reckons what the plan promises off the window's thread, once plans have stopped coming."""

from typing import NamedTuple

from PySide6.QtCore import QObject, QTimer, Signal

from armorplan.app.in_hand import WeekPlan
from armorplan.app.promises import Asked, promises
from armorplan.desktop.jobs import Report, Runner, ShouldStop
from armorplan.schedule.problem import Plan

SETTLE_MS = 600
"""Better plans come every few hundred ms while one is sought; the odds of the last one are told."""


class _Wanted(NamedTuple):
    week: WeekPlan
    zone: str
    asked: Asked

    def is_like(self, other: "_Wanted") -> bool:
        """Tell whether the same plan is meant, and the same is asked of it."""
        same_plan = self.week.shown.plan is other.week.shown.plan
        return same_plan and (self.zone, self.asked) == (other.zone, other.asked)


class OddsDesk(QObject):
    """Reckons the promises of one plan at a time; of plans that come meanwhile the last.

    ``told`` carries them, first without and then, where asked for, with what costs most; ``busy`` tells whether any
    are reckoned, and ``failed`` why there are none.
    """

    told = Signal(object)
    busy = Signal(bool)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None, *, with_causes: bool = True) -> None:
        super().__init__(parent)
        self._with_causes = with_causes
        self._wanted: _Wanted | None = None
        self._reckoned: _Wanted | None = None
        self._runner = Runner(self)
        self._runner.begun.connect(self._tell_busy)
        self._runner.ended.connect(self._go_on)
        self._runner.better.connect(self.told)
        self._runner.answered.connect(self.told)
        self._runner.failed.connect(self._tell)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._settle.timeout.connect(self._reckon)

    @property
    def is_busy(self) -> bool:
        """Whether odds are being reckoned, or soon will be."""
        return self._runner.is_busy or self._settle.isActive()

    @property
    def plan(self) -> Plan | None:
        """The plan that is being reckoned, or was last: what is told is told of it."""
        return self._reckoned.week.shown.plan if self._reckoned is not None else None

    def ask(self, week: WeekPlan, zone: str, asked: Asked) -> None:
        """Have the promises of a plan reckoned; nothing is done where they were asked for just so."""
        wanted = _Wanted(week, zone, asked)
        if self._wanted is not None and self._wanted.is_like(wanted):
            return
        self._wanted = wanted
        if self._runner.is_busy:
            # It tells the odds of the former plan first: while better ones come there are some.
            self._runner.stop()
        elif not self._settle.isActive():
            self._settle.start()

    def forget(self) -> None:
        """Another build is shown: what is still reckoned is not wanted any more."""
        self._wanted = self._reckoned = None
        self._settle.stop()
        self._runner.drop()

    def close(self) -> bool:
        """Wait for what is under way; tell whether it ended in time."""
        self._wanted = self._reckoned = None
        self._settle.stop()
        return self._runner.close()

    def _go_on(self) -> None:
        if self._wanted is not self._reckoned:
            self._settle.start()
        self._tell_busy()

    def _tell_busy(self) -> None:
        self.busy.emit(self.is_busy)

    def _reckon(self) -> None:
        if self._wanted is None:
            return
        self._reckoned = self._wanted
        week, zone, asked = self._wanted
        problem, plan, with_causes = week.problem, week.shown.plan, self._with_causes

        def work(report: Report, should_stop: ShouldStop) -> object:
            soon = promises(problem, plan, zone, asked, why=None)
            if not with_causes:
                return soon
            report(soon)
            told = promises(problem, plan, zone, asked, why=lambda: not should_stop())
            return soon if should_stop() else told

        self._runner.ask(work)

    def _tell(self, error: Exception) -> None:
        self.failed.emit(str(error) or type(error).__name__)
