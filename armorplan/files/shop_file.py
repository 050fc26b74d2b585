"""Reads a shop file: the text form of a workshop: people, hours, zone, climate and trays."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import time
from pathlib import Path
from zoneinfo import ZoneInfo, available_timezones

from armorplan.files.air_rows import read_room
from armorplan.files.clock_times import clock
from armorplan.files.faults import Faults, brief
from armorplan.files.file_bytes import read_file
from armorplan.files.limits import LENGTH
from armorplan.files.tables import Table, open_toml
from armorplan.files.values import number, text
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, has_errors
from armorplan.workshop.hours import Opening
from armorplan.workshop.shop import USUAL_TRAY, Person, Shop, Tray

MAX_SHOP_BYTES = 1_000_000
_DAYS = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopFile:
    """A shop, and what its file leaves to be asked or known: warnings and notes."""

    shop: Shop
    findings: tuple[Finding, ...]


def read_shop_file(path: Path) -> ShopFile:
    """Read a shop file, and the logger's file that it names.

    Raises:
        UnreadableError: with every fault, each with its line.
    """
    data = read_file(path.parent, path.name, most=MAX_SHOP_BYTES)
    faults = Faults()
    top = open_toml(path.name, data.decode("utf-8"), faults, strict=True)
    if top is None:
        raise UnreadableError(faults.findings)
    zone = _zone(top)
    room = read_room(top, path.parent, zone=zone or "UTC")
    shop = Shop(zone=zone, people=_people(top), room=room, trays=_trays(top))
    top.finish()
    if has_errors(faults.findings):
        raise UnreadableError(faults.findings)
    return ShopFile(shop=shop, findings=faults.findings)


def _zone(top: Table) -> str:
    name = text(top, "zone")
    if not name:
        return ""
    try:
        ZoneInfo(name)
    except (ValueError, OSError, KeyError):
        # KeyError: not found; ValueError: not a name; OSError: a folder of zones, like "Europe".
        near = top.faults.nearest(name, available_timezones())
        top.fault(
            "zone",
            "unknown-zone",
            f'There is no time zone "{brief(name)}".',
            mend=f'Perhaps "{near}" is meant.' if near else "Write it like Europe/Lisbon.",
        )
        return ""
    return name


def _trays(top: Table) -> tuple[Tray, ...]:
    """Return the trays to dip in, by their inner sides in mm; the usual one where none is told."""
    trays: list[Tray] = []
    for key, row in top.table("trays").rows():
        trays.append(
            Tray(
                id=key,
                name=text(row, "name"),
                length_mm=number(row, "length_mm", LENGTH),
                width_mm=number(row, "width_mm", LENGTH),
                depth_mm=number(row, "depth_mm", LENGTH),
            )
        )
        row.finish()
    return tuple(trays) or (USUAL_TRAY,)


def _people(top: Table) -> tuple[Person, ...]:
    people: list[Person] = []
    for key, row in top.table("people").rows():
        people.append(Person(id=key, name=text(row, "name"), hours=_hours(row)))
        row.finish()
    if not people:
        top.missing("people", wanted="a table [people.ID] for each person")
    return tuple(people)


def _hours(row: Table) -> tuple[Opening, ...]:
    entries = row.list_rows("hours")
    if not row.has("hours"):
        row.missing("hours", wanted='[{day = "mon", from = "09:00", to = "12:30"}]')
    hours = [(opening, entry) for entry in entries if (opening := _opening(entry))]
    _check_overlaps(hours)
    return tuple(sorted((opening for opening, _ in hours), key=_when))


def _opening(entry: Table) -> Opening | None:
    day = text(entry, "day").lower()
    start, end = clock(entry, "from"), clock(entry, "to")
    entry.finish()
    if day and day not in _DAYS:
        entry.wrong("day", day, wanted=f"one of {', '.join(_DAYS)}")
    if start and end and start >= end:
        entry.fault(
            "to",
            "ends-before-start",
            f"The hours run from {start:%H:%M} to {end:%H:%M}.",
            mend="Let them end after they start; divide hours over midnight into two days.",
        )
        return None
    if day in _DAYS and start and end:
        return Opening(weekday=_DAYS.index(day), start=start, end=end)
    return None


def _when(opening: Opening) -> tuple[int, time, time]:
    return opening.weekday, opening.start, opening.end


def _check_overlaps(hours: Sequence[tuple[Opening, Table]]) -> None:
    """Tell hours of one person that run into each other."""
    latest: Opening | None = None
    for opening, entry in sorted(hours, key=lambda pair: _when(pair[0])):
        if latest and latest.weekday == opening.weekday and opening.start < latest.end:
            entry.fault(
                None,
                "hours-overlap",
                f"On {_DAYS[opening.weekday]} the hours from {opening.start:%H:%M} begin before "
                f"those until {latest.end:%H:%M} end.",
                mend="Join the two into one.",
            )
        if latest is None or _when(opening)[0] > latest.weekday or opening.end > latest.end:
            latest = opening
