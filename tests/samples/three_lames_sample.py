"""Three lames and a cop: the elbow of the lantern watch, on turning pivots.

The arm is taken for a tube about the elbow's axis. Where n joints share the whole bend, each turns
by its n-th part; the edge of a lame at the back of the elbow, its own radius from the axis, then
slides by radius × angle, and that much and a cover that is kept must lie under the plate outside
it. Each layer further out is longer by π × thickness over its half turn, so that all pivots lie on
one axis.
"""

from __future__ import annotations

from math import pi, radians

from samples.shapes import Path, Point, Shape, oblong, sheet, strip

LEATHER_MM = 3.6
ARM_MM = 52.0
"""Radius of the padded arm to the middle of the innermost lame."""
BEND_DEG, JOINTS = 140.0, 3
COVER_MM = 12.0
SLIDE_MM = ARM_MM * radians(BEND_DEG / JOINTS)
"""What the back edge of the innermost lame travels from a straight arm to a bent one."""
OVERLAP_MM = SLIDE_MM + COVER_MM
OUTER_SLIDE_MM = (ARM_MM + LEATHER_MM) * radians(BEND_DEG / JOINTS)
"""What the next lames travel under the cop: they lie one leather further from the axis."""

TURNING_MM = 5.5
TUBULAR_MM = 4.0
CAP_MM = 3.5
EYE_MM = 5.0
STRAP_MM = 20.0
END_MM = 15.0
"""Leather round a pivot, from its centre."""
PIVOTS_APART_MM = 20.0
RIM_MM = 12.0
"""From an edge to the row of small things near it."""

INNER_HALF_MM = pi / 2 * ARM_MM
MIDDLE_HALF_MM = INNER_HALF_MM + pi / 2 * LEATHER_MM
OUTER_HALF_MM = INNER_HALF_MM + pi * LEATHER_MM
"""Half of what lies between the two pivots of a lame: the innermost, the next, the cop."""

COP_EDGE_MM = PIVOTS_APART_MM / 2 + OUTER_SLIDE_MM + COVER_MM
MIDDLE_TOP_MM = PIVOTS_APART_MM + OVERLAP_MM
TOP_TOP_MM = OVERLAP_MM + 30.0
LOWER_LOW_MM = OVERLAP_MM + 34.0
LOWER_TOP_MM = 16.0
SIDE_MM = 52.0
"""How far up a lame that carries straps is full width."""


def _half(shape: Path, half_mm: float, *, side_mm: float, high_mm: float) -> Path:
    """Draw from the right end over the top to the left end of a lame."""
    out, corner = half_mm + END_MM, 10.0
    if side_mm:
        shape.line((out, -side_mm)).bend(
            (out, -side_mm - corner), (out - corner, -side_mm - corner)
        )
        shape.sweep((out - 36.0, -side_mm - corner), (34.0, -high_mm), (0.0, -high_mm))
        shape.sweep(
            (-34.0, -high_mm), (36.0 - out, -side_mm - corner), (corner - out, -side_mm - corner)
        )
        return shape.bend((-out, -side_mm - corner), (-out, -side_mm)).line((-out, 0.0))
    end = PIVOTS_APART_MM
    shape.line((out, -end)).arc(END_MM, (half_mm, -end - END_MM), clockwise=False)
    shape.sweep((half_mm * 0.66, -end - END_MM), (half_mm * 0.5, -high_mm), (0.0, -high_mm))
    shape.sweep(
        (-half_mm * 0.5, -high_mm), (-half_mm * 0.66, -end - END_MM), (-half_mm, -end - END_MM)
    )
    return shape.arc(END_MM, (-out, -end), clockwise=False).line((-out, 0.0))


def lame_outline(half_mm: float, *, side_mm: float, high_mm: float, low_mm: float) -> Path:
    """Draw a lame: round ends about its pivots at y = 0, ``high_mm`` up and ``low_mm`` down.

    ``side_mm`` is how far up it is full width; 0 for a crescent with two pivots at each end.
    """
    shape = _half(Path().move((half_mm + END_MM, 0.0)), half_mm, side_mm=side_mm, high_mm=high_mm)
    shape.arc(END_MM, (-half_mm, END_MM), clockwise=False)
    shape.sweep((-half_mm * 0.6, END_MM), (-half_mm * 0.5, low_mm), (0.0, low_mm))
    shape.sweep((half_mm * 0.5, low_mm), (half_mm * 0.6, END_MM), (half_mm, END_MM))
    return shape.arc(END_MM, (half_mm + END_MM, 0.0), clockwise=False)


