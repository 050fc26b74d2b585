"""What a build takes, as tables of its bench sheet; the pins are those its dry fits ask for."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import zip_longest

from armorplan.app.derived import Derived
from armorplan.app.needs_rows import NeedsSection
from armorplan.app.needs_sections import needs_of, needs_page, tray_named
from armorplan.app.sheet_fits import StepFit
from armorplan.needs.model import Needs
from armorplan.sheets.bench_sheet_model import SheetRow, SheetTable

_TOOLS, _FASTENERS, _TRIAL_PINS = "tools", "fasteners", "fit_pins"
_LEFT_OUT = frozenset(("cost", "piece_hours"))
"""What is of the maker's own shop, or is told by the steps."""


def needs_tables(derived: Derived, fits: Sequence[StepFit]) -> tuple[SheetTable, ...]:
    """Return what has to be at hand, what is bought first."""
    needs = needs_of(derived, tray_named(derived.shop, ""))
    pins = tuple(_pins(derived, fits))
    if pins:
        needs = _without_pins(derived, needs)
    page = needs_page(needs)
    tables = []
    for section in page.sections:
        if section.id == _TOOLS:
            tables.append(_in_two(section))
        elif section.id not in _LEFT_OUT:
            tables.append(_table(section, pins if section.id == _FASTENERS else ()))
    return tuple(tables)


def _without_pins(derived: Derived, needs: Needs) -> Needs:
    """Return a take-off without the pins that no size is named of."""
    names = {tool.name for tool in derived.shelf.tools if tool.id == _TRIAL_PINS}
    tools = tuple(tool for tool in needs.tools if tool.name not in names)
    return replace(needs, trial_pins=None, tools=tools)


def _pins(derived: Derived, fits: Sequence[StepFit]) -> Iterator[SheetRow]:
    """Yield a row for each size: as many as the round that takes most of it."""
    rounds = [pins for fit in fits for pins in fit.pins]
    for pin in derived.shelf.pins:
        most = max((pins.get(pin.id, 0) for pins in rounds), default=0)
        if most:
            have = "have ready" if pin.owned is None else f"have ready, {pin.owned} owned"
            yield SheetRow(cells=(f"{pin.name}, a pin for the dry fit", str(most), have))
    clips = max((fit.clips for fit in fits), default=0)
    if clips:
        yield SheetRow(cells=("Clip or tie, for the dry fit", str(clips), "have ready"))


def _table(section: NeedsSection, more: tuple[SheetRow, ...]) -> SheetTable:
    wide = len(section.heads)
    rows = tuple(
        SheetRow(cells=row.cells, remarks=row.remarks, under=row.under) for row in section.rows
    )
    blank = ("",) * wide
    added = tuple(replace(row, cells=(*row.cells, *blank)[:wide]) for row in more)
    return SheetTable(
        title=section.title, heads=section.heads, rows=(*rows, *added), notes=section.notes
    )


def _in_two(section: NeedsSection) -> SheetTable:
    """Return a long table of two short columns as one of four."""
    rows = [row.cells for row in section.rows]
    half = (len(rows) + 1) // 2
    pairs = zip_longest(rows[:half], rows[half:], fillvalue=("", ""))
    return SheetTable(
        title=section.title,
        heads=section.heads * 2,
        rows=tuple(SheetRow(cells=(*left, *right)) for left, right in pairs),
        notes=section.notes,
        shares=(0.25, 0.25, 0.25, 0.25),
    )
