"""Key presses about timers set by hand: the entry each one makes, and what is said of it."""

from collections.abc import Callable
from math import isfinite

from armorplan.app.rows import TimerRow
from armorplan.kernel.clock import Clock
from armorplan.kernel.units import about_words
from armorplan.ledger.records import moment_now
from armorplan.ledger.timer_entries import TimerEntry, TimerEntryKind

MOST_MIN = 14 * 24 * 60
"""The longest a timer can be set for: two weeks."""
_LONGEST_TITLE = 200
_MIN_S = 60
_UNFIT = (
    "A timer runs for more than 0 minutes and for two weeks at most; {0:g} minutes do not fit."
)


class FreePresses:
    """Makes entries about free timers; ``None`` where there is nothing to record."""

    def __init__(self, clock: Clock, new_id: Callable[[], str]) -> None:
        self._clock = clock
        self._new_id = new_id

    def set(self, minutes: float, title: str) -> tuple[TimerEntry | None, str]:
        """Set a timer; a blank title is called what it is."""
        if not _fits(minutes):
            return None, _UNFIT.format(minutes)
        # A broken surrogate half can come from a paste and cannot be stored.
        clean = title.encode("utf-8", "replace").decode("utf-8")
        called = " ".join(clean.split())[:_LONGEST_TITLE] or _told(minutes)
        entry = self._entry(TimerEntryKind.SET, f"free|{self._new_id()}", minutes, called)
        return entry, f"Set: {called}, {_told(minutes)}."

    def add(self, row: TimerRow, minutes: float) -> tuple[TimerEntry | None, str]:
        """Let a timer run longer."""
        if not _fits(minutes):
            return None, _UNFIT.format(minutes)
        entry = self._entry(TimerEntryKind.ADDED, row.id, minutes)
        return entry, f"{about_words(minutes)} more: {row.title}."

    def pause_or_go_on(self, row: TimerRow) -> TimerEntry:
        """Pause a timer that runs, let one go on that is paused."""
        kind = TimerEntryKind.PAUSED if row.running_since else TimerEntryKind.RESUMED
        return self._entry(kind, row.id)

    def stop(self, timer_id: str) -> TimerEntry:
        """Stop a timer for good."""
        return self._entry(TimerEntryKind.STOPPED, timer_id)

    def _entry(
        self, kind: TimerEntryKind, timer: str, minutes: float = 0.0, text: str = ""
    ) -> TimerEntry:
        moment = moment_now(self._clock)
        return TimerEntry(timer=timer, kind=kind, moment=moment, minutes=minutes, text=text)


def _told(minutes: float) -> str:
    """Return what somebody set, to the second."""
    whole, rest = divmod(round(_MIN_S * minutes), _MIN_S)
    told = [about_words(whole)] * bool(whole) + [f"{rest} seconds"] * bool(rest)
    return " ".join(told) or about_words(minutes)


def _fits(minutes: float) -> bool:
    return isfinite(minutes) and 0 < minutes <= MOST_MIN
