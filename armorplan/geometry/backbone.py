"""Which way leather lies: straps cut across the back, tooling on the side that is hidden."""

from collections.abc import Iterator
from functools import lru_cache
from math import atan2, degrees, dist

from armorplan.geometry.widths import LIMP
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.parts import Part, Ring
from armorplan.pattern.pattern import Pattern

BACKBONE_DEG = 30.0
"""Further off the backbone than this a strap stretches (common practice, no source)."""
_SQUARE = 0.9
"""Sides nearer to each other than this share leave it open which one is the long one."""


def long_side_deg(part: Part) -> float | None:
    """Return where a part's long side lies, 0 to 180 with 0 to the right and 90 up the page.

    The long side is that of the smallest rectangle around the outline; ``None`` for a square or
    an outline without area.
    """
    return _long_side_deg(part.outline)


@lru_cache(maxsize=1024)
def _long_side_deg(outline: Ring) -> float | None:
    from shapely import MultiPoint, Polygon

    if not outline:
        return None
    around = MultiPoint(outline).minimum_rotated_rectangle
    if not isinstance(around, Polygon):
        return None
    a, b, c, *_ = around.exterior.coords
    sides = sorted(((a, b), (b, c)), key=lambda side: dist(*side))
    if dist(*sides[0]) > _SQUARE * dist(*sides[1]):
        return None
    (x0, y0), (x1, y1) = sides[1]
    return degrees(atan2(y0 - y1, x1 - x0)) % 180


def _off_backbone(part: Part) -> Finding | None:
    if part.backbone_deg is None or part.kind not in LIMP:
        return None
    lies_deg = long_side_deg(part)
    if lies_deg is None:
        return None
    off_deg = abs((lies_deg - part.backbone_deg + 90) % 180 - 90)
    if off_deg <= BACKBONE_DEG:
        return None
    return Finding(
        code="strap-off-backbone",
        severity=Severity.NOTE,
        text=f"{part.name} lies {off_deg:.0f}° off the backbone; beyond {BACKBONE_DEG:.0f}° a "
        "strap stretches in wear.",
        remedy="Lay it along the backbone on the hide, or mend backbone_deg.",
        about=(part.id,),
    )


_ARTICLES = ("a ", "an ", "the ")


def _hidden_tooling(part: Part) -> Finding | None:
    if part.grain_out or part.tooling is None:
        return None
    shown = part.tooling if part.tooling.startswith(_ARTICLES) else f"the {part.tooling}"
    return Finding(
        code="tooling-faces-inward",
        severity=Severity.NOTE,
        text=f"{part.name} is tooled, but its grain side lies inward: {shown} would not be seen.",
        remedy='Write grain = "out", or leave the tooling out.',
        about=(part.id,),
    )


def lay_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield straps across the backbone, and tooling that is hidden."""
    for part in pattern.parts:
        for finding in (_off_backbone(part), _hidden_tooling(part)):
            if finding is not None:
                yield finding
