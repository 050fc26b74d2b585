"""What lies under a lame's neighbour as the limb bends, pair by pair and as a chain."""

from dataclasses import replace
from itertools import pairwise
from math import dist, pi, radians

import pytest
from geometry.lame_sketches import (
    RADIUS_MM,
    bending,
    chain,
    codes,
    figure,
    findings,
    lame,
    measures,
    pivot,
    pivots,
    two_lames,
)

from armorplan.geometry.marks import MarkKind
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Form, FormKind, Motion, Route
from armorplan.pattern.parts import PartKind

PAIR = "lames:bend:upper-lower"
SLIDE_MM = RADIUS_MM * radians(40)
"""34.9 mm."""


def test_a_deep_lame_stays_under_and_every_number_has_its_formula():
    told = measures(two_lames())[PAIR]
    assert told.severity is None
    assert figure(told, "overlap at rest") == pytest.approx(60.0)
    assert figure(told, "lever at the back") == pytest.approx(RADIUS_MM)
    assert figure(told, "slide at the back") == pytest.approx(SLIDE_MM)
    assert figure(told, "left under the neighbour") == pytest.approx(60.0 - SLIDE_MM)
    assert told.verdict == "25.1 mm stay under"
    assert all(f.formula and f.source for f in told.figures)


@pytest.mark.parametrize(
    ("overlap_mm", "code", "severity"),
    [
        (SLIDE_MM + 10.1, None, None),
        (SLIDE_MM + 9.9, "lame-little-cover", Severity.NOTE),
        (SLIDE_MM + 5.1, "lame-little-cover", Severity.NOTE),
        (SLIDE_MM + 4.9, "lame-little-cover", Severity.WARNING),
        (SLIDE_MM - 1.0, "lame-gap-opens", Severity.WARNING),
        (SLIDE_MM - 11.0, "lame-gap-opens", Severity.ERROR),
    ],
)
def test_what_is_left_decides_how_grave_it_is(overlap_mm, code, severity):
    found = findings(two_lames(overlap_mm=overlap_mm))
    assert [(f.code, f.severity) for f in found] == ([] if code is None else [(code, severity)])


def test_a_gap_is_told_with_its_mend():
    (found,) = findings(two_lames(overlap_mm=30.0))
    assert "A gap of 4.9 mm opens" in found.text
    assert "slides 34.9 mm" in found.text
    # 34.9 + 10 kept - 30; and of 40° only (30 - 10) / 50 = 22.9°.
    assert "by 14.9 mm at the back" in found.remedy
    assert "4.9 mm of the gap and 10 mm that stay under" in found.remedy
    # 40° less 30 / 50 = 34.4° closes it.
    assert "turn 17° less (6° less just closes it)" in found.remedy
    assert "In leather already cut" in found.remedy


def test_what_leather_makes_up_is_no_gap():
    (found,) = findings(two_lames(overlap_mm=SLIDE_MM - 0.4))
    assert (found.code, found.severity) == ("lame-little-cover", Severity.WARNING)
    assert "0.0 mm of the upper are left" in found.text
    (found,) = findings(two_lames(overlap_mm=SLIDE_MM - 0.6))
    assert found.code == "lame-gap-opens"


def test_a_chain_is_as_grave_as_the_worst_of_its_pairs_and_tells_nothing_twice():
    told = measures(two_lames(overlap_mm=30.0))
    whole = told["lames:bend"]
    assert whole.severity is Severity.WARNING
    assert whole.findings == ()
    assert whole.verdict == "a gap of 4.9 mm opens: lower over upper"
    assert codes(two_lames(overlap_mm=30.0)) == ["lame-gap-opens"]


def test_each_pair_has_a_strip_of_its_own_two_plates():
    told = measures(three(movement=bending("top", "middle", "low", angle_deg=60.0)))
    for pair in ("top-middle", "middle-low"):
        positions = told[f"lames:bend:{pair}"].picture.positions
        assert positions[-1].angle_deg == pytest.approx(30.0)
        assert [bar.part for bar in positions[-1].bars] == pair.split("-")
        assert len(positions[-1].overlaps) == 1


def test_the_mark_at_a_gap_shows_the_gap_where_leather_is_missing():
    told = measures(two_lames(overlap_mm=30.0))[PAIR]
    mark = next(mark for mark in told.marks if mark.kind is MarkKind.SPAN)
    assert (mark.label, mark.severity) == ("gap 4.9 mm", Severity.WARNING)
    # The lower lame's edge lies 30 mm above its pivots, at 200 on the page.
    assert mark.spots[0] == pytest.approx((0.0, 170.0))
    assert mark.spots[1] == pytest.approx((0.0, 170.0 - 4.9), abs=0.05)


