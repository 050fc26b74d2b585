"""What is said of windows: from when to when, and of a step begun too soon or too late."""

from collections.abc import Iterable
from datetime import datetime
from math import ceil
from zoneinfo import ZoneInfo

from armorplan.app.start_windows import StartWindow
from armorplan.kernel.units import span_words


def too_soon_words(windows: Iterable[StartWindow], now_at: datetime, zone: str) -> str:
    """Say in how long the window of a step opens that is begun now; empty: none is too soon."""
    for window in windows:
        if now_at < window.opens_at:
            minutes = ceil((window.opens_at - now_at).total_seconds() / 60)
            at = _clock_words(window.opens_at, now_at, zone)
            return f" Its window opens only in {span_words(minutes)}, at {at}."
    return ""


def too_late_words(windows: Iterable[StartWindow], now_at: datetime, zone: str) -> str:
    """Say since when the window of a step is closed that is begun now, and what to do."""
    for window in windows:
        if window.by_at is not None and window.is_missed(now_at):
            at = _clock_words(window.by_at, now_at, zone)
            return f" Its window closed at {at}. {window.remedy}".rstrip()
    return ""


def window_words(window: StartWindow, now_at: datetime, zone: str) -> str:
    """Say from when to when a step may begin, or since when that is past and what to do."""
    if window.is_missed(now_at):
        return too_late_words((window,), now_at, zone).strip()
    opens = _clock_words(window.opens_at, now_at, zone)
    if window.by_at is None:
        return f"It may begin from {opens} on."
    return f"It may begin from {opens} to {_clock_words(window.by_at, now_at, zone)}."


def _clock_words(at: datetime, now_at: datetime, zone: str) -> str:
    local, now = (one.astimezone(ZoneInfo(zone)) for one in (at, now_at))
    return f"{local:%H:%M}" if local.date() == now.date() else f"{local:%a %H:%M}"
