"""Gores, turned parts, nested lames, bent straps: each is told for what it is."""

from math import cos, pi, sin
from time import process_time

import pytest
from geometry.leather_sketches import box, part
from geometry.row_sketches import straight

from armorplan.geometry.matching.consistent import consistent, holes_of
from armorplan.geometry.matching.model import Meeting, RowMatch
from armorplan.geometry.matching.suggesting import suggested

UNEVEN = (20.0, 24.0, 31.0, 22.0, 27.0)


def bowed(spans, bow=900.0, at=(0.0, 0.0), over=1):
    """A row down the page with these spacings that bows to the right, or to the left."""
    spots, y = [], 0.0
    for span in (0.0, *spans):
        y += span
        spots.append((at[0] + over * (y * (sum(spans) - y)) / bow, at[1] + y))
    return spots


def leaf(name, row, *, right):
    """A part whose edge runs 8 mm beside a row, to its right or left, and 60 mm of leather behind."""
    side = 1 if right else -1
    edge = [(x + 8 * side, y) for x, y in row]
    first, last = edge[0], edge[-1]
    back = [(last[0] - 60 * side, last[1] + 8), (first[0] - 60 * side, first[1] - 8)]
    outline = ((first[0], first[1] - 8), *edge, (last[0], last[1] + 8), *back)
    return part(name, outline, {f"{name}_{at}": spot for at, spot in enumerate(row)})


def test_two_edges_that_bow_apart_are_gores_drawn_into_shape():
    left = leaf("left", bowed(UNEVEN, bow=300.0), right=True)
    right = leaf("right", bowed(UNEVEN, bow=300.0, at=(100.0, 0.0), over=-1), right=False)
    match = suggested([left, right])[0]
    assert (match.meeting, match.mirrored) == (Meeting.DRAWN, False)
    assert match.pairs == tuple((f"left_{at}", f"right_{at}") for at in range(6))
    assert "two edges that bow away from each other" in match.why


def test_holes_that_fit_only_turned_over_say_so():
    spots = [(30.0, 30.0), (60.0, 30.0), (38.0, 75.0), (110.0, 50.0)]
    one = part("one", box(150.0, 110.0), {f"a{n}": spot for n, spot in enumerate(spots)})
    over = {f"b{n}": (400.0 - x, y) for n, (x, y) in enumerate(spots)}
    other = part("other", box(150.0, 110.0, at=(250.0, 0.0)), over)
    match = suggested([one, other])[0]
    assert match.mirrored
    assert match.pairs == (("a0", "b0"), ("a2", "b2"), ("a1", "b1"), ("a3", "b3"))
    assert "only fit with 'other' turned over" in match.why
    for a, b in match.pairs:
        (x, y), spot = over[b], dict(zip(("a0", "a1", "a2", "a3"), spots, strict=True))[a]
        assert match.fit.place((-x, y)) == pytest.approx(spot, abs=0.01)


def test_a_straight_row_cannot_tell_which_face_is_up():
    row = straight(*UNEVEN)
    sides = [
        part(name, box(300.0, 120.0), {f"{name}{n}": spot for n, spot in enumerate(row)})
        for name in "ab"
    ]
    match = suggested(sides)[0]
    assert not match.mirrored
    assert "cannot tell which face is up" in match.why


def lame(name, width_mm, at_y):
    """A lame as wide as its pivots are apart and 12 mm more at each end, bent round an arm."""
    ends = {f"{name}_far": (12.0, at_y + 30.0), f"{name}_near": (12.0 + width_mm, at_y + 30.0)}
    return part(name, box(width_mm + 24.0, 60.0, at=(0.0, at_y)), ends, diameter_mm=5.5)


def test_pivots_of_nested_lames_are_pi_times_the_leather_farther_apart():
    """Half rings of radii r and r + t differ by π·t along their middles (circle's circumference)."""
    inner = lame("inner", 160.0, 0.0)
    outer = lame("outer", 160.0 + pi * 3.2, 100.0)
    match = suggested([inner, outer])[0]
    assert match.pairs == (("inner_far", "outer_far"), ("inner_near", "outer_near"))
    assert match.meeting is Meeting.DRAWN
    assert "Those of 'outer' lie 10.1 mm farther apart" in match.why
    assert not suggested([inner, lame("wide", 200.0, 100.0)])


