"""Which moment a timer stands at: what rings of it, else what comes next; instants in words."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from datetime import datetime, timedelta
from functools import partial
from zoneinfo import ZoneInfo

from armorplan.app.bell_making import AT, CLOSES, SINCE, SURELY, WAS
from armorplan.app.bells import Bell, BellKind
from armorplan.app.ringing import Answers, next_bell, ringing_bell
from armorplan.app.rows import TimerRow

_DAY = timedelta(days=1)


def settled(rows: Iterable[TimerRow], answers: Answers, now_at: datetime) -> tuple[TimerRow, ...]:
    """Return timers with their moments, the soonest first; what is paused comes last."""
    found = (_settled(row, answers, now_at) for row in rows)
    return tuple(sorted(found, key=lambda r: (r.due_at is None, r.due_at or r.as_of, r.id)))


def _settled(row: TimerRow, answers: Answers, now_at: datetime) -> TimerRow:
    rings = ringing_bell(row, answers, now_at)
    following = next_bell(row, answers, now_at)
    passed = [bell for bell in row.bells if bell.at <= now_at]
    face = rings or following or _last_of_its_own(passed)
    if face is None:
        return row
    return replace(
        row,
        kind=face.kind,
        due_at=face.about_at,
        hushed=bool(passed) and rings is None,
        surely_at=row.surely_at if face.kind is BellKind.DUE else None,
        meaning=face.meaning,
        remedy=face.remedy,
        next_bell_at=following.at if following else None,
    )


def _last_of_its_own(passed: list[Bell]) -> Bell | None:
    """Return the last moment that did not only say that another was not answered."""
    own = [bell for bell in passed if not bell.instead_of]
    return own[-1] if own else None


def in_words(row: TimerRow, zone: ZoneInfo, now_at: datetime) -> TimerRow:
    """Return a timer whose sentences tell instants in a zone's local time, as of now."""
    clock = partial(clock_words, zone=zone, now_at=now_at)
    closes = [bell.about_at for bell in row.bells if bell.kind is BellKind.CLOSES]
    shared = {
        CLOSES: clock(closes[0]) if closes else "",
        SURELY: clock(row.surely_at) if row.surely_at else "",
    }
    return replace(row, bells=tuple(_spoken(bell, shared, clock, now_at) for bell in row.bells))


def _spoken(
    bell: Bell, shared: dict[str, str], clock: Callable[[datetime], str], now_at: datetime
) -> Bell:
    at, is_past = clock(bell.about_at), bell.about_at <= now_at
    since = f"since {at}" if is_past else f"from {at} on"
    text = bell.meaning
    for mark, words in {
        **shared,
        AT: at,
        SINCE: since,
        WAS: "was" if is_past else "is",
    }.items():
        text = text.replace(mark, words)
    return replace(bell, meaning=text)


def clock_words(at: datetime, zone: ZoneInfo, now_at: datetime) -> str:
    """Return an instant as a clock in a zone shows it; with the day where that is not today's."""
    local, today = at.astimezone(zone), now_at.astimezone(zone).date()
    if local.date() == today:
        return f"{local:%H:%M}"
    if abs(local.date() - today) < 7 * _DAY:
        return f"{local:%H:%M on %A}"
    return f"{local:%H:%M on %d %B}"
