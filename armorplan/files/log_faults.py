"""The sentences that tell what is amiss with a logger's file."""

from collections.abc import Sequence
from datetime import datetime, tzinfo
from typing import Protocol

from armorplan.files.faults import brief
from armorplan.files.limits import AIR_C, PLAUSIBLE_C
from armorplan.files.log_columns import Header
from armorplan.files.log_tally import lines_words, rows_words
from armorplan.files.log_text import Line
from armorplan.kernel.findings import Finding, Place, Severity
from armorplan.kernel.units import span_words
from armorplan.workshop.fahrenheit import celsius

_EXAMPLE = "time,temperature,humidity"
_SHOWN = 4


class _Numbered(Protocol):
    @property
    def line(self) -> int: ...
    @property
    def when(self) -> datetime: ...


def _finding(
    code: str, words: tuple[str, str], place: Place, severity: Severity = Severity.WARNING
) -> Finding:
    text, remedy = words
    return Finding(code=code, severity=severity, text=text, remedy=remedy, place=place)


def no_text(name: str) -> Finding:
    """It is a spreadsheet, compressed, or no text at all."""
    words = (
        f"{name} is not text: it is a spreadsheet, compressed, or something else.",
        "Save it as CSV.",
    )
    return _finding("log-not-text", words, Place(file=name), Severity.ERROR)


def empty(name: str) -> Finding:
    """Nothing stands in it."""
    words = (f"{name} is empty.", "Export the readings from the logger again.")
    return _finding("log-empty", words, Place(file=name), Severity.ERROR)


def no_header(name: str, line: Line) -> Finding:
    """No line names the columns."""
    words = (
        f'No line of {name} names its columns; it begins with "{brief(line.text)}".',
        f"Put a line like {_EXAMPLE} above the rows.",
    )
    return _finding("log-no-header", words, Place(file=name, line=line.number), Severity.ERROR)


def lacks_column(name: str, header: Header) -> Finding:
    """A line names columns, but not all that are needed."""
    words = (
        (
            f"{name} has no column of {' and none of '.join(header.lacks)}: its columns are named "
            f'"{brief(header.line.text)}".'
        ),
        f"Name them like {_EXAMPLE}.",
    )
    place = Place(file=name, line=header.line.number)
    return _finding("log-lacks-column", words, place, Severity.ERROR)


def two_commas(name: str, line: int) -> Finding:
    """Commas part the columns and are decimal marks as well."""
    words = (
        f"In {name} commas stand between columns and within numbers: nobody can tell which is which.",
        "Export it with semicolons between the columns, or with decimal points.",
    )
    return _finding("log-two-commas", words, Place(file=name, line=line), Severity.ERROR)


def no_rows(name: str, rows: int) -> Finding:
    """Nothing is left once what cannot be is left out."""
    words = (
        f"{name} has no row that can be used" + (f", of {rows:,}." if rows else "."),
        "Each row needs a time, a temperature in °C and a humidity in per cent.",
    )
    return _finding("log-no-rows", words, Place(file=name), Severity.ERROR)


def thinned(name: str, rows: int, kept: int) -> Finding:
    """It holds more rows than are needed."""
    words = (
        f"{name} holds {rows:,} rows; {kept:,} of them, evenly spread, were read.",
        "Nothing is to be done: air is reckoned by quarters of an hour.",
    )
    return _finding("log-thinned", words, Place(file=name), Severity.NOTE)


def doubtful_day(name: str, text: str, read_as: datetime | None) -> Finding:
    """Day and month might be exchanged, and no row tells which."""
    meant = f" as {read_as.day} {read_as:%B %Y}" if read_as else ""
    words = (
        f'Whether day or month comes first in {name} cannot be told: "{brief(text)}" was read{meant}.',
        "If that is wrong, export the dates like 2026-03-04.",
    )
    return _finding("log-doubtful-day", words, Place(file=name))


def too_warm(name: str, mean_c: float) -> Finding | None:
    """Degrees Fahrenheit under a column that does not say so."""
    if mean_c <= PLAUSIBLE_C:
        return None
    words = (
        (
            f"The air in {name} is {mean_c:.0f} °C on average. Is that Fahrenheit? Then it is "
            f"{celsius(mean_c):.0f} °C."
        ),
        "If so, name the column temperature °F.",
    )
    severity = Severity.WARNING if AIR_C.hold(mean_c) else Severity.ERROR
    return _finding("fahrenheit-perhaps", words, Place(file=name), severity)


def skipped_hour(name: str, rows: Sequence[_Numbered], zone: tzinfo) -> Finding:
    """Times that the clocks left out in spring."""
    first = rows[0].when
    offset = f"{first.replace(tzinfo=zone):%z}"
    words = (
        (
            f"{rows_words(len(rows))} at a time that does not exist: on {first.day} {first:%B %Y} the "
            f"clocks of {zone} went from {first:%H}:00 to an hour later. Left out: "
            f"{lines_words([row.line for row in rows[:_SHOWN]], len(rows))}."
        ),
        f"If the logger keeps the same time all year, say so above its column: time (UTC{offset}).",
    )
    return _finding("log-skipped-hour", words, Place(file=name, line=rows[0].line))


def repeated_hour(name: str, local: datetime, zone: tzinfo) -> Finding:
    """Times that came twice in autumn."""
    words = (
        (
            f"On {local.day} {local:%B %Y} the hour from {local:%H}:00 came twice in {zone}; the order "
            f"of the rows in {name} told which is which."
        ),
        "Nothing is to be done where the logger changes its clock in summer and winter.",
    )
    return _finding("log-repeated-hour", words, Place(file=name), Severity.NOTE)


def backward(name: str, lines: Sequence[int]) -> Finding:
    """Rows that are earlier than the one before."""
    words = (
        (
            f"{rows_words(len(lines))} earlier than the one above, "
            f"{lines_words(lines[:_SHOWN], len(lines))}; all were put in order of time."
        ),
        "See whether the logger's clock was set meanwhile.",
    )
    return _finding("log-backward", words, Place(file=name, line=lines[0]))


def twice(name: str, lines: Sequence[int]) -> Finding:
    """Two rows of one instant."""
    words = (
        (
            f"{rows_words(len(lines))} at the same time as another, "
            f"{lines_words(lines[:_SHOWN], len(lines))}; the last one counts."
        ),
        "See whether the file was joined from two that overlap.",
    )
    return _finding("log-twice", words, Place(file=name, line=lines[0]))


def gaps(name: str, found: Sequence[tuple[datetime, datetime]], zone: tzinfo) -> Finding:
    """Stretches without a reading for which the usual day counts."""
    since, until = max(found, key=lambda gap: gap[1] - gap[0])
    minutes = int((until - since).total_seconds() // 60)
    count = "A gap" if len(found) == 1 else f"{len(found):,} gaps, the longest"
    words = (
        (
            f"{count} of {span_words(minutes)} from {since.astimezone(zone):%Y-%m-%d %H:%M} on in {name}: "
            "the usual day counts there."
        ),
        "Nothing is to be done where the logger was off.",
    )
    return _finding("log-gap", words, Place(file=name), Severity.NOTE)
