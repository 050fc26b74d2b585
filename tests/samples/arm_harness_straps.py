"""Straps, buckle tabs and keepers of the arm harness, and the holes they need in its plates.

A tab lies outside its plate and is bent with it, so that its two holes lie further apart than those
of the plate by the distance of the middles times the angle. Where a strap's own two holes come to lie
in the plate is marked on the wearer.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import degrees, pi

from samples.arm_harness_bands import Holes
from samples.arm_harness_forearm import GAP_MM, inner_side, lower_side
from samples.arm_harness_measures import (
    BURR_MM,
    PLATE_MM,
    SMALL_CAP_MM,
    STRAP_MM,
    TUBULAR_MM,
    Arm,
    Cone,
)
from samples.arm_harness_plates import HANG_SPOTS, upper_side
from samples.shapes import Path, Point, Shape, oblong, strip, turned

WIDE_MM = 20.0
END_MM = 12.0
"""From a strap's end to its first rivet."""
PAIR_MM = 26.0
"""Between the two rivets at a strap's end, on the plate."""
BAR_MM = 42.0
"""From the second rivet of a tab to the bar of its buckle."""
STEP_MM, TIP_MM = 15.0, 34.0
KEEPER_MM, SLOT_WIDE_MM = 12.0, 5.0
OUT_MM = (PLATE_MM + STRAP_MM) / 2


@dataclass(frozen=True, kw_only=True)
class Closing:
    """Where a strap closes: its height on the plates, how far its holes stand from their edges.

    The least girth that it closes round is a measure of the arm and ``ease_mm``; ``sets`` its holes.
    """

    name: str
    up_mm: float
    edge_mm: float
    measure: str
    ease_mm: float
    sets: int = 4

    def girth_mm(self, arm: Arm) -> float:
        """Return the least girth over the sleeve that it closes round, in mm."""
        return float(getattr(arm, self.measure)) + self.ease_mm


CLOSINGS = (
    Closing(name="high", up_mm=88.0, edge_mm=14.0, measure="upper_girth_mm", ease_mm=-15.0),
    Closing(name="low", up_mm=44.0, edge_mm=14.0, measure="above_elbow_mm", ease_mm=5.0),
    Closing(name="fore", up_mm=148.0, edge_mm=42.0, measure="below_elbow_mm", ease_mm=-20.0),
    Closing(name="wrist", up_mm=36.0, edge_mm=42.0, measure="wrist_girth_mm", ease_mm=15.0),
)
CLOSING = {each.name: each for each in CLOSINGS}


def _cone(arm: Arm, closing: Closing) -> Cone:
    return arm.upper_cone if closing.name in ("high", "low") else arm.lower_cone


def _along(cone: Cone, closing: Closing, side: float, back_mm: float) -> float:
    """Return the angle of a spot so far from the edge of a plate, counted along the leather."""
    return side - cone.turn(closing.up_mm, closing.edge_mm + back_mm)


def tab_side(arm: Arm, closing: Closing) -> float:
    """Return the side of the plate that a tab sits at: buckles lie outside, or where it opens."""
    return -upper_side(arm) if closing.name in ("high", "low") else lower_side(arm)


def _pair(arm: Arm, closing: Closing, side: float, prefix: str) -> Holes:
    cone, sign = _cone(arm, closing), 1 if side > 0 else -1
    return tuple(
        (
            f"{prefix}_{name}",
            cone.flat(closing.up_mm, sign * _along(cone, closing, abs(side), back_mm)),
            TUBULAR_MM,
        )
        for name, back_mm in (("inner", PAIR_MM), ("outer", 0.0))
    )


def tab_fittings(arm: Arm, name: str) -> tuple[Holes, tuple[tuple[str, Path], ...]]:
    """Return what a tab needs in its plate: two holes, and two slots for the keeper round it."""
    closing, side = CLOSING[name], tab_side(arm, CLOSING[name])
    cone, sign = _cone(arm, closing), 1 if side > 0 else -1
    turn = sign * _along(cone, closing, abs(side), PAIR_MM / 2)
    slots = []
    for where, off_mm in (("high", 13.5), ("low", -13.5)):
        slot = oblong((0.0, 0.0), length_mm=KEEPER_MM + 2.0, width_mm=SLOT_WIDE_MM)
        at = cone.flat(closing.up_mm + off_mm, turn)
        slots.append((f"{name}_slot_{where}", turned(slot, at, degrees(turn * cone.lean))))
    return _pair(arm, closing, side, f"{name}_on"), tuple(slots)


