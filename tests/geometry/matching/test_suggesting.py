"""Rows are told from distances alone: no joint, name or kind is asked."""

from math import cos, radians, sin

import pytest
from geometry.leather_sketches import box, part
from geometry.row_sketches import straight

from armorplan.geometry.matching.model import Meeting
from armorplan.geometry.matching.suggesting import suggested
from armorplan.kernel.errors import StoppedError

UNEVEN = (20.0, 24.0, 31.0, 22.0)


def turned(spots, deg, by=(0.0, 0.0), *, over=False):
    """Spots turned about the origin, turned over before where asked, and moved."""
    c, s = cos(radians(deg)), sin(radians(deg))
    return [
        (x * c - y * s + by[0], x * s + y * c + by[1])
        for x, y in ((-x, y) if over else (x, y) for x, y in spots)
    ]


def named(name, spots, outline=None, **facts):
    holes = {f"{name}_{at}": spot for at, spot in enumerate(spots)}
    return part(name, outline or box(400.0, 120.0), holes, **facts)


def arc(count, step_mm, radius_mm, at=(0.0, 0.0)):
    step = step_mm / radius_mm
    return [
        (at[0] + radius_mm * sin(step * i), at[1] + radius_mm * (1 - cos(step * i)))
        for i in range(count)
    ]


def test_a_row_is_found_on_a_part_that_is_turned_and_moved():
    row = straight(*UNEVEN)
    found = suggested([named("a", row), named("b", turned(row, 130, (700.0, 90.0)))])
    assert [(m.first, m.second, m.meeting) for m in found] == [("a", "b", Meeting.FLAT)]
    assert found[0].pairs == tuple((f"a_{at}", f"b_{at}") for at in range(5))
    assert found[0].residual_mm == pytest.approx(0, abs=0.001)
    for (a_x, a_y), (b_x, b_y) in zip(row, turned(row, 130, (700.0, 90.0)), strict=True):
        assert found[0].fit.place((b_x, b_y)) == pytest.approx((a_x, a_y), abs=0.01)


@pytest.mark.parametrize(
    ("first", "gone"),
    [
        ((12, 36, 63, 95, 110), ()),
        ((12, 36, 62, 84, 110, 135), (3,)),
        ((12, 36, 63, 87, 99), (4,)),
    ],
)
def test_all_that_one_motion_lays_on_each_other_is_one_match(first, gone):
    """A gap much wider than the one beside it breaks a row, not the match."""
    kept = [x for at, x in enumerate(first) if at not in gone]
    one = named("a", [(x, 12.0) for x in first])
    other = named("b", [(x + 180.0, 48.0) for x in kept], box(400.0, 120.0, at=(170.0, 0.0)))
    match = suggested([one, other])[0]
    assert len(match.pairs) == len(kept)
    assert match.residual_mm == pytest.approx(0.0, abs=0.001)


def test_holes_in_a_row_of_their_own_stay_out_of_another():
    """Two plates of one shape with a row at each side, laid turned over: two rows, not one."""
    left, right = straight(*UNEVEN), [(x, 90.0) for x, _ in straight(*UNEVEN)]
    one, other = named("a", [*left, *right]), named("b", [*left, *right])
    assert {len(match.pairs) for match in suggested([one, other])} == {5}


def test_holes_that_are_joined_already_are_left_out():
    row = straight(*UNEVEN)
    parts = [named("a", row), named("b", row)]
    assert suggested(parts)
    assert not suggested(parts, taken={f"a_{at}" for at in range(5)})


def test_holes_of_unlike_size_do_not_meet():
    row = straight(*UNEVEN)
    assert not suggested([named("a", row), named("b", row, diameter_mm=4.2)])


def test_an_outer_row_longer_all_along_is_told_as_a_bend():
    row = straight(*UNEVEN)
    longer = straight(*(1.03 * each for each in UNEVEN))
    match = suggested([named("a", row), named("b", longer)])[0]
    assert match.meeting is Meeting.DRAWN
    assert "The row on 'b' is 3.0 % longer all along (2.9 mm)" in match.why


def test_rows_that_curve_differently_are_drawn_into_shape():
    one, other = arc(6, 25.0, 150.0, (20.0, 10.0)), arc(6, 25.0, 400.0, (20.0, 10.0))
    match = suggested([named("a", one), named("b", other)])[0]
    assert match.meeting is Meeting.DRAWN
    assert "draws the leather into shape" in match.why


def test_equal_rows_everywhere_say_that_they_are_ambiguous():
    row = straight(20.0, 20.0, 20.0, 20.0)
    parts = [named(name, turned(row, 0, (0.0, 0.0))) for name in "abcd"]
    match = suggested(parts)[0]
    assert match.rivals >= 2
    assert f"fit {match.rivals} other rows as well" in match.why


def test_it_ends_when_asked():
    with pytest.raises(StoppedError):
        suggested([named("a", straight(*UNEVEN))], should_stop=lambda: True)


def test_it_asks_in_every_part_of_the_work_whether_to_go_on():
    """Wherever the asking says so, it ends there: no loop is long without one."""
    row = straight(*UNEVEN)
    parts = [named("a", [*row, (30.0, 90.0)]), named("b", [*row, (30.0, 90.0)])]
    asked = []
    suggested(parts, should_stop=lambda: bool(asked.append(None)))
    assert len(asked) > 12
    for last in range(0, len(asked), 3):
        left = iter(range(last))
        with pytest.raises(StoppedError):
            suggested(parts, should_stop=lambda left=left: next(left, None) is None)


def test_nothing_is_suggested_without_holes():
    assert suggested([]) == ()
    assert suggested([named("a", [])]) == ()
