"""``armorplan cutlist``: what is cut of which leather, how long it takes, how it lies on a bed."""

from argparse import Namespace
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from zoneinfo import ZoneInfo

from armorplan.app.cut_files import (
    MAKERS,
    check_beds,
    check_cut_table,
    save_beds,
    save_cut_table,
)
from armorplan.app.cut_lists import cut_list_of, cutter_beds
from armorplan.app.cut_log_words import log_section
from armorplan.app.cut_sections import cut_sections
from armorplan.app.derived import Derived
from armorplan.app.needs_rows import NeedsSection
from armorplan.cli.exits import CLEAN, FAULTY
from armorplan.cli.in_shop import derived_for
from armorplan.cli.reading import say, say_json, tell, warn
from armorplan.cli.section_lines import section_lines
from armorplan.kernel.clock import SystemClock
from armorplan.kernel.errors import ArmorplanError, WorkshopError
from armorplan.kernel.findings import Severity
from armorplan.needs.cutting.model import USUAL_MARGIN_MM, Bed, CutAsked, CutList, Cutter
from armorplan.store.places import default_workshop_path
from armorplan.store.workshop_file import WorkshopFile


def cutlist(chosen: Namespace) -> int:
    """Print the cut list; return 0, or 1 where something must not be cut as asked."""
    asked = _asked(chosen)
    derived = derived_for(chosen)
    found = cut_list_of(derived, asked)
    written = tuple(_write(chosen, derived, found))
    if chosen.json:
        say_json(found)
    else:
        say(f"{found.pattern}: what is cut")
        log = _log(chosen, derived, found)
        for section in (*cut_sections(found), *([log] if log else [])):
            say("")
            for line in section_lines(section):
                say(line)
        for file in written:
            say(f"Written: {file}")
    warn(found.findings)
    is_faulty = any(finding.severity is Severity.ERROR for finding in found.findings)
    return FAULTY if is_faulty else CLEAN


def _asked(chosen: Namespace) -> CutAsked:
    """Return what is asked; drawings for a cutter and a kerf speak of a machine.

    Raises:
        ArmorplanError: a drawing or a margin is asked for, and no bed is named.
    """
    needs_bed = [f"--{name}" for name in ("svg", "dxf") if getattr(chosen, name)]
    needs_bed += ["--margin"] if chosen.margin is not None else []
    if needs_bed and chosen.bed is None:
        message = f"{needs_bed[0]} speaks of beds. Name their size too: --bed 600x400."
        raise ArmorplanError(message)
    for ending in ("svg", "dxf"):
        file: Path | None = getattr(chosen, ending)
        if file is not None and file.suffix.lower() != f".{ending}":
            message = f"{file}: let the name of the file end in .{ending}."
            raise ArmorplanError(message)
    return CutAsked(cutter=_cutter(chosen), bed=_bed(chosen), kerf_mm=chosen.kerf)


def _cutter(chosen: Namespace) -> Cutter:
    if chosen.knife_table:
        return Cutter.KNIFE_TABLE
    is_machine = chosen.machine or chosen.svg or chosen.dxf or chosen.kerf
    return Cutter.LASER if is_machine else Cutter.HAND


def _bed(chosen: Namespace) -> Bed | None:
    if chosen.bed is None:
        return None
    wide_mm, high_mm = chosen.bed
    margin_mm = USUAL_MARGIN_MM if chosen.margin is None else chosen.margin
    return Bed(wide_mm=wide_mm, high_mm=high_mm, margin_mm=margin_mm)


def _log(chosen: Namespace, derived: Derived, found: CutList) -> NeedsSection | None:
    """Return what cut each leather last by the log of the workshop; no workshop is made for it."""
    path = chosen.workshop or default_workshop_path()
    if not found.asked.cutter.is_machine or not path.exists():
        return None
    try:
        with closing(WorkshopFile.open(path, SystemClock())) as workshop:
            settings = workshop.cut_log.all()
    except WorkshopError as error:
        tell(f"{error} Its log of cuts is not told here.")
        return None
    return log_section(found, settings, ZoneInfo(derived.shop.zone))


def _write(chosen: Namespace, derived: Derived, found: CutList) -> Iterator[Path]:
    """Write what is asked for, once all of it can be written, and yield the files."""
    drawings = [file for ending in MAKERS if (file := getattr(chosen, ending.removeprefix(".")))]
    beds = cutter_beds(derived, found) if drawings else ()
    if chosen.csv:
        check_cut_table(chosen.csv)
    for file in drawings:
        check_beds(file, beds)
    if chosen.csv:
        save_cut_table(chosen.csv, found)
        yield chosen.csv
    for file in drawings:
        yield from save_beds(file, beds)
