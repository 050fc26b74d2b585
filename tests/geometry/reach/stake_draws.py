"""Random shapes for the rigid-stake check: the same number draws the same shape."""

from __future__ import annotations

from math import cos, pi, sin
from random import Random

import numpy as np
from geometry.reach.stake_cuts import gores, rolled, staves
from geometry.reach.stake_shapes import Shape

from armorplan.pattern.parts import Point

STEPS = 300


def drawn(number: int) -> Shape:
    """Return the shape of a number: kinds take turns, sizes are drawn."""
    chance = Random(number)  # noqa: S311 - the same shapes every time
    kind = KINDS[number % len(KINDS)]
    shape = kind(chance)
    shape.name = f"{number}: {kind.__name__.strip('_')}, {shape.name}"
    return shape


def _tube(chance: Random) -> Shape:
    wide = chance.uniform(30, 90)
    return staves(
        chance,
        mouth_mm=wide,
        end_mm=wide,
        slant_mm=chance.uniform(90, 350),
        count=chance.choice((1, 2, 3, 5)),
        lid=chance.random() < 0.5,
    )


def _cone(chance: Random) -> Shape:
    wide, narrow = chance.uniform(50, 100), chance.uniform(14, 45)
    return staves(
        chance,
        mouth_mm=wide,
        end_mm=narrow,
        slant_mm=(wide - narrow) * chance.uniform(1.15, 6),
        count=chance.choice((1, 2, 3, 4)),
        lid=chance.random() < 0.7,
    )


def _widening(chance: Random) -> Shape:
    """Draw a cone entered by its narrow end."""
    wide, narrow = chance.uniform(60, 100), chance.uniform(25, 50)
    return staves(
        chance,
        mouth_mm=narrow,
        end_mm=wide,
        slant_mm=(wide - narrow) * chance.uniform(1.3, 5),
        count=chance.choice((1, 2, 3)),
        lid=chance.random() < 0.7,
    )


def _cup(chance: Random) -> Shape:
    """Draw a piece of an ellipsoid, from before or beyond its widest place to near its pole."""
    wide, deep = chance.uniform(40, 100), chance.uniform(40, 160)
    first = chance.uniform(-0.7, 0.5)
    return _ellipse(chance, wide, deep, first=first)


def _dish(chance: Random) -> Shape:
    wide = chance.uniform(70, 140)
    return _ellipse(chance, wide, wide * chance.uniform(0.5, 1.0), first=chance.uniform(0.7, 1.0))


def _ellipse(chance: Random, wide: float, deep: float, *, first: float) -> Shape:
    """The lid's edge lies 16 to 22 mm from the axis."""
    last = np.arccos(chance.uniform(16, 22) / wide)
    turns = np.linspace(first, float(last), STEPS)
    start = deep * sin(first)
    meridian = [(wide * cos(t), deep * sin(t) - start) for t in turns]
    return gores(chance, meridian, count=chance.choice((4, 6, 8)), lid=chance.random() < 0.8)


def _trough(chance: Random) -> Shape:
    return rolled(
        chance,
        radius_mm=chance.uniform(35, 90),
        angle=chance.uniform(0.5, 1.7) * pi,
        long_mm=chance.uniform(80, 350),
        count=chance.choice((1, 2, 3)),
    )


def _waisted(chance: Random) -> Shape:
    """Draw a cup that narrows and widens again: it curves inwards."""
    mouth, waist, end = chance.uniform(50, 80), chance.uniform(25, 40), chance.uniform(40, 80)
    depth = chance.uniform(100, 250)
    meridian: list[Point] = []
    for share in np.linspace(0, 1, STEPS):
        straight = mouth + (end - mouth) * share
        pinch = ((mouth + end) / 2 - waist) * sin(pi * share)
        meridian.append((straight - pinch, depth * float(share)))
    shape = gores(chance, meridian, count=chance.choice((4, 6)), lid=chance.random() < 0.6)
    shape.convex = False
    return shape


KINDS = (_tube, _cone, _cup, _dish, _trough, _widening, _cup, _waisted)
