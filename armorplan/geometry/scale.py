"""A drawing read in the wrong unit: every part and every hole is many times too small or too large."""

from statistics import median

from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.widths import is_flat
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.pattern import Pattern

SMALL_PART_MM = 150.0
SMALL_HOLE_MM = 1.2
"""Punches for leather begin at about 2 mm, fasteners need 2.5 mm; a tenth of a hand's size, and half
of the finest punch, is read in the wrong unit (common practice, no source)."""
LARGE_PART_MM = 1_000.0
LARGE_HOLE_MM = 12.0
"""A cow's side is some 2 m long, and no fastener needs a hole of 12 mm (common practice, no source)."""
FEW_HOLES = 3
"""So few holes tell no scale."""


def scale_finding(pattern: Pattern) -> Finding | None:
    """Return one finding if the whole drawing is very small or very large, with what it measures."""
    holes_mm = [hole.diameter_mm for part in pattern.parts for hole in part.holes]
    sizes_mm = [rectangle_mm(part.outline)[0] for part in pattern.parts if is_flat(part)]
    if len(holes_mm) < FEW_HOLES or not sizes_mm:
        return None
    largest_mm, hole_mm = max(sizes_mm), median(holes_mm)
    if largest_mm < SMALL_PART_MM and hole_mm < SMALL_HOLE_MM:
        what = "small"
    elif largest_mm > LARGE_PART_MM and hole_mm > LARGE_HOLE_MM:
        what = "large"
    else:
        return None
    asked = "cm or inches" if what == "small" else "mm"
    return Finding(
        code="drawing-scale",
        severity=Severity.WARNING,
        text=(
            f"Everything is very {what}: the largest part is {largest_mm:.0f} mm long, holes "
            f"{hole_mm:.1f} mm: is the drawing's width in {asked}?"
        ),
        remedy="Mend width, height and viewBox of the drawing; holes, slots and straps are judged "
        "once its size is right.",
    )
