"""Patterns of any size for the timings: n parts in a ring, each riveted to the next by five joints."""

from math import cos, pi, sin
from random import Random

import shapely
from shapely import affinity

from armorplan.pattern.joining import Joint, JointKind, Seam
from armorplan.pattern.parts import Hole, Material, Part, PartKind, Piece
from armorplan.pattern.pattern import Pattern

PER_SEAM = 5
_GROUP = 10


def shape(chance: Random) -> shapely.Polygon:
    """Return a rounded outline of 5 to 11 corners, 40 to 140 mm from its middle."""
    corners, far = chance.randint(5, 11), chance.uniform(40, 140)
    spots = [
        (far * chance.uniform(0.7, 1) * cos(n * 2 * pi / corners), far * sin(n * 2 * pi / corners))
        for n in range(corners)
    ]
    return shapely.Polygon(spots).buffer(4.0, quad_segs=8)


def near_twins(count: int) -> list[shapely.Polygon]:
    """Return shapes in groups of ten, each 0.4 mm larger than the one before, a third turned over."""
    chance = Random(7)  # noqa: S311 - the same shapes every time
    first = [shape(chance) for _ in range(-(-count // _GROUP))]
    found = [first[n % len(first)].buffer(0.4 * (n // len(first))) for n in range(count)]
    return [affinity.scale(s, xfact=-1) if n % 3 == 1 else s for n, s in enumerate(found)]


def all_different(count: int) -> list[shapely.Polygon]:
    """Return shapes drawn by chance."""
    chance = Random(11)  # noqa: S311 - the same shapes every time
    return [shape(chance) for _ in range(count)]


def _part(at: int, outline: shapely.Polygon) -> Part:
    middle, name = outline.centroid, f"p{at}"
    return Part(
        id=name,
        name=f"plate {at}",
        piece="coat",
        kind=PartKind.LAME if at % 2 else PartKind.PLATE,
        material="hide",
        outline=tuple(outline.exterior.coords[:-1]),
        thickness_mm=3.2,
        holes=tuple(
            Hole(
                id=f"{name}_{row}_{n}",
                part=name,
                centre=(middle.x - 26 + 13 * n, middle.y - 12 + 24 * row),
                diameter_mm=4.0,
            )
            for row in (0, 1)
            for n in range(PER_SEAM)
        ),
    )


def ring_of(shapes: list[shapely.Polygon]) -> Pattern:
    """Return a pattern in which each part is riveted on the next one, the last on the first."""
    chance, count = Random(5), len(shapes)  # noqa: S311 - the same turns every time
    laid = [affinity.rotate(each, chance.uniform(0, 360)) for each in shapes]
    parts = [_part(at, each) for at, each in enumerate(laid)]
    seams = [
        [
            Joint(
                id=f"j{at}_{n}",
                kind=JointKind.RIVET,
                stack=(f"p{at}_1_{n}", f"p{(at + 1) % count}_0_{n}"),
                fastener="tubular_9",
            )
            for n in range(PER_SEAM)
        ]
        for at in range(count)
    ]
    return Pattern(
        uuid="00000000-0000-0000-0000-000000000000",
        slug="ring",
        name="ring",
        version=1,
        content_hash="",
        pieces=(Piece(id="coat", name="coat"),),
        materials=(Material(id="hide", leather="plate", thickness_mm=3.2),),
        parts=tuple(parts),
        joints=tuple(joint for seam in seams for joint in seam),
        seams=tuple(
            Seam(id=f"s{at}", name=f"row {at}", joints=tuple(joint.id for joint in seam))
            for at, seam in enumerate(seams)
        ),
    )