def test_of_little_cover_the_mark_shows_what_is_left():
    told = measures(two_lames(overlap_mm=SLIDE_MM + 4.0))[PAIR]
    mark = next(mark for mark in told.marks if mark.kind is MarkKind.SPAN)
    assert mark.label == "4.0 mm left"


def test_alike_shares_are_told_once():
    told = measures(three(movement=bending("top", "middle", "low", angle_deg=70.0)))
    assert "The limb bends 70°, each pair 35.0°." in told["lames:bend"].text


def test_a_shallow_lame_is_drawn_straight_along_the_limb():
    # Wrapped 10° only, the lever is 1.1 mm: 60 mm of edge do not wind round the pivots.
    pattern = two_lames()
    forms = tuple(replace(f, angle_deg=10.0) for f in pattern.forms)
    told = measures(replace(pattern, forms=forms))[PAIR]
    left = next(f for f in told.figures if f.name == "left under the neighbour")
    assert "slide along the limb" in left.formula
    lower = told.picture.positions[0].bars[-1]
    # From its upper edge 60 mm above the pivots to its lower one 60 mm below.
    assert lower.back[0][1] == pytest.approx(-60.0)
    assert lower.back[-1][1] == pytest.approx(60.0)


def test_a_bend_tighter_than_its_pivots_ask_for_is_told():
    pattern = two_lames()
    forms = tuple(
        replace(f, radius_mm=25.0) if f.parts == ("upper",) else f for f in pattern.forms
    )
    (found,) = findings(replace(pattern, forms=forms))
    assert (found.code, found.severity) == ("lame-radius-disagrees", Severity.NOTE)
    # Half round over 50 π mm: 50 mm to the middle of 3 mm leather.
    assert "an inner radius of 25 mm, its pivots 48 mm" in found.text


def test_a_bend_of_about_the_radius_of_its_pivots_is_not():
    pattern = two_lames()
    forms = tuple(replace(f, radius_mm=47.0) for f in pattern.forms)
    assert codes(replace(pattern, forms=forms)) == []


def test_deepened_as_told_nothing_more_is_told():
    assert codes(two_lames(overlap_mm=30.0 + 14.91)) == []
    assert codes(two_lames(overlap_mm=30.0, angle_deg=40.0 - 17.1)) == []


def test_a_gap_at_rest_is_told_without_a_movement_too():
    pattern = two_lames(overlap_mm=-5.0, angle_deg=None)
    (found,) = findings(pattern)
    assert found.code == "lame-gap-opens"
    assert "5.0 mm stands open" in found.text


def test_a_chain_without_a_movement_says_how_far_it_turns():
    told = measures(two_lames(angle_deg=None))["lames:upper-lower"]
    assert told.verdict == "turns 69° before a gap opens"  # 60 / 50
    assert "57° while 10 mm stay" in told.text  # 50 / 50
    assert told.severity is None


def three(**spots):
    top = lame("top", 0, low_mm=0.0, high_mm=90.0, out=0.0)
    middle = lame("middle", 1, low_mm=0.0, high_mm=80.0, out=0.0, inward=20.0, at=(0.0, 200.0))
    low = lame("low", 2, low_mm=60.0, high_mm=60.0, inward=0.0, at=(0.0, 400.0))
    joints = (*pivots("middle", "top"), *pivots("low", "middle"))
    return chain(top, middle, low, joints=joints, **spots)


def test_shares_say_how_far_each_pair_turns():
    pattern = three(
        movement=bending("top", "middle", "low", angle_deg=70.0, shares_deg=(20.0, 50.0))
    )
    told = measures(pattern)
    lever = RADIUS_MM
    assert figure(told["lames:bend:top-middle"], "slide at the back") == pytest.approx(
        lever * radians(20)
    )
    assert figure(told["lames:bend:middle-low"], "slide at the back") == pytest.approx(
        (lever + 3) * radians(50)
    )


def test_chains_that_are_not_declared_are_found_whole_from_the_top_down():
    told = measures(three())
    assert "lames:top-low" in told
    assert told["lames:top-low"].about[:3] == ("top", "middle", "low")


def test_a_movement_named_upwards_is_told_and_measured_alike():
    up = three(movement=bending("low", "middle", "top", angle_deg=70.0, shares_deg=(50.0, 20.0)))
    down = three(movement=bending("top", "middle", "low", angle_deg=70.0, shares_deg=(20.0, 50.0)))
    assert codes(up) == ["movement-upside-down"]
    assert codes(down) == []
    for pair in ("lames:bend:top-middle", "lames:bend:middle-low"):
        assert measures(up)[pair].figures == measures(down)[pair].figures


