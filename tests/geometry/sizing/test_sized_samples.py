"""Samples in other sizes: rows stay matched, plates plausible, lames over each other, nothing new wrong.

Body figures: ANSUR II, NATICK/TR-15/007.
"""

from dataclasses import replace
from itertools import pairwise
from math import dist

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.areas import rectangle_mm
from armorplan.geometry.lames.articulation import slide_mm
from armorplan.geometry.lames.chains import declared_chains, hung
from armorplan.geometry.lames.leathers import stretches
from armorplan.geometry.lames.links import links
from armorplan.geometry.lames.slots import slides
from armorplan.geometry.sizing.depths import left_of
from armorplan.geometry.sizing.model import Wanted
from armorplan.geometry.sizing.sizing import sized
from armorplan.kernel.findings import Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.parts import PartKind
from armorplan.workshop.measures import Sex

SHELF = read_shelf()
SIZES = st.floats(0.86, 1.2)


def sample(name):
    return read_pattern(read_folder(samples_folder() / name), SHELF).pattern


COP, ARM = sample("elbow_cop"), sample("arm_harness")


def by_ratios(pattern, lengths, girths):
    wanted = {
        one.id: Wanted(
            drawn_mm=one.mm,
            wanted_mm=one.mm * (girths if SHELF.measure(one.id).kind == "girth" else lengths),
        )
        for one in pattern.drawn_for
    }
    return sized(pattern, wanted, SHELF.constants).sized


def row_gaps(pattern, joints, part):
    holes = [
        next(h for h in map(pattern.hole, pattern.joint(j).stack) if h.part == part)
        for j in joints
    ]
    return [dist(a.centre, b.centre) for a, b in pairwise(holes)]


def laid(pattern, joints, part):
    return np.array(
        [
            next(h.centre for h in map(pattern.hole, pattern.joint(j).stack) if h.part == part)
            for j in joints
        ]
    )


def misses_mm(one, other):
    """Return the most by which holes miss each other, laid on by a turn and a shift (Kabsch 1976)."""
    found = []
    for flip in (1, -1):
        moved = other * [flip, 1]
        a, b = one - one.mean(0), moved - moved.mean(0)
        left, _, right = np.linalg.svd(b.T @ a)
        turn = left @ np.diag([1, np.sign(np.linalg.det(left @ right))]) @ right
        found.append(np.linalg.norm(b @ turn - a, axis=1).max())
    return min(found)


@given(SIZES, SIZES)
@settings(max_examples=6, deadline=None)
def test_rows_stay_matched_within_a_tenth_of_a_millimetre_and_20_to_40_mm_apart(lengths, girths):
    made = by_ratios(COP, lengths, girths)
    assert len(made.rows) == 2
    for row in made.rows:
        first, second = (row_gaps(made.pattern, row.joints, part) for part in row.parts)
        # As drawn the two layers are spaced alike, so they have to be now.
        assert max(abs(a - b) for a, b in zip(first, second, strict=True)) <= 0.1
        assert row.residual_mm <= 0.1
        assert all(20 - 0.05 <= gap <= 40.05 for gap in first)
        # They lay flat on each other, hole on hole, and evenly.
        assert misses_mm(*(laid(made.pattern, row.joints, part) for part in row.parts)) <= 0.1
        assert len(row.joints) < row.count or max(first) - min(first) < 0.2


@given(SIZES, SIZES)
@settings(max_examples=5, deadline=None)
def test_diameters_slots_and_strap_widths_stay(lengths, girths):
    made = by_ratios(COP, lengths, girths)
    for part in COP.parts:
        now = made.pattern.part(part.id)
        assert {h.diameter_mm for h in now.holes} <= {h.diameter_mm for h in part.holes}
        assert [(s.length_mm, s.width_mm) for s in now.slots] == [
            (s.length_mm, s.width_mm) for s in part.slots
        ]
        if part.kind is PartKind.STRAP:
            assert rectangle_mm(now.outline)[1] == pytest.approx(
                rectangle_mm(part.outline)[1], abs=0.01
            )
    strap, was = made.pattern.part("closing_strap"), COP.part("closing_strap")
    longer = rectangle_mm(strap.outline)[0] - rectangle_mm(was.outline)[0]
    assert (longer > 0) == (girths > 1) or abs(longer) < 0.5
    # The boss, the keeper and the buckle strap are in no scaling: what meets them keeps its spacing.
    for one, other in (
        ("middle_boss_left", "middle_boss_right"),
        ("middle_tab_top", "middle_tab_bottom"),
        ("left_buckle_outer", "left_buckle_inner"),
    ):
        now = dist(made.holes[one].centre, made.holes[other].centre)
        assert now == pytest.approx(dist(COP.hole(one).centre, COP.hole(other).centre), abs=0.005)


