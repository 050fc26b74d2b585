"""The elbow cop: three gores drawn into a cup, straps, a keeper, a boss and a lace tab.

The rows are cut as gores of a sphere: at a distance s along the gore its half width is
(gore angle / 2) × R × cos(s / R). Both petals of a seam carry the same row, mirrored, with equal
chords, so the holes match by construction.
"""

from __future__ import annotations

from math import cos, pi, sin

from samples.shapes import (
    Curve,
    Path,
    Point,
    Shape,
    next_at,
    oblong,
    offset,
    row_about_middle,
    sheet,
    strip,
)

SPHERE_MM = 72.0
GORE_DEG = 58.0
MARGIN_MM = 10.5
CHORD_MM = 21.5
EACH_SIDE = 3
TUBULAR_MM = 4.0
CAP_9_MM = 3.5
CAP_7_MM = 3.0
STRAP_MM = 22.0


def right_row(s: float) -> Point:
    """Return the row on a gore's right edge, running down."""
    return GORE_DEG / 2 * pi / 180 * SPHERE_MM * cos(s / SPHERE_MM), s


def left_row(s: float) -> Point:
    """Return the row on a gore's left edge, running down."""
    x, y = right_row(s)
    return -x, y


RIGHT_EDGE: Curve = offset(right_row, MARGIN_MM)
RIGHT_ROW = row_about_middle(right_row, chord_mm=CHORD_MM, each_side=EACH_SIDE)
LEFT_ROW = tuple((-x, y) for x, y in RIGHT_ROW)
_ROW_END = next_at(right_row, RIGHT_ROW[-1][1], 11.0)


def _mirror(point: Point) -> Point:
    return -point[0], point[1]


def middle_outline() -> Path:
    """Draw the middle petal: two convex edges, a crowned top and bottom."""
    end_x, end_y = RIGHT_EDGE(_ROW_END)
    crown = (0.0, -end_y - 17.0)
    shoulder = (end_x - 6.0, -end_y - 5.5)
    path = Path().move(crown).sweep((8.0, crown[1]), (end_x - 15.0, -end_y - 10.5), shoulder)
    path.bend((end_x - 1.5, -end_y - 3.0), (end_x, -end_y))
    path.along(RIGHT_EDGE, -_ROW_END, _ROW_END, 8)
    path.bend((end_x - 1.5, end_y + 3.0), (shoulder[0], -shoulder[1]))
    path.sweep((end_x - 15.0, end_y + 10.5), (8.0, -crown[1]), (0.0, -crown[1]))
    path.sweep((-8.0, -crown[1]), (15.0 - end_x, end_y + 10.5), (-shoulder[0], -shoulder[1]))
    path.bend((1.5 - end_x, end_y + 3.0), (-end_x, end_y))
    path.along(lambda s: _mirror(RIGHT_EDGE(-s)), -_ROW_END, _ROW_END, 8)
    path.bend((1.5 - end_x, -end_y - 3.0), (-shoulder[0], shoulder[1]))
    return path.sweep((15.0 - end_x, -end_y - 10.5), (-8.0, crown[1]), crown)


def side_outline(*, row_right: bool) -> Path:
    """Draw a side petal: one convex row edge, a rim that swells where the strap leaves it."""

    def at(x: float, y: float) -> Point:
        return (x, y) if row_right else (-x, y)

    def edge(s: float) -> Point:
        return at(*RIGHT_EDGE(s))

    end_x, end_y = RIGHT_EDGE(_ROW_END)
    path = Path().move(edge(-_ROW_END)).along(edge, -_ROW_END, _ROW_END, 8)
    path.bend(at(end_x - 1.5, end_y + 3.0), at(end_x - 6.0, end_y + 3.8))
    path.sweep(at(end_x - 20.0, end_y + 6.0), at(-2.0, end_y + 4.0), at(-16.0, end_y - 2.0))
    path.sweep(at(-23.0, end_y - 5.0), at(-24.0, end_y - 12.0), at(-26.0, 50.0))
    path.sweep(at(-30.0, 30.0), at(-55.0, 28.0), at(-57.0, 0.0))
    path.sweep(at(-55.0, -28.0), at(-30.0, -30.0), at(-26.0, -50.0))
    path.sweep(at(-24.0, 12.0 - end_y), at(-23.0, 5.0 - end_y), at(-16.0, 2.0 - end_y))
    path.sweep(
        at(-2.0, -end_y - 4.0), at(end_x - 20.0, -end_y - 6.0), at(end_x - 6.0, -end_y - 3.8)
    )
    return path.bend(at(end_x - 1.5, -end_y - 3.0), at(end_x, -end_y))


