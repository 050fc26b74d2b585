"""Pivots of one lame on one axis: as an angle, which of them is off, and by how many mm."""

from dataclasses import replace
from math import atan, cos, degrees, hypot, radians, sin

import pytest
from geometry.lame_sketches import (
    bending,
    chain,
    codes,
    figure,
    findings,
    lame,
    measures,
    moved,
    pivots,
    two_lames,
)

from armorplan.geometry.lames.links import links
from armorplan.geometry.lames.margins import around
from armorplan.geometry.lames.mirrors import mirror_lines
from armorplan.geometry.marks import MarkKind
from armorplan.kernel.findings import Severity


def three():
    top = lame("top", 0, low_mm=15.0, high_mm=90.0, out=0.0)
    middle = lame("middle", 1, low_mm=15.0, high_mm=90.0, out=0.0, inward=20.0, at=(0.0, 200.0))
    low = lame("low", 2, low_mm=15.0, high_mm=75.0, inward=0.0, at=(0.0, 400.0))
    joints = (*pivots("middle", "top"), *pivots("low", "middle"))
    move = bending("top", "middle", "low", angle_deg=60.0)
    return chain(top, middle, low, joints=joints, movement=move)


def test_pivots_drawn_square_are_sound_and_say_so():
    told = measures(three())["lames:pivots:middle"]
    assert told.severity is None
    assert told.verdict == "on one axis"
    assert [mark.kind for mark in told.marks] == [MarkKind.LINE, MarkKind.LINE]


@pytest.mark.parametrize("hole", ["top_out_near", "middle_out_far", "low_in_far"])
@pytest.mark.parametrize("by_mm", [4.0, -4.0])
def test_a_pivot_4_mm_off_is_named_with_its_move(hole, by_mm):
    (found,) = findings(moved(three(), **{hole: (0.0, by_mm)}))
    assert (found.code, found.severity) == ("pivot-off-axis", Severity.WARNING)
    assert f"The pivot '{hole}'" in found.text
    assert "4.0 mm off the axis" in found.text
    way = "up" if by_mm > 0 else "down"
    assert f"Move '{hole}' 4.0 mm {way} the limb" in found.remedy


def test_the_move_that_is_drawn_mends_it():
    pattern = moved(three(), middle_out_far=(0.0, 4.0))
    told = measures(pattern)["lames:pivots:middle"]
    (move,) = [mark for mark in told.marks if mark.kind is MarkKind.MOVE]
    (x0, y0), (x1, y1) = move.spots
    assert (x1 - x0, y1 - y0) == pytest.approx((0.0, -4.0), abs=0.05)
    assert codes(moved(pattern, middle_out_far=(x1 - x0, y1 - y0))) == []


def test_it_is_told_as_an_angle_that_the_spacing_hardly_shows():
    told = measures(moved(three(), top_out_near=(0.0, 4.0)))["lames:pivots:top"]
    span = three().part("top").holes[1].centre[0] * 2
    assert figure(told, "'top_out_near' and 'top_out_far' off square") == pytest.approx(
        degrees(atan(4 / span)), abs=0.01
    )
    shown = figure(told, "what their spacing shows of it")
    assert shown == pytest.approx(hypot(span, 4) - span, abs=1e-3)
    assert shown < 0.06


def test_what_soft_leather_forgives_is_not_told_but_stays_to_be_read():
    told = measures(moved(three(), top_out_near=(0.0, 2.5)))["lames:pivots:top"]
    assert told.severity is None
    assert told.verdict == "on one axis, within 2.5 mm"


def test_both_pivots_moved_alike_are_on_one_axis():
    assert codes(moved(three(), top_out_near=(0.0, 4.0), top_out_far=(0.0, 4.0))) == []


def test_a_pivot_whose_margin_nothing_else_keeps_may_be_either():
    # The pivots 20 mm further up keep 35 mm to the edge; all others keep 15.
    (found,) = findings(moved(three(), middle_in_near=(0.0, 4.0)))
    assert "One of the pivots 'middle_in_near' and 'middle_in_far'" in found.text


