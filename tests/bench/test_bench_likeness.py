"""Look-alikes among 300 parts: 30 shapes, each with its mirror twin, near twin and copies.

Goal on 2 cores: within 0.5 s. The baseline is shapely's own Hausdorff distance, once a shape and
its near twin, without any turning.
"""

from math import cos, pi, sin
from random import Random
from statistics import median
from time import perf_counter

import pytest
import shapely
from bench.cold import forget
from shapely import affinity

from armorplan.geometry.alike.likeness import look_alikes
from armorplan.pattern.parts import Part, PartKind

pytestmark = pytest.mark.bench


def shape(chance: Random) -> shapely.Polygon:
    corners = chance.randint(5, 11)
    far = chance.uniform(40, 140)
    spots = [
        (far * chance.uniform(0.7, 1) * cos(n * 2 * pi / corners), far * sin(n * 2 * pi / corners))
        for n in range(corners)
    ]
    return shapely.Polygon(spots).buffer(4.0, quad_segs=8)


def sheet() -> tuple[list[Part], list[tuple[shapely.Polygon, shapely.Polygon]]]:
    chance = Random(7)  # noqa: S311 - the same shapes every time
    shapes = [shape(chance) for _ in range(30)]
    near = [each.buffer(1.2) for each in shapes]
    made: list[Part] = []
    for n in range(300):
        flat = (near if n % 10 == 9 else shapes)[n // 10]
        if n % 10 == 5:
            flat = affinity.scale(flat, xfact=-1)
        laid = affinity.rotate(flat, chance.uniform(0, 360))
        made.append(
            Part(
                id=f"p{n}", name=f"p{n}", piece="cop", kind=PartKind.LAME, material="m",
                outline=tuple(laid.exterior.coords[:-1]), thickness_mm=3.2,
            )
        )  # fmt: skip
    return made, list(zip(shapes, near, strict=True))


def test_three_hundred_parts(benchmark):
    parts, pairs = sheet()

    def plain() -> float:
        started = perf_counter()
        for one, other in pairs:
            shapely.hausdorff_distance(one.exterior, other.exterior)
        return perf_counter() - started

    base = median(plain() for _ in range(5))
    found = look_alikes(parts)
    assert len(found) >= 30 * 45

    def cold() -> tuple[tuple[list[Part]], dict[str, object]]:
        forget()
        return (parts,), {}

    benchmark.pedantic(look_alikes, setup=cold, rounds=3)
    benchmark.extra_info["baseline_s"] = round(base, 4)
    if benchmark.stats is not None:
        benchmark.extra_info["ratio"] = round(benchmark.stats["median"] / base, 1)
