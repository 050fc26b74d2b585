"""Small loose drawings: a band with its strap, twins, folds, layers; as lines in mm."""

from __future__ import annotations

from math import cos, pi, sin

from armorplan.geometry.brought.model import LooseDrawing, Stroke, Sureness, UnitGuess

MM = UnitGuess(mm_each=1.0, why="The file says mm.", sureness=Sureness.SAID, others=(25.4,))


def closed(key, *points, layer="", label=""):
    return Stroke(key=key, points=points, closed=True, layer=layer, label=label)


def box(key, x, y, wide, high, **more):
    return closed(key, (x, y), (x + wide, y), (x + wide, y + high), (x, y + high), **more)


def hole(key, x, y, wide=3.5):
    ring = tuple(
        (x + wide / 2 * cos(2 * pi * n / 32), y + wide / 2 * sin(2 * pi * n / 32))
        for n in range(32)
    )
    return Stroke(key=key, points=ring, closed=True, circle=((x, y), wide))


def line(key, *points, layer=""):
    return Stroke(key=key, points=points, closed=False, layer=layer)


def drawing(*strokes, unit=MM, name="band.svg"):
    return LooseDrawing(name=name, strokes=strokes, unit=unit)


BAND = (
    box("band", 10, 10, 170, 70),
    hole("band_1", 22, 45),
    hole("band_2", 38, 45),
    box("strap", 10, 95, 150, 20),
    hole("strap_1", 20, 105),
    hole("strap_2", 36, 105),
)


def wing(key, x, *, over=False):
    """Return a part that has a hand, with two holes."""
    sign = -1 if over else 1
    spots = [(0, 0), (80, 10), (95, 50), (30, 70)]
    ring = closed(key, *((x + sign * px, 200 + py) for px, py in spots))
    return (ring, hole(f"{key}_1", x + sign * 15, 215), hole(f"{key}_2", x + sign * 70, 225))