def test_where_either_pivot_may_be_the_wrong_one_both_moves_are_named():
    # Each is 2 mm off, the one up and the other down.
    (found,) = findings(moved(three(), top_out_near=(0.0, 2.0), top_out_far=(0.0, -2.0)))
    assert "One of the pivots" in found.text
    assert "'top_out_near' 4.0 mm up the limb or 'top_out_far' 4.0 mm down" in found.remedy


def turned(pattern, part_id, angle_deg):
    """Return a pattern with one part turned on the drawing, up_deg left as it is."""
    angle = radians(angle_deg)

    def turn(spot):
        x, y = spot
        return x * cos(angle) - y * sin(angle), x * sin(angle) + y * cos(angle)

    parts = tuple(
        replace(
            part,
            outline=tuple(map(turn, part.outline)),
            holes=tuple(replace(h, centre=turn(h.centre)) for h in part.holes),
        )
        if part.id == part_id
        else part
        for part in pattern.parts
    )
    return replace(pattern, parts=parts)


@pytest.mark.parametrize("angle_deg", [3.0, 10.0, 80.0])
def test_a_lame_drawn_turned_is_sound_by_its_own_middle_line(angle_deg):
    assert codes(turned(three(), "top", angle_deg)) == []


def uneven(pattern):
    """Return a pattern whose parts are no mirrors of themselves: a corner longer by 30 mm."""
    parts = tuple(
        replace(part, outline=((part.outline[0][0], part.outline[0][1] - 30.0), *part.outline[1:]))
        for part in pattern.parts
    )
    return replace(pattern, parts=parts)


def test_without_a_middle_line_the_other_pivots_of_the_lame_tell():
    pattern = moved(uneven(three()), middle_in_near=(0.0, 4.0))
    found = findings(pattern)
    assert [f.code for f in found] == ["pivot-off-axis"]
    assert "its other pivots" in found[0].text


def test_up_alone_makes_no_more_than_a_note():
    pattern = moved(uneven(two_lames()), upper_out_near=(0.0, 4.0))
    (found,) = findings(pattern)
    assert found.severity is Severity.NOTE
    assert "up_deg" in found.text


def test_an_uneven_lame_drawn_turned_tells_nothing():
    pattern = turned(uneven(two_lames()), "upper", 15.0)
    assert codes(pattern) == []
    assert measures(pattern)["lames:pivots:upper"].verdict == "nothing to hold them against"


def test_the_axis_of_the_bend_tells_too():
    pattern = uneven(two_lames())
    forms = tuple(
        replace(form, axis=((0.0, -60.0), (0.0, -10.0))) if "upper" in form.parts else form
        for form in pattern.forms
    )
    assert codes(replace(pattern, forms=forms)) == []
    off = moved(replace(pattern, forms=forms), upper_out_far=(0.0, -4.0))
    (found,) = findings(off)
    assert found.severity is Severity.WARNING
    assert "the axis of its bend 'upper_round'" in found.text


def test_pivots_are_held_against_those_of_their_own_chain_only():
    pattern = three()
    other = two_lames(angle_deg=None)
    both = replace(
        pattern,
        parts=(*pattern.parts, *other.parts),
        joints=(*pattern.joints, *other.joints),
    )
    near = around(links(both))
    assert {hole.part for hole in near["top"].tiers[1]} == {"top", "middle", "low"}
    assert {hole.part for hole in near["upper"].tiers[1]} == {"upper", "lower"}


def test_an_outline_far_longer_than_any_lame_is_not_held_against_itself():
    zigzag = tuple((n * 1.0, 0.0 if n % 2 else 2000.0) for n in range(2000))
    assert mirror_lines((*zigzag, (2000.0, -1.0), (0.0, -1.0))) == ()
    assert mirror_lines(((0.0, 0.0), (200.0, 0.0), (200.0, 60.0), (0.0, 60.0))) != ()
