"""What was learned as a table of text: before, after, on how much it rests, what counts for little."""

from collections.abc import Iterator, Sequence
from zoneinfo import ZoneInfo

from armorplan.app.learned_rows import DampedRow, DryingRow, HandRow
from armorplan.kernel.units import span_words

_DRYING = ("Drying to handle", "by the catalogue", "here", "factor", "likely", "dryings")
_HANDS = ("Hands", "by the catalogue", "here", "factor", "likely", "pieces of work")
_UNKNOWN = "–"


def drying_table(rows: Sequence[DryingRow], zone: str) -> Iterator[str]:
    """Yield the lines of what was learned of dryings."""
    cells = [
        (row.name, _span(row.before_min), _span(row.after_min), *_learned(row)) for row in rows
    ]
    yield from _table(_DRYING, cells, [_damped(row.damped, zone) for row in rows])


def hand_table(rows: Sequence[HandRow], zone: str) -> Iterator[str]:
    """Yield the lines of what was learned of hands."""
    cells = [
        (_name(row), _each(row.before_min), _each(row.after_min), *_learned(row)) for row in rows
    ]
    yield from _table(_HANDS, cells, [_damped(row.damped, zone) for row in rows])


def _learned(row: DryingRow | HandRow) -> tuple[str, str, str]:
    low, high = row.between
    return f"{row.factor:.2f}", f"{low:.2f}–{high:.2f}", str(row.observations)


def _name(row: HandRow) -> str:
    return ", ".join(filter(None, (row.kind, row.who, f"each {row.per}" if row.per else "")))


def _span(minutes: int | None) -> str:
    return "never" if minutes is None else span_words(minutes)


def _each(minutes: float | None) -> str:
    return _UNKNOWN if minutes is None else f"{minutes:.2f} min"


def _damped(damped: Sequence[DampedRow], zone: str) -> list[str]:
    local = ZoneInfo(zone)
    begun = ((row, row.begun_at.astimezone(local)) for row in damped)
    return [
        f"  far off {row.off_words}, counts for little: {row.words}, begun {at.day} {at:%b %H:%M}"
        for row, at in begun
    ]


def _table(
    head: Sequence[str], cells: Sequence[Sequence[str]], below: Sequence[Sequence[str]]
) -> Iterator[str]:
    widths = [max(map(len, column)) for column in zip(head, *cells, strict=True)]
    yield _line(head, widths)
    for row, lines in zip(cells, below, strict=True):
        yield _line(row, widths)
        yield from lines


def _line(row: Sequence[str], widths: Sequence[int]) -> str:
    return "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True)).rstrip()
