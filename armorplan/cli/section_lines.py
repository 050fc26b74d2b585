"""Sections of a take-off or a cut list as lines of a terminal."""

from collections.abc import Iterator
from itertools import zip_longest
from textwrap import wrap

from armorplan.app.needs_rows import NeedsRow, NeedsSection

_NAME_WIDE, _CELL_WIDE, _WIDE = 44, 30, 96
_GAP, _IN = "  ", "    "


def section_lines(section: NeedsSection) -> Iterator[str]:
    """Yield a section: its heads, its rows with their remarks, its notes."""
    heads = NeedsRow(cells=(section.title, *section.heads[1:]))
    rows = (heads, *section.rows)
    most_wide = (_NAME_WIDE, *[_CELL_WIDE] * (len(section.heads) - 1))
    widths = tuple(
        min(most, max(len(row.cells[at]) for row in rows)) for at, most in enumerate(most_wide)
    )
    yield from _table_line(heads, widths)
    for row in section.rows:
        if any(row.cells):
            yield from _table_line(row, widths)
        for remark in row.remarks:
            yield from wrap(remark, _WIDE, initial_indent=_IN, subsequent_indent=_IN)
    for note in section.notes:
        yield from wrap(f"({note})", _WIDE)


def _table_line(row: NeedsRow, widths: tuple[int, ...]) -> Iterator[str]:
    """Yield a row of cells, each wrapped where it is longer than its column."""
    columns = [wrap(text, wide) or [""] for text, wide in zip(row.cells, widths, strict=True)]
    first, *further = columns[0]
    columns[0] = [f"{_IN if row.under else ''}{first}", *(f"{_IN}{line}" for line in further)]
    # The first column keeps room for what is set in.
    room = (widths[0] + len(_IN), *widths[1:])
    for cells in zip_longest(*columns, fillvalue=""):
        yield _GAP.join(cell.ljust(wide) for cell, wide in zip(cells, room, strict=True)).rstrip()