def cop_outline() -> Path:
    """Draw the cop: high at the back of the elbow, round ends that hold two pivots each."""
    half, out, end = OUTER_HALF_MM, OUTER_HALF_MM + END_MM, PIVOTS_APART_MM / 2
    edge = COP_EDGE_MM
    path = (
        Path()
        .move((out, end))
        .line((out, -end))
        .arc(END_MM, (half, -end - END_MM), clockwise=False)
    )
    path.sweep((half * 0.66, -end - END_MM), (half * 0.5, -edge), (0.0, -edge))
    path.sweep((-half * 0.5, -edge), (-half * 0.66, -end - END_MM), (-half, -end - END_MM))
    path.arc(END_MM, (-out, -end), clockwise=False).line((-out, end))
    path.arc(END_MM, (-half, end + END_MM), clockwise=False)
    path.sweep((-half * 0.66, end + END_MM), (-half * 0.5, edge), (0.0, edge))
    path.sweep((half * 0.5, edge), (half * 0.66, end + END_MM), (half, end + END_MM))
    return path.arc(END_MM, (out, end), clockwise=False)


def turned_over(path: Path) -> Path:
    """Return an outline turned upside down in its plane, by half a turn."""
    return Path([(name, tuple((-x, -y) for x, y in points)) for name, points in path.commands])


def upright(path: Path) -> Path:
    """Return a path turned by a right angle, from lying to standing."""
    return Path([(name, tuple((-y, x) for x, y in points)) for name, points in path.commands])


def oval(across_mm: float, down_mm: float) -> Path:
    """Draw an oval about its middle."""
    k = 0.5523
    path = Path().move((across_mm, 0.0))
    path.sweep((across_mm, down_mm * k), (across_mm * k, down_mm), (0.0, down_mm))
    path.sweep((-across_mm * k, down_mm), (-across_mm, down_mm * k), (-across_mm, 0.0))
    path.sweep((-across_mm, -down_mm * k), (-across_mm * k, -down_mm), (0.0, -down_mm))
    return path.sweep((across_mm * k, -down_mm), (across_mm, -down_mm * k), (across_mm, 0.0))


def _both(prefix: str, x: float, y: float, wide_mm: float) -> tuple[tuple[str, Point, float], ...]:
    return (f"{prefix}_near", (-x, y), wide_mm), (f"{prefix}_far", (x, y), wide_mm)


STRAP_ROW = (44.0, 68.0)
"""Where the two rivets of a strap or tab sit, from the middle of a lame to its side."""


def _strap_holes(prefix: str, y: float) -> tuple[tuple[str, Point, float], ...]:
    inner, outer = STRAP_ROW
    return (
        (f"{prefix}_tab_inner", (-inner, y), TUBULAR_MM),
        (f"{prefix}_tab_outer", (-outer, y), TUBULAR_MM),
        (f"{prefix}_strap_inner", (inner, y), TUBULAR_MM),
        (f"{prefix}_strap_outer", (outer, y), TUBULAR_MM),
    )


def cop(at: Point) -> Shape:
    apart = PIVOTS_APART_MM / 2
    return Shape(
        "cop",
        cop_outline(),
        at,
        (
            *_both("cop_upper", OUTER_HALF_MM, -apart, TURNING_MM),
            *_both("cop_lower", OUTER_HALF_MM, apart, TURNING_MM),
            ("cop_back", (0.0, COP_EDGE_MM - RIM_MM), TURNING_MM),
            ("cop_inner", (0.0, RIM_MM - COP_EDGE_MM), TUBULAR_MM),
            ("cop_boss_left", (-15.0, 0.0), CAP_MM),
            ("cop_boss_right", (15.0, 0.0), CAP_MM),
        ),
    )


def middle_lame(at: Point) -> Shape:
    return Shape(
        "middle_lame",
        lame_outline(MIDDLE_HALF_MM, side_mm=0.0, high_mm=MIDDLE_TOP_MM, low_mm=0.0),
        at,
        (
            *_both("middle_cop", MIDDLE_HALF_MM, 0.0, TURNING_MM),
            *_both("middle_top", MIDDLE_HALF_MM, -PIVOTS_APART_MM, TURNING_MM),
            ("middle_inner", (0.0, RIM_MM - MIDDLE_TOP_MM), TUBULAR_MM),
        ),
    )


def top_lame(at: Point) -> Shape:
    return Shape(
        "top_lame",
        lame_outline(INNER_HALF_MM, side_mm=SIDE_MM, high_mm=TOP_TOP_MM, low_mm=0.0),
        at,
        (
            *_both("top_pivot", INNER_HALF_MM, 0.0, TURNING_MM),
            ("top_inner", (0.0, 26.0 - TOP_TOP_MM), TUBULAR_MM),
            ("top_hang_left", (-12.0, RIM_MM - TOP_TOP_MM), TUBULAR_MM),
            ("top_hang_right", (12.0, RIM_MM - TOP_TOP_MM), TUBULAR_MM),
            *_strap_holes("top", -44.0),
        ),
    )


