"""``armorplan needs``: leather, fasteners, dye, hours and cost of one build."""

from argparse import Namespace
from collections.abc import Iterator
from itertools import zip_longest
from pathlib import Path
from textwrap import wrap

from armorplan.app.needs_rows import NeedsPage, NeedsRow, NeedsSection
from armorplan.app.needs_sections import needs_of, needs_page, tray_named
from armorplan.cli.exits import CLEAN
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json
from armorplan.kernel.errors import ArmorplanError
from armorplan.needs.model import Needs
from armorplan.sheets.needs_csv import needs_csv

_NAME_WIDE, _CELL_WIDE, _WIDE = 44, 30, 96
_GAP, _IN = "  ", "    "


def needs(chosen: Namespace) -> int:
    """Print what a build uses up; return 0. Mistakes in the pattern are told as errors."""
    derived = derived_for(chosen)
    tray = chosen.tray or tray_named(derived.shop, "")
    found = needs_of(derived, tray)
    if chosen.csv:
        _write(chosen.csv, found)
    if chosen.json:
        say_json(found)
    else:
        for line in _lines(needs_page(found)):
            say(line)
        if chosen.csv:
            say(f"Written: {chosen.csv}")
    return CLEAN


def _write(file: Path, found: Needs) -> None:
    try:
        file.write_text(needs_csv(found), encoding="utf-8-sig", newline="")
    except OSError as error:
        message = f"{file}: the table cannot be written ({error.strerror}). Choose another file."
        raise ArmorplanError(message) from error


def _lines(page: NeedsPage) -> Iterator[str]:
    yield f"{page.title}: what one build needs"
    for section in page.sections:
        yield ""
        yield from _section(section)


def _section(section: NeedsSection) -> Iterator[str]:
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
