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


class OddsDesk(QObject):
    """Reckons the promises of one plan at a time.

    ``told`` carries them, first without and then with what costs most; ``busy`` tells whether any
    are reckoned, and ``failed`` why there are none.
    """

    told = Signal(object)
    busy = Signal(bool)
    failed = Signal(str)

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._wanted: _Wanted | None = None
        self._answers: tuple[Plan, str, int] | None = None
        self._runner = Runner(self)
        self._runner.begun.connect(lambda: self.busy.emit(True))
        self._runner.ended.connect(lambda: self.busy.emit(False))
        self._runner.better.connect(self.told)
        self._runner.answered.connect(self.told)
        self._runner.failed.connect(self._tell)
        self._settle = QTimer(self, singleShot=True, interval=SETTLE_MS)
        self._settle.timeout.connect(self._reckon)

    @property
    def is_busy(self) -> bool:
        """Whether odds are being reckoned, or soon will be."""
        return self._runner.is_busy or self._settle.isActive()

    def ask(self, week: WeekPlan, zone: str, asked: Asked) -> None:
        """Have the promises of a plan reckoned; nothing is done where they were asked for just so."""
        key = (week.shown.plan, zone, asked.odds_pct)
        if self._answers == key:
            return
        self._answers, self._wanted = key, _Wanted(week, zone, asked)
        self._settle.start()

    def forget(self) -> None:
        """Another build is shown: what is still reckoned is not wanted any more."""
        self._settle.stop()
        self._runner.drop()
        self._answers = self._wanted = None

    def close(self) -> bool:
        """Wait for what is under way; tell whether it ended in time."""
        self._settle.stop()
        self._answers = self._wanted = None
        return self._runner.close()

    def _reckon(self) -> None:
        if self._wanted is None:
            return
        week, zone, asked = self._wanted
        problem, plan = week.problem, week.shown.plan

        def work(report: Report, should_stop: ShouldStop) -> object:
            soon = promises(problem, plan, zone, asked, why=None)
            report(soon)
            return promises(problem, plan, zone, asked, why=lambda: not should_stop())

        self._runner.ask(work)

    def _tell(self, error: Exception) -> None:
        self._answers = None
        self.failed.emit(str(error) or type(error).__name__)