def band(name, below_mm, above_mm, at_y):
    """A lame of a set of nearly one shape, with pivots at its lower and upper edge."""
    wide, middle = above_mm + 24.0, above_mm / 2 + 12.0
    ends = {
        f"{name}_{edge}_{side}": (middle + way * apart / 2, at_y + y)
        for edge, apart, y in (("above", above_mm, 12.0), ("below", below_mm, 60.0))
        for side, way in (("left", -1), ("right", 1))
    }
    return part(name, box(wide, 72.0, at=(0.0, at_y)), ends, diameter_mm=4.0)


def test_pivots_just_as_far_apart_come_before_those_that_would_nest():
    """Of 220, 226 and 232 mm each fits its like, and each is 6 mm from the next: nesting asks for 10."""
    first, second = band("first", 220.0, 226.0, 200.0), band("second", 226.0, 232.0, 0.0)
    found = suggested([first, second])
    assert found[0].pairs == (
        ("first_above_left", "second_below_left"),
        ("first_above_right", "second_below_right"),
    )
    assert found[0].likely > 0.5
    assert all(other.likely < found[0].likely / 2 for other in found[1:])


def test_a_strap_s_end_is_found_on_its_plate():
    strap = part("strap", box(200.0, 20.0), {"s1": (10.0, 10.0), "s2": (34.0, 10.0)})
    plate = part(
        "plate", box(160.0, 140.0, at=(0.0, 60.0)), {"p1": (20.0, 130.0), "p2": (44.0, 130.0)}
    )
    (match, *_) = suggested([strap, plate])
    assert {frozenset(pair) for pair in match.pairs} in (
        {frozenset(("s1", "p1")), frozenset(("s2", "p2"))},
        {frozenset(("s1", "p2")), frozenset(("s2", "p1"))},
    )


def test_where_holes_cannot_tell_the_reverse_is_a_match_of_its_own():
    """A strap that points at the plate, up arrows alike, or away from it, turned half about."""
    strap = part(
        "strap", box(120.0, 20.0, at=(0.0, 120.0)), {"s1": (12.0, 130.0), "s2": (28.0, 130.0)}
    )
    plate = part("plate", box(300.0, 90.0), {"p1": (20.0, 45.0), "p2": (36.0, 45.0)})
    one, other = suggested([plate, strap])
    assert (one.turned, other.turned) == (False, True)
    assert {frozenset(dict(each.pairs).items()) for each in (one, other)} == {
        frozenset({("p1", "s1"), ("p2", "s2")}),
        frozenset({("p1", "s2"), ("p2", "s1")}),
    }
    assert one.rivals == other.rivals == 0
    for each in (one, other):
        assert "as well the other way round, with 'strap' turned half about" in each.why
        assert "up arrows" not in each.why


def test_an_even_part_is_the_same_the_other_way_round():
    rib = part("rib", box(60.0, 16.0, at=(0.0, 120.0)), {"r1": (22.0, 128.0), "r2": (38.0, 128.0)})
    plate = part("plate", box(300.0, 90.0), {"p1": (20.0, 45.0), "p2": (36.0, 45.0)})
    (match,) = suggested([plate, rib])
    assert not match.turned
    assert "other way round" not in match.why


def test_a_strap_is_not_riveted_to_itself_by_the_holes_of_its_buckle():
    row = {f"h{at}": (110.0 + 16.0 * at, 10.0) for at in range(6)}
    strap = part("strap", box(200.0, 20.0), {"s1": (10.0, 10.0), "s2": (26.0, 10.0), **row})
    assert suggested([strap]) == ()
    other = part(
        "other",
        box(190.0, 20.0, at=(0.0, 40.0)),
        {f"o{at}": (110.0 + 16.0 * at, 50.0) for at in range(4)},
    )
    met = {
        "".join(hole[0] for hole in pair) for m in suggested([strap, other]) for pair in m.pairs
    }
    assert met.isdisjoint({"ho", "oh"})


