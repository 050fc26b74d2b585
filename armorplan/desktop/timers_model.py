"""Timers from instants: what is left, what is due, and the one tick that repaints them all."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from armorplan.app.rows import TimerRow
from armorplan.desktop.bridge import Bridge

TICK_MS = 1000
LONGEST_MS = 24 * 60 * 60 * 1000
"""A single shot is never set further ahead; the tick sets it anew."""


def left_s(row: TimerRow, now: datetime) -> float:
    """Return the seconds left at an instant; below zero once it is past due.

    A running timer is told by the instant it is due, so a suspend or a late tick changes nothing.
    """
    if row.due_at is not None:
        return (row.due_at - now).total_seconds()
    return row.planned_min * 60 - row.elapsed_s


def is_due(row: TimerRow, now: datetime) -> bool:
    """Tell whether a running timer's time is up."""
    return row.due_at is not None and row.due_at <= now


def next_due_at(rows: Iterable[TimerRow], now: datetime) -> datetime | None:
    """Return the next instant at which a running timer is due."""
    return min((r.due_at for r in rows if r.due_at and r.due_at > now), default=None)


def _run(row: TimerRow) -> tuple[str, datetime | None]:
    """Return what tells one run of a timer from another.

    Not the instant it is due: that is reckoned anew from two clocks with each reading and comes
    out some microseconds apart.
    """
    return row.step, row.running_since


@dataclass(frozen=True, slots=True)
class Due:
    """A timer whose time is up."""

    step: str
    title: str


class Ticker(QObject):
    """One tick a second for every view, and one shot at the next instant something is due.

    ``ticked`` asks views to repaint; ``due`` carries a ``Due`` once for each run of a timer.
    """

    ticked = Signal()
    due = Signal(object)

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._rows: tuple[TimerRow, ...] = ()
        self._told: frozenset[tuple[str, datetime | None]] = frozenset()
        self._beat = QTimer(self, interval=TICK_MS, timerType=Qt.TimerType.CoarseTimer)
        self._beat.timeout.connect(self.tick)
        self._shot = QTimer(self, singleShot=True, timerType=Qt.TimerType.PreciseTimer)
        self._shot.timeout.connect(self.tick)
        bridge.changed.connect(self.refresh)
        self._beat.start()
        self.refresh()

    @property
    def rows(self) -> tuple[TimerRow, ...]:
        """The timers as last read, soonest due first."""
        return self._rows

    def refresh(self) -> None:
        """Read the timers again; those already due are not told a second time."""
        self._rows = self._bridge.session.timers()
        self._show()

    def tick(self) -> None:
        """Repaint, tell what has become due, aim at the next, and look at what time changed."""
        self._show()
        # Not in ``refresh``, which answers a change: what it finds would ask for itself again.
        self._bridge.read_along()

    def _show(self) -> None:
        now = self._bridge.clock.now()
        due = [row for row in self._rows if is_due(row, now)]
        fresh = [row for row in due if _run(row) not in self._told]
        self._told = self._told.intersection(map(_run, self._rows)).union(map(_run, due))
        self._aim(now)
        self.ticked.emit()
        for row in fresh:
            self.due.emit(Due(row.step, row.title))

    def _aim(self, now: datetime) -> None:
        following = next_due_at(self._rows, now)
        if following is None:
            self._shot.stop()
            return
        wait_ms = int((following - now).total_seconds() * 1000) + 1
        self._shot.start(min(wait_ms, LONGEST_MS))
