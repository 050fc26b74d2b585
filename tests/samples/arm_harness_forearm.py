"""The lower arm of the arm harness: two plates that close round the forearm, hinged at the far side.

Both are pieces of one cone. The outer one lies at the back of the arm: seen from outside its far side
is to the left; of the inner one, at the front, to the right.
"""

from __future__ import annotations

from math import radians

from samples.arm_harness_bands import Holes, band, numbered
from samples.arm_harness_measures import (
    CAP_MM,
    END_MM,
    LIGHT_BURR_MM,
    RIM_MM,
    SLOT_ROOM_MM,
    TURNING_MM,
    WIDE,
    Arm,
)
from samples.arm_harness_plates import (
    TRIM_OUT_MM,
    TRIM_WIDE_MM,
    both,
    edge_at,
    plate_outline,
    rib_rows,
    trim_turns,
)
from samples.shapes import Path, Point, Shape, oblong, strip, turned

RIB_TURN = radians(16)
RIB = (62.0, 4)
HINGES_MM = {"wrist_hinge": 78.0, "fore_hinge": 132.0}
"""Height of the middle of each hinge."""
HINGE_STEP_MM, HINGE_ROWS_MM = 20.0, 34.0
"""Between the rivets of a hinge: along the limb, and from plate to plate."""
GAP_MM = 6.0
"""Between the two plates, on either side, where they are closed."""
WRIST_TRIM = 6
INNER_LOW_MM = 28.0
"""How much lower the inner plate stands at its middle, so that the arm can bend."""


def lower_side(arm: Arm) -> float:
    """Return the same of the outer forearm plate."""
    cone = arm.lower_cone
    return WIDE + cone.turn(cone.slant_mm, END_MM)


def inner_side(arm: Arm) -> float:
    """Return the angle from the middle of the inner forearm plate to its side."""
    cone = arm.lower_cone
    return radians(180) - lower_side(arm) - cone.turn(cone.slant_mm / 2, GAP_MM)


def wrist_trim_row(arm: Arm, *, out_mm: float = 0.0) -> tuple[Point, ...]:
    """Return the row along the wrist edge of the outer forearm plate, or on a layer further out."""
    cone, up_mm = arm.lower_cone, TRIM_WIDE_MM / 2
    plain = edge_at(cone, lambda _: up_mm)
    turns = trim_turns(plain, cone, lower_side(arm), up_mm, WRIST_TRIM)
    return tuple(cone.flat(up_mm, turn, out_mm=out_mm) for turn in turns)


def wrist_trim(arm: Arm, at: Point) -> Shape:
    """Draw the trim of the wrist."""
    cone = arm.lower_cone
    edge = edge_at(cone, lambda _: TRIM_WIDE_MM, out_mm=TRIM_OUT_MM)
    end = lower_side(arm) - cone.turn(0.0, TRIM_WIDE_MM / 2)
    row = numbered("wrist_trim", wrist_trim_row(arm, out_mm=TRIM_OUT_MM), CAP_MM)
    axis = ("wrist_trim_axis", edge(0.0), cone.flat(0.0, 0.0, out_mm=TRIM_OUT_MM))
    return Shape("wrist_trim", band(edge, -end, end, wide_mm=TRIM_WIDE_MM), at, row, axes=(axis,))


def lower_slot(arm: Arm) -> Path:
    """Draw the slot that the post at the back of the lower lame slides in, standing."""
    slide_mm = arm.slide_mm("lower_lame")
    rest = arm.lower_cone.slant_mm - (arm.overlap_mm("lower_lame") - RIM_MM)
    slot = oblong((0.0, 0.0), length_mm=slide_mm + TURNING_MM + 1.0, width_mm=TURNING_MM)
    return turned(slot, arm.lower_cone.flat(rest + slide_mm / 2, 0.0), 90.0)


def hinge_holes(arm: Arm, prefix: str, side: float) -> Holes:
    """Return the hinge rows of a plate at a side; the sign says on which hand it lies."""
    cone, found = arm.lower_cone, []
    for hinge, middle in HINGES_MM.items():
        turn = side - (1 if side > 0 else -1) * cone.turn(middle, RIM_MM)
        ups = (middle - HINGE_STEP_MM, middle, middle + HINGE_STEP_MM)
        spots = tuple(cone.flat(up_mm, turn) for up_mm in ups)
        found += numbered(f"{prefix}_{hinge}", spots, LIGHT_BURR_MM)
    return tuple(found)


