"""Reads the air of a shop file: what is usual, its nights or each hour, a logger's file, the room."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

from armorplan.files.climate_csv import MAX_LOG_BYTES, air_log
from armorplan.files.clock_times import clock
from armorplan.files.file_bytes import read_bytes
from armorplan.files.limits import AIR_C, AIR_SPEED, HUMIDITY, ROOM_M3
from armorplan.files.tables import Table
from armorplan.files.values import Bounds, maybe_number, maybe_text, number
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.air import (
    DAY_FROM_H,
    HOURS_A_DAY,
    NIGHT_FROM_H,
    AirReading,
    Climate,
    Room,
    by_night,
)
from armorplan.workshop.fahrenheit import fahrenheit_in_c
from armorplan.workshop.humidity import share_in_pct, share_question

_LEAST_VALUES, _MOST_VALUES = 2, 3
_FAR = Bounds(least=-1000, most=1000)
"""Numbers outside are no temperature in any unit."""


def read_room(top: Table, folder: Path, *, zone: str) -> Room:
    """Read ``[climate]`` and ``[room]``; a logger's file is named from the shop file's folder."""
    row = top.table("climate")
    usual = _climate(row, Climate())
    nights = _nights(row, usual)
    hours = _hours(row, usual)
    if row.has("night") and row.has("by_hour"):
        row.fault(
            "by_hour",
            "two-climates",
            f"{row.name_of('by_hour')} stands beside [{row.name_of('night')}].",
            mend="Keep one of the two.",
        )
    readings = _readings(row, folder, zone=zone, air_m_s=usual.air_m_s)
    row.finish()
    room = top.table("room")
    volume_m3 = maybe_number(room, "volume_m3", ROOM_M3)
    room.finish()
    return Room(
        usual=usual,
        by_hour=hours or nights,
        readings=readings,
        zone=zone,
        volume_m3=volume_m3,
    )


def _climate(row: Table, usual: Climate) -> Climate:
    return Climate(
        temperature_c=_temperature_c(row, usual.temperature_c),
        humidity_pct=_humidity_pct(row, usual.humidity_pct),
        air_m_s=number(row, "air_m_s", AIR_SPEED, default=usual.air_m_s),
    )


def _temperature_c(row: Table, usual_c: float) -> float:
    """Return a temperature in °C; one that is likelier meant in °F is asked about or refused."""
    key = "temperature_c"
    value = row.raw(key)
    if isinstance(value, bool) or not isinstance(value, int | float) or not _FAR.hold(value):
        return number(row, key, AIR_C, default=usual_c)
    meant_c = fahrenheit_in_c(value)
    if not AIR_C.hold(value):
        hint = "" if meant_c is None else f"; {value:g} °F is {meant_c:.0f} °C"
        row.wrong(key, value, wanted=f"a number {AIR_C}{hint}")
        return usual_c
    if meant_c is not None:
        row.faults.warning(
            "fahrenheit-perhaps",
            f"{row.name_of(key)} is {value:g} °C. Is that Fahrenheit?",
            mend=f"If so, write {meant_c:.0f}: {value:g} °F is {meant_c:.0f} °C.",
            place=row.place(key),
        )
    return float(value)


def _humidity_pct(row: Table, usual_pct: float) -> float:
    """Return a humidity in per cent; one that is likelier meant as a share is refused."""
    key = "humidity_pct"
    value = number(row, key, HUMIDITY, default=usual_pct)
    question = share_question(value)
    if question:
        row.fault(
            key,
            "share-perhaps",
            f"{row.name_of(key)}: {question}",
            mend=f"If so, write {share_in_pct(value):g}.",
        )
    return value


def _nights(row: Table, day: Climate) -> tuple[Climate, ...]:
    """Return the air of each hour where nights have their own; none where they have not."""
    night = row.table("night")
    if not isinstance(row.raw("night"), dict):
        return ()
    for key, wanted in (("temperature_c", "12"), ("humidity_pct", "70")):
        if not night.has(key):
            night.missing(key, wanted=wanted)
    air = _climate(night, day)
    begins, ends = _full_hour(night, "from", NIGHT_FROM_H), _full_hour(night, "to", DAY_FROM_H)
    night.finish()
    if begins == ends:
        night.fault(
            "to",
            "no-night",
            f"[{row.name_of('night')}] runs from {begins:02}:00 to {ends:02}:00.",
            mend="Let it end at another hour than it begins.",
        )
    return by_night(day, air, begins=begins, ends=ends)


def _full_hour(row: Table, key: str, usual: int) -> int:
    if not row.has(key):
        return usual
    found = clock(row, key)
    if found is None:
        return usual
    if found.minute or found.second:
        row.wrong(key, f"{found:%H:%M}", wanted='a full hour, such as "20:00"')
    return found.hour


def _hours(row: Table, usual: Climate) -> tuple[Climate, ...]:
    """Return the air of each hour from midnight, where 24 rows tell it."""
    value = row.raw("by_hour")
    if value is None:
        return ()
    rows = value if isinstance(value, list) else []
    if len(rows) != HOURS_A_DAY:
        row.fault(
            "by_hour",
            "not-24-hours",
            f"{row.name_of('by_hour')} has {len(rows)} row{'s' * (len(rows) != 1)}; a day has {HOURS_A_DAY} hours.",
            mend="Write one row [°C, %] for each hour, from midnight on.",
        )
        return ()
    found = [_hour(row, hour, each, usual) for hour, each in enumerate(rows)]
    return tuple(air for air in found if air is not None) if all(found) else ()


def _hour(row: Table, hour: int, value: object, usual: Climate) -> Climate | None:
    """Return the air of one hour, [°C, %] or [°C, %, m/s]; ``None`` after a fault."""
    bounds = (AIR_C, HUMIDITY, AIR_SPEED)
    cells: Sequence[object] = value if isinstance(value, list) else []
    numbers = [
        float(cell)
        for cell, bound in zip(cells, bounds, strict=False)
        if isinstance(cell, int | float) and not isinstance(cell, bool) and bound.hold(cell)
    ]
    is_air = len(numbers) == len(cells) and _LEAST_VALUES <= len(cells) <= _MOST_VALUES
    if is_air and share_question(numbers[1]):
        row.fault(
            "by_hour",
            "share-perhaps",
            f"{row.name_of('by_hour')}, the row of {hour:02}:00: {share_question(numbers[1])}",
            mend=f"If so, write {share_in_pct(numbers[1]):g}.",
        )
        return None
    if is_air:
        air_m_s = numbers[2] if len(numbers) == _MOST_VALUES else usual.air_m_s
        return Climate(temperature_c=numbers[0], humidity_pct=numbers[1], air_m_s=air_m_s)
    row.fault(
        "by_hour",
        "wrong-value",
        f"{row.name_of('by_hour')}: the row of {hour:02}:00 is not an air.",
        mend=f"Write [°C, %] or [°C, %, m/s]: {AIR_C.ends}, {HUMIDITY.ends}, {AIR_SPEED.ends}.",
    )
    return None


def _readings(row: Table, folder: Path, *, zone: str, air_m_s: float) -> tuple[AirReading, ...]:
    """Return what a logger wrote; where its file cannot be used the rest of the shop still can."""
    name = maybe_text(row, "readings")
    if name is None:
        return ()
    try:
        data = read_bytes(folder, name, most=MAX_LOG_BYTES)
    except UnreadableError as error:
        place = row.place("readings")
        row.faults.put(*(replace(finding, place=place) for finding in error.findings))
        return ()
    log = air_log(name, data, zone=zone, air_m_s=air_m_s)
    # In what unit the air is told the shop cannot do without: nothing is reckoned before it is said.
    told = log.findings if log.questions else map(_at_most_a_warning, log.findings)
    row.faults.put(*told)
    return log.readings


def _at_most_a_warning(finding: Finding) -> Finding:
    if finding.severity is not Severity.ERROR:
        return finding
    remedy = f"{finding.remedy} Until then the usual air of the shop counts."
    return replace(finding, severity=Severity.WARNING, remedy=remedy)