def boss_outline() -> Path:
    """Draw the boss: a round of eight shallow lobes."""

    def lobed(t: float) -> Point:
        radius = 27.5 + 1.8 * cos(8 * t)
        return radius * sin(t), -radius * cos(t)

    return Path().move(lobed(0.0)).along(lobed, 0.0, 2 * pi, 32)


def _row(prefix: str, row: tuple[Point, ...]) -> tuple[tuple[str, Point, float], ...]:
    return tuple((f"{prefix}_{i}", p, TUBULAR_MM) for i, p in enumerate(row, start=1))


def shapes() -> tuple[Shape, ...]:
    """Return every part of the cop where it lies on the sheet."""
    middle = Shape(
        "petal_middle",
        middle_outline(),
        (212.0, 118.0),
        (
            *_row("middle_left", LEFT_ROW),
            *_row("middle_right", RIGHT_ROW),
            ("middle_boss_left", (-17.0, 0.0), CAP_9_MM),
            ("middle_boss_right", (17.0, 0.0), CAP_9_MM),
            ("middle_tab_top", (0.0, -12.0), CAP_9_MM),
            ("middle_tab_bottom", (0.0, 12.0), CAP_9_MM),
        ),
    )
    left = Shape(
        "petal_left",
        side_outline(row_right=True),
        (83.0, 118.0),
        (
            *_row("left", RIGHT_ROW),
            ("left_buckle_outer", (-43.5, 0.0), TUBULAR_MM),
            ("left_buckle_inner", (-19.5, 0.0), TUBULAR_MM),
        ),
        (
            ("left_slot_top", oblong((7.0, -16.0), length_mm=16.0, width_mm=3.5)),
            ("left_slot_bottom", oblong((7.0, 16.0), length_mm=16.0, width_mm=3.5)),
        ),
    )
    right = Shape(
        "petal_right",
        side_outline(row_right=False),
        (341.0, 118.0),
        (*_row("right", LEFT_ROW), ("right_strap", (43.5, 0.0), TUBULAR_MM)),
    )
    row_to_rim = 43.5 - LEFT_ROW[EACH_SIDE][0]
    strap = Shape(
        "closing_strap",
        strip(340.0, STRAP_MM, point_mm=26.0),
        (20.0, 246.0),
        (
            ("strap_row", (11.0, 0.0), TUBULAR_MM),
            ("strap_rim", (11.0 + row_to_rim, 0.0), TUBULAR_MM),
            *((f"strap_set_{i}", (198.0 + 20.0 * i, 0.0), TUBULAR_MM) for i in range(1, 6)),
        ),
    )
    buckle = Shape(
        "buckle_strap",
        strip(116.0, STRAP_MM),
        (20.0, 276.0),
        (
            ("buckle_inner", (11.0, 0.0), TUBULAR_MM),
            ("buckle_outer", (35.0, 0.0), TUBULAR_MM),
            ("buckle_fold_top", (56.0, 0.0), TUBULAR_MM),
            ("buckle_fold_under", (104.0, 0.0), TUBULAR_MM),
        ),
        (("buckle_tongue", oblong((80.0, 0.0), length_mm=20.0, width_mm=5.0)),),
    )
    keeper = Shape(
        "keeper",
        strip(98.0, 14.0),
        (156.0, 276.0),
        (("keeper_end_a", (9.0, 0.0), CAP_7_MM), ("keeper_end_b", (89.0, 0.0), CAP_7_MM)),
    )
    boss = Shape(
        "boss",
        boss_outline(),
        (390.0, 256.0),
        (("boss_left", (-17.0, 0.0), CAP_9_MM), ("boss_right", (17.0, 0.0), CAP_9_MM)),
    )
    tab = Shape(
        "lace_tab",
        strip(80.0, STRAP_MM),
        (272.0, 276.0),
        (
            ("tab_lace_a", (12.0, 0.0), 5.0),
            ("tab_top", (28.0, 0.0), CAP_9_MM),
            ("tab_bottom", (52.0, 0.0), CAP_9_MM),
            ("tab_lace_b", (68.0, 0.0), 5.0),
        ),
    )
    return left, middle, right, strap, buckle, keeper, boss, tab


def drawing() -> str:
    """Write the SVG of the cop."""
    return sheet(shapes(), title="Elbow cop of the lantern watch", width_mm=430, height_mm=297)
