"""What holds of any matches: no hole twice, misses as told, the same wherever the page lies."""

from collections import Counter
from math import cos, dist, radians, sin

import pytest
from geometry.leather_sketches import box, part
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.matching.consistent import holes_of
from armorplan.geometry.matching.model import Meeting
from armorplan.geometry.matching.suggesting import suggested

MISFIT_MM = 0.5
spots = st.tuples(st.integers(0, 14), st.integers(0, 6)).map(
    lambda at: (at[0] * 10.0, at[1] * 10.0)
)
boards = st.lists(st.lists(spots, max_size=7), min_size=1, max_size=4)
apart = st.lists(st.lists(spots, max_size=5, unique=True), min_size=1, max_size=3)


def plates(made, place=lambda spot: spot):
    """Boards of 160 mm with holes on a grid, two of which may lie in one spot, side by side."""
    return [
        part(
            f"p{at}",
            tuple(map(place, box(160.0, 90.0, at=(at * 200.0 - 10.0, -10.0)))),
            {f"p{at}_{n}": place((x + at * 200.0, y)) for n, (x, y) in enumerate(held)},
        )
        for at, held in enumerate(made)
    ]


@settings(max_examples=25)
@given(boards)
def test_each_match_uses_a_hole_once_and_misses_as_told(made):
    parts = plates(made)
    centres = {hole.id: hole.centre for each in parts for hole in each.holes}
    keys = Counter()
    for match in suggested(parts, misfit_mm=MISFIT_MM):
        keys[match.key] += 1
        assert len(holes_of(match)) == 2 * len(match.pairs)
        assert 0 <= match.likely <= 1
        assert match.residual_mm <= MISFIT_MM
        assert match.why.endswith(".")
        if match.meeting is Meeting.FLAT:
            for a, b in match.pairs:
                x, y = centres[b]
                laid = match.fit.place((-x, y) if match.mirrored else (x, y))
                assert dist(laid, centres[a]) <= MISFIT_MM + 0.001
    assert max(keys.values(), default=1) == 1


@settings(max_examples=12)
@given(apart, st.integers(0, 359), st.integers(-500, 500))
def test_a_page_that_is_turned_and_moved_gives_the_same(made, deg, by):
    def turned(spot):
        c, s = cos(radians(deg)), sin(radians(deg))
        return spot[0] * c - spot[1] * s + by, spot[0] * s + spot[1] * c - by

    def told(parts):
        return max((match.likely for match in suggested(parts)), default=0.0)

    assert told(plates(made)) == pytest.approx(told(plates(made, turned)), abs=0.01)


def test_what_is_no_part_stops_nothing():
    lines = [
        part("line", ((0.0, 0.0), (50.0, 0.0), (100.0, 0.0)), {"a": (0.0, 0.0), "b": (30.0, 0.0)}),
        part("dot", ((0.0, 0.0), (0.0, 0.0), (0.0, 0.0)), {"c": (5.0, 5.0), "d": (5.0, 5.0)}),
        part("plate", box(100.0, 60.0), {"e": (20.0, 20.0), "f": (50.0, 20.0)}),
    ]
    assert {frozenset(holes_of(match)) for match in suggested(lines)} == {
        frozenset({("line", "a"), ("line", "b"), ("plate", "e"), ("plate", "f")})
    }
