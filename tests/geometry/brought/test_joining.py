"""One truth comes back however its lines were cut, turned round, shuffled, doubled or drawn."""

from math import cos, pi, sin

import pytest
import shapely
from files.loose.messy import (
    HOLES,
    Mess,
    Plate,
    differences,
    doubled,
    in_pieces,
    in_segments,
    kerf,
    lantern_plates,
    plain,
    ring,
    seeded,
    slot,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.brought import nesting
from armorplan.geometry.brought.model import ShapeKind
from armorplan.geometry.brought.near import SAME_MM
from armorplan.geometry.brought.rounds import round_of
from armorplan.geometry.brought.sorting import sorted_out, with_kinds
from armorplan.kernel.errors import StoppedError, UnreadableError

PLATES = tuple(lantern_plates(seeded(1), 4))
SMALL = (
    Plate(
        outline=tuple(ring((60, 50), 100, 7)),
        holes=(((40.0, 40.0), 4.0), ((80.0, 40.0), 5.0), ((60.0, 80.0), 3.2)),
        slots=(slot((60, 55), 24, 5, 0.4),),
        name="small",
    ),
)


def sort(mess, **more):
    return sorted_out(mess.as_drawing(), mm_each=1.0, **more)


@pytest.mark.parametrize("name", sorted(HOLES))
def test_holes_however_they_are_drawn(name):
    assert not differences(sort(plain(PLATES, HOLES[name])), PLATES)


@pytest.mark.parametrize("name", ["circle", "half arcs", "12 corners"])
def test_outlines_cut_into_pieces(name):
    mess = in_pieces(plain(PLATES, HOLES[name]), seeded(3))
    found = sort(mess)
    assert not differences(found, PLATES)
    assert found.joined[0] > len(PLATES)
    assert found.joined[1] == 0.0


def test_ends_that_meet_only_nearly():
    mess = in_pieces(plain(PLATES), seeded(4), jitter_mm=0.06)
    found = sort(mess)
    assert not differences(found, PLATES, apart_mm=0.12)
    assert 0.02 < found.joined[1] <= 0.2


def test_everything_as_short_lines():
    found = sort(in_segments(plain(PLATES)))
    assert not differences(found, PLATES)
    assert found.doubled == 0


def test_lines_drawn_twice():
    once = plain(PLATES)
    found = sort(doubled(once, seeded(5)))
    assert not differences(found, PLATES)
    assert found.doubled == len(once.lines)
    assert {len(shape.strokes) for shape in found.shapes} == {2}


def test_pieces_over_the_whole_and_pieces_cut_in_two_ways():
    whole = plain(PLATES)
    over = Mess(lines=whole.lines + in_pieces(whole, seeded(6)).lines)
    assert not differences(sort(over), PLATES)
    two_ways = in_pieces(doubled(whole, seeded(7)), seeded(8))
    found = sort(two_ways)
    assert not differences(found, PLATES)
    assert len(found.shapes) == len(whole.lines)


def test_lines_that_overlap_for_a_stretch():
    mess = Mess()
    for line in (
        [(0, 0), (70, 0)],
        [(100, 0), (40, 0)],
        [(100, 0), (100, 60)],
        [(100, 30), (100, 60), (50, 60)],
        [(80, 60), (0, 60), (0, 0)],
    ):
        mess.add(line, closed=False)
    found = sort(mess)
    (part,) = found.shapes
    assert part.kind is ShapeKind.PART
    assert shapely.Polygon(part.points).area == pytest.approx(6000.0, rel=1e-4)
    assert found.doubled == 3


def test_a_fold_line_that_ends_on_a_corner_opens_nothing():
    mess = Mess()
    corners = [(0, 0), (100, 0), (100, 60), (0, 60)]
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        mess.add([a, b], closed=False)
    mess.add([(0, 0), (60, 40)], closed=False)
    found = sort(mess)
    kinds = sorted(shape.kind for shape in found.shapes)
    assert kinds == [ShapeKind.ENGRAVING, ShapeKind.PART]
    assert [f.code for f in found.findings] == ["ends-meet"]


def test_a_fold_line_from_corner_to_corner_is_told_by_its_layer():
    mess = Mess()
    corners = [(0, 0), (100, 0), (100, 60), (0, 60)]
    mess.add([(0, 0), (100, 60)], closed=False, layer="fold")
    for a, b in zip(corners, [*corners[1:], corners[0]], strict=True):
        mess.add([a, b], closed=False)
    found = sort(mess)
    assert sorted(shape.kind for shape in found.shapes) == [ShapeKind.ENGRAVING, ShapeKind.PART]
    part = next(s for s in found.shapes if s.kind is ShapeKind.PART)
    assert shapely.Polygon(part.points).area == pytest.approx(6000.0)


@pytest.mark.parametrize("by_mm", [0.1, 0.15, 0.3])
def test_a_cutters_lines_beside_the_true_ones_are_asked_about(by_mm):
    found = sort(kerf(plain(SMALL), by_mm, SMALL))
    assert not differences(found, SMALL)
    asked = [f for f in found.findings if f.code == "offset-lines"]
    assert len(asked) == 1
    assert asked[0].text.startswith("5 lines lie beside")
    assert sum(s.kind is ShapeKind.LEFT_OUT for s in found.shapes) == 5


def test_two_parts_that_touch_stay_two():
    mess = Mess()
    mess.add([(0, 0), (50, 0), (50, 40), (0, 40)])
    mess.add([(50, 0), (100, 0), (100, 40), (50, 40)])
    assert [s.kind for s in sort(mess).shapes] == 2 * [ShapeKind.PART]


def test_an_outline_drawn_round_twice_and_a_line_there_and_back():
    mess = Mess()
    mess.add([(0, 0), (90, 0), (90, 60), (0, 60)] * 2)
    mess.add([(20, 20), (40, 20), (60, 30), (40, 20), (20, 20)], closed=False)
    mess.add([(20, 40), (40, 40), (60, 50), (40, 40)])
    found = sort(mess)
    part, line, other = found.shapes
    assert len(part.points) == 4
    assert line.points == ((20, 20), (40, 20), (60, 30))
    assert other.points == ((20, 40), (40, 40), (60, 50))
    assert not other.closed
    assert not found.findings


def test_lines_side_by_side_are_not_one():
    mess = Mess()
    mess.add([(0, 0), (50, 0)], closed=False)
    mess.add([(0, 3 * SAME_MM), (50, 3 * SAME_MM)], closed=False)
    assert sort(mess).doubled == 0


class TestRounds:
    def test_what_is_round(self):
        for corners in (8, 12, 36, 200):
            found = round_of(tuple(ring((7, -3), 5, corners)))
            assert found is not None
            assert found.centre == pytest.approx((7, -3), abs=1e-9)
            assert found.diameter == pytest.approx(5, abs=1e-9)

    def test_what_is_not(self):
        assert round_of(((0, 0), (5, 0), (5, 5), (0, 5))) is None
        assert round_of(tuple(ring((0, 0), 5, 6))) is None
        assert round_of(slot((0, 0), 8, 4)) is None
        oval = tuple((3 * cos(k), 2.5 * sin(k)) for k in (n * pi / 20 for n in range(40)))
        assert round_of(oval) is None
        twice = tuple(ring((0, 0), 5, 12) * 2)
        assert round_of(twice) is None

    def test_a_large_octagon_is_a_plate_of_eight_sides(self):
        mess = Mess()
        mess.add(ring((0, 0), 120, 8))
        assert sort(mess).shapes[0].circle is None


@settings(max_examples=8)
@given(
    seed=st.integers(0, 10_000),
    mm_each=st.sampled_from((1.0, 25.4, 10.0, 25.4 / 96, 25.4 / 72, 1000.0)),
    hole=st.sampled_from(sorted(HOLES)),
    turn=st.floats(0, 6.28),
)
def test_scale_turn_order_doubling_and_cutting_change_nothing(seed, mm_each, hole, turn):
    random = seeded(seed)
    c, s = cos(turn), sin(turn)

    def turned(points):
        return tuple((x * c - y * s, x * s + y * c) for x, y in points)

    plates = tuple(
        Plate(
            outline=turned(p.outline),
            holes=tuple((turned([spot])[0], wide) for spot, wide in p.holes),
            slots=tuple(turned(each) for each in p.slots),
            name=p.name,
        )
        for p in SMALL
    )
    mess = doubled(in_pieces(plain(plates, HOLES[hole]), random), random)
    random.shuffle(mess.lines)
    found = sorted_out(mess.as_drawing(mm_each), mm_each=mm_each)
    assert not differences(found, plates)


CORNER = st.tuples(st.integers(0, 6), st.integers(0, 6))
LINE = st.tuples(
    st.lists(CORNER, min_size=2, max_size=8, unique=True), st.booleans(), st.sampled_from("ab")
)


@settings(max_examples=15)
@given(
    lines=st.lists(LINE, max_size=8),
    grid_mm=st.sampled_from((0.05, 1, 20)),
    said=st.lists(st.sampled_from(ShapeKind), max_size=4),
)
def test_any_scribble_is_sorted_and_no_stroke_is_lost(lines, grid_mm, said):
    mess = Mess()
    for corners, closed, layer in [*lines, *lines[:2]]:
        points = [(x * grid_mm, y * grid_mm) for x, y in corners]
        mess.add(points, closed=closed and len(points) > 2, layer=layer)
    found = sort(mess)
    keys = [shape.key for shape in found.shapes]
    assert len(keys) == len(set(keys))
    assert {shape.inside for shape in found.shapes} <= {"", *keys}
    assert {f"s{n}" for n in range(len(mess.lines))} <= {
        k for s in found.shapes for k in s.strokes
    }
    other = with_kinds(found, dict(zip(keys, said, strict=False)))
    assert [shape.key for shape in other.shapes] == keys
    assert all(s.closed for s in other.shapes if s.kind is ShapeKind.PART)


def test_thousands_of_copies_and_of_lines_in_lines(monkeypatch):
    mess = Mess()
    mess.add([(0, 0), (90, 0), (90, 60), (0, 60)])
    mess.lines *= 5_000
    found = sort(mess)
    assert found.doubled == 4_999
    assert len(found.shapes) == 1
    monkeypatch.setattr(nesting, "MAX_MEETING", 5_000)
    many = Mess()
    for n in range(100):
        many.add([(-n, -n), (90 + n, -n), (90 + n, 60 + n), (-n, 60 + n)])
    with pytest.raises(UnreadableError) as error:
        sort(many)
    assert "lie in or over one another" in error.value.findings[0].text


def test_sorting_can_be_stopped():
    asked = []

    def after_some():
        asked.append(None)
        return len(asked) > 3

    with pytest.raises(StoppedError):
        sort(plain(PLATES), should_stop=after_some)


def test_no_line_and_one_line():
    assert sort(Mess()).shapes == ()
    mess = Mess()
    mess.add([(0, 0), (50, 0)], closed=False)
    (line,) = sort(mess).shapes
    assert line.kind is ShapeKind.LEFT_OUT
