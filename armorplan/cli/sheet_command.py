"""``armorplan sheet``: the bench sheet of a build as a PDF, of a shop one a build."""

from argparse import Namespace
from dataclasses import dataclass
from pathlib import Path

from armorplan.app.plan_naming import naming_of
from armorplan.app.printer_scales import keep_scale, kept_scale
from armorplan.app.sheet_files import check_sheet_file, save_sheet, sheet_words
from armorplan.app.sheet_making import SheetAsked, bench_sheet
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import tell_air
from armorplan.cli.planned_week import PlannedBuild, WeekAsked, week_asked
from armorplan.cli.reading import say, say_json, tell, warn
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError
from armorplan.schedule.planning import first_plan
from armorplan.schedule.teaching import taught_plan
from armorplan.sheets.bench_sheet_ink import PAPERS
from armorplan.sheets.printer_scale import TRUE_SCALE, PrinterScale
from armorplan.sheets.week_table import WeekTable
from armorplan.store.places import printers_folder


@dataclass(frozen=True, slots=True, kw_only=True)
class SheetWritten:
    """One sheet that was written: of which build, into which file, and what is in it.

    ``dated``: it tells when its steps stand in the plan. ``missing_letters``: those that its
    letters do not have; they are printed as squares.
    """

    file: str
    title: str
    steps: int
    pages: int
    dated: bool
    full_size_parts: int
    missing_letters: str


def sheet(chosen: Namespace) -> int:
    """Write the sheets; return 0, or 1 where a build is missing or no plan gave it dates."""
    check_sheet_file(chosen.output)
    scale = _scale(chosen)
    asked = week_asked(chosen)
    warn((*asked.missing, *asked.told))
    tell_air(asked.air)
    is_undated = chosen.undated or chosen.parts_only
    table = None if is_undated else _planned(asked)
    written = [
        _write(chosen, build, table, file, scale) for build, file in _files(chosen.output, asked)
    ]
    if chosen.json:
        say_json({"sheets": written})
    else:
        for one in written:
            held = f"{one.full_size_parts} parts" if chosen.parts_only else f"{one.steps} steps"
            say(f"Written: {one.file} ({one.title}: {held} on {one.pages} pages)")
    is_dated = table is not None or is_undated
    return CLEAN if is_dated and not asked.missing else FAULTY


def _files(output: Path, asked: WeekAsked) -> list[tuple[PlannedBuild, Path]]:
    """Return a file for each build: the one named, or of several each its own beside it."""
    if len(asked.builds) == 1:
        return [(asked.builds[0], output)]
    found = [
        (build, output.with_name(f"{output.stem}-{build.id}{output.suffix}"))
        for build in asked.builds
    ]
    for _, file in found:
        check_sheet_file(file)
    return found


def _planned(asked: WeekAsked) -> WeekTable | None:
    """Return the serial plan as a table; ``None`` where there is none, which is told."""
    plan = None
    if not asked.hindering:
        naming = naming_of(asked.shop, asked.problem)
        plan = taught_plan(asked.problem, first_plan(asked.problem, naming=naming))
    if plan is None or not plan.placed:
        why = plan.conflict if plan else "What hinders it is told above."
        tell(f"There is no plan, so the sheet tells no dates. {why}".strip())
        return None
    return asked.table(plan)


def _scale(chosen: Namespace) -> PrinterScale:
    """Return how the printer draws, as measured, or as it was kept; what is measured is kept.

    Raises:
        ArmorplanError: nothing is kept of that printer, it has no name, or cannot be kept.
    """
    name = None if chosen.printer is None else chosen.printer.strip()
    if name == "":
        raise ArmorplanError("The printer has no name. Write one, such as --printer office.")
    if chosen.bar is None:
        return TRUE_SCALE if name is None else kept_scale(printers_folder(), name)
    along_mm, up_mm = chosen.bar
    scale = PrinterScale(along_mm=along_mm, up_mm=up_mm, printer=name or "")
    if name:
        tell(f"Kept for '{name}': {keep_scale(printers_folder(), scale)}")
    return scale


def _write(
    chosen: Namespace,
    build: PlannedBuild,
    table: WeekTable | None,
    file: Path,
    scale: PrinterScale,
) -> SheetWritten:
    made = bench_sheet(
        SheetAsked(
            derived=build.derived,
            build=build.id,
            title=build.title,
            table=table,
            full_size=chosen.full_size or chosen.bar is not None or chosen.printer is not None,
            parts_only=chosen.parts_only,
            scale=scale,
        ),
        SystemClock(),
    )
    printed = save_sheet(file, made, PAPERS[chosen.paper])
    if printed.missing:
        tell(sheet_words(printed.missing))
    return SheetWritten(
        file=str(file),
        title=build.title,
        steps=len(build.derived.order),
        pages=printed.pages,
        dated=table is not None,
        full_size_parts=len(made.full),
        missing_letters=printed.missing,
    )
