"""What if the shop were otherwise, written in one short line: ``rack:+1``, ``away:anna:2026-12-02``."""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, time, timedelta
from math import floor
from zoneinfo import ZoneInfo

from armorplan.app.plan_naming import naming_of
from armorplan.app.what_if_notation import NOTATION
from armorplan.kernel.errors import ArmorplanError
from armorplan.schedule.activity import Window
from armorplan.schedule.hanging import LINE, rack_rooms
from armorplan.schedule.problem import Problem
from armorplan.schedule.what_if import (
    AnotherBath,
    AnotherPair,
    Away,
    ExtraHours,
    MorePlaces,
    WhatIf,
    changed,
)
from armorplan.workshop.shop import Shop

_MOST_MORE = 9
_MORE = re.compile(r"(?P<name>.+):\+(?P<count>\d+)$")
_HOURS = re.compile(r"(?P<what>extra|away):(?P<who>[^:]+):(?P<when>.+)$")
_WHEN = re.compile(
    r"(?P<day>\d{4}-\d\d-\d\d)"
    r"(?:T(?P<start>\d\d:\d\d)(?:-(?P<end>\d\d:\d\d)|\.\.(?P<till>\d{4}-\d\d-\d\dT\d\d:\d\d))"
    r"|\.\.(?P<last>\d{4}-\d\d-\d\d))?$"
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """A change that is asked about: as it was written, in words, and what it changes."""

    text: str
    title: str
    whats: tuple[WhatIf, ...]

    def of(self, problem: Problem) -> Problem:
        """Return the problem as it would be."""
        return changed(problem, *self.whats)


def asked_of(text: str, problem: Problem, shop: Shop) -> Asked:
    """Return what is asked in the notation; several changes at once are joined by commas.

    Raises:
        ArmorplanError: it is not written so, or there is no such thing in this shop.
    """
    parts = [part.strip() for part in text.split(",") if part.strip()]
    found = [_part(part, problem, shop) for part in parts]
    if not found:
        message = f"'{text}' asks nothing. Write {NOTATION}."
        raise ArmorplanError(message)
    return Asked(
        text=",".join(parts),
        title=" and ".join(title for title, _ in found),
        whats=tuple(what for _, whats in found for what in whats),
    )


def _part(text: str, problem: Problem, shop: Shop) -> tuple[str, tuple[WhatIf, ...]]:
    more = _MORE.match(text)
    if more:
        count = int(more["count"])
        if not 1 <= count <= _MOST_MORE:
            message = f"'{text}' asks for {count} more. Ask for 1 to {_MOST_MORE}."
            raise ArmorplanError(message)
        return _more(more["name"], count, problem, shop)
    hours = _HOURS.match(text)
    if hours:
        who = _person(hours["who"], text, problem, shop)
        window = _window(hours["when"], text, problem, shop)
        return _hours(hours["what"], who, window, problem, shop)
    message = f"'{text}' is not read. Write {NOTATION}."
    raise ArmorplanError(message)


def _more(name: str, count: int, problem: Problem, shop: Shop) -> tuple[str, tuple[WhatIf, ...]]:
    for thing_id, called, whats in _things(problem, shop):
        if name.casefold() in (thing_id.casefold(), called.casefold()):
            number = "one more" if count == 1 else f"{count} more"
            return f"{number} like {called}", whats * count
    there = ", ".join(thing_id for thing_id, _, _ in _things(problem, shop)) or "nothing"
    message = f"'{name}' is not in this shop, or in no plan. There is: {there}."
    raise ArmorplanError(message)


def _things(problem: Problem, shop: Shop) -> Iterator[tuple[str, str, tuple[WhatIf, ...]]]:
    """Yield what there can be one more of: its id, its name, and what one more changes."""
    rooms = {room.what: room.id for room in rack_rooms(shop)}
    held = {r.id for r in problem.resources}
    for rack in shop.racks:
        sizes = ((LINE, rack.line_mm), ("shelf", rack.shelf_dm2))
        yield (
            rack.id,
            rack.name,
            tuple(
                MorePlaces(resource=rooms[what], amount=floor(size))
                for what, size in sizes
                if size and rooms.get(what) in held
            ),
        )
    for bath in shop.baths:
        if any(b.id == bath.id for b in problem.baths):
            yield bath.id, bath.name, (AnotherBath(bath=bath.id),)
    for station in shop.stations:
        if station.id in held:
            yield station.id, station.name, (MorePlaces(resource=station.id, amount=1),)
    for person in shop.people:
        yield person.id, person.name, (AnotherPair(who=person.id),)


def _hours(
    what: str, who: str, window: Window, problem: Problem, shop: Shop
) -> tuple[str, tuple[WhatIf, ...]]:
    naming = naming_of(shop)
    when = naming.span(problem, window)
    if what == "away":
        return f"{naming.of(who)} away {when}", (Away(who=who, window=window),)
    return f"{naming.of(who)} also there {when}", (ExtraHours(who=who, window=window),)


def _person(name: str, text: str, problem: Problem, shop: Shop) -> str:
    known = {w.id for w in problem.workers}
    everyone = {p.id: p.name for p in shop.people} | {w.id: w.name for w in shop.wearers}
    people = {who: called for who, called in everyone.items() if who in known}
    for who, called in people.items():
        if name.casefold() in (who.casefold(), called.casefold()):
            return who
    there = ", ".join(people)
    message = f"'{text}': nobody here is called '{name}'. There is: {there}."
    raise ArmorplanError(message)


def _window(when: str, text: str, problem: Problem, shop: Shop) -> Window:
    """Return a stretch of local time in minutes from the origin, as far as it is planned."""
    found = _WHEN.match(when)
    try:
        start_at, end_at = _instants(found, ZoneInfo(shop.zone)) if found else (None, None)
    except ValueError as error:
        message = f"'{text}': {error}."
        raise ArmorplanError(message) from error
    if start_at is None or end_at is None:
        message = f"'{text}': '{when}' is no stretch of time. Write {NOTATION}."
        raise ArmorplanError(message)
    if end_at <= start_at:
        message = f"'{text}' ends before it begins."
        raise ArmorplanError(message)
    start, end = (int((at - problem.origin_at).total_seconds() // 60) for at in (start_at, end_at))
    if end <= 0 or start >= problem.horizon_min:
        message = f"'{text}' lies outside the days that are planned."
        raise ArmorplanError(message)
    return max(0, start), min(end, problem.horizon_min)


def _instants(found: re.Match[str], zone: ZoneInfo) -> tuple[datetime, datetime]:
    day = datetime.fromisoformat(found["day"])
    if found["till"]:
        since = datetime.combine(day, time.fromisoformat(found["start"]))
        return _local(since, zone), _local(datetime.fromisoformat(found["till"]), zone)
    if found["start"]:
        start, end = (time.fromisoformat(found[key]) for key in ("start", "end"))
        end_day = day if end > start else day + timedelta(days=1)
        return _local(datetime.combine(day, start), zone), _local(
            datetime.combine(end_day, end), zone
        )
    last = datetime.fromisoformat(found["last"]) if found["last"] else day
    return _local(day, zone), _local(last + timedelta(days=1), zone)


def _local(wall: datetime, zone: ZoneInfo) -> datetime:
    """Return the instant of a clock time; a time that the clock leaves out is no time.

    Raises:
        ValueError: the clock is put forward over it.
    """
    at = wall.replace(tzinfo=zone).astimezone(UTC)
    if at.astimezone(zone).replace(tzinfo=None) != wall:
        message = f"the clock is put forward over {wall:%Y-%m-%d %H:%M}, there is no such time"
        raise ValueError(message)
    return at


EVENING = (time(18), time(21))


def usual_asks(problem: Problem, shop: Shop) -> tuple[str, ...]:
    """Return what is worth asking of this shop: one more of each place, an evening, a day ill."""
    asks = [f"{thing_id}:+1" for thing_id, _, whats in _things(problem, shop) if whats]
    zone = ZoneInfo(shop.zone)
    today = problem.origin_at.astimezone(zone)
    for person in shop.people:
        day = _next_day_at_work(person.id, problem, today)
        if day:
            start, end = EVENING
            asks.append(f"extra:{person.id}:{day}T{start:%H:%M}-{end:%H:%M}")
            asks.append(f"away:{person.id}:{day}")
    return tuple(asks)


def _next_day_at_work(who: str, problem: Problem, today: datetime) -> str:
    windows = next((w.windows for w in problem.workers if w.id == who), ())
    for start, _ in windows:
        at = (problem.origin_at + timedelta(minutes=start)).astimezone(today.tzinfo)
        if at.date() > today.date():
            return f"{at:%Y-%m-%d}"
    return ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Subject:
    """What a form offers to ask about.

    ``text`` is how it is written; where hours are to be told too, they follow after a colon.
    """

    text: str
    title: str
    needs_hours: bool = False


def subjects(problem: Problem, shop: Shop) -> tuple[Subject, ...]:
    """Return everything that can be asked about in this shop."""
    found = [
        Subject(text=f"{thing_id}:+1", title=f"One more like {called}")
        for thing_id, called, whats in _things(problem, shop)
        if whats
    ]
    for person in shop.people:
        found += [
            Subject(
                text=f"extra:{person.id}",
                title=f"{person.name} also there",
                needs_hours=True,
            ),
            Subject(text=f"away:{person.id}", title=f"{person.name} away", needs_hours=True),
        ]
    return tuple(found)