def strap_holes(arm: Arm, name: str) -> Holes:
    """Return the holes for a strap in the plate that it is riveted to."""
    closing = CLOSING[name]
    side = upper_side(arm) if name in ("high", "low") else -inner_side(arm)
    return _pair(arm, closing, side, f"{name}_from")


def tab_pair_mm(arm: Arm, name: str) -> float:
    """Return the distance of a tab's two rivets: what the plate has, and what the bend adds."""
    closing = CLOSING[name]
    radius = _cone(arm, closing).radius_mm(closing.up_mm)
    return PAIR_MM * (1 + OUT_MM / radius)


def first_set_mm(arm: Arm, name: str) -> float:
    """Return how far from a strap's second rivet the hole for the least girth lies."""
    closing, cone = CLOSING[name], _cone(arm, CLOSING[name])
    radius = cone.radius_mm(closing.up_mm)
    round_mm = closing.girth_mm(arm) + pi * STRAP_MM
    if name in ("high", "low"):
        under_mm = 2 * upper_side(arm) * radius - 2 * closing.edge_mm
        return round_mm - under_mm - BAR_MM
    full_mm = 2 * pi * (radius - PLATE_MM / 2)
    return closing.girth_mm(arm) - full_mm + GAP_MM + 2 * closing.edge_mm - BAR_MM


def closing_strap(arm: Arm, name: str, at: Point) -> Shape:
    """Draw a strap with its rivets at the left and its point at the right."""
    closing = CLOSING[name]
    second = END_MM + PAIR_MM
    last = closing.sets - 1
    sets = [second + first_set_mm(arm, name) + STEP_MM * n for n in range(closing.sets)]
    return Shape(
        f"{name}_strap",
        strip(sets[last] + TIP_MM, WIDE_MM, point_mm=24.0),
        at,
        (
            (f"{name}_strap_a", (END_MM, 0.0), TUBULAR_MM),
            (f"{name}_strap_b", (second, 0.0), TUBULAR_MM),
            *((f"{name}_set_{n + 1}", (sets[last - n], 0.0), TUBULAR_MM) for n in range(last + 1)),
        ),
    )


def buckle_tab(arm: Arm, name: str, at: Point) -> Shape:
    """Draw a tab: its end comes back over the first hole when it is folded round the buckle."""
    second = END_MM + tab_pair_mm(arm, name)
    bar = second + BAR_MM
    return Shape(
        f"{name}_tab",
        strip(bar + 35.0, WIDE_MM),
        at,
        (
            (f"{name}_tab_a", (END_MM, 0.0), TUBULAR_MM),
            (f"{name}_tab_b", (second, 0.0), TUBULAR_MM),
            (f"{name}_fold_top", (bar - 23.0, 0.0), TUBULAR_MM),
            (f"{name}_fold_under", (bar + 23.0, 0.0), TUBULAR_MM),
        ),
        ((f"{name}_tongue", oblong((bar, 0.0), length_mm=20.0, width_mm=5.0)),),
        ((f"{name}_bar", (bar, -WIDE_MM / 2 + 0.5), (bar, WIDE_MM / 2 - 0.5)),),
    )


def keeper(name: str, at: Point) -> Shape:
    """Draw a keeper: it goes round tab and strap, and its ends meet inside the plate."""
    long_mm = 2 * (WIDE_MM + 7.0) + 2 * (PLATE_MM + 2 * STRAP_MM) + 18.0
    return Shape(
        f"{name}_keeper",
        strip(long_mm, KEEPER_MM),
        at,
        (
            (f"{name}_loop_a", (9.0, 0.0), SMALL_CAP_MM),
            (f"{name}_loop_b", (long_mm - 9.0, 0.0), SMALL_CAP_MM),
        ),
    )


def hang_tab(at: Point) -> Shape:
    """Draw the hanging tab, standing: its eye takes a point of the arming coat."""
    low = max(up_mm for _, _, up_mm in HANG_SPOTS)
    holes = tuple(
        (name, (along, 74.0 + low - up_mm), BURR_MM) for name, along, up_mm in HANG_SPOTS
    )
    path = Path().move((-15.0, 0.0)).line((15.0, 0.0)).bend((22.0, 0.0), (22.0, 10.0))
    path.line((24.0, 74.0)).sweep((24.0, 94.0), (12.0, 106.0), (0.0, 106.0))
    path.sweep((-12.0, 106.0), (-24.0, 94.0), (-24.0, 74.0)).line((-22.0, 10.0))
    path.bend((-22.0, 0.0), (-15.0, 0.0))
    return Shape("hang_tab", path, at, (("hang_eye", (0.0, 14.0), 5.0), *holes))