@pytest.mark.parametrize(("lengths", "girths"), [(1.25, 0.85), (0.8, 0.8)])
def test_a_strip_lies_flat_on_its_plate_and_reaches_as_far_beyond_its_holes(lengths, girths):
    made = by_ratios(ARM, lengths, girths)
    (row,) = (one for one in made.rows if one.seam == "wing_row")
    assert misses_mm(*(laid(made.pattern, row.joints, part) for part in row.parts)) <= 0.1
    for strip in ("upper_rib_far", "upper_trim", "wrist_trim"):
        was, now = (least_mm(pattern.part(strip)) for pattern in (ARM, made.pattern))
        assert now > was - 1.0, strip
    nearer = {f.about for f in made.findings if f.code == "holes-nearer-the-edge"}
    for part in ARM.parts:
        if part.holes and least_mm(made.pattern.part(part.id)) < least_mm(part) - 1.0:
            assert (part.id,) in nearer


def least_mm(part):
    edge = shapely.Polygon(part.outline).exterior
    return min(edge.distance(shapely.Point(hole.centre)) for hole in part.holes)


def test_a_larger_row_gets_joints_that_everything_follows():
    made = by_ratios(COP, 1.2, 1.0)
    assert made.added == ()
    larger = by_ratios(made.pattern, 1.2, 1.0)
    longest = by_ratios(larger.pattern, 1.2, 1.0)
    again = by_ratios(longest.pattern, 1.2, 1.0)
    assert again.added or longest.added
    last = again if again.added else longest
    for new in last.added:
        assert last.pattern.joint(new.id).stack == new.stack
        assert all(hole in last.holes for hole in new.stack)
        row = next(row for row in last.rows if row.seam == new.seam)
        assert row.joints.index(new.id) == row.joints.index(new.after) + 1
    assert all(row.residual_mm <= 0.1 for row in last.rows)
    assert all(row.after_mm[1] <= 40.05 for row in last.rows)


def test_the_strap_end_under_a_row_keeps_its_rivet():
    made = by_ratios(COP, 0.86, 0.86)
    assert "right_row_4" not in made.dropped
    assert len(made.dropped) == 4
    assert made.pattern.joint("right_row_4").stack == COP.joint("right_row_4").stack
    seam = {seam.id: seam.joints for seam in made.pattern.seams}
    assert seam["right_row"] == (
        "right_row_1",
        "right_row_3",
        "right_row_4",
        "right_row_6",
        "right_row_7",
    )


def of_percentile(percent):
    """Return the arm of a man of that percentile in all its measures, over the usual padding."""
    wanted = {}
    for one in ARM.drawn_for:
        measure = SHELF.measure(one.id)
        (men,) = measure.usual(Sex.MALE)
        over = sum(measure.over_bare_mm) / 2 if measure.over_bare_mm else 0.0
        median = men.value_mm(50) + over
        wanted[one.id] = Wanted(
            drawn_mm=one.mm, wanted_mm=one.mm * (men.value_mm(percent) + over) / median
        )
    return sized(ARM, wanted, SHELF.constants).sized


@pytest.fixture(scope="module")
def arms():
    return {percent: of_percentile(percent) for percent in (5, 95)}


@pytest.mark.parametrize("percent", [5, 95])
def test_from_p5_to_p95_every_plate_stays_within_0_85_and_1_2_of_p50(arms, percent):
    for one in arms[percent].parts:
        if ARM.part(one.part).kind in {PartKind.PLATE, PartKind.LAME, PartKind.COP}:
            for before, after in zip(one.before_mm, one.after_mm, strict=True):
                assert 0.85 <= after / before <= 1.2


