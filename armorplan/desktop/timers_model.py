"""Timers from instants: what is left, what rings, and the one tick that repaints them all."""

from collections.abc import Iterable
from datetime import datetime

from PySide6.QtCore import QObject, Qt, QTimer, Signal

from armorplan.app.bells import Bell
from armorplan.app.ringing import clock_jumped, next_bell, ringing, sounding, sounds_again_at
from armorplan.app.rows import TimerRow
from armorplan.desktop.bridge import Bridge

TICK_MS = 1000
LONGEST_MS = 24 * 60 * 60 * 1000
"""A single shot is never set further ahead; the tick sets it anew."""

SLEPT_S = 90.0
"""Ticks further apart than this tell of a suspend."""


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


def next_at(instants: Iterable[datetime], now: datetime) -> datetime | None:
    """Return the first instant still to come."""
    return min((at for at in instants if at > now), default=None)


class Ticker(QObject):
    """One tick a second for every view, and one shot at the next instant something rings.

    ``ticked`` asks views to repaint; ``rang`` carries the bells (a tuple of ``Bell``) whose turn
    to sound it is, at first and again while nobody answers; ``clock_set`` tells that the
    computer's clock was set, with how many seconds it went ahead, ``woke`` that nobody looked for
    a while, for the machine was suspended.
    """

    ticked = Signal()
    rang = Signal(object)
    clock_set = Signal(float)
    woke = Signal()

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._bridge = bridge
        self._rows: tuple[TimerRow, ...] = ()
        self._ringing: tuple[Bell, ...] = ()
        self._looked = bridge.clock.now(), bridge.clock.boot_seconds()
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

    @property
    def ringing(self) -> tuple[Bell, ...]:
        """What rings, unanswered, one bell for each timer, the latest last."""
        return self._ringing

    def refresh(self) -> None:
        """Read the timers again; what rings already does not sound for that."""
        self._read()
        self._show(self._bridge.clock.now())

    def tick(self) -> None:
        """Look at what time changed, repaint, aim at the next moment, and ring."""
        clock = self._bridge.clock
        before, looked = self._looked, (clock.now(), clock.boot_seconds())
        self._looked = looked
        # Not in ``refresh``, which answers a change: what it finds would ask for itself again.
        self._bridge.read_along()
        self._read()
        self._show(looked[0])
        turn = sounding(self._ringing, since_at=min(before[0], looked[0]), now_at=looked[0])
        if turn:
            self.rang.emit(turn)
        gone_s = looked[1] - before[1]
        if clock_jumped(before, looked):
            self.clock_set.emit((looked[0] - before[0]).total_seconds() - gone_s)
        if gone_s > SLEPT_S:
            self.woke.emit()

    def _read(self) -> None:
        self._rows = self._bridge.session.timing.rows

    def _find(self, now: datetime) -> None:
        self._ringing = ringing(self._rows, self._bridge.session.timing.answers, now)

    def _show(self, now: datetime) -> None:
        self._find(now)
        self._aim(now)
        self.ticked.emit()

    def _aim(self, now: datetime) -> None:
        """Set the shot to the next moment of any timer, or to when something sounds again."""
        answers = self._bridge.session.timing.answers
        coming = [next_bell(row, answers, now) for row in self._rows]
        again = [sounds_again_at(bell, now) for bell in self._ringing]
        following = next_at([*(bell.at for bell in coming if bell), *again], now)
        if following is None:
            self._shot.stop()
            return
        wait_ms = int((following - now).total_seconds() * 1000) + 1
        self._shot.start(min(wait_ms, LONGEST_MS))
