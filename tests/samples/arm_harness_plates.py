"""The upper arm of the arm harness: a plate that is a piece of a cone, with trim, ribs and padding.

Seen from outside, from behind the wearer, the arm hanging: the side away from the body (far) is to
the left.
"""

from __future__ import annotations

from collections.abc import Callable
from math import hypot, radians, sin

from samples.arm_harness_bands import Holes, band, even_turns, numbered
from samples.arm_harness_measures import (
    BURR_MM,
    CAP_MM,
    END_MM,
    LEATHER_ON_PLATE_MM,
    LOW_MM,
    PLATE_MM,
    SCREW_MM,
    TRIM_MM,
    TURNING_MM,
    WIDE,
    Arm,
    Cone,
)
from samples.shapes import Curve, Path, Point, Shape, slope, strip, turned

TALL_MM = 24.0
"""How much higher the upper plate stands at the far side than at the body."""
TRIM_WIDE_MM, RIB_WIDE_MM = 20.0, 20.0
TRIM_OUT_MM = (PLATE_MM + TRIM_MM) / 2
"""Between the middles of a plate and of the trim on it."""
RIB_TURN = radians(30)
RIB_STEP_MM, RIB_END_MM = 22.0, 10.0
RIB = (26.0, 4)
"""Height of the lowest rivet of a rib, and how many there are."""
UPPER_TRIM = 9
"""Rivets of the trim."""

HANG_SPOTS = (("hang_far", -12.0, 92.0), ("hang_near", 12.0, 92.0), ("hang_low", 0.0, 72.0))
"""Rivets of the hanging tab: along the girth from the middle, and height on the plate."""

Height = Callable[[float], float]


def upper_side(arm: Arm) -> float:
    """Return the angle from the middle of the back to a side of the upper plate."""
    return WIDE + arm.upper_cone.turn(0.0, END_MM)


def upper_top_mm(arm: Arm, turn: float) -> float:
    """Return how high the upper plate reaches: highest at the far side."""
    part = turn / upper_side(arm)
    return arm.upper_cone.slant_mm + TALL_MM / 2 * (1 - sin(part * WIDE))


def edge_at(cone: Cone, height: Height, *, out_mm: float = 0.0) -> Curve:
    def spot(turn: float) -> Point:
        return cone.flat(height(turn), turn, out_mm=out_mm)

    return spot


def _towards(here: Point, there: Point, by_mm: float) -> Point:
    dx, dy = there[0] - here[0], there[1] - here[1]
    share = by_mm / hypot(dx, dy)
    return here[0] + dx * share, here[1] + dy * share


def plate_outline(top: Curve, low: Curve, sides: Point, *, corner_mm: float) -> Path:
    """Draw a plate between two edges from one side to the other, its corners rounded."""
    left, right = sides

    def cut(edge: Curve, turn: float) -> float:
        return corner_mm / hypot(*slope(edge, turn))

    start = top(left + cut(top, left))
    path = Path().move(start).along(top, left + cut(top, left), right - cut(top, right), 10)
    over, under = top(right), low(right)
    path.bend(over, _towards(over, under, corner_mm)).line(_towards(under, over, corner_mm))
    path.bend(under, low(right - cut(low, right)))
    path.along(low, right - cut(low, right), left + cut(low, left), 10)
    under, over = low(left), top(left)
    path.bend(under, _towards(under, over, corner_mm)).line(_towards(over, under, corner_mm))
    return path.bend(over, start)


def both(prefix: str, cone: Cone, up_mm: float) -> Holes:
    """Return the two pivots of a plate that lies at the back of the arm."""
    return (
        (f"{prefix}_far", cone.flat(up_mm, -WIDE), TURNING_MM),
        (f"{prefix}_near", cone.flat(up_mm, WIDE), TURNING_MM),
    )


def rib_rows(prefix: str, cone: Cone, turn: float, row: tuple[float, int]) -> Holes:
    """Return the holes for the two ribs of a plate, from the lower end of each."""
    first, count = row
    return tuple(
        hole
        for side, at in (("far", -turn), ("near", turn))
        for hole in numbered(
            f"{prefix}_{side}",
            tuple(cone.flat(first + n * RIB_STEP_MM, at) for n in range(count)),
            CAP_MM,
        )
    )


