"""Shapes for the rigid-stake check: walls in three dimensions with their exact flat patterns.

Each plate knows where its points come to lie. Rows of rivets join neighbours, and seats for small
tabs of strap lie anywhere on them.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field, replace

import numpy as np
from geometry.reach.stake3d import Wall

from armorplan.pattern.joining import Form, FormKind, Joint, JointKind, Route, Seam
from armorplan.pattern.parts import Hole, Material, Part, PartKind, Piece, Point
from armorplan.pattern.pattern import Pattern

APART_MM = 30.0
HOLE_MM = 3.5
Placed = Callable[[Point], np.ndarray]


@dataclass(slots=True)
class Flat:
    """One plate: its outline and holes on its own drawing, and where its points come to lie."""

    id: str
    outline: list[Point]
    placed: Placed
    spots: list[Point]
    """Places for seats, off the rows."""
    holes: dict[str, Point] = field(default_factory=dict)


@dataclass(slots=True)
class Shape:
    """A wall with its plates and rows; ``at`` says where each hole comes to lie."""

    name: str
    wall: Wall
    plates: list[Flat]
    rows: dict[str, list[tuple[str, str]]]
    shaped: bool = False
    convex: bool = True

    def pattern(self) -> Pattern:
        return _pattern(self)

    def seats(self) -> dict[str, np.ndarray]:
        """Return where each joint comes to lie, by its id."""
        holes = {h: p.placed(spot) for p in self.plates for h, spot in p.holes.items()}
        found = {}
        for row, pairs in self.rows.items():
            found |= {f"{row}_{n}": holes[pair[0]] for n, pair in enumerate(pairs)}
        return found | {f"seat_{h}": at for h, at in holes.items() if "_tab_" in h}

    def plate_at(self, part: str, spot: Point) -> np.ndarray:
        """Return where a point of the laid-out drawing comes to lie."""
        number = [plate.id for plate in self.plates].index(part)
        x, y = spot
        return self.plates[number].placed((x - _shift(self, number), y))


def _shift(shape: Shape, number: int) -> float:
    shift = 0.0
    for at, plate in enumerate(shape.plates[: number + 1]):
        low, high = min(x for x, _ in plate.outline), max(x for x, _ in plate.outline)
        if at == number:
            return shift - low
        shift += high - low + APART_MM
    return shift


def _pattern(shape: Shape) -> Pattern:
    parts, joints, seams = [], [], []
    for number, plate in enumerate(shape.plates):
        off = _shift(shape, number)
        parts.append(_part(plate.id, plate.outline, plate.holes, off))
    for row, pairs in shape.rows.items():
        made = [_rivet(f"{row}_{n}", *pair) for n, pair in enumerate(pairs)]
        joints += made
        seams.append(Seam(id=row, name=f"row {row}", joints=tuple(j.id for j in made)))
    tabs = [h for plate in shape.plates for h in plate.holes if "_tab_" in h]
    for n, hole in enumerate(tabs):
        box = [(0.0, 0.0), (24.0, 0.0), (24.0, 14.0), (0.0, 14.0)]
        tab = _part(f"tab{n}", box, {f"{hole}_on": (7.0, 7.0)}, 40.0 * n, 2000.0)
        parts.append(_as_strap(tab))
        joints.append(_rivet(f"seat_{hole}", hole, f"{hole}_on"))
    return Pattern(
        uuid="00000000-0000-4000-8000-000000000000",
        slug="stake",
        name=shape.name,
        version=1,
        content_hash="",
        pieces=(Piece(id="piece", name="piece"),),
        materials=(Material(id="hide", leather="cop", thickness_mm=3.2),),
        parts=tuple(parts),
        joints=tuple(joints),
        seams=tuple(seams),
        forms=_forms(shape, tuple(seam.id for seam in seams)),
    )


def _forms(shape: Shape, seams: tuple[str, ...]) -> tuple[Form, ...]:
    plates = tuple(plate.id for plate in shape.plates)
    if shape.shaped:
        return (Form(id="round", kind=FormKind.BEND, parts=plates, route=Route.DAMP),)
    return (
        Form(id="drawn", kind=FormKind.CLOSURE, parts=plates, route=Route.BY_SEAM, seams=seams),
    )


def _rivet(joint: str, *stack: str) -> Joint:
    return Joint(id=joint, kind=JointKind.RIVET, stack=stack, fastener="tubular_9")


def _part(name: str, outline, holes: dict[str, Point], off: float, down: float = 0.0) -> Part:
    return Part(
        id=name,
        name=name,
        piece="piece",
        kind=PartKind.PLATE,
        outline=tuple((x + off, y + down) for x, y in outline),
        material="hide",
        thickness_mm=3.2,
        holes=tuple(
            Hole(id=h, part=name, centre=(x + off, y + down), diameter_mm=HOLE_MM)
            for h, (x, y) in holes.items()
        ),
    )


def _as_strap(part: Part) -> Part:
    return replace(part, kind=PartKind.STRAP)