@pytest.mark.parametrize(("wider_mm", "words"), [(10.0, "about what"), (5.0, "where 10.1 mm is")])
def test_what_nested_pivots_are_off_is_told_as_it_is(wider_mm, words):
    """Half a turn over 3.2 mm leather: pi times 3.2 is 10.1 mm."""
    match = suggested([lame("inner", 160.0, 0.0), lame("outer", 160.0 + wider_mm, 100.0)])[0]
    assert f"{wider_mm:.1f} mm farther apart, {words}" in match.why


def test_of_what_fits_as_well_the_part_of_like_name_comes_first():
    plates = [
        part(
            name,
            box(160.0, 140.0, at=(at, 0.0)),
            {f"{name}{n}": (at + x, 20.0) for n, x in enumerate((20, 44))},
        )
        for name, at in (("front", 0.0), ("back", 200.0))
    ]
    tab = part(
        "tab of the front",
        box(90.0, 20.0, at=(150.0, 200.0)),
        {"t0": (155.0, 210.0), "t1": (179.0, 210.0)},
    )
    match = next(each for each in suggested([*plates, tab]) if "tab of the front" in each.second)
    assert match.first == "front"
    assert "Both names hold 'front'." in match.why


def ring(count, radius_mm, at):
    turns = [2 * pi * n / count for n in range(count)]
    return [(at[0] + radius_mm * cos(t), at[1] + radius_mm * sin(t)) for t in turns]


def made(first, second, pairs, likely):
    return RowMatch(
        first=first,
        second=second,
        pairs=pairs,
        meeting=Meeting.FLAT,
        residual_mm=0.0,
        likely=likely,
    )


def test_a_consistent_set_uses_no_hole_twice_and_takes_the_likeliest():
    long = made("a", "b", (("a1", "b1"), ("a2", "b2"), ("a3", "b3")), 0.8)
    short = made("a", "c", (("a1", "c1"), ("a2", "c2")), 0.5)
    apart = made("c", "d", (("c1", "d1"), ("c2", "d2")), 0.4)
    assert consistent([short, long, apart]) == (long, apart)
    assert consistent([short]) == (short,)
    chosen = consistent([long, short, apart])
    used = [hole for each in chosen for hole in holes_of(each)]
    assert len(used) == len(set(used))


def test_a_ring_of_many_holes_fits_its_like_as_a_whole():
    both = [
        part(
            name,
            box(300.0, 300.0, at=(at, 0.0)),
            {f"{name}{n}": spot for n, spot in enumerate(ring(90, 120.0, (at + 150.0, 150.0)))},
        )
        for name, at in (("a", 0.0), ("b", 400.0))
    ]
    match = suggested(both)[0]
    assert len(match.pairs) == 90
    assert len({hole for pair in match.pairs for hole in pair}) == 180


def test_a_field_of_pricking_costs_no_time_and_suggests_nothing():
    """1,600 small holes 6 mm apart: rows everywhere, and none of them meant."""
    spots = {f"h{x}_{y}": (10.0 + 6 * x, 10.0 + 6 * y) for x in range(40) for y in range(40)}
    begun = process_time()
    assert suggested([part("field", box(260.0, 260.0), spots, diameter_mm=1.0)]) == ()
    assert process_time() - begun < 20.0


def test_holes_drawn_on_one_spot_many_times_cost_no_time():
    spots = {f"h{at}": (30.0, 30.0) for at in range(10)}
    begun = process_time()
    plates = [part(f"p{at}", box(90.0, 60.0), spots, diameter_mm=4.0) for at in range(120)]
    assert suggested(plates) == ()
    assert process_time() - begun < 5.0


def test_of_rows_too_many_to_compare_those_of_the_plainest_parts_are_left(monkeypatch):
    monkeypatch.setattr("armorplan.geometry.matching.spacings._MOST_COMPARED", 40)
    few = [named_pair("a", 0.0), named_pair("b", 0.0)]
    field = {f"f{x}_{y}": (x, y) for x in (20.0, 44.0, 104.0, 128.0) for y in (20.0, 80.0, 140.0)}
    found = suggested([*few, part("field", box(150.0, 160.0), field)])
    pairs = [match for match in found if len(match.pairs) == 2]
    assert {(match.first, match.second) for match in pairs} == {("a", "b")}


def named_pair(name, at):
    return part(
        name, box(160.0, 60.0), {f"{name}0": (20.0 + at, 20.0), f"{name}1": (44.0 + at, 20.0)}
    )