def hinge(name: str, at: Point) -> Shape:
    """Draw a hinge leather as it stands at the far side, seen from there: the outer plate is to the right."""
    long_mm, wide_mm = 2 * HINGE_STEP_MM + 22.0, HINGE_ROWS_MM + 20.0
    x, y = wide_mm / 2, long_mm / 2
    path = Path().move((-x + 6, -y)).line((x - 6, -y)).bend((x, -y), (x, -y + 6))
    path.line((x, y - 6)).bend((x, y), (x - 6, y)).line((6 - x, y)).bend((-x, y), (-x, y - 6))
    path.line((-x, 6 - y)).bend((-x, -y), (6 - x, -y))
    rows = [
        numbered(
            f"{name}_{plate}",
            tuple((across, HINGE_STEP_MM * (1 - n)) for n in range(3)),
            LIGHT_BURR_MM,
        )
        for plate, across in (("outer", HINGE_ROWS_MM / 2), ("inner", -HINGE_ROWS_MM / 2))
    ]
    return Shape(name, path, at, (*rows[0], *rows[1]))


def lower_plate(arm: Arm, at: Point, fittings: tuple[Holes, tuple]) -> Shape:
    """Draw the outer forearm plate."""
    cone, side = arm.lower_cone, lower_side(arm)
    high = cone.slant_mm
    top, low = edge_at(cone, lambda _: high + END_MM), edge_at(cone, lambda _: 0.0)
    holes, slots = fittings
    return Shape(
        "lower_plate",
        plate_outline(top, low, (-side, side), corner_mm=10.0),
        at,
        (
            *both("lower_pivot", cone, high),
            *rib_rows("lower_plate_rib", cone, RIB_TURN, RIB),
            *numbered("wrist_edge", wrist_trim_row(arm), CAP_MM),
            *hinge_holes(arm, "outer", -side),
            *holes,
        ),
        (("plate_slide", lower_slot(arm)), *slots),
        (("lower_plate_axis", top(0.0), low(0.0)),),
    )


def inner_plate(arm: Arm, at: Point, fittings: Holes) -> Shape:
    """Draw the inner forearm plate: cut low at the elbow."""
    cone, side = arm.lower_cone, inner_side(arm)
    high = cone.slant_mm - INNER_LOW_MM
    top = edge_at(cone, lambda turn: high + SLOT_ROOM_MM * (turn / side) ** 2)
    low = edge_at(cone, lambda _: 0.0)
    return Shape(
        "inner_plate",
        plate_outline(top, low, (-side, side), corner_mm=10.0),
        at,
        (*hinge_holes(arm, "inner", side), *fittings),
        (),
        (("inner_plate_axis", top(0.0), low(0.0)),),
    )


def wrist_binding(arm: Arm, at: Point) -> Shape:
    """Draw the binding of the inner plate's wrist edge: folded round it along its middle."""
    cone = arm.lower_cone
    half = inner_side(arm) * cone.radius_mm(0.0)
    return Shape(
        "wrist_binding",
        strip(2 * half, 26.0),
        at,
        axes=(("binding_fold", (2.0, 0.0), (2 * half - 2.0, 0.0)),),
    )


def lower_padding(arm: Arm, at: Point) -> Shape:
    """Draw the felt inside the outer plate, below the slot and clear of hinges and tabs."""
    cone, side = arm.lower_cone, radians(36)
    outline = plate_outline(
        edge_at(cone, lambda _: 152.0),
        edge_at(cone, lambda _: 26.0),
        (-side, side),
        corner_mm=12.0,
    )
    return Shape("lower_padding", outline, at)


def inner_lining(arm: Arm, at: Point) -> Shape:
    """Draw the suede inside the inner plate; it keeps off the hinge leathers.

    It is drawn from the face that is seen on the wearer's arm turned outward, as its plate is.
    """
    cone, side = arm.lower_cone, inner_side(arm)
    outline = plate_outline(
        edge_at(cone, lambda _: cone.slant_mm - INNER_LOW_MM - 6.0),
        edge_at(cone, lambda _: 18.0),
        (-side + cone.turn(18.0, 6.0), side - cone.turn(18.0, 30.0)),
        corner_mm=10.0,
    )
    return Shape("inner_lining", outline, at)
