"""Shapes that close, drawn by chance: tubes, boxes, pouches, cones, stacks; plates and the rows between."""

from math import cos, pi, sin
from random import Random
from typing import NamedTuple

from armorplan.pattern.parts import Point

LONG_MM = (60.0, 120.0, 220.0, 400.0, 800.0)
DEEP_MM = (200.0, 260.0, 340.0)
SIDES = ("left", "right", "top", "bottom")


class Tie(NamedTuple):
    """A row between two edges: (plate, edge) and (plate, edge)."""

    one: str
    edge: str
    other: str
    opposite: str


class Shape(NamedTuple):
    """Plates by id, each four corners (left top, right top, right bottom, left bottom), and rows."""

    name: str
    plates: dict[str, tuple[Point, ...]]
    ties: list[Tie]
    deep: bool = False


def box_of(wide: float, high: float, narrow: float = 1.0) -> tuple[Point, ...]:
    off = wide * (1 - narrow) / 2
    return ((0.0, 0.0), (wide, 0.0), (wide - off, high), (off, high))


def tube(chance: Random) -> Shape:
    """Return staves side by side, the last on the first; one is joined to itself."""
    count, narrow = chance.randint(1, 4), chance.choice((1.0, 1.0, 0.6))
    around, high = chance.choice(LONG_MM), chance.choice(LONG_MM)
    plates = {f"p{n}": box_of(max(40.0, around / count), high, narrow) for n in range(count)}
    ties = [Tie(f"p{n}", "right", f"p{(n + 1) % count}", "left") for n in range(count)]
    return Shape("tube", plates, ties)


def box(chance: Random) -> Shape:
    """Return four walls with a floor, and mostly a lid: held on one side, on some, or all round."""
    wide, deep, high = (chance.choice(LONG_MM[:4]) for _ in range(3))
    walls = ((wide, high), (deep, high), (wide, high), (deep, high))
    plates = {f"wall{n}": box_of(*size) for n, size in enumerate(walls)}
    ties = [Tie(f"wall{n}", "right", f"wall{(n + 1) % 4}", "left") for n in range(4)]
    round_ = ("top", "right", "bottom", "left")
    ends = [("floor", "bottom", 4), ("lid", "top", chance.randint(0, 4))]
    for name, edge, held in ends:
        if held:
            plates[name] = box_of(wide, deep)
            ties += [Tie(f"wall{n}", edge, name, round_[n]) for n in range(held)]
    return Shape("box", plates, ties)


def pouch(chance: Random) -> Shape:
    """Return two plates on each other, held on some sides or all round; one may be larger."""
    wide, high, swell = chance.choice(LONG_MM), chance.choice(LONG_MM), chance.choice((1.0, 1.3))
    plates = {"p0": box_of(wide, high), "p1": box_of(swell * wide, swell * high)}
    sides = chance.sample(SIDES, chance.randint(1, 4))
    return Shape("pouch", plates, [Tie("p0", side, "p1", side) for side in sides])


def stack(chance: Random) -> Shape:
    """Return layers on each other, or a chain of plates that may come back to the first."""
    count, size = chance.randint(2, 4), (chance.choice(LONG_MM), chance.choice(LONG_MM))
    plates = {f"p{n}": box_of(*size) for n in range(count)}
    sides = chance.sample(SIDES, chance.randint(1, 3))
    ties = [Tie(f"p{n}", side, f"p{n + 1}", side) for n in range(count - 1) for side in sides]
    if chance.random() < 0.3:
        ties.append(Tie(f"p{count - 1}", "right", "p0", "left"))
    return Shape("stack", plates, ties)


def covered_tube(chance: Random) -> Shape:
    """Return a tube with a plate laid on one of its staves, held all round or on two sides."""
    found = tube(chance)
    (x0, y0), (x1, _), (_, y2), _ = found.plates["p0"]
    over = box_of(0.8 * (x1 - x0), 0.8 * (y2 - y0))
    ties = [Tie("p0", f"on {side}", "over", side) for side in SIDES[: chance.choice((2, 4))]]
    return Shape("covered tube", found.plates | {"over": over}, found.ties + ties)


def cone(chance: Random) -> Shape:
    """Return a sector closed along its straight sides, with a disc in its mouth now and then."""
    far, near = chance.choice(LONG_MM), chance.choice((0.0, 0.4))
    turn = chance.uniform(0.5, 1.6) * pi
    around = [turn * n / 24 for n in range(25)]
    outline = [(far * cos(a), far * sin(a)) for a in around]
    inner = [(near * far * cos(a), near * far * sin(a)) for a in reversed(around)]
    plates = {"p0": tuple(outline + (inner if near else [(0.0, 0.0)]))}
    return Shape("cone", plates, [Tie("p0", "first", "p0", "last")])


def deep_tube(chance: Random) -> Shape:
    """Return a tube that is far longer than it is wide, now and then narrower at its foot."""
    count, narrow = chance.randint(1, 3), chance.choice((1.0, 1.0, 0.7))
    around, high = chance.choice((160.0, 220.0, 280.0)), chance.choice(DEEP_MM)
    plates = {f"p{n}": box_of(around / count, high, narrow) for n in range(count)}
    ties = [Tie(f"p{n}", "right", f"p{(n + 1) % count}", "left") for n in range(count)]
    return Shape("deep tube", plates, ties, deep=True)


def shut_box(chance: Random) -> Shape:
    """Return four walls, a floor, and a lid held on two sides or more."""
    wide, deep = (chance.choice((60.0, 80.0)) for _ in range(2))
    high = chance.choice(DEEP_MM[:2])
    plates = {f"wall{n}": box_of(wide if n % 2 == 0 else deep, high) for n in range(4)}
    ties = [Tie(f"wall{n}", "right", f"wall{(n + 1) % 4}", "left") for n in range(4)]
    round_ = ("top", "right", "bottom", "left")
    for name, edge, held in (("floor", "bottom", 4), ("lid", "top", chance.randint(2, 4))):
        plates[name] = box_of(wide, deep)
        ties += [Tie(f"wall{n}", edge, name, round_[n]) for n in range(held)]
    return Shape("shut box", plates, ties, deep=True)


def deep_cone(chance: Random) -> Shape:
    """Return a narrow sector, closed along its straight sides down to its tip."""
    far, turn = chance.choice(DEEP_MM), chance.uniform(0.3, 0.6) * pi
    around = [turn * n / 24 for n in range(25)]
    outline = [(far * cos(a), far * sin(a)) for a in around]
    plates = {"p0": (*outline, (0.0, 0.0))}
    return Shape("deep cone", plates, [Tie("p0", "first", "p0", "last")], deep=True)


DEEP_SHAPES = (*[deep_tube] * 3, deep_cone, deep_cone, shut_box)
SHAPES = (tube, tube, box, pouch, stack, covered_tube, cone)
