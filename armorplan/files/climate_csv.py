"""Reads what a logger wrote of the air: time, temperature, humidity, and air speed if it has it.

Nothing in the file stops the reading of the rest: rows that cannot be are left out and told.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, tzinfo
from itertools import pairwise
from pathlib import Path
from zoneinfo import ZoneInfo

from armorplan.drying.days import LONGEST_GAP
from armorplan.files import log_faults
from armorplan.files.file_bytes import read_bytes
from armorplan.files.limits import AIR_C, AIR_SPEED, HUMIDITY
from armorplan.files.log_columns import (
    Columns,
    header_of,
    is_celsius,
    is_fahrenheit,
    unnamed_columns,
)
from armorplan.files.log_tally import Tally
from armorplan.files.log_text import Line, cells_of, is_packed, lines_of, text_of
from armorplan.files.log_times import DayOrder, day_order, instant_in, zoned
from armorplan.files.log_units import LogQuestion, Meant, as_meant, asked_of
from armorplan.files.log_values import number_in, says_celsius, says_fahrenheit, says_per_cent
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.workshop.air import STILL_AIR_M_S, AirReading, Climate
from armorplan.workshop.fahrenheit import celsius

MAX_LOG_BYTES = 40_000_000
MAX_LOG_ROWS = 110_000
"""A year of five-minute readings; of more, every second or third does as well."""
_MOSTLY = 0.5


@dataclass(frozen=True, slots=True, kw_only=True)
class AirLog:
    """What a logger's file holds: readings, ascending, and what was found in it.

    Where nothing of it could be used an error is among the findings and there are no readings.
    So it is while ``questions`` are open: their findings say what to ask.
    """

    readings: tuple[AirReading, ...] = ()
    findings: tuple[Finding, ...] = ()
    questions: tuple[LogQuestion, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class _Row:
    line: int
    when: str
    cells: Sequence[str]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """A row whose air can be; its time is still as written."""

    line: int
    when: datetime
    climate: Climate


def read_air_log(
    path: Path,
    *,
    zone: str,
    air_m_s: float = STILL_AIR_M_S,
    meant: frozenset[Meant] = frozenset(),
) -> AirLog:
    """Read a logger's file.

    Args:
        path: the file; separators, encodings and forms of dates are found out.
        zone: IANA name of the zone of times that name no offset.
        air_m_s: how fast the air moves where the file does not say.
        meant: what its numbers are, as somebody answered who was asked.
    """
    try:
        data = read_bytes(path.parent, path.name, most=MAX_LOG_BYTES)
    except UnreadableError as error:
        return AirLog(findings=error.findings)
    return air_log(path.name, data, zone=zone, air_m_s=air_m_s, meant=meant)


def air_log(
    name: str,
    data: bytes,
    *,
    zone: str,
    air_m_s: float = STILL_AIR_M_S,
    meant: frozenset[Meant] = frozenset(),
) -> AirLog:
    """Read the bytes of a logger's file; see ``read_air_log``."""
    text = None if is_packed(data) else text_of(data)
    if text is None:
        return AirLog(findings=(log_faults.no_text(name),))
    lines = lines_of(text)
    if not lines:
        return AirLog(findings=(log_faults.empty(name),))
    columns, fault = _columns(name, lines)
    if columns is None:
        return AirLog(findings=(fault,) if fault else ())
    rows, columns = _rows(lines, columns)
    if _commas_are_both(rows, columns):
        return AirLog(findings=(log_faults.two_commas(name, rows[0].line),))
    columns = as_meant(columns, meant)
    questions = _asked(name, rows, columns)
    if questions:
        return AirLog(findings=tuple(each.finding for each in questions), questions=questions)
    return _log_of(name, rows, columns, zone=zone, air_m_s=air_m_s)


def _asked(name: str, rows: Sequence[_Row], columns: Columns) -> tuple[LogQuestion, ...]:
    """Return what is to be asked of the numbers that say no unit."""
    warm = (_cell(row.cells, columns.temperature) for row in rows)
    damp = (_cell(row.cells, columns.humidity) for row in rows)
    return asked_of(name, columns, warm, damp)


def _log_of(name: str, rows: list[_Row], columns: Columns, *, zone: str, air_m_s: float) -> AirLog:
    kept = _thinned(rows)
    warm = log_faults.too_warm(name, _mean_c(kept, columns))
    if warm is not None and warm.severity is Severity.ERROR:
        return AirLog(findings=(warm,))
    told = [] if warm is None else [warm]
    if len(kept) < len(rows):
        told.append(log_faults.thinned(name, len(rows), len(kept)))
    order = day_order(row.when for row in kept)
    if order.doubtful:
        read_as = instant_in(order.doubtful, order)
        told.append(log_faults.doubtful_day(name, order.doubtful, read_as))
    tally = Tally(name)
    read = list(_read_rows(kept, columns, order, tally, air_m_s))
    told += tally.findings()
    if not read:
        return AirLog(findings=(log_faults.no_rows(name, len(rows)), *told))
    readings = _in_order(name, read, columns.offset or ZoneInfo(zone), told)
    return AirLog(readings=readings, findings=tuple(told))