@pytest.mark.parametrize("percent", [5, 95])
def test_lames_keep_their_cover_at_the_end_of_the_bend(arms, percent):
    kept, drawn = SHELF.constants.kept_cover.value, left_of(ARM)
    now = left_of(arms[percent].pattern)
    assert now.keys() == drawn.keys()
    assert len(now) == 6
    for turn, left in now.items():
        assert left >= min(kept, drawn[turn]) - 0.5


@pytest.mark.parametrize("percent", [5, 95])
def test_nothing_graver_than_a_warning_is_found_of_an_arm_in_another_size(arms, percent):
    found = arms[percent].findings
    assert [f.code for f in found if f.severity is Severity.ERROR] == []
    assert {f.code for f in found} <= {"far-from-drawn"}
    assert all(row.residual_mm <= 0.1 for row in arms[percent].rows)


def test_what_holds_a_long_row_but_follows_nothing_is_told():
    """Without its scaling the trim keeps its length, and the plate's row with it."""
    kept = tuple(s for s in ARM.scalings if s.id != "upper_edge")
    found = by_ratios(replace(ARM, scalings=kept), 1.0, 1.1).findings
    (told,) = (f for f in found if f.code == "row-keeps-length")
    assert told.about == ("upper_trim", "upper_plate")
    assert "9 holes" in told.text


def test_a_wearer_as_drawn_changes_nothing():
    made = by_ratios(COP, 1.0, 1.0)
    assert made.parts == ()
    assert [p.outline for p in made.pattern.parts] == [p.outline for p in COP.parts]
    assert made.dropped == made.added == ()


# --- what moves with the limb -----------------------------------------------------------------------

LAMES = sample("three_lames")


@pytest.fixture(scope="module", params=[(1.05, 1.1), (1.1, 1.18)])
def bigger(request):
    return by_ratios(ARM, *request.param), by_ratios(LAMES, *request.param)


def test_outer_pivots_stay_farther_apart_by_as_much_as_they_were(bigger):
    """Nested layers differ by φ·t, whatever the girth (circle geometry)."""
    for made, drawn in zip(bigger, (ARM, LAMES), strict=True):
        was, now = links(drawn), links(made.pattern)
        assert was.keys() == now.keys()
        for key, link in now.items():
            longer = link.outer.span_mm - link.inner.span_mm
            assert longer == pytest.approx(
                was[key].outer.span_mm - was[key].inner.span_mm, abs=0.02
            )


def slack_of(pattern):
    """Return how much each slot and inner leather has left at the end of the bend, by its ids."""
    found = {}
    for chain in declared_chains(pattern, hung(pattern, links(pattern))):
        for turn in chain.turns:
            for one in slides(pattern, turn):
                found[one.slot.id] = one.room_mm - slide_mm(one.lever_mm, turn.turn_deg)
        for one in stretches(pattern, chain):
            found[one.upper.leather.id, one.lower.leather.id] = -one.short_mm
    return found


def test_slots_and_inner_leathers_reach_as_far_as_they_did(bigger):
    """What slides does so by r·θ, and r has grown (circle geometry)."""
    for made, drawn in zip(bigger, (ARM, LAMES), strict=True):
        was, now = slack_of(drawn), slack_of(made.pattern)
        assert was.keys() == now.keys()
        assert was
        for key, left in was.items():
            assert now[key] == pytest.approx(left, abs=0.2)


def test_a_slot_keeps_its_width_and_a_leather_too(bigger):
    made, _ = bigger
    longer = made.pattern.hole("plate_slide").travel_mm - ARM.hole("plate_slide").travel_mm
    assert longer > 0.5
    assert made.pattern.hole("plate_slide").diameter_mm == ARM.hole("plate_slide").diameter_mm
    leather = made.pattern.part("back_leather").outline
    assert rectangle_mm(leather)[1] == pytest.approx(
        rectangle_mm(ARM.part("back_leather").outline)[1], abs=0.01
    )


def test_a_lame_gets_deeper_only_where_its_overlap_ran_out():
    made = by_ratios(LAMES, 1.0, 1.15)
    deeper = {one.part: one.factors.along for one in made.parts}
    assert deeper["middle_lame"] > 1.02
    assert deeper["cop"] == deeper["lower_lame"] == 1.0
    kept = SHELF.constants.kept_cover.value
    for turn, left in left_of(made.pattern).items():
        assert left >= min(kept, left_of(LAMES)[turn]) - 0.5
