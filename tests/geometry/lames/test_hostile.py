"""Lames as no maker draws them: a finding or silence, never an exception."""

from dataclasses import replace
from math import isfinite

import pytest
from geometry.lame_sketches import bending, chain, codes, lame, measures, moved, pivots, two_lames
from geometry.leather_sketches import shelf
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.lames.measuring import lame_measures
from armorplan.pattern.joining import Motion


def reads(pattern):
    """Measure a pattern, and hold every number to be finite."""
    found = list(lame_measures(pattern, shelf()))
    assert len({measure.id for measure in found}) == len(found)
    for measure in found:
        assert measure.text
        assert all(isfinite(figure.value) for figure in measure.figures)
        for mark in measure.marks:
            assert all(isfinite(c) for spot in mark.spots for c in spot)
        for finding in measure.findings:
            assert finding.text
            assert finding.remedy
        if measure.picture is not None:
            bars = (bar for position in measure.picture.positions for bar in position.bars)
            assert all(
                isfinite(c) for bar in bars for spot in (*bar.back, *bar.pivots) for c in spot
            )
    return found


def test_coincident_pivots_are_one():
    pattern = two_lames()
    spot = pattern.part("upper").holes[0].centre
    parts = tuple(
        replace(p, holes=tuple(replace(h, centre=spot) for h in p.holes)) if p.id == "upper" else p
        for p in pattern.parts
    )
    assert [m.id for m in reads(replace(pattern, parts=parts))] == ["lames:bend"]


@pytest.mark.parametrize(
    "outline",
    [
        (),
        ((0.0, 0.0),),
        ((0.0, 0.0), (10.0, 0.0), (20.0, 0.0)),
        ((0.0, 0.0), (50.0, 50.0), (50.0, 0.0), (0.0, 50.0)),
        ((900.0, 900.0), (950.0, 900.0), (950.0, 950.0)),
    ],
)
def test_outlines_without_area_or_beside_the_pivots_are_read(outline):
    pattern = two_lames()
    for part in pattern.parts:
        parts = tuple(replace(p, outline=outline) if p == part else p for p in pattern.parts)
        reads(replace(pattern, parts=parts))


@pytest.mark.parametrize(
    "outline",
    [
        # GEOS has no end of thinning this one while it minds where the edge crosses itself.
        (
            (0.0, 0.0), (0.0, 5e-324), (1 / 3, 400.0), (0.0, 0.5), (-400.0, 1e-300),
            (5e-324, 0.0), (400.0, 1.0), (1 / 3, 2.225e-308), (-400.0, 1.0),
        ),
        # The product of two such distances from a line is 0, and so is their difference.
        (
            (1e-300, 2.225e-308), (1e-300, 1 / 3), (1e-9, 1.0), (5e-324, -400.0),
            (-400.0, 400.0), (0.0, 1e-300), (400.0, 0.5),
        ),
    ],
)  # fmt: skip
def test_corners_all_but_in_one_spot_are_read(outline):
    pattern = two_lames()
    parts = (replace(pattern.parts[0], outline=outline), pattern.parts[1])
    assert reads(replace(pattern, parts=parts))


def test_movements_over_heaps_that_nothing_joins_are_read():
    one, other = two_lames(), two_lames()
    renamed = replace(
        other,
        parts=tuple(
            replace(
                p, id=f"x_{p.id}",
                holes=tuple(replace(h, id=f"x_{h.id}", part=f"x_{p.id}") for h in p.holes),
            )
            for p in other.parts
        ),
        joints=tuple(
            replace(j, id=f"x_{j.id}", stack=tuple(f"x_{h}" for h in j.stack))
            for j in other.joints
        ),
        forms=(),
    )  # fmt: skip
    pattern = replace(
        one,
        parts=(*one.parts, *renamed.parts),
        joints=(*one.joints, *renamed.joints),
        movements=(bending("upper", "lower", "x_upper", "x_lower", angle_deg=90.0),),
    )
    found = {measure.id: measure for measure in reads(pattern)}
    assert "1 of 3 pairs" in found["lames:bend"].text
    assert found["lames:bend"].picture is None


def test_a_stack_that_names_a_part_twice_and_a_ring_of_lames_are_read():
    pattern = two_lames(angle_deg=None)
    first = pattern.joints[0]
    twice = replace(first, stack=(*first.stack, pattern.part("upper").holes[1].id))
    reads(replace(pattern, joints=(twice, *pattern.joints[1:])))
    a = lame("a", 0, out=0.0, inward=20.0)
    b = lame("b", 1, out=0.0, inward=20.0)
    c = lame("c", 2, out=0.0, inward=20.0)
    ring = chain(a, b, c, joints=(*pivots("b", "a"), *pivots("c", "b"), *pivots("a", "c")))
    reads(ring)


def test_a_fork_is_told_pair_by_pair():
    cop = lame("cop", 2, inward=20.0, high_mm=80.0)
    one, other = lame("one", 1, out=0.0, high_mm=80.0), lame("other", 1, out=0.0, high_mm=80.0)
    third = lame("third", 1, out=0.0, high_mm=80.0)
    joints = (*pivots("cop", "one"), *pivots("cop", "other"), *pivots("cop", "third"))
    found = measures(chain(cop, one, other, third, joints=joints))
    # Each chain of two has its strip, and so has the pair in it.
    drawn = [key for key, measure in found.items() if measure.picture is not None]
    assert len(drawn) == 6


def test_slots_on_no_plate_of_the_pair_and_thick_leather_are_read():
    pattern = two_lames()
    thick = tuple(replace(p, thickness_mm=30.0) for p in pattern.parts)
    reads(replace(pattern, parts=thick))
    reads(replace(pattern, parts=tuple(replace(p, thickness_mm=0.0) for p in pattern.parts)))
    sliding = tuple(replace(j, motion=Motion.SLIDING) for j in pattern.joints)
    reads(replace(pattern, joints=sliding))


@pytest.mark.parametrize("angle", [0.0, 0.001, 720.0])
@pytest.mark.parametrize("radius", [None, 0.0, 1e-6, 1e4])
def test_bends_of_any_angle_and_radius_are_read(angle, radius):
    pattern = two_lames()
    forms = tuple(replace(f, angle_deg=angle, radius_mm=radius) for f in pattern.forms)
    reads(replace(pattern, forms=forms))


HOLES = ("upper_out_near", "upper_out_far", "lower_in_near", "lower_in_far")
SPOT = st.tuples(st.floats(-400, 400), st.floats(-400, 400))


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from(HOLES), SPOT), st.floats(0.1, 360), st.floats(0, 360))
def test_pivots_anywhere_are_read(spots, angle_deg, up_deg):
    pattern = moved(two_lames(angle_deg=angle_deg), **spots)
    parts = tuple(replace(part, up_deg=up_deg) for part in pattern.parts)
    reads(replace(pattern, parts=parts))


@settings(max_examples=30, deadline=None)
@given(st.lists(SPOT, min_size=3, max_size=12))
def test_any_outline_is_read(outline):
    pattern = two_lames()
    parts = (replace(pattern.parts[0], outline=tuple(outline)), pattern.parts[1])
    reads(replace(pattern, parts=parts))


def test_which_way_up_the_drawing_lies_changes_nothing():
    pattern = two_lames(overlap_mm=30.0)
    over = tuple(replace(part, up_deg=270.0) for part in pattern.parts)
    told = replace(pattern, parts=over, movements=(bending("lower", "upper", angle_deg=40.0),))
    assert codes(told) == codes(pattern) == ["lame-gap-opens"]
