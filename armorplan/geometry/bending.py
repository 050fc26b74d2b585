"""What bending and stretching ask of leather: radii it cracks at, straps cut across the back."""

from collections.abc import Iterator
from math import atan2, degrees, dist

from armorplan.geometry.widths import LIMP
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Form, FormKind, Route
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern

DRY_THICKNESSES = 3.0
"""Least inner radius of a dry bend, in thicknesses (common practice, no source)."""
DAMP_THICKNESSES = 1.0
"""Least inner radius of a bend made damp, in thicknesses (common practice, no source)."""
_DAMP = frozenset((Route.DAMP, Route.HARDENED, Route.WET_FOLD))
BACKBONE_DEG = 30.0
"""Further off the backbone than this a strap stretches (common practice, no source)."""
_SQUARE = 0.9
"""Sides nearer to each other than this share leave it open which one is the long one."""


def outer_strain_pct(radius_mm: float, thickness_mm: float) -> float:
    """Return how much the outer fibre stretches in a bend, in per cent.

    Beam theory with the neutral line in the middle: (t/2) / (R + t/2).
    """
    half_mm = thickness_mm / 2
    return 100 * half_mm / (radius_mm + half_mm)


def _too_tight(form: Form, part: Part) -> Finding | None:
    """Return a bend below the usual radius.

    Straps are supple, and folded tight as a matter of course: they are left out. A skived part counts half its thickness, as one that is grooved along the fold.
    """
    if form.radius_mm is None or (form.kind is FormKind.FOLD and part.kind in LIMP):
        return None
    damp = form.route in _DAMP
    thickness_mm = part.thickness_mm / (2 if part.skived else 1)
    least_mm = thickness_mm * (DAMP_THICKNESSES if damp else DRY_THICKNESSES)
    if form.radius_mm >= least_mm:
        return None
    return Finding(
        code="bend-too-tight",
        severity=Severity.NOTE,
        text=f"'{form.id}' bends {part.name}, {thickness_mm:.1f} mm thick"
        f"{' where skived' * part.skived}, {'damp' if damp else 'dry'} to a radius of {form.radius_mm:g} mm; {least_mm:.1f} mm is "
        f"the least usual. The outside stretches by "
        f"{outer_strain_pct(form.radius_mm, thickness_mm):.0f} %.",
        remedy="Skive or groove it along the fold to half its thickness, or use a larger radius"
        f"{'.' if damp else ', or shape it damp.'}",
        about=(form.id, part.id),
    )


def long_side_deg(part: Part) -> float | None:
    """Return where a part's long side lies, 0 to 180 with 0 to the right and 90 up the page.

    The long side is that of the smallest rectangle around the outline; ``None`` for a square or
    an outline without area.
    """
    from shapely import MultiPoint, Polygon

    around = MultiPoint(part.outline).minimum_rotated_rectangle
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


def bending_findings(pattern: Pattern) -> Iterator[Finding]:
    """Yield bends tighter than leather likes, straps across the backbone, tooling that is hidden."""
    for form in pattern.forms:
        found = (_too_tight(form, pattern.part(part)) for part in form.parts)
        yield from (finding for finding in found if finding is not None)
    for part in pattern.parts:
        for finding in (_off_backbone(part), _hidden_tooling(part)):
            if finding is not None:
                yield finding
