"""The plan of some builds as a calendar file (RFC 5545): one event a step, alarms for windows.

An event keeps its UID in every plan, and SEQUENCE grows with the minute in which a file is made: a
calendar that imports a second file moves its events instead of adding others. What the file
written before held and the plan holds no more is told as cancelled.
"""

from collections.abc import Iterable, Iterator
from datetime import UTC, datetime, timedelta
from typing import TYPE_CHECKING
from uuid import UUID, uuid5
from zoneinfo import ZoneInfo

from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.week_table import PlanLine, WeekTable

if TYPE_CHECKING:
    from icalendar import Alarm, Component, Event

PRODUCT = "-//Armorplan//Bench week//EN"
_NAMES = UUID("7c1f0f0e-5c3b-4a35-9b0a-6f1a8f3f4f52")
_AHEAD = timedelta(minutes=10)
_LAST_CALL = timedelta(minutes=5)
_SHORTEST = timedelta(minutes=1)
_OURS = "@armorplan"
_KINDS = ("VEVENT", "VTODO", "VJOURNAL")
_COSTUME = "Armour made with Armorplan is costume, not protective equipment."


def uid_of(line: PlanLine) -> str:
    """Return the UID of a line: it follows from the activity and what names its build.

    RFC 5545, 3.8.4.7: unique in the world, so the shop or the workshop is in it.
    """
    return f"{uuid5(_NAMES, line.known_as or line.id)}{_OURS}"


def check_former(before: bytes) -> None:
    """Look at what a calendar file held before it is written over.

    Raises:
        ArmorplanError: it is no calendar, or something of others is in it.
    """
    _former_events(before)


def week_ics(table: WeekTable, *, now_at: datetime, before: bytes = b"") -> bytes:
    """Return the calendar file.

    Args:
        table: the plan.
        now_at: when the file is made: DTSTAMP and SEQUENCE follow from it.
        before: the file as it was written last; what it holds and the plan does not is cancelled.

    Raises:
        ArmorplanError: the file of before is no calendar, or something of others is in it.
    """
    from icalendar import Calendar

    calendar = Calendar()
    calendar.add("prodid", PRODUCT)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("method", "PUBLISH")
    calendar.add("x-wr-calname", table.title)
    calendar.add("x-wr-timezone", table.zone)
    for line in table.lines:
        calendar.add_component(_event(line, now_at, ZoneInfo(table.zone)))
    planned = {uid_of(line) for line in table.lines}
    for event in _former_events(before):
        if str(event["uid"]) in planned:
            continue
        calendar.add_component(_cancelled(event, now_at))
    written: bytes = calendar.to_ical()
    return written


def _sequence(now_at: datetime) -> int:
    """Return a number that grows by the minute and fits 32 bits for the next 4,000 years."""
    return int(now_at.timestamp() // 60)


def _event(line: PlanLine, now_at: datetime, zone: ZoneInfo) -> "Event":
    from icalendar import Event

    event = Event()
    event.add("uid", uid_of(line))
    event.add("sequence", _sequence(now_at))
    event.add("dtstamp", now_at.astimezone(UTC))
    event.add("dtstart", line.start_at.astimezone(UTC))
    # RFC 5545, 3.6.1: an event ends later than it starts.
    event.add("dtend", max(line.end_at, line.start_at + _SHORTEST).astimezone(UTC))
    event.add("summary", f"{line.title} ({line.build_title})")
    event.add("description", _description(line, zone))
    event.add("categories", [line.build_title])
    event.add("status", "CONFIRMED")
    # What dries by itself leaves its maker free.
    event.add("transp", "OPAQUE" if line.who else "TRANSPARENT")
    if line.bath:
        event.add("location", line.bath)
    for at, words in _alarms(line, zone):
        event.add_component(_alarm(at, words))
    return event


def _description(line: PlanLine, zone: ZoneInfo) -> str:
    who = line.hands or "Time alone does this."
    bits = [who, line.note, _by_words(line, zone), _COSTUME if line.who else ""]
    return "\n".join(bit for bit in bits if bit)


def _by_words(line: PlanLine, zone: ZoneInfo) -> str:
    if line.begin_by_at is None:
        return ""
    local = line.begin_by_at.astimezone(zone)
    by = f"Begin by {local:%H:%M} on {local:%A}, {local.day} {local:%B}, at the latest."
    return f"{by} {line.why}".strip()


def _alarms(line: PlanLine, zone: ZoneInfo) -> Iterator[tuple[datetime, str]]:
    """Yield when and how to be reminded of what has to be begun within a window."""
    if line.begin_by_at is None or not line.who:
        return
    yield line.start_at - _AHEAD, f"In 10 minutes: {line.title}. {_by_words(line, zone)}"
    if line.begin_by_at - _LAST_CALL > line.start_at:
        yield (
            line.begin_by_at - _LAST_CALL,
            f"Last call, 5 minutes are left to begin: {line.title}. {line.why}".strip(),
        )


def _alarm(at: datetime, words: str) -> "Alarm":
    from icalendar import Alarm

    alarm = Alarm()
    alarm.add("action", "DISPLAY")
    alarm.add("description", words)
    alarm.add("trigger", at.astimezone(UTC), parameters={"VALUE": "DATE-TIME"})
    return alarm


def _former_events(before: bytes) -> Iterable["Component"]:
    """Return the events of a former file; all are ours."""
    if not before.strip():
        return ()
    from icalendar import Calendar

    try:
        calendar = Calendar.from_ical(before)
        found = [part for part in calendar.walk() if part.name in _KINDS]
    except (ValueError, KeyError, AttributeError, IndexError) as error:
        message = (
            f"The file that is there already is no calendar, and was left as it is ({error})."
        )
        raise ArmorplanError(message) from error
    for part in found:
        if not str(part.get("uid", "")).endswith(_OURS):
            called = str(part.get("summary", "")) or str(part.get("uid", "")) or "no title"
            message = (
                f"The calendar that is there already holds what is not of a plan (“{called}”), and "
                "was left as it is. Choose another file, and import that one into your calendar."
            )
            raise ArmorplanError(message)
    return found


def _cancelled(event: "Component", now_at: datetime) -> "Event":
    from icalendar import Event

    gone = Event()
    for name in ("uid", "dtstart", "dtend", "summary"):
        if name in event:
            gone[name] = event[name]
    gone.add("sequence", _sequence(now_at))
    gone.add("dtstamp", now_at.astimezone(UTC))
    gone.add("status", "CANCELLED")
    return gone
