"""Suggestions for 300 parts with 3,000 holes within 5 s, whatever their rows are like."""

from random import Random

import pytest

from armorplan.geometry.matching.suggesting import suggested
from armorplan.pattern.parts import Hole, Part, PartKind


def parts(alike: str) -> list[Part]:
    """300 plates with a row of seven holes and three apart: rows all equal, even, or uneven."""
    chance = Random(3)  # noqa: S311 - no secret
    return [_plate(at, alike, chance) for at in range(300)]


def _plate(at: int, alike: str, chance: Random) -> Part:
    x0, y0, name = at % 20 * 300.0, at // 20 * 200.0, f"p{at}"
    even = 20.0 if alike == "equal" else chance.uniform(18, 32)
    spots, x = list[tuple[float, float, float]](), x0
    for _ in range(7):
        x += chance.uniform(18, 32) if alike == "uneven" else even
        spots.append((x, y0 + 10, 4.0))
    for _ in range(3):
        place = x0 + chance.uniform(20, 200), y0 + chance.uniform(40, 110)
        spots.append((*place, chance.choice((4.0, 5.5))))
    wide, high = 230 + chance.uniform(0, 20), 120 + chance.uniform(0, 20)
    return Part(
        id=name,
        name=name,
        piece="piece",
        kind=PartKind.PLATE,
        outline=((x0, y0), (x0 + wide, y0), (x0 + 240, y0 + high), (x0, y0 + 120)),
        material="hide",
        thickness_mm=3.2,
        holes=tuple(
            Hole(id=f"{name}_{n}", part=name, centre=(a, b), diameter_mm=wide_mm)
            for n, (a, b, wide_mm) in enumerate(spots)
        ),
    )


@pytest.mark.bench
@pytest.mark.parametrize("alike", ["equal", "even", "uneven"])
def test_three_thousand_holes(benchmark, alike):
    made = parts(alike)
    found = benchmark.pedantic(suggested, args=(made,), rounds=1, warmup_rounds=0)
    assert found
    assert benchmark.stats.stats.min < 5.0
