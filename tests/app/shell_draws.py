"""Small assemblies drawn by chance that close: tubes, boxes, pouches, cones, stacks, with straps in them.

A seed always draws the same. Rows are riveted, laced, screwed or stitched; plates may be formed,
drawn from inside, made on one side only; straps sit anywhere, deep inside as well.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import cos, pi, sin
from random import Random
from typing import NamedTuple

from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Motion, Route, Seam
from armorplan.pattern.parts import Hole, MadeOn, Material, Part, PartKind, Piece, Point
from armorplan.pattern.pattern import Pattern

LONG_MM = (60.0, 120.0, 220.0, 400.0, 800.0)
KINDS = (*[JointKind.RIVET] * 6, JointKind.LACE, JointKind.SCREW, JointKind.STITCH)
IN_MM = 8.0
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


def assembly_of(seed: int) -> tuple[str, Pattern]:
    """Return what a seed draws: the name of its shape, and the pattern."""
    chance = Random(seed)  # noqa: S311 - the same shapes every time
    shape = chance.choice(_SHAPES)(chance)
    return shape.name, _Drawing(chance, shape).pattern()


def _box(wide: float, high: float, narrow: float = 1.0) -> tuple[Point, ...]:
    off = wide * (1 - narrow) / 2
    return ((0.0, 0.0), (wide, 0.0), (wide - off, high), (off, high))


def tube(chance: Random) -> Shape:
    """Return staves side by side, the last on the first; one is joined to itself."""
    count, narrow = chance.randint(1, 4), chance.choice((1.0, 1.0, 0.6))
    around, high = chance.choice(LONG_MM), chance.choice(LONG_MM)
    plates = {f"p{n}": _box(max(40.0, around / count), high, narrow) for n in range(count)}
    ties = [Tie(f"p{n}", "right", f"p{(n + 1) % count}", "left") for n in range(count)]
    return Shape("tube", plates, ties)


def box(chance: Random) -> Shape:
    """Return four walls with a floor, and mostly a lid: held on one side, on some, or all round."""
    wide, deep, high = (chance.choice(LONG_MM[:4]) for _ in range(3))
    walls = ((wide, high), (deep, high), (wide, high), (deep, high))
    plates = {f"wall{n}": _box(*size) for n, size in enumerate(walls)}
    ties = [Tie(f"wall{n}", "right", f"wall{(n + 1) % 4}", "left") for n in range(4)]
    round_ = ("top", "right", "bottom", "left")
    ends = [("floor", "bottom", 4), ("lid", "top", chance.randint(0, 4))]
    for name, edge, held in ends:
        if held:
            plates[name] = _box(wide, deep)
            ties += [Tie(f"wall{n}", edge, name, round_[n]) for n in range(held)]
    return Shape("box", plates, ties)


def pouch(chance: Random) -> Shape:
    """Return two plates on each other, held on some sides or all round; one may be larger."""
    wide, high, swell = chance.choice(LONG_MM), chance.choice(LONG_MM), chance.choice((1.0, 1.3))
    plates = {"p0": _box(wide, high), "p1": _box(swell * wide, swell * high)}
    sides = chance.sample(SIDES, chance.randint(1, 4))
    return Shape("pouch", plates, [Tie("p0", side, "p1", side) for side in sides])


def stack(chance: Random) -> Shape:
    """Return layers on each other, or a chain of plates that may come back to the first."""
    count, size = chance.randint(2, 4), (chance.choice(LONG_MM), chance.choice(LONG_MM))
    plates = {f"p{n}": _box(*size) for n in range(count)}
    sides = chance.sample(SIDES, chance.randint(1, 3))
    ties = [Tie(f"p{n}", side, f"p{n + 1}", side) for n in range(count - 1) for side in sides]
    if chance.random() < 0.3:
        ties.append(Tie(f"p{count - 1}", "right", "p0", "left"))
    return Shape("stack", plates, ties)


def covered_tube(chance: Random) -> Shape:
    """Return a tube with a plate laid on one of its staves, held all round or on two sides."""
    found = tube(chance)
    (x0, y0), (x1, _), (_, y2), _ = found.plates["p0"]
    over = _box(0.8 * (x1 - x0), 0.8 * (y2 - y0))
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


_SHAPES = (tube, tube, box, pouch, stack, covered_tube, cone)


class _Drawing:
    """A shape with its holes, joints, straps and the rest."""

    def __init__(self, chance: Random, shape: Shape) -> None:
        self._chance, self._shape = chance, shape
        self._holes: dict[str, dict[str, Point]] = {name: {} for name in shape.plates}
        self._joints: list[Joint] = []
        self._seams: list[Seam] = []
        for at, tie in enumerate(shape.ties):
            self._row(f"j{at}", tie)

    def pattern(self) -> Pattern:
        chance = self._chance
        mirrored = chance.random() < 0.3
        straps = list(self._straps())
        parts = [self._plate(name, mirrored=mirrored) for name in self._shape.plates]
        if chance.random() < 0.3:
            chance.shuffle(self._joints)
        return Pattern(
            uuid="00000000-0000-0000-0000-000000000000",
            slug="drawn",
            name="drawn",
            version=1,
            content_hash="",
            pieces=(Piece(id="piece", name="piece", mirrored=mirrored),),
            materials=(Material(id="hide", leather="plate", thickness_mm=3.2),),
            parts=(*parts, *straps),
            joints=tuple(self._joints),
            seams=tuple(self._seams),
            forms=tuple(self._forms()),
        )

    def _row(self, name: str, tie: Tie) -> None:
        chance = self._chance
        count, kind = chance.randint(2, 7), chance.choice(KINDS)
        ids = [f"{name}_{n}" for n in range(count)]
        ends = ((tie.one, tie.edge, "a"), (tie.other, tie.opposite, "b"))
        for plate, edge, end in ends:
            for id_, spot in zip(ids, self._spots(plate, edge, count), strict=True):
                self._holes[plate][f"{id_}_{end}"] = spot
        self._joints += [_joint(id_, (f"{id_}_a", f"{id_}_b"), kind) for id_ in ids]
        if chance.random() < 0.7:
            self._seams.append(Seam(id=name, name=f"row {name}", joints=tuple(ids)))

    def _spots(self, plate: str, edge: str, count: int) -> list[Point]:
        corners = self._shape.plates[plate]
        if edge in ("first", "last"):
            ends = (corners[-1], corners[0]) if edge == "first" else (corners[-1], corners[24])
            if len(corners) > 26:
                ends = (corners[-1], corners[0]) if edge == "first" else (corners[25], corners[24])
            return [_between(*ends, 0.1 + 0.8 * n / (count - 1)) for n in range(count)]
        share = 0.15 if edge.startswith("on ") else 0.0
        left, right, low, high = _edges(corners, edge.removeprefix("on "), share)
        start, end = (left, right), (low, high)
        return [_between(start, end, 0.12 + 0.76 * n / (count - 1)) for n in range(count)]

    def _straps(self) -> Iterator[Part]:
        chance = self._chance
        for at in range(chance.randint(1, 3)):
            plate = chance.choice(sorted(self._shape.plates))
            corners = self._shape.plates[plate]
            spot = _between(chance.choice(corners), _middle(corners), chance.uniform(0.4, 1.0))
            self._holes[plate][f"s{at}_on"] = spot
            motion = chance.choice((Motion.FIXED, Motion.FIXED, Motion.TURNING))
            joint = _joint(f"s{at}", (f"s{at}_end", f"s{at}_on"), JointKind.RIVET)
            self._joints.append(replace(joint, motion=motion))
            holes = {f"s{at}_end": (8.0, 10.0)}
            yield _part(f"strap{at}", _box(16.0, 80.0), holes, kind=PartKind.STRAP)

    def _plate(self, name: str, *, mirrored: bool) -> Part:
        chance, made_on = self._chance, MadeOn.BOTH
        if mirrored and chance.random() < 0.2:
            made_on = chance.choice((MadeOn.LEFT, MadeOn.RIGHT))
        part = _part(name, self._shape.plates[name], self._holes[name])
        return replace(part, made_on=made_on, drawn_from_inside=chance.random() < 0.2)

    def _forms(self) -> Iterator[Form]:
        for name in self._shape.plates:
            if self._chance.random() < 0.15:
                kind = self._chance.choice((FormKind.BEND, FormKind.DISH))
                yield Form(id=f"form_{name}", kind=kind, parts=(name,), route=Route.DAMP)


def _joint(id_: str, stack: tuple[str, ...], kind: JointKind) -> Joint:
    fasteners = {JointKind.RIVET: "tubular_9", JointKind.SCREW: "screw_post_fixed"}
    return Joint(id=id_, kind=kind, stack=stack, fastener=fasteners.get(kind, ""))


def _part(
    name: str,
    outline: tuple[Point, ...],
    holes: dict[str, Point],
    kind: PartKind = PartKind.PLATE,
) -> Part:
    made = (Hole(id=id_, part=name, centre=at, diameter_mm=3.5) for id_, at in holes.items())
    return Part(
        id=name,
        name=name,
        piece="piece",
        kind=kind,
        outline=outline,
        material="hide",
        thickness_mm=3.2,
        holes=tuple(made),
    )


def _between(one: Point, other: Point, share: float) -> Point:
    return one[0] + share * (other[0] - one[0]), one[1] + share * (other[1] - one[1])


def _middle(corners: tuple[Point, ...]) -> Point:
    return (
        sum(x for x, _ in corners) / len(corners),
        sum(y for _, y in corners) / len(corners),
    )


def _edges(
    corners: tuple[Point, ...], edge: str, share: float
) -> tuple[float, float, float, float]:
    """Return both ends of a row along an edge of a plate, a little in from it."""
    ends = {"left": (0, 3), "right": (1, 2), "top": (0, 1), "bottom": (3, 2)}[edge]
    middle = _middle(corners)
    found = []
    for at in ends:
        far = max(abs(corners[at][0] - middle[0]), abs(corners[at][1] - middle[1]))
        found += _between(corners[at], middle, share + min(0.3, IN_MM / far))
    return found[0], found[1], found[2], found[3]
