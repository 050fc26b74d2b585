"""The bench sheet of one build, made from what follows from its pattern and from its plan."""

from dataclasses import dataclass
from zoneinfo import ZoneInfo

from armorplan.app.derived import Derived
from armorplan.app.reports import order_report
from armorplan.app.sheet_fits import fits_of
from armorplan.app.sheet_full import full_parts
from armorplan.app.sheet_needs import needs_tables
from armorplan.app.sheet_order import sheet_order
from armorplan.app.sheet_runs import SheetSteps, chapters_of
from armorplan.app.sheet_scenes import SheetScenes
from armorplan.app.sheet_times import SheetTimes, day_tables, times_of
from armorplan.assembly.model import Side
from armorplan.kernel.clock import Clock
from armorplan.kernel.units import HOUR_MIN
from armorplan.sheets.bench_sheet_model import BenchSheet, Scene
from armorplan.sheets.printer_scale import TRUE_SCALE, PrinterScale
from armorplan.sheets.week_table import WeekTable
from armorplan.workshop.pins import PinEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetAsked:
    """What a sheet is made from.

    Attributes:
        derived: the build.
        build: its id in the plan.
        title: what it is called; empty: as its pattern.
        table: the plan; ``None``: the sheet has no dates, to go with a pattern.
        full_size: with the parts at full size.
        parts_only: nothing but these, for the mock-up.
        scale: of the printer that they are drawn for.
        pins: for its dry fits, as they are owned by now; ``None``: as its shelf says.
    """

    derived: Derived
    build: str
    title: str = ""
    table: WeekTable | None = None
    full_size: bool = False
    parts_only: bool = False
    scale: PrinterScale = TRUE_SCALE
    pins: tuple[PinEntry, ...] | None = None


def bench_sheet(asked: SheetAsked, clock: Clock) -> BenchSheet:
    """Return a bench sheet; its chapters are empty where the relations leave no order."""
    derived = asked.derived
    if asked.parts_only:
        return _mock_up(asked)
    times = times_of(asked.table, asked.build, derived.shop.zone)
    order = sheet_order(derived, times)
    numbers = {step.id.partition("/")[2]: at for at, step in enumerate(order, start=1)}
    fits = fits_of(derived, asked.pins)
    return BenchSheet(
        title=asked.title or derived.pattern.name,
        version=f"Version {derived.pattern.version}",
        notes=derived.pattern.notes,
        facts=_facts(derived, times, clock),
        cover=SheetScenes(derived).cover(),
        chapters=chapters_of(
            SheetSteps(
                derived=derived,
                order=order,
                reports=order_report(derived, clock).steps,
                times=times,
                fits=fits,
            )
        ),
        needs=needs_tables(derived, fits),
        days=tuple(day_tables(times, numbers)),
        full=full_parts(derived) if asked.full_size else (),
        scale=asked.scale,
    )


def _mock_up(asked: SheetAsked) -> BenchSheet:
    """Return the parts at full size, and nothing else."""
    pattern = asked.derived.pattern
    return BenchSheet(
        title=asked.title or pattern.name,
        version=f"Version {pattern.version}",
        facts=(),
        cover=Scene(parts=()),
        chapters=(),
        full=full_parts(asked.derived),
        parts_only=True,
        scale=asked.scale,
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
