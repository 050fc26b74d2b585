"""Drawings that are dense beyond all patterns: what lies on what is found in time, or refused."""

from itertools import pairwise
from math import cos, pi, sin

import numpy as np
import pytest
import shapely
from files.loose.messy import Mess, seeded
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.brought import near, straights
from armorplan.geometry.brought.lines import as_drawn, as_line, as_lines, scaled
from armorplan.geometry.brought.near import SAME_MM, Nearby
from armorplan.geometry.brought.sorting import sorted_out
from armorplan.geometry.brought.straights import straightened
from armorplan.kernel.errors import StoppedError, UnreadableError
from armorplan.kernel.stopping import never


def drawn(mess):
    return scaled(mess.as_drawing(), 1.0, never)


def opened(*lines):
    mess = Mess()
    for line in lines:
        mess.add(list(line), closed=False)
    return mess


def crossing(count, seed=1):
    random = seeded(seed)

    def spot():
        return random.uniform(0, 400), random.uniform(0, 400)

    return opened(*((spot(), spot()) for _ in range(count)))


def rays(count):
    turns = [2 * pi * n / count for n in range(count)]
    return opened(*(((0, 0), (90 * cos(t), 90 * sin(t))) for t in turns))


@settings(max_examples=12)
@given(
    st.lists(st.lists(st.integers(0, 12), min_size=4, max_size=4), min_size=1, max_size=8),
    st.sampled_from((1.0, 0.05, 30.0)),
)
def test_lines_near_spots_are_those_of_a_look_at_each(corners, grid_mm):
    """The second opinion: shapely's own distance, of every spot to every line."""
    mess = opened(*(((a, b), (c, d), (b, a), (a + 1, b)) for a, b, c, d in corners))
    lines = [as_drawn(n, stroke, grid_mm) for n, stroke in enumerate(mess.as_drawing().strokes)]
    shapes = np.array(as_lines(lines))
    spots = shapely.line_interpolate_point(shapes, 0.37, normalized=True)
    at, line = Nearby(lines, never).near(shapely.get_coordinates(spots), np.arange(len(lines)))
    close = shapely.distance(spots[:, None], shapes[None, :]) <= SAME_MM
    np.fill_diagonal(close, val=False)
    assert set(zip(at.tolist(), line.tolist(), strict=True)) == set(
        zip(*(each.tolist() for each in np.nonzero(close)), strict=True)
    )


STRETCH = st.tuples(st.integers(0, 3), st.integers(0, 30), st.integers(2, 12), st.booleans())


@settings(max_examples=10)
@given(st.lists(STRETCH, min_size=1, max_size=12), st.floats(0, 3.1), st.sampled_from((1, 60)))
def test_straight_lines_on_one_another_keep_what_they_cover_once(stretches, turn, times):
    """Of lines in four rows as much is covered as before, by shapely's union, and nothing twice."""
    c, s = cos(turn), sin(turn)

    def put(along, row):
        return 400 + 10 * along * c - 30 * row * s, 10 * along * s + 30 * row * c

    lines = drawn(
        opened(
            *(
                (put(start, row), put(start + size, row))[:: -1 if back else 1]
                for row, start, size, back in stretches * times
            )
        )
    )
    found, _ = straightened(lines, never)
    left = [as_line(line) for line in found]
    covered = shapely.union_all([as_line(line).buffer(0.01) for line in lines])
    assert shapely.union_all([line.buffer(0.01) for line in left]).area == pytest.approx(
        covered.area, rel=1e-3
    )
    assert sum(line.length for line in left) == pytest.approx(covered.area / 0.02, rel=1e-2)
    keys = [line.key for line in found]
    assert len(keys) == len(set(keys))
    assert {k for line in lines for k in line.strokes} <= {
        k for line in found for k in line.strokes
    }


def test_straight_lines_that_only_cross_or_lie_beside_each_other_stay():
    lines = drawn(opened(((0, 0), (90, 0)), ((0, 0.2), (90, 0.2)), ((0, -9), (90, 9.0))))
    assert straightened(lines, never) == (lines, 0)


def test_many_crossing_lines_and_lines_in_one_row():
    found = sorted_out(crossing(300).as_drawing(), mm_each=1.0)
    assert len(found.shapes) > 280
    row = opened(*(((n * 0.01, 5), (n * 0.01 + 300, 5)) for n in range(600)))
    found = sorted_out(row.as_drawing(), mm_each=1.0)
    assert len(found.shapes) == 1
    assert found.doubled == 599
    assert len(found.shapes[0].strokes) == 600


def test_rays_from_one_point_are_not_joined_there():
    assert len(sorted_out(rays(120).as_drawing(), mm_each=1.0).shapes) == 120
    assert len(sorted_out(rays(4).as_drawing(), mm_each=1.0).shapes) == 2


def test_a_long_open_chain_is_one_line():
    chain = [(n * 0.7, 5 * sin(n)) for n in range(800)]
    found = sorted_out(opened(*pairwise(chain)).as_drawing(), mm_each=1.0)
    (line,) = found.shapes
    assert len(line.points) == 800


@pytest.mark.parametrize(
    ("module", "name", "mess"),
    [
        (near, "MAX_LOOKS", opened(*(((0, 0), (9, 1), (8, n)) for n in range(15)))),
        (near, "MAX_PAIRS", opened(*(((0, 0), (9, 1), (8, n)) for n in range(15)))),
        (straights, "MAX_LOOKS", crossing(200)),
        (straights, "MAX_PAIRS", opened(*(((n, 0), (99 + n, n / 900)) for n in range(30)))),
    ],
)
def test_what_is_too_dense_is_refused_in_words(monkeypatch, module, name, mess):
    assert sorted_out(mess.as_drawing(), mm_each=1.0).shapes
    monkeypatch.setattr(module, name, 20)
    with pytest.raises(UnreadableError) as error:
        sorted_out(mess.as_drawing(), mm_each=1.0)
    (finding,) = error.value.findings
    assert finding.code == "drawing-limit"
    assert "lie on or close to one another" in finding.text


def test_dense_drawings_ask_often_whether_to_go_on():
    asked = []

    def counted():
        asked.append(None)
        return len(asked) > 400

    with pytest.raises(StoppedError):
        sorted_out(crossing(300).as_drawing(), mm_each=1.0, should_stop=counted)
