"""The cut list as one table of comma-separated values (RFC 4180), for any spreadsheet."""

import csv
from io import StringIO

from armorplan.needs.cutting.model import CutLeather, CutList, CutPart
from armorplan.sheets.needs_csv import guarded

COLUMNS = (
    "leather",
    "thickness mm",
    "part",
    "sides",
    "pieces",
    "blank length mm",
    "blank width mm",
    "backbone",
    "area dm2 each",
    "outline mm each",
    "holes each",
    "holes mm each",
    "slots each",
    "slots mm each",
    "cut mm in all",
    "by hand min",
    "by machine min",
)


def cut_csv(found: CutList) -> str:
    """Return the table as text, lines ended by CR LF; write it without changing line ends."""
    held = StringIO(newline="")
    table = csv.writer(held)
    table.writerow(COLUMNS)
    for leather in found.leathers:
        table.writerows(_row(leather, part) for part in leather.parts)
    return held.getvalue()


def _row(leather: CutLeather, part: CutPart) -> tuple[object, ...]:
    return (
        guarded(leather.name),
        f"{leather.thickness_mm:g}",
        guarded(part.name),
        " ".join(part.sides),
        part.pieces,
        *(f"{side:.1f}" for side in part.size_mm),
        "along" if part.backbone else "any",
        f"{part.area_dm2:.3f}",
        f"{part.outline_mm:.1f}",
        part.holes,
        f"{part.holes_mm:.1f}",
        part.slots,
        f"{part.slots_mm:.1f}",
        f"{part.cut_mm * part.pieces:.1f}",
        f"{part.hand_min:.1f}",
        f"{part.machine_min:.1f}",
    )
