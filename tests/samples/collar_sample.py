"""The collar: a front and a back half of a plate and two lames each, hinged on the left.

Every lame is a piece of a cone: cut flat it is a sector of a ring whose centre lies above it. Two
lames of unlike cones meet in a row with equal chords on both arcs, so the holes match by
construction though the arcs differ.
"""

from __future__ import annotations

from math import asin

from samples.shapes import Path, Point, Shape, disc, oblong, polar, sheet, strip

MARGIN_MM = 10.5
TUBULAR_MM = 4.0
COPPER_MM = 3.0
TURNING_MM = 5.5
STRAP_MM = 20.0
UPPER_CHORD_MM = 28.0
LOWER_CHORD_MM = 30.0
HOLES_IN_ROW = 7

# Girths of the neck over its padding, in mm, and the height of each lame along the leather.
RIM_GIRTH_MM, WAIST_GIRTH_MM, BASE_GIRTH_MM = 440.0, 470.0, 522.0
RIM_HEIGHT_MM, LAME_HEIGHT_MM = 38.0, 40.0
SIDE_LAP_MM = 14.0

RIM_ROW_MM = RIM_HEIGHT_MM * WAIST_GIRTH_MM / (WAIST_GIRTH_MM - RIM_GIRTH_MM)
LAME_LOWER_MM = LAME_HEIGHT_MM * BASE_GIRTH_MM / (BASE_GIRTH_MM - WAIST_GIRTH_MM)
LAME_UPPER_MM = LAME_LOWER_MM - LAME_HEIGHT_MM
LAME_MIDDLE_MM = LAME_LOWER_MM - LAME_HEIGHT_MM / 2
PLATE_ROW_MM = 150.0
LAME_SIDE = BASE_GIRTH_MM / 4 / LAME_LOWER_MM
"""Angle from the middle of a lame to the line on the wearer's side where the halves meet."""


def row(
    prefix: str, radius_mm: float, chord_mm: float, diameter_mm: float
) -> tuple[tuple[str, Point, float], ...]:
    """Return holes with equal chords on an arc, from the wearer's right of the drawing."""
    step = 2 * asin(chord_mm / 2 / radius_mm)
    middle = (HOLES_IN_ROW + 1) / 2
    return tuple(
        (f"{prefix}_{i}", polar(radius_mm, (i - middle) * step), diameter_mm)
        for i in range(1, HOLES_IN_ROW + 1)
    )


def ring_piece(inner_mm: float, outer_mm: float, half_angle: float, corner_mm: float) -> Path:
    """Draw a sector of a ring with its corners rounded off."""
    inner_turn, outer_turn = corner_mm / inner_mm, corner_mm / outer_mm
    a = half_angle
    path = Path().move(polar(inner_mm, -a + inner_turn))
    path.arc(inner_mm, polar(inner_mm, a - inner_turn), clockwise=False)
    path.bend(polar(inner_mm, a), polar(inner_mm + corner_mm, a))
    path.line(polar(outer_mm - corner_mm, a))
    path.bend(polar(outer_mm, a), polar(outer_mm, a - outer_turn))
    path.arc(outer_mm, polar(outer_mm, -a + outer_turn), clockwise=True)
    path.bend(polar(outer_mm, -a), polar(outer_mm - corner_mm, -a))
    path.line(polar(inner_mm + corner_mm, -a))
    return path.bend(polar(inner_mm, -a), polar(inner_mm, -a + inner_turn))


def plate_outline(*, depth_mm: float, side_mm: float, point: float) -> Path:
    """Draw a breast or nape plate: a neck edge, short sides and a lower edge that comes down.

    ``point`` is 1 for a keel in the middle and 0 for a round lower edge.
    """
    a = 0.84
    inner, side = PLATE_ROW_MM - MARGIN_MM, PLATE_ROW_MM + side_mm
    corner, fall = 14.0, (-0.42, 0.91)
    low = (0.0, PLATE_ROW_MM + depth_mm)
    tip = (7.0 * point, low[1] - 3.0 * point)
    far = polar(side, a)
    start = (far[0] + corner * fall[0], far[1] + corner * fall[1])
    lean = (start[0] + 50.0 * fall[0], start[1] + 50.0 * fall[1])
    pull = (tip[0] + 44.0, tip[1] - 22.0 * point)

    path = Path().move(polar(inner, -a + 6.0 / inner))
    path.arc(inner, polar(inner, a - 6.0 / inner), clockwise=False)
    path.bend(polar(inner, a), polar(inner + 6.0, a))
    path.line(polar(side - corner, a)).bend(far, start)
    path.sweep(lean, pull, tip).bend((0.0, low[1]), (-tip[0], tip[1]))
    path.sweep((-pull[0], pull[1]), (-lean[0], lean[1]), (-start[0], start[1]))
    path.bend((-far[0], far[1]), polar(side - corner, -a))
    path.line(polar(inner + 6.0, -a))
    return path.bend(polar(inner, -a), polar(inner, -a + 6.0 / inner))


