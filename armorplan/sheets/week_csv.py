"""The plan of some builds as comma-separated values (RFC 4180), for any spreadsheet."""

import csv
from datetime import datetime
from io import StringIO
from zoneinfo import ZoneInfo

from armorplan.sheets.needs_csv import guarded
from armorplan.sheets.week_table import PlanLine, WeekTable

COLUMNS = (
    "build",
    "build_title",
    "step",
    "task",
    "start",
    "end",
    "minutes",
    "who",
    "also",
    "beside",
    "bath",
    "begin_by",
    "surely_by",
    "note",
)


def week_csv(table: WeekTable) -> str:
    """Return the table as text, lines ended by CR LF; write it without changing line ends.

    Times are local with their offset from UTC (ISO 8601), so that no hour of a day on which clocks
    are set is told twice.
    """
    held = StringIO(newline="")
    writer = csv.writer(held)
    writer.writerow(COLUMNS)
    zone = ZoneInfo(table.zone)
    for line in table.lines:
        writer.writerow(_cells(line, zone))
    return held.getvalue()


def _cells(line: PlanLine, zone: ZoneInfo) -> tuple[str | int, ...]:
    def at(instant: datetime | None) -> str:
        return "" if instant is None else instant.astimezone(zone).isoformat(timespec="minutes")

    words = (line.build, line.build_title, line.step, line.title)
    return (
        *map(guarded, words),
        at(line.start_at),
        at(line.end_at),
        line.minutes,
        guarded(line.who),
        guarded(" and ".join(line.also)),
        guarded(" and ".join(line.beside)),
        guarded(line.bath),
        at(line.begin_by_at),
        at(line.surely_at),
        guarded(line.note),
    )
