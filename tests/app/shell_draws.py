"""Small assemblies drawn by chance that close: tubes, boxes, pouches, cones, stacks, with straps in them.

A seed always draws the same. Rows are riveted, laced, screwed or stitched; plates may be formed,
drawn from inside, made on one side only; straps sit anywhere, deep inside as well. Even seeds draw
what is deep for a short tool: narrow tubes and cones, boxes with a lid, most of them riveted close.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil, dist
from random import Random

from app.drawn_shapes import DEEP_SHAPES, SHAPES, Shape, Tie, box_of

from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Motion, Route, Seam
from armorplan.pattern.parts import Hole, MadeOn, Material, Part, PartKind, Piece, Point
from armorplan.pattern.pattern import Pattern

CLOSE_MM = 42.0
KINDS = (*[JointKind.RIVET] * 6, JointKind.LACE, JointKind.SCREW, JointKind.STITCH)
DEEP_KINDS = (*[JointKind.RIVET] * 14, JointKind.LACE, JointKind.SCREW)
IN_MM = 8.0


def assembly_of(seed: int) -> tuple[str, Pattern]:
    """Return what a seed draws: the name of its shape, and the pattern."""
    chance = Random(seed)  # noqa: S311 - the same shapes every time
    shape = chance.choice(SHAPES if seed % 2 else DEEP_SHAPES)(chance)
    return shape.name, _Drawing(chance, shape).pattern()


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
        deep = self._shape.deep
        count = self._close(tie) if deep else chance.randint(2, 7)
        kind = chance.choice(DEEP_KINDS if deep else KINDS)
        ids = [f"{name}_{n}" for n in range(count)]
        ends = ((tie.one, tie.edge, "a"), (tie.other, tie.opposite, "b"))
        for plate, edge, end in ends:
            for id_, spot in zip(ids, self._spots(plate, edge, count), strict=True):
                self._holes[plate][f"{id_}_{end}"] = spot
        self._joints += [_joint(id_, (f"{id_}_a", f"{id_}_b"), kind) for id_ in ids]
        if chance.random() < 0.7 or deep:
            self._seams.append(Seam(id=name, name=f"row {name}", joints=tuple(ids)))

    def _close(self, tie: Tie) -> int:
        """Return how many joints hold a row so close that no tool goes in between them."""
        corners = self._shape.plates[tie.one]
        if tie.edge in ("first", "last"):
            long_mm = dist(corners[-1], corners[0])
        else:
            long_mm = dist(*(corners[at] for at in _ENDS[tie.edge]))
        return 1 + ceil(0.8 * long_mm / CLOSE_MM)

    def _spots(self, plate: str, edge: str, count: int) -> list[Point]:
        corners = self._shape.plates[plate]
        if edge in ("first", "last"):
            ends = (corners[-1], corners[0]) if edge == "first" else (corners[-1], corners[24])
            if len(corners) > 26:
                ends = (corners[-1], corners[0]) if edge == "first" else (corners[25], corners[24])
            return [_between(*ends, 0.1 + 0.8 * n / (count - 1)) for n in range(count)]
        share = 0.15 if edge.startswith("on ") else 0.0
        if self._shape.deep:
            left, right, low, high = _edges_in(corners, edge)
        else:
            left, right, low, high = _edges(corners, edge.removeprefix("on "), share)
        start, end = (left, right), (low, high)
        return [_between(start, end, 0.12 + 0.76 * n / (count - 1)) for n in range(count)]

    def _straps(self) -> Iterator[Part]:
        chance = self._chance
        for at in range(chance.randint(1, 3)):
            plate = chance.choice(sorted(self._shape.plates))
            corners = self._shape.plates[plate]
            least = 0.8 if self._shape.deep else 0.4
            spot = _between(chance.choice(corners), _middle(corners), chance.uniform(least, 1.0))
            self._holes[plate][f"s{at}_on"] = spot
            motion = chance.choice((Motion.FIXED, Motion.FIXED, Motion.TURNING))
            joint = _joint(f"s{at}", (f"s{at}_end", f"s{at}_on"), JointKind.RIVET)
            self._joints.append(replace(joint, motion=motion))
            holes = {f"s{at}_end": (8.0, 10.0)}
            yield _part(f"strap{at}", box_of(16.0, 80.0), holes, kind=PartKind.STRAP)

    def _plate(self, name: str, *, mirrored: bool) -> Part:
        chance, made_on = self._chance, MadeOn.BOTH
        if mirrored and chance.random() < 0.2:
            made_on = chance.choice((MadeOn.LEFT, MadeOn.RIGHT))
        part = _part(name, self._shape.plates[name], self._holes[name])
        inside = chance.random() < (0.0 if self._shape.deep else 0.2)
        return replace(part, made_on=made_on, drawn_from_inside=inside)

    def _forms(self) -> Iterator[Form]:
        for name in self._shape.plates:
            if self._chance.random() < (0.03 if self._shape.deep else 0.15):
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


_ENDS = {"left": (0, 3), "right": (1, 2), "top": (0, 1), "bottom": (3, 2)}


def _edges_in(corners: tuple[Point, ...], edge: str) -> tuple[float, float, float, float]:
    """Return both ends of a row along an edge, as far in as rows are set, both ways."""
    middle, found = _middle(corners), []
    for at in _ENDS[edge]:
        for here, there in zip(corners[at], middle, strict=True):
            found.append(here + min(IN_MM, 0.3 * abs(there - here)) * (1 if there > here else -1))
    return found[0], found[1], found[2], found[3]


def _edges(
    corners: tuple[Point, ...], edge: str, share: float
) -> tuple[float, float, float, float]:
    """Return both ends of a row along an edge of a plate, a little in from it."""
    ends = _ENDS[edge]
    middle = _middle(corners)
    found = []
    for at in ends:
        far = max(abs(corners[at][0] - middle[0]), abs(corners[at][1] - middle[1]))
        found += _between(corners[at], middle, share + min(0.3, IN_MM / far))
    return found[0], found[1], found[2], found[3]