def _half(name: str, at: tuple[Point, Point, Point], *, hinge: float) -> tuple[Shape, ...]:
    """Return rim, lame and plate of one half; ``hinge`` is +1 where the hinge lies rightward."""
    lame_angle = LAME_SIDE + SIDE_LAP_MM / LAME_LOWER_MM
    rim_angle = (WAIST_GIRTH_MM / 4 + SIDE_LAP_MM) / RIM_ROW_MM
    rim = Shape(
        f"{name}_rim",
        ring_piece(RIM_ROW_MM - RIM_HEIGHT_MM, RIM_ROW_MM + MARGIN_MM, rim_angle, 9.0),
        at[0],
        row(f"{name}_rim", RIM_ROW_MM, UPPER_CHORD_MM, TUBULAR_MM),
    )
    first = -hinge * 92.0 / LAME_MIDDLE_MM
    second = first - hinge * 2 * asin(12.0 / LAME_MIDDLE_MM)
    lame = Shape(
        f"{name}_lame",
        ring_piece(LAME_UPPER_MM - MARGIN_MM, LAME_LOWER_MM + MARGIN_MM, lame_angle, 7.0),
        at[1],
        (
            *row(f"{name}_lame_top", LAME_UPPER_MM, UPPER_CHORD_MM, TUBULAR_MM),
            *row(f"{name}_lame_low", LAME_LOWER_MM, LOWER_CHORD_MM, COPPER_MM),
            (f"{name}_hinge", polar(LAME_MIDDLE_MM, hinge * LAME_SIDE), TURNING_MM),
            (f"{name}_strap_inner", polar(LAME_MIDDLE_MM, first), TUBULAR_MM),
            (f"{name}_strap_outer", polar(LAME_MIDDLE_MM, second), TUBULAR_MM),
        ),
    )
    shape = {"depth_mm": 98.0, "side_mm": 46.0, "point": 1.0}
    if name == "back":
        shape = {"depth_mm": 70.0, "side_mm": 46.0, "point": 0.0}
    plate = Shape(
        f"{name}_plate",
        plate_outline(**shape),
        at[2],
        row(f"{name}_plate", PLATE_ROW_MM, LOWER_CHORD_MM, COPPER_MM),
    )
    return rim, lame, plate


def shapes() -> tuple[Shape, ...]:
    """Return every part of the collar where it lies on the sheet."""
    front = _half("front", ((155.0, -535.0), (155.0, -226.0), (155.0, 98.0)), hinge=1.0)
    back = _half("back", ((470.0, -535.0), (470.0, -226.0), (470.0, 98.0)), hinge=-1.0)
    strap = Shape(
        "closing_strap",
        strip(230.0, STRAP_MM, point_mm=24.0),
        (330.0, 366.0),
        (
            ("strap_inner", (11.0, 0.0), TUBULAR_MM),
            ("strap_outer", (35.0, 0.0), TUBULAR_MM),
            *((f"strap_set_{i}", (90.0 + 20.0 * i, 0.0), TUBULAR_MM) for i in range(1, 6)),
        ),
    )
    buckle = Shape(
        "buckle_strap",
        strip(116.0, STRAP_MM),
        (330.0, 394.0),
        (
            ("buckle_inner", (11.0, 0.0), TUBULAR_MM),
            ("buckle_outer", (35.0, 0.0), TUBULAR_MM),
            ("buckle_fold_top", (56.0, 0.0), TUBULAR_MM),
            ("buckle_fold_under", (104.0, 0.0), TUBULAR_MM),
        ),
        (("buckle_tongue", oblong((80.0, 0.0), length_mm=20.0, width_mm=5.0)),),
    )
    washer = Shape(
        "hinge_washer", disc(12.0), (490.0, 394.0), (("washer", (0.0, 0.0), TURNING_MM),)
    )
    return *front, *back, strap, buckle, washer


def drawing() -> str:
    """Write the SVG of the collar."""
    return sheet(shapes(), title="Collar of the lantern watch", width_mm=630, height_mm=420)
