"""The bench sheet of one build, made from what follows from its pattern and from its plan."""

from dataclasses import dataclass
from itertools import zip_longest
from zoneinfo import ZoneInfo

from armorplan.app.derived import Derived
from armorplan.app.needs_rows import NeedsSection
from armorplan.app.needs_sections import needs_of, needs_page, tray_named
from armorplan.app.reports import order_report
from armorplan.app.sheet_full import full_parts
from armorplan.app.sheet_runs import chapters_of
from armorplan.app.sheet_scenes import SheetScenes
from armorplan.app.sheet_times import SheetTimes, day_tables, times_of
from armorplan.assembly.model import Side
from armorplan.kernel.clock import Clock
from armorplan.kernel.units import HOUR_MIN
from armorplan.sheets.bench_sheet_model import BenchSheet, SheetRow, SheetTable
from armorplan.sheets.week_table import WeekTable

_TOOLS = "tools"
_LEFT_OUT = frozenset(("cost", "piece_hours"))
"""What is of the maker's own shop, or is told by the steps."""


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAsked:
    """What a sheet is made from.

    Attributes:
        derived: the build.
        build: its id in the plan.
        title: what it is called; empty: as its pattern.
        table: the plan; ``None``: the sheet has no dates, to go with a pattern.
        full_size: with the parts at full size.
    """

    derived: Derived
    build: str
    title: str = ""
    table: WeekTable | None = None
    full_size: bool = False


def bench_sheet(asked: SheetAsked, clock: Clock) -> BenchSheet:
    """Return a bench sheet; its chapters are empty where the relations leave no order."""
    derived = asked.derived
    times = times_of(asked.table, asked.build, derived.shop.zone)
    numbers = {step.partition("/")[2]: at for at, step in enumerate(derived.order, start=1)}
    return BenchSheet(
        title=asked.title or derived.pattern.name,
        version=f"Version {derived.pattern.version}",
        notes=derived.pattern.notes,
        facts=_facts(derived, times, clock),
        cover=SheetScenes(derived).cover(),
        chapters=chapters_of(derived, order_report(derived, clock).steps, times),
        needs=_needs(derived),
        days=tuple(day_tables(times, numbers)),
        full=full_parts(derived) if asked.full_size else (),
    )


def _needs(derived: Derived) -> tuple[SheetTable, ...]:
    page = needs_page(needs_of(derived, tray_named(derived.shop, "")))
    kept = (section for section in page.sections if section.id not in _LEFT_OUT)
    return tuple(_in_two(one) if one.id == _TOOLS else _table(one) for one in kept)


def _table(section: NeedsSection) -> SheetTable:
    return SheetTable(
        title=section.title,
        heads=section.heads,
        rows=tuple(
            SheetRow(cells=row.cells, remarks=row.remarks, under=row.under) for row in section.rows
        ),
        notes=section.notes,
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


def _hours_words(minutes: int) -> str:
    """Return work at the bench in hours: days of it would read as days of the calendar."""
    return f"{max(1, round(minutes / HOUR_MIN))} h of work"


def _facts(derived: Derived, times: SheetTimes, clock: Clock) -> tuple[tuple[str, str], ...]:
    work, parts = derived.work, derived.assembly.parts
    by_hand = sum(step.minutes for step in work.steps if step.attended)
    pairs = sum(part.side is Side.LEFT for part in parts)
    counted = f"{len(parts)}, {pairs} of them left and right" if pairs else str(len(parts))
    lines = [line for some in times.lines.values() for line in some]
    planned = (
        (
            (
                "Planned",
                times.between(min(x.start_at for x in lines), max(x.end_at for x in lines)),
            ),
        )
        if lines
        else ()
    )
    made = clock.now().astimezone(ZoneInfo(derived.shop.zone))
    return (
        ("Pieces", ", ".join(piece.name for piece in derived.pattern.pieces)),
        ("Parts", counted),
        ("Joints", str(len(derived.assembly.joints))),
        ("Steps", str(len(work.steps))),
        ("At the bench", _hours_words(by_hand)),
        *planned,
        ("Printed", f"{made.day} {made:%B %Y}"),
    )