def lower_lame(at: Point) -> Shape:
    rest = COP_EDGE_MM - RIM_MM - PIVOTS_APART_MM / 2
    slot = upright(
        oblong(
            (rest - OUTER_SLIDE_MM / 2, 0.0),
            length_mm=OUTER_SLIDE_MM + TURNING_MM + 1.0,
            width_mm=TURNING_MM,
        )
    )
    return Shape(
        "lower_lame",
        turned_over(
            lame_outline(
                MIDDLE_HALF_MM, side_mm=SIDE_MM, high_mm=LOWER_LOW_MM, low_mm=LOWER_TOP_MM
            )
        ),
        at,
        (
            *_both("lower_pivot", MIDDLE_HALF_MM, 0.0, TURNING_MM),
            *_strap_holes("lower", 44.0),
        ),
        (("lower_slide", slot),),
    )


def inner_leather(at: Point) -> Shape:
    """Straight when the arm is bent to the end: it then keeps the lames from parting."""
    low = 11.0
    middle = low + (MIDDLE_TOP_MM - COP_EDGE_MM + PIVOTS_APART_MM / 2) + OUTER_SLIDE_MM
    rest = (TOP_TOP_MM - 26.0) + PIVOTS_APART_MM - (MIDDLE_TOP_MM - RIM_MM)
    top = middle + rest + SLIDE_MM
    return Shape(
        "inner_leather",
        strip(top + 11.0, 26.0),
        at,
        (
            ("inner_cop", (low, 0.0), TUBULAR_MM),
            ("inner_middle", (middle, 0.0), TUBULAR_MM),
            ("inner_top", (top, 0.0), TUBULAR_MM),
        ),
    )


def closing_strap(name: str, length_mm: float, at: Point) -> Shape:
    first = length_mm - 34.0
    return Shape(
        f"{name}_strap",
        strip(length_mm, STRAP_MM, point_mm=24.0),
        at,
        (
            (f"{name}_strap_a", (12.0, 0.0), TUBULAR_MM),
            (f"{name}_strap_b", (36.0, 0.0), TUBULAR_MM),
            *((f"{name}_set_{n}", (first - 15.0 * (n - 1), 0.0), TUBULAR_MM) for n in range(1, 6)),
        ),
    )


def buckle_tab(name: str, at: Point) -> Shape:
    """The fold lies in the tongue's slot; its end comes back over the first hole."""
    return Shape(
        f"{name}_tab",
        strip(112.0, STRAP_MM),
        at,
        (
            (f"{name}_tab_a", (12.0, 0.0), TUBULAR_MM),
            (f"{name}_tab_b", (36.0, 0.0), TUBULAR_MM),
            (f"{name}_fold_top", (55.0, 0.0), TUBULAR_MM),
            (f"{name}_fold_under", (101.0, 0.0), TUBULAR_MM),
        ),
        ((f"{name}_tongue", oblong((78.0, 0.0), length_mm=20.0, width_mm=5.0)),),
    )


def shapes() -> tuple[Shape, ...]:
    """Return every part of the left elbow where it lies on the sheet."""
    lining = Shape("cop_lining", oval(58.0, 34.0), (130.0, 416.0))
    boss = Shape(
        "boss",
        oval(30.0, 22.0),
        (240.0, 416.0),
        (("boss_left", (-15.0, 0.0), CAP_MM), ("boss_right", (15.0, 0.0), CAP_MM)),
    )
    hang = Shape(
        "hang_tab",
        upright(strip(70.0, 46.0)),
        (340.0, 380.0),
        (
            ("hang_left", (-12.0, 58.0), TUBULAR_MM),
            ("hang_right", (12.0, 58.0), TUBULAR_MM),
            ("hang_eye", (0.0, 14.0), EYE_MM),
        ),
    )
    return (
        top_lame((120.0, 100.0)),
        middle_lame((340.0, 100.0)),
        cop((120.0, 196.0)),
        lower_lame((340.0, 160.0)),
        inner_leather((16.0, 282.0)),
        closing_strap("upper", 282.0, (16.0, 310.0)),
        closing_strap("lower", 242.0, (16.0, 336.0)),
        buckle_tab("upper", (330.0, 310.0)),
        buckle_tab("lower", (330.0, 336.0)),
        lining,
        boss,
        hang,
    )


def drawing() -> str:
    """Write the SVG of the elbow."""
    return sheet(shapes(), title="Three lames of the lantern watch", width_mm=460, height_mm=470)
