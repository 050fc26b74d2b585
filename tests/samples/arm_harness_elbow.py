"""The elbow of the arm harness: four lames and a winged cop on turning pivots.

Seen from outside, from behind the wearer: the far side, with the wing, is to the left. A lame is
drawn about the middle of the line through its pivots on the plate outside it.
"""

from __future__ import annotations

from math import cos, pi, radians, sin

from samples.arm_harness_bands import Holes, band, even_turns, numbered
from samples.arm_harness_measures import (
    CAP_MM,
    COP_PIVOTS_MM,
    END_MM,
    LEATHER_EASE_MM,
    LEATHER_ON_PLATE_MM,
    LOW_MM,
    PIVOTS_APART_MM,
    RIM_MM,
    SCREW_MM,
    SLOT_ROOM_MM,
    TUBULAR_MM,
    TURNING_MM,
    Arm,
)
from samples.shapes import Curve, Path, Point, Shape, oblong, strip, turned

WING_MM, WING_IN_MM = 52.0, 6.0
"""Radius of the wing, and how far its middle lies beyond the pivots."""
WING_FROM = radians(58)
WING_RIVETS = 4
BOSS_UP_MM = 7.0
"""How far above the middle of the cop the boss sits: in what no lame slides over."""
BOSS_APART_MM = 15.0
LEATHER_UP_MM = 10.0
"""How far above the pivots outside it a lame is riveted to the leather."""


def _pair(prefix: str, half_mm: float, y: float) -> Holes:
    return (
        (f"{prefix}_far", (-half_mm, y), TURNING_MM),
        (f"{prefix}_near", (half_mm, y), TURNING_MM),
    )


def crescent(half_mm: float, *, high_mm: float, low_mm: float = 0.0) -> Path:
    """Draw a lame: round ends about two pivots each, ``high_mm`` up and ``low_mm`` down at the back.

    Its upper edge rises from the pivots in a wave to a soft point.
    """
    out, up = half_mm + END_MM, PIVOTS_APART_MM
    path = Path().move((out, 0.0)).line((out, -up))
    path.arc(END_MM, (half_mm, -up - END_MM), clockwise=False)
    path.sweep((half_mm - 22.0, -up - END_MM), (52.0, -high_mm), (30.0, -high_mm))
    path.sweep((18.0, -high_mm), (8.0, -high_mm - 1.0), (0.0, -high_mm - 4.0))
    path.sweep((-8.0, -high_mm - 1.0), (-18.0, -high_mm), (-30.0, -high_mm))
    path.sweep((-52.0, -high_mm), (22.0 - half_mm, -up - END_MM), (-half_mm, -up - END_MM))
    path.arc(END_MM, (-out, -up), clockwise=False).line((-out, 0.0))
    path.arc(END_MM, (-half_mm, END_MM), clockwise=False)
    path.sweep((-half_mm * 0.62, END_MM), (-half_mm * 0.5, low_mm), (0.0, low_mm))
    path.sweep((half_mm * 0.5, low_mm), (half_mm * 0.62, END_MM), (half_mm, END_MM))
    return path.arc(END_MM, (out, 0.0), clockwise=False)


def upper_lame(arm: Arm, name: str, at: Point) -> Shape:
    """Draw one of the three lames above the cop."""
    half = arm.half_mm(name)
    reach = arm.overlap_mm(name)
    if name == "top_lame":
        reach -= LOW_MM
    high = PIVOTS_APART_MM + reach
    return Shape(
        name,
        crescent(half, high_mm=high),
        at,
        (
            *_pair(f"{name}_out", half, 0.0),
            *_pair(f"{name}_in", half, -PIVOTS_APART_MM),
            (f"{name}_leather", (0.0, -LEATHER_UP_MM), TUBULAR_MM),
        ),
        (),
        ((f"{name}_axis", (0.0, -high - 4.0), (0.0, 0.0)),),
    )


def lower_lame(arm: Arm, at: Point) -> Shape:
    """Draw the lame below the cop: it is led by a slot, and leads the forearm plate by a post."""
    half, slide = arm.half_mm("lower_lame"), arm.slide_mm("cop")
    reach = PIVOTS_APART_MM + arm.overlap_mm("lower_lame")
    rest = arm.overlap_mm("cop") - RIM_MM
    slot = turned(
        oblong((0.0, 0.0), length_mm=slide + TURNING_MM + 1.0, width_mm=TURNING_MM),
        (0.0, rest - slide / 2),
        90.0,
    )
    return Shape(
        "lower_lame",
        turned(crescent(half, high_mm=reach, low_mm=SLOT_ROOM_MM), (0.0, 0.0), 180.0),
        at,
        (
            *_pair("lower_lame_out", half, 0.0),
            *_pair("lower_lame_in", half, PIVOTS_APART_MM),
            ("lower_lame_post", (0.0, reach - RIM_MM), TURNING_MM),
        ),
        (("lame_slide", slot),),
        (("lower_lame_axis", (0.0, -SLOT_ROOM_MM), (0.0, reach + 4.0)),),
    )