def test_the_strip_shows_the_overlaps_that_are_reckoned_and_turns_rigid_plates():
    told = measures(three(movement=bending("top", "middle", "low", angle_deg=60.0)))
    positions = told["lames:bend"].picture.positions
    assert [p.angle_deg for p in positions] == pytest.approx([0, 15, 30, 45, 60])
    assert positions[0].overlaps[0].overlap_mm == pytest.approx(60.0)
    for position in positions:
        turned = radians(position.angle_deg / 2)
        assert position.overlaps[0].overlap_mm == pytest.approx(60.0 - RADIUS_MM * turned)
        for plate, rest in zip(position.bars, positions[0].bars, strict=True):
            lengths = [[dist(*ends) for ends in pairwise(one.back)] for one in (plate, rest)]
            assert lengths[0] == pytest.approx(lengths[1])
        top, middle, low = position.bars
        assert top.pivots[0] == pytest.approx(middle.pivots[0])
        assert middle.pivots[1] == pytest.approx(low.pivots[0])


def test_the_lower_end_of_the_limb_swings_away_from_the_back():
    told = measures(three(movement=bending("top", "middle", "low", angle_deg=60.0)))
    straight, bent = (told["lames:bend"].picture.positions[at].bars[-1] for at in (0, -1))
    assert bent.back[-1][0] < straight.back[-1][0]


def test_a_bend_with_a_radius_wraps_no_further_than_its_pivots():
    # 120 mm round 65 + 1.5 mm is 103°: the back stands 66.5 × (1 - cos 51.7°) = 25.3 mm off.
    pattern = two_lames()
    forms = tuple(replace(f, radius_mm=100.0, angle_deg=170.0) for f in pattern.forms)
    told = measures(replace(pattern, forms=forms))[PAIR]
    wrap = 50 * pi / 101.5
    assert wrap < radians(170)
    assert "bent to an inner radius of 100 mm" in next(
        f.formula for f in told.figures if f.name == "lever at the back"
    )
    assert figure(told, "lever at the back") < RADIUS_MM


def test_a_fold_of_the_rim_or_a_bend_across_says_nothing_of_the_lever():
    pattern = two_lames()
    across = Form(
        id="across", kind=FormKind.BEND, parts=("upper",), route=Route.DAMP, radius_mm=4.0,
        angle_deg=90.0, axis=((-50.0, -40.0), (50.0, -40.0)),
    )  # fmt: skip
    fold = replace(across, id="fold", kind=FormKind.FOLD, axis=None)
    told = measures(replace(pattern, forms=(across, fold, *pattern.forms)))[PAIR]
    assert figure(told, "lever at the back") == pytest.approx(RADIUS_MM)


def test_without_a_bend_half_round_is_taken_and_said():
    told = measures(replace(two_lames(), forms=()))[PAIR]
    assert figure(told, "lever at the back") == pytest.approx(RADIUS_MM)
    assert any("taken as half round" in f.formula for f in told.figures)


def test_the_inner_lame_is_drawn_as_a_ghost_where_it_lies_under_the_outer_one():
    told = measures(two_lames())[PAIR]
    ghost = next(mark for mark in told.marks if mark.kind is MarkKind.GHOST)
    assert ghost.part == "lower"
    # The upper lame's lower edge lies at the height of the pivots, 60 mm below the lower one's top.
    assert max(y for _, y in ghost.spots) == pytest.approx(200.0)
    span = next(mark for mark in told.marks if mark.kind is MarkKind.SPAN)
    assert span.label == "60.0 mm"


def inside(gap_mm):
    """Two lames whose ends reach 40 mm beyond the pivots and stand apart there."""
    pattern = two_lames(angle_deg=40.0)
    outlines = {}
    for part, s in (("upper", -1), ("lower", 1)):
        whole = pattern.part(part)
        y = whole.holes[0].centre[1]
        half = abs(whole.holes[0].centre[0])
        edge = y + s * gap_mm / 2
        outlines[part] = (
            (-half - 40, edge), (-half, edge), (-half, y - s * 60), (half, y - s * 60),
            (half, edge), (half + 40, edge), (half + 40, y + s * 80), (-half - 40, y + s * 80),
        )  # fmt: skip
    parts = tuple(replace(part, outline=outlines[part.id]) for part in pattern.parts)
    return replace(pattern, parts=parts)


def test_plates_that_stand_apart_beyond_the_pivots_touch_inside_the_bend():
    (found,) = [f for f in findings(inside(10.0)) if f.code == "lame-inside-touches"]
    assert found.severity is Severity.NOTE
    assert "wedge of 40°" in found.remedy
    # 35 mm round the limb beyond the pivot lie 50 × sin 0.7 = 32.2 mm inward: 10 mm are 17.8°.
    assert "after 18° of 40°" in found.text


