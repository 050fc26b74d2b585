"""What is drawn of a bend: its zone and axis on the flat part, and its section seen along the axis."""

from collections.abc import Iterator
from dataclasses import replace
from math import degrees, pi

from armorplan.geometry.bends.allowance import WHOLE_TURN_DEG
from armorplan.geometry.bends.formed import Bent, axis_on, bend_zone
from armorplan.geometry.bends.lines import across_axis
from armorplan.geometry.bends.rows import hole_in
from armorplan.geometry.bends.slides import LayerSlide
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.pictures import BendPicture, Layer
from armorplan.kernel.findings import Severity
from armorplan.pattern.parts import Part
from armorplan.pattern.pattern import Pattern

_LEG_MM = 15.0
"""What is drawn straight beside a bend whose legs are not known."""


def bend_marks(part: Part, bent: Bent, label: str, severity: Severity | None) -> Iterator[Mark]:
    """Yield the axis on a part, and the strip of it that bends with what is said of it."""
    if bent.axis is None:
        return
    line = axis_on(part.outline, bent.axis)
    if line is not None:
        yield Mark(kind=MarkKind.LINE, part=part.id, spots=line)
    for ring in bend_zone(part.outline, bent.axis, bent.allowance_mm or 0.0):
        yield Mark(kind=MarkKind.ZONE, part=part.id, spots=ring, label=label, severity=severity)


def part_picture(part: Part, bent: Bent) -> BendPicture | None:
    """Return the section of a bent part; ``None`` where radius or angle is not known."""
    if bent.radius_mm is None or not bent.angle_deg:
        return None
    return BendPicture(
        radius_mm=bent.radius_mm,
        angle_deg=bent.angle_deg,
        legs_mm=bent.legs_mm or (_LEG_MM, _LEG_MM),
        legs_known=bent.legs_mm is not None,
        layers=(_layer(part),),
    )


def slide_picture(
    pattern: Pattern, slide: LayerSlide, outer: tuple[Part, Bent], inner: tuple[Part, Bent]
) -> BendPicture | None:
    """Return the section of two layers with holes and ends as they lie bent, punched flat.

    The inner row is laid round its layer's neutral line from the middle of the bend, or of the row
    where no axis tells where the bend lies; the outer row lies behind it by what it is told to part.
    """
    if not slide.radius_mm:
        return None
    (over, _), (under, under_bent) = outer, inner
    legs, over_legs = (_legs(pattern, slide, *each) for each in (inner, outer))
    washer_mm = max(0.0, slide.apart_mm - (over.thickness_mm + under.thickness_mm) / 2)
    places = slide.places_mm
    parted = slide.parted_mm or (0.0,) * len(places)
    middle = (places[0] + places[-1]) / 2 if slide.axis_mm is None else slide.axis_mm
    spread = places[-1] - places[0]
    round_mm = slide.radius_mm + under_bent.neutral * under.thickness_mm
    over_mm = slide.radius_mm + under.thickness_mm + washer_mm + over.thickness_mm / 2
    all_deg = min(WHOLE_TURN_DEG, under_bent.angle_deg or degrees(spread / round_mm))
    angle_deg = slide.angle_deg or all_deg
    arc_mm = angle_deg * pi / 180 * round_mm
    beside = max(0.0, (spread - arc_mm) / 2) + _LEG_MM
    washers = (Layer(name="washer", thick_mm=washer_mm, kind="washer"),) if washer_mm else ()
    return BendPicture(
        radius_mm=slide.radius_mm,
        angle_deg=angle_deg,
        legs_mm=legs or (beside, beside),
        legs_known=legs is not None,
        layers=(
            replace(_layer(over), legs_mm=over_legs if legs else None),
            *washers,
            _layer(under),
        ),
        outer_deg=tuple(
            degrees((place - middle) / round_mm - parted_mm / over_mm)
            for place, parted_mm in zip(places, parted, strict=True)
        ),
        inner_deg=tuple(degrees((place - middle) / round_mm) for place in places),
    )


def _legs(
    pattern: Pattern, slide: LayerSlide, part: Part, bent: Bent
) -> tuple[float, float] | None:
    """Return what stays straight of a layer, in the order in which the slide has its holes."""
    across = across_axis(bent.axis) if bent.axis is not None else None
    if bent.legs_mm is None or across is None:
        return None
    first, last = (
        across.place_mm(hole_in(pattern, joint, part.id).centre)
        for joint in (slide.joints[0], slide.joints[-1])
    )
    return bent.legs_mm if first <= last else bent.legs_mm[::-1]


def _layer(part: Part) -> Layer:
    return Layer(name=part.name, thick_mm=part.thickness_mm, kind=part.kind)