def rib(name: str, row: tuple[float, int], at: Point) -> Shape:
    """Draw a rib standing; its lowest rivet is the first."""
    _, count = row
    long_mm = (count - 1) * RIB_STEP_MM + 2 * RIB_END_MM
    spots = tuple((0.0, long_mm - RIB_END_MM - n * RIB_STEP_MM) for n in range(count))
    outline = turned(strip(long_mm, RIB_WIDE_MM), (0.0, 0.0), 90.0)
    return Shape(name, outline, at, numbered(name, spots, CAP_MM))


def trim_turns(edge: Curve, cone: Cone, side: float, up_mm: float, count: int) -> list[float]:
    inside = side - cone.turn(up_mm, TRIM_WIDE_MM / 2)
    return list(even_turns(edge, -inside, inside, count))


def upper_trim_row(arm: Arm, *, out_mm: float = 0.0) -> tuple[Point, ...]:
    """Return the row along the upper edge, on the plate or on a layer further out."""
    cone = arm.upper_cone

    def height(turn: float) -> float:
        return upper_top_mm(arm, turn) - TRIM_WIDE_MM / 2

    turns = trim_turns(edge_at(cone, height), cone, upper_side(arm), cone.slant_mm, UPPER_TRIM)
    return tuple(cone.flat(height(turn), turn, out_mm=out_mm) for turn in turns)


def upper_trim(arm: Arm, at: Point) -> Shape:
    """Draw the trim of the upper edge: longer than the edge, since it lies outside the plate."""
    cone = arm.upper_cone
    edge = edge_at(cone, lambda turn: upper_top_mm(arm, turn), out_mm=TRIM_OUT_MM)
    end = upper_side(arm) - cone.turn(cone.slant_mm, TRIM_WIDE_MM / 2)
    row = numbered("upper_trim", upper_trim_row(arm, out_mm=TRIM_OUT_MM), CAP_MM)
    axis = ("upper_trim_axis", edge(0.0), edge_at(cone, lambda _: 118.0, out_mm=TRIM_OUT_MM)(0.0))
    return Shape("upper_trim", band(edge, -end, end, wide_mm=TRIM_WIDE_MM), at, row, axes=(axis,))


def hang_row(cone: Cone) -> Holes:
    """Return the holes for the hanging tab."""
    return tuple(
        (f"upper_{name}", cone.flat(up_mm, cone.turn(up_mm, along)), BURR_MM)
        for name, along, up_mm in HANG_SPOTS
    )


def upper_plate(arm: Arm, at: Point, fittings: tuple[Holes, tuple]) -> Shape:
    """Draw the upper-arm plate: tall at the far side, round below where the first lame turns on it."""
    cone, side = arm.upper_cone, upper_side(arm)

    def low(turn: float) -> float:
        return -LOW_MM - (END_MM - LOW_MM) * (turn / WIDE) ** 2

    top = edge_at(cone, lambda turn: upper_top_mm(arm, turn))
    holes, slots = fittings
    return Shape(
        "upper_plate",
        plate_outline(top, edge_at(cone, low), (-side, side), corner_mm=10.0),
        at,
        (
            *numbered("upper_edge", upper_trim_row(arm), CAP_MM),
            *both("upper_pivot", cone, 0.0),
            *rib_rows("upper_plate_rib", cone, RIB_TURN, RIB),
            *hang_row(cone),
            ("upper_leather", cone.flat(LEATHER_ON_PLATE_MM, 0.0), SCREW_MM),
            *holes,
        ),
        slots,
        (("upper_plate_axis", top(0.0), cone.flat(-LOW_MM, 0.0)),),
    )


def upper_padding(arm: Arm, at: Point) -> Shape:
    """Draw the felt inside the upper plate, above the straps of the elbow and below the trim."""
    cone, side = arm.upper_cone, radians(50)
    outline = plate_outline(
        edge_at(cone, lambda _: 102.0),
        edge_at(cone, lambda _: 46.0),
        (-side, side),
        corner_mm=12.0,
    )
    return Shape("upper_padding", outline, at)