def test_far_enough_apart_they_do_not_touch():
    assert "lame-inside-touches" not in codes(inside(30.0))


def test_a_third_pivot_between_two_plates_is_told():
    pattern = two_lames()
    parts = tuple(
        replace(p, holes=(*p.holes, replace(p.holes[0], id=f"{p.id}_mid", centre=(0.0, y))))
        for p, y in zip(pattern.parts, (-10.0, 190.0), strict=True)
    )
    extra = pivot("mid", "lower_mid", "upper_mid")
    pattern = replace(pattern, parts=parts, joints=(*pattern.joints, extra))
    assert codes(pattern) == ["movement-too-many-pivots"]


def test_flat_leather_on_one_pivot_is_left_out():
    pattern = two_lames()
    pattern = replace(pattern, joints=pattern.joints[:1])
    told = measures(pattern)
    assert list(told) == ["lames:bend"]
    assert told["lames:bend"].verdict == "not on two pivots"
    assert "1 of 1 pairs" in told["lames:bend"].text


def test_straps_that_turn_are_no_lames():
    pattern = two_lames(angle_deg=None)
    parts = tuple(replace(part, kind=PartKind.STRAP) for part in pattern.parts)
    assert [m for m in measures(replace(pattern, parts=parts)) if "pivots" not in m] == []


def test_fixed_and_sliding_joints_are_no_pivots():
    pattern = two_lames(angle_deg=None)
    for motion in (Motion.FIXED, Motion.SLIDING):
        joints = tuple(replace(joint, motion=motion) for joint in pattern.joints)
        assert measures(replace(pattern, joints=joints)) == {}


def hollow(deep_mm):
    """A lower lame whose upper edge runs in by so much halfway to its pivots, on one side."""
    pattern = two_lames(overlap_mm=50.0)
    lower = pattern.part("lower")
    half = abs(lower.holes[0].centre[0])
    (x0, y0), (x1, _), (_, y2), _ = lower.outline
    outline = (
        (x0, y0), (-half * 0.7, y0), (-half * 0.5, y0 + deep_mm), (-half * 0.3, y0),
        (x1, y0), (x1, y2), (x0, y2),
    )  # fmt: skip
    parts = tuple(replace(p, outline=outline) if p.id == "lower" else p for p in pattern.parts)
    return replace(pattern, parts=parts)


def test_an_edge_that_runs_in_beside_the_middle_opens_there():
    # 45° round from the middle the lever is 50 × cos 45° = 35.4 mm: the edge slides 24.7 mm.
    (found,) = findings(hollow(40.0))
    assert (found.code, found.severity) == ("lame-gap-opens", Severity.ERROR)
    assert found.text.startswith(
        "42 mm beside the middle of the back, measured on the lower, a gap of 14.7 mm opens"
    )
    assert "10.0 mm lie over each other there at rest" in found.text
    assert "by 24.7 mm" in found.remedy


def test_what_is_left_beside_the_middle_may_be_little():
    (found,) = findings(hollow(20.0))
    assert found.code == "lame-little-cover"
    assert "5.3 mm of the upper are left" in found.text
    assert codes(hollow(10.0)) == []


def test_the_line_the_chain_the_mark_and_the_figures_say_the_worst_spot():
    told = measures(hollow(20.0))
    pair = told[PAIR]
    assert pair.verdict == "5.3 mm are all that stays under, 42 mm beside the middle"
    assert told["lames:bend"].verdict == f"{pair.verdict}: {pair.title}"
    assert figure(pair, "overlap at rest, 42 mm beside the middle") == pytest.approx(30.0)
    assert figure(pair, "slide 42 mm beside the middle") == pytest.approx(24.7, abs=0.05)
    assert figure(pair, "left 42 mm beside the middle") == pytest.approx(5.3, abs=0.05)
    (span,) = (mark for mark in pair.marks if mark.kind is MarkKind.SPAN)
    assert span.label == "5.3 mm left"
    # Up the page from the hollow of the edge, which lies 30 mm above the pivots at 200.
    (x0, y0), (x1, y1) = span.spots
    assert x0 == pytest.approx(x1)
    assert (y0, y1) == (pytest.approx(170.0), pytest.approx(175.3, abs=0.05))


def test_a_middle_that_leaves_least_is_not_told_with_a_spot_beside_it():
    pair = measures(two_lames(overlap_mm=40.0))[PAIR]
    assert "beside" not in pair.verdict
    assert not any("beside" in f.name for f in pair.figures)