def _columns(name: str, lines: Sequence[Line]) -> tuple[Columns | None, Finding | None]:
    header = header_of(lines)
    if header is not None and header.columns is not None:
        return header.columns, None
    bare = unnamed_columns(lines, lambda text: instant_in(text, DayOrder()) is not None)
    if bare is not None:
        return bare, None
    if header is not None:
        return None, log_faults.lacks_column(name, header)
    return None, log_faults.no_header(name, lines[0])


def _rows(lines: Sequence[Line], columns: Columns) -> tuple[list[_Row], Columns]:
    """Return the rows under the header, and the columns as a line of units below it has them."""
    rows = []
    for line in lines[columns.first :]:
        cells = cells_of(line.text, columns.separator)
        rows.append(_Row(line=line.number, when=columns.when_text(cells), cells=cells))
    units = _cell(rows[0].cells, columns.temperature) if rows and columns.cells else ""
    if units and not rows[0].when and number_in(units) is None:
        below = replace(
            columns,
            fahrenheit=columns.fahrenheit or is_fahrenheit(units),
            celsius=columns.celsius or is_celsius(units),
        )
        return rows[1:], below
    return rows, columns


def _commas_are_both(rows: Sequence[_Row], columns: Columns) -> bool:
    """Tell whether most rows have more cells than the header: commas part numbers, too."""
    some = rows[:20]
    more = sum(len(row.cells) > columns.cells for row in some)
    return columns.separator == "," and columns.cells > 0 and more > len(some) * _MOSTLY


def _thinned(rows: list[_Row]) -> list[_Row]:
    each = -(-len(rows) // MAX_LOG_ROWS)
    return rows[::each] if each > 1 else rows


def _read_rows(
    rows: Sequence[_Row], columns: Columns, order: DayOrder, tally: Tally, air_m_s: float
) -> Iterator[_Read]:
    for row in rows:
        when = instant_in(row.when, order)
        if when is None:
            tally.leave_out("log-time", row.line, row.when)
            continue
        temperature_c = _temperature_c(row, columns)
        if temperature_c is None or not AIR_C.hold(temperature_c):
            tally.leave_out("log-temperature", row.line, _cell(row.cells, columns.temperature))
            continue
        humidity_pct = _humidity_pct(row, columns)
        if humidity_pct is None or not HUMIDITY.hold(humidity_pct):
            tally.leave_out("log-humidity", row.line, _cell(row.cells, columns.humidity))
            continue
        speed = _air_speed(row, columns, air_m_s)
        if speed is None or not AIR_SPEED.hold(speed):
            tally.leave_out("log-air-speed", row.line, _cell(row.cells, columns.air or 0))
            continue
        climate = Climate(
            temperature_c=round(temperature_c, 2), humidity_pct=humidity_pct, air_m_s=speed
        )
        yield _Read(line=row.line, when=when, climate=climate)


def _cell(cells: Sequence[str], at: int) -> str:
    return cells[at] if at < len(cells) else ""


def _temperature_c(row: _Row, columns: Columns) -> float | None:
    cell = _cell(row.cells, columns.temperature)
    value = number_in(cell)
    if value is None:
        return None
    told_f = columns.fahrenheit and not says_celsius(cell)
    return celsius(value) if told_f or says_fahrenheit(cell) else value


def _humidity_pct(row: _Row, columns: Columns) -> float | None:
    cell = _cell(row.cells, columns.humidity)
    value = number_in(cell)
    if value is None or not columns.share or says_per_cent(cell):
        return value
    return round(100 * value, 2)


def _air_speed(row: _Row, columns: Columns, usual_m_s: float) -> float | None:
    if columns.air is None or not _cell(row.cells, columns.air):
        return usual_m_s
    value = number_in(_cell(row.cells, columns.air))
    return None if value is None else round(value * columns.air_m_s, 3)


def _mean_c(rows: Sequence[_Row], columns: Columns) -> float:
    found = [c for c in (_temperature_c(row, columns) for row in rows) if c is not None]
    return sum(found) / len(found) if found else 0.0


def _in_order(
    name: str, read: list[_Read], zone: tzinfo, told: list[Finding]
) -> tuple[AirReading, ...]:
    """Return the readings in UTC, ascending, each instant once; what was amiss is told."""
    falling = sum(
        b.when.replace(tzinfo=None) < a.when.replace(tzinfo=None) for a, b in pairwise(read)
    )
    if falling > len(read) * _MOSTLY:
        read.reverse()  # newest first, as some loggers write
    placed = zoned([row.when for row in read], zone)
    if placed.skipped:
        told.append(log_faults.skipped_hour(name, [read[at] for at in placed.skipped], zone))
    if placed.repeated is not None:
        told.append(log_faults.repeated_hour(name, placed.repeated, zone))
    found = [(at, row) for at, row in zip(placed.at, read, strict=True) if at is not None]
    backward = [row.line for (a, _), (b, row) in pairwise(found) if b < a]
    if backward:
        told.append(log_faults.backward(name, backward))
    found.sort(key=lambda pair: pair[0])
    twice = [row.line for (a, _), (b, row) in pairwise(found) if a == b]
    if twice:
        told.append(log_faults.twice(name, twice))
    by_instant = {at: row.climate for at, row in found}
    gaps = [(a, b) for a, b in pairwise(by_instant) if b - a > LONGEST_GAP]
    if gaps:
        told.append(log_faults.gaps(name, gaps, zone))
    return tuple(AirReading(at=at, climate=climate) for at, climate in by_instant.items())