def wing_edge(half_mm: float, inset_mm: float) -> Curve:
    """Return the curve along the wing, from below to above, ``inset_mm`` inside its edge."""

    def spot(t: float) -> Point:
        radius = WING_MM - inset_mm
        return -half_mm - WING_IN_MM + radius * cos(pi - t), -radius * sin(pi - t)

    return spot


def cop_outline(half_mm: float, high_mm: float) -> Path:
    """Draw the cop: round at the body's side, a wing at the far side."""
    out, end = half_mm + END_MM, COP_PIVOTS_MM / 2
    edge = wing_edge(half_mm, 0.0)
    above, below = edge(WING_FROM), edge(-WING_FROM)
    dip = (-half_mm + 4.0, -end - 19.0)
    path = Path().move((out, end)).line((out, -end))
    path.arc(END_MM, (half_mm, -end - END_MM), clockwise=False)
    path.sweep((half_mm * 0.66, -end - END_MM), (half_mm * 0.45, -high_mm), (0.0, -high_mm))
    path.sweep((-half_mm * 0.45, -high_mm), (dip[0] + 30.0, dip[1]), dip)
    path.sweep((dip[0] - 12.0, dip[1]), (above[0] + 14.0, above[1] - 7.0), above)
    path.along(edge, WING_FROM, -WING_FROM, 6)
    path.sweep((below[0] + 14.0, below[1] + 7.0), (dip[0] - 12.0, -dip[1]), (dip[0], -dip[1]))
    path.sweep((dip[0] + 30.0, -dip[1]), (-half_mm * 0.45, high_mm), (0.0, high_mm))
    path.sweep((half_mm * 0.45, high_mm), (half_mm * 0.66, end + END_MM), (half_mm, end + END_MM))
    return path.arc(END_MM, (out, end), clockwise=False)


def wing_row(half_mm: float) -> tuple[Point, ...]:
    """Return the rivets along the wing, from below to above."""
    curve = wing_edge(half_mm, 10.0)
    end = WING_FROM - 10.0 / (WING_MM - 10.0)
    return tuple(curve(t) for t in even_turns(curve, -end, end, WING_RIVETS))


def cop(arm: Arm, at: Point) -> Shape:
    half, end = arm.half_mm("cop"), COP_PIVOTS_MM / 2
    high = end + arm.overlap_mm("cop")
    return Shape(
        "cop",
        cop_outline(half, high),
        at,
        (
            *_pair("cop_upper", half, -end),
            *_pair("cop_lower", half, end),
            ("cop_post", (0.0, high - RIM_MM), TURNING_MM),
            ("cop_leather", (0.0, -BOSS_UP_MM), TUBULAR_MM),
            ("cop_boss_far", (-BOSS_APART_MM, -BOSS_UP_MM), CAP_MM),
            ("cop_boss_near", (BOSS_APART_MM, -BOSS_UP_MM), CAP_MM),
            *numbered("cop_wing", wing_row(half), CAP_MM),
        ),
    )


def wing_trim(arm: Arm, at: Point) -> Shape:
    """Draw the trim of the wing, lying where it lies on the cop."""
    half = arm.half_mm("cop")
    end = WING_FROM - 10.0 / (WING_MM - 10.0)
    outline = band(wing_edge(half, 0.0), -end, end, wide_mm=20.0)
    return Shape("wing_trim", outline, at, numbered("wing_trim", wing_row(half), CAP_MM))


def boss(at: Point) -> Shape:
    """Draw the lantern on the cop: a housing with a shouldered head."""
    path = (
        Path()
        .move((-28.0, -6.0))
        .bend((-24.0, -18.0), (-8.0, -20.0))
        .bend((0.0, -29.0), (8.0, -20.0))
    )
    path.bend((24.0, -18.0), (28.0, -6.0)).line((26.0, 6.0)).bend((22.0, 17.0), (8.0, 19.0))
    path.line((-8.0, 19.0)).bend((-22.0, 17.0), (-26.0, 6.0)).line((-28.0, -6.0))
    holes = (
        ("boss_far", (-BOSS_APART_MM, 0.0), CAP_MM),
        ("boss_near", (BOSS_APART_MM, 0.0), CAP_MM),
    )
    return Shape("boss", path, at, holes)


def back_leather(arm: Arm, at: Point) -> Shape:
    """Draw the leather inside the back, lying, its lower end to the left.

    It is all but straight when the arm is bent to the end, and then keeps the lames from parting.
    """
    outside = {"third_lame": "cop", "second_lame": "third_lame", "top_lame": "second_lame"}
    x = 12.0
    holes = [("leather_cop", (x, 0.0), TUBULAR_MM)]
    for lame, outer in outside.items():
        above = PIVOTS_APART_MM
        if outer == "cop":
            above = LEATHER_UP_MM + COP_PIVOTS_MM / 2 - BOSS_UP_MM
        x += above + arm.slide_mm(outer) + LEATHER_EASE_MM
        holes.append((f"leather_{lame}", (x, 0.0), TUBULAR_MM))
    x += LEATHER_ON_PLATE_MM + PIVOTS_APART_MM - LEATHER_UP_MM
    x += arm.slide_mm("top_lame") + LEATHER_EASE_MM
    holes.append(("leather_plate", (x, 0.0), SCREW_MM))
    return Shape("back_leather", strip(x + 14.0, 28.0), at, tuple(holes))
