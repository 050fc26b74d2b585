"""What a timer's card says: how it stands, what is left, clock time, band, and its spoken name."""

from datetime import datetime, tzinfo
from enum import Enum, auto

from PySide6.QtCore import QCoreApplication

from armorplan.app.bells import BellKind
from armorplan.app.rows import BenchState, TimerRow
from armorplan.desktop.bell_glyphs import ahead_text, bell_word, passed_text
from armorplan.desktop.glyphs import state_word
from armorplan.desktop.timers_model import left_s
from armorplan.desktop.wording import clock_text, countdown_text, minutes_text, of_build

A_MINUTE_S = 60
AN_HOUR_S = 3600
A_DAY_S = 24 * AN_HOUR_S


class Standing(Enum):
    """How a timer stands."""

    RUNS = auto()
    PAUSED = auto()
    RINGS = auto()
    ANSWERED = auto()
    """Its moment passed, and somebody heard it."""
    NEVER = auto()
    """It dries in an air in which it never will be dry."""


def standing_of(row: TimerRow, now: datetime, *, rings: bool) -> Standing:
    """Return how a timer stands, given whether it rings."""
    if rings:
        return Standing.RINGS
    if row.due_at is None:
        return Standing.PAUSED if row.running_since is None else Standing.NEVER
    return Standing.ANSWERED if row.due_at <= now else Standing.RUNS


def shown_title(row: TimerRow) -> str:
    """Return the title, with the name of a build that is not open before it."""
    return of_build(row.build_title, row.title)


def line_title(row: TimerRow, *, rings: bool) -> str:
    """Return the title for a card of one line: of one that rings with what it rings for."""
    return f"{bell_word(row.kind)}: {shown_title(row)}" if rings else shown_title(row)


def left_text(row: TimerRow, now: datetime) -> str:
    """Say what is left to the second, or since when its moment passed."""
    if row.due_at is None and row.running_since is not None:
        return _say("not dry")
    left = left_s(row, now)
    if row.due_at is None or left > 0:
        return countdown_text(left) if left < A_DAY_S else _days_text(left)
    minutes = int(-left // A_MINUTE_S)
    return _say("for {0}").format(minutes_text(minutes)) if minutes else _say("now")


def small_texts(
    row: TimerRow, now: datetime, zone: tzinfo, *, rings: bool = False
) -> tuple[str, str]:
    """Say when its moment comes and the band; of one that rings what it rings for, and since when.

    Of a window that opens, when it closes counts most: it stands below, or instead of since when.
    """
    if row.due_at is None:
        return (_say("paused") if row.running_since is None else _say("in this air")), ""
    clock = clock_text(row.due_at, now, zone)
    when = passed_text(row.kind, clock) if row.due_at <= now else ahead_text(row.kind, clock)
    closes = _closes_text(row, now, zone)
    if rings:
        return bell_word(row.kind), closes or when
    if closes:
        return when, closes
    if row.due_at > now and row.surely_at is not None and row.surely_at > row.due_at:
        return when, _say("surely by {0}").format(clock_text(row.surely_at, now, zone))
    return when, ""


def remedy_text(row: TimerRow, now: datetime, zone: tzinfo) -> str:
    """Say of what was missed since when, and what to do; empty where nothing was, or helps."""
    if row.kind is not BellKind.LATE or not row.remedy or row.due_at is None or row.due_at > now:
        return ""
    since = passed_text(row.kind, clock_text(row.due_at, now, zone))
    return f"{since[:1].upper()}{since[1:]}. {row.remedy}"


def _closes_text(row: TimerRow, now: datetime, zone: tzinfo) -> str:
    """Say when a window that opens will close."""
    if row.kind is not BellKind.OPENS:
        return ""
    closes = (bell.about_at for bell in row.bells if bell.kind is BellKind.CLOSES)
    at = next(closes, None)
    return "" if at is None else ahead_text(BellKind.CLOSES, clock_text(at, now, zone))


def heard_name(row: TimerRow, now: datetime, zone: tzinfo, *, rings: bool) -> str:
    """Return the name a screen reader hears: it changes with the state, not each second."""
    standing = standing_of(row, now, rings=rings)
    word = {
        Standing.RUNS: state_word(BenchState.DRYING if row.drying else BenchState.RUNNING),
        Standing.PAUSED: state_word(BenchState.PAUSED),
        Standing.RINGS: bell_word(row.kind),
        Standing.ANSWERED: _say("heard"),
        Standing.NEVER: state_word(BenchState.DRYING),
    }[standing]
    when, band = small_texts(row, now, zone)
    left = left_text(row, now) if standing is Standing.NEVER else ""
    return ", ".join(dict.fromkeys(filter(None, (shown_title(row), word, left, when, band))))


def _days_text(seconds: float) -> str:
    """Say what is left of more than a day: nobody waits for its seconds."""
    days, rest = divmod(seconds, A_DAY_S)
    return _say("{0} d {1} h").format(int(days), int(rest // AN_HOUR_S))


def _say(text: str) -> str:
    return QCoreApplication.translate("timer_face", text)
