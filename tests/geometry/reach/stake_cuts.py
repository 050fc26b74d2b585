"""Plates cut flat for the rigid-stake check: staves, gores, rolled sheets, and lids.

Tubes and cones are cut as staves (sectors of a ring, or sheets); cups as gores: a gore bends only
across its middle line, so that a point at (x, s) of it lies x to the side of the meridian at s.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import atan2, ceil, cos, hypot, pi, sin, tan
from random import Random

import numpy as np
from geometry.reach.stake3d import Rolled, Turned
from geometry.reach.stake_shapes import Flat, Placed, Shape

from armorplan.pattern.parts import Point

LAP_MM, FIRST_MM = 9.0, 9.0
Cut = Callable[[float, float, float], Point]
"""From the turn about the axis (of a gore: the side, -1 to 1), the length from the mouth and a lap."""


def staves(
    chance: Random,
    *,
    mouth_mm: float,
    end_mm: float,
    slant_mm: float,
    count: int,
    lid: bool = False,
) -> Shape:
    """Return a tube, a cone or a flared tube of so many equal plates; 1 closes on itself."""
    rise = (mouth_mm - end_mm) / slant_mm
    wall = Turned(
        s_mm=np.array([0.0, slant_mm]),
        far_mm=np.array([mouth_mm, end_mm]),
        z_mm=np.array([0.0, slant_mm * (1 - rise**2) ** 0.5]),
        shut=lid,
    )
    share = 2 * pi / count
    cut = _sheet(mouth_mm) if abs(rise) < 1e-9 else _sector(mouth_mm / rise, rise)
    plates = []
    for at in range(count):
        where = _on_stave(wall, rise=rise, middle=at * share)
        plate = Flat(f"p{at}", _stave(cut, share, slant_mm, lid=lid), where, [])
        for _ in range(2):
            turn, s = chance.uniform(-0.4, 0.4) * share, chance.uniform(0.1, 0.95) * slant_mm
            plate.spots.append(cut(turn, s, 0.0))
        plates.append(plate)
    made = Shape(f"{count} staves", wall, plates, {})
    _join_round(made, cut, share / 2, places(slant_mm, chance.uniform(14, 24)))
    if lid:
        turns = [(at, t) for at in range(count) for t in _lid_turns(share, end_mm)]
        _put_lid(made, [(at, cut(t, slant_mm, 0.0)) for at, t in turns])
    return _seated(made)


def gores(chance: Random, meridian: Sequence[Point], *, count: int, lid: bool = False) -> Shape:
    """Return a cup of gores over a meridian of close (distance, depth) pairs from its mouth."""
    far, z = (np.array(column) for column in zip(*meridian, strict=True))
    s = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(far), np.diff(z)))])
    wall = Turned(s_mm=s, far_mm=far, z_mm=z, sides=count, shut=lid)
    long_mm = float(s[-1])

    def cut(side: float, along: float, lap: float) -> Point:
        return side * tan(pi / count) * wall.far_at(along) + lap, along

    plates = []
    for at in range(count):
        plate = Flat(f"p{at}", _gore(cut, long_mm, lid=lid), _on_gore(wall, at), [])
        for _ in range(2):
            along, side = chance.uniform(0.1, 0.95) * long_mm, chance.uniform(-0.7, 0.7)
            plate.spots.append(cut(side, along, 0.0))
        plates.append(plate)
    made = Shape(f"{count} gores", wall, plates, {})
    _join_round(made, cut, 1.0, places(long_mm, chance.uniform(14, 24)))
    if lid:
        held = [(at, side) for at in range(count) for side in (-0.7, 0.7)]
        _put_lid(made, [(at, cut(side, long_mm, 0.0)) for at, side in held])
    return _seated(made)


def rolled(chance: Random, *, radius_mm: float, angle: float, long_mm: float, count: int) -> Shape:
    """Return a part of a cylinder of so many plates side by side, bent damp."""
    wall = Rolled(radius_mm=radius_mm, angle=angle, long_mm=long_mm)
    wide = radius_mm * angle / count
    cut = _sheet(radius_mm)
    plates = []
    for at in range(count):
        low, high = (at > 0) * LAP_MM, (at < count - 1) * LAP_MM
        edges = (-wide / 2 - low, wide / 2 + high)
        outline = [(edges[n], y) for n, y in ((0, 0.0), (1, 0.0), (1, long_mm), (0, long_mm))]
        where = _on_roll(wall, (at + 0.5) * angle / count - angle / 2)
        plate = Flat(f"p{at}", outline, where, [])
        for _ in range(3):
            x, y = chance.uniform(-0.4, 0.4) * wide, chance.uniform(0.1, 0.9) * long_mm
            plate.spots.append((x, y))
        plates.append(plate)
    made = Shape(f"rolled of {count}", wall, plates, {}, shaped=True)
    _join_round(made, cut, angle / count / 2, places(long_mm, chance.uniform(14, 24)))
    last = f"row{count - 1}"
    for one, other in made.rows.pop(last):
        del plates[-1].holes[one], plates[0].holes[other]
    return _seated(made)


def places(long_mm: float, apart_mm: float) -> list[float]:
    """Return how far along an edge its holes lie, from near the mouth to near the other end."""
    count = max(2, ceil((long_mm - 2 * FIRST_MM) / apart_mm) + 1)
    return [float(each) for each in np.linspace(FIRST_MM, long_mm - FIRST_MM, count)]


def _sheet(radius_mm: float) -> Cut:
    return lambda turn, s, lap: (radius_mm * turn + lap, s)


def _sector(tip_mm: float, rise: float) -> Cut:
    def cut(turn: float, s: float, lap: float) -> Point:
        angle, size = turn * rise, tip_mm - s
        across, along = size * sin(angle), tip_mm - size * cos(angle)
        return across + lap * cos(angle), along + lap * sin(angle)

    return cut


def _stave(cut: Cut, share: float, slant_mm: float, *, lid: bool) -> list[Point]:
    steps = np.linspace(-share / 2, share / 2, max(4, ceil(share * 20)))
    deep_mm = slant_mm + LAP_MM if lid else slant_mm
    near, deep = [cut(t, 0.0, 0.0) for t in steps], [cut(t, deep_mm, 0.0) for t in steps[::-1]]
    corners = (FIRST_MM / 3, slant_mm if lid else slant_mm - FIRST_MM / 3)
    right = [cut(share / 2, s, LAP_MM) for s in corners]
    left = [cut(-share / 2, s, -LAP_MM) for s in corners[::-1]]
    return [*near, *right, *deep, *left]


def _gore(cut: Cut, long_mm: float, *, lid: bool) -> list[Point]:
    end, _ = cut(1.0, long_mm, 0.0)
    laps = [
        cut(1.0, along, LAP_MM) for along in np.linspace(0, long_mm, 40)[1 : 40 if lid else -1]
    ]
    right = [cut(1.0, 0.0, 0.0), *laps, *([] if lid else [(end, long_mm)])]
    tip = [(end, long_mm + LAP_MM), (-end, long_mm + LAP_MM)] if lid else []
    return [*right, *tip, *[(-x, along) for x, along in reversed(right)]]


def _on_stave(wall: Turned, *, rise: float, middle: float) -> Placed:
    mouth_mm, slant_mm = float(wall.far_mm[0]), float(wall.s_mm[-1])

    def placed(spot: Point) -> np.ndarray:
        x, y = spot
        turn, s = x / mouth_mm, y
        if abs(rise) >= 1e-9:
            tip = mouth_mm / rise
            sign = 1 if tip > 0 else -1
            turn, s = atan2(sign * x, sign * (tip - y)) / rise, tip - sign * hypot(x, tip - y)
        far, angle = mouth_mm - rise * s, middle + turn
        return np.array([far * cos(angle), far * sin(angle), s / slant_mm * wall.depth_mm])

    return placed


def _on_gore(wall: Turned, at: int) -> Placed:
    turn = 2 * pi * at / wall.sides

    def placed(spot: Point) -> np.ndarray:
        x, along = spot
        out = wall.far_at(along)
        across, up = out * cos(turn) - x * sin(turn), out * sin(turn) + x * cos(turn)
        return np.array([across, up, wall.depth_at(along)])

    return placed


def _on_roll(wall: Rolled, middle: float) -> Placed:
    def placed(spot: Point) -> np.ndarray:
        turn = middle + spot[0] / wall.radius_mm
        return np.array([wall.radius_mm * cos(turn), wall.radius_mm * sin(turn), spot[1]])

    return placed


def _join_round(shape: Shape, cut: Cut, side: float, along: list[float]) -> None:
    count = len(shape.plates)
    for plate in shape.plates:
        for n, s in enumerate(along):
            plate.holes[f"{plate.id}_right_{n}"] = cut(side, s, 0.0)
            plate.holes[f"{plate.id}_left_{n}"] = cut(-side, s, 0.0)
    for at in range(count):
        near, nexts = f"p{at}_right", f"p{(at + 1) % count}_left"
        shape.rows[f"row{at}"] = [(f"{near}_{n}", f"{nexts}_{n}") for n in range(len(along))]


def _lid_turns(share: float, far_mm: float) -> list[float]:
    count = max(2, ceil(share * far_mm / 14), ceil(share / 0.3))
    return [share * ((n + 0.5) / count - 0.5) for n in range(count)]


def _put_lid(shape: Shape, held: list[tuple[int, Point]]) -> None:
    """Rivet a flat lid on the laps of the deep end, at these spots of the plates."""
    at_lid = [shape.plates[at].placed(spot) for at, spot in held]
    far, depth = max(hypot(x, y) for x, y, _ in at_lid) + LAP_MM, at_lid[0][2]
    outline = [(far * cos(k * pi / 36), far * sin(k * pi / 36)) for k in range(72)]
    lid = Flat("lid", outline, lambda spot: np.array([*spot, depth]), [(0.0, 0.0)])
    for n, ((at, spot), (x, y, _)) in enumerate(zip(held, at_lid, strict=True)):
        shape.plates[at].holes[f"p{at}_lid_{n}"] = spot
        lid.holes[f"lid_{n}"] = (float(x), float(y))
        shape.rows.setdefault(f"lid{at}", []).append((f"p{at}_lid_{n}", f"lid_{n}"))
    shape.plates.append(lid)


def _seated(shape: Shape) -> Shape:
    for plate in shape.plates:
        plate.holes |= {f"{plate.id}_tab_{n}": spot for n, spot in enumerate(plate.spots)}
    return shape
