"""Articulation against the circle, a published book and published ranges of joints.

Sources: circle geometry; C. ffoulkes, Armour & Weapons (1909), p. 52: the sliding rivet travels
'half an inch or more to each lame'; ranges of motion: AAOS and NASA-STD-3000 (from memory). The
sample of three lames was drawn from its own formulas, by another hand than what measures it here.
"""

from dataclasses import replace
from math import asin, hypot, pi, radians, sin, tan

import pytest
from scipy.integrate import quad
from scipy.optimize import brentq

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.lames.articulation import (
    bowed_mm,
    chord_mm,
    depth_mm,
    overlap_needed_mm,
    skew_deg,
    slide_mm,
    turn_deg,
)
from armorplan.geometry.lames.measuring import lame_measures
from armorplan.kernel.shipped import samples_folder
from armorplan.kernel.units import MM_PER_INCH

SHELF = read_shelf()


@pytest.mark.parametrize(
    ("radius_mm", "bend_deg", "joints", "slides_mm"),
    [(70, 120, 2, 73.3), (70, 120, 4, 36.65), (60, 140, 3, 48.87)],
)
def test_an_edge_slides_radius_times_its_share_of_the_bend(radius_mm, bend_deg, joints, slides_mm):
    # Circle geometry; 120 to 150° is what elbows and knees bend (AAOS, NASA-STD-3000).
    assert slide_mm(radius_mm, bend_deg / joints) == pytest.approx(slides_mm, abs=0.02)
    assert overlap_needed_mm(radius_mm, bend_deg / joints, 12) == pytest.approx(
        slides_mm + 12, abs=0.02
    )


def test_two_mm_over_a_hundred_are_more_than_a_degree():
    # Geometry: 1.15°.
    assert skew_deg(2, 100) == pytest.approx(1.15, abs=0.005)


def test_four_mm_off_its_axis_changes_a_span_of_130_mm_by_a_sixteenth_of_a_mm():
    # Pythagoras: no comparison of spacings finds it; as an angle it is 1.8°.
    assert hypot(130, 4) - 130 == pytest.approx(0.06, abs=0.005)
    assert skew_deg(4, 130) == pytest.approx(1.76, abs=0.01)


def test_half_an_inch_of_slot_on_a_lever_of_100_mm_is_seven_degrees():
    # ffoulkes (1909), p. 52, for the half inch; the lever is an example.
    assert turn_deg(MM_PER_INCH / 2, 100) == pytest.approx(7.28, abs=0.005)
    assert slide_mm(100, 7.28) == pytest.approx(12.7, abs=0.01)


def test_five_mm_missing_from_a_chord_of_180_mm_50_mm_deep_bow_about_three():
    radius = (90**2 + 50**2) / (2 * 50)
    arc = 2 * radius * asin(90 / radius)
    assert bowed_mm(arc, 180) == pytest.approx(50)
    assert bowed_mm(arc, 175) - 50 == pytest.approx(3.0, abs=0.1)


@pytest.mark.parametrize("arc", [101.0, 150.0, 215.0, 300.0])
def test_the_bow_is_that_of_a_circle_found_another_way(arc):
    # The radius from scipy's root finder on the chord itself, its height by the arc's mean slope.
    chord = 100.0
    half = brentq(lambda h: 2 * (arc / (2 * h)) * sin(h) - chord, 1e-6, pi, xtol=1e-14)
    radius = arc / (2 * half)
    height, _ = quad(lambda a: radius * sin(a), 0, half)
    assert bowed_mm(arc, chord) == pytest.approx(height, rel=1e-9)


def test_an_arc_of_168_4_mm_on_the_chord_of_a_half_round_163_5_stands_2_4_mm_further_off():
    # By hand: half round, a chord of 2 × 163.5 / π; the height grows by half of what the arc does.
    chord = 2 * 163.5 / pi
    assert bowed_mm(168.4, chord) - bowed_mm(163.5, chord) == pytest.approx(2.4, abs=0.1)


def test_a_half_round_lame_stands_off_by_its_radius():
    assert depth_mm(52, 180) == pytest.approx(52)
    assert chord_mm(52, 180) == pytest.approx(104)
    assert bowed_mm(pi * 52, 104) == pytest.approx(52)


def measured():
    found = read_pattern(read_folder(samples_folder() / "three_lames"), SHELF)
    return {measure.id: measure for measure in lame_measures(found.pattern, SHELF)}


def figure(measure, name):
    return next(f.value for f in measure.figures if f.name == name)


def test_the_sample_of_three_lames_measures_as_its_notes_say():
    told = measured()
    assert [m.id for m in told.values() if m.findings] == []
    top = told["lames:elbow_bends:top_lame-middle_lame"]
    cop = told["lames:elbow_bends:middle_lame-cop"]
    assert figure(told["lames:elbow_bends"], "each pair turns") == pytest.approx(47, abs=0.5)
    assert [round(figure(pair, "slide at the back")) for pair in (top, cop)] == [42, 45]
    assert [round(figure(pair, "overlap at rest")) for pair in (top, cop)] == [54, 57]
    for pair in (top, cop):
        assert figure(pair, "left under the neighbour") == pytest.approx(12, abs=0.2)


def test_its_layers_are_longer_by_pi_times_their_leather():
    nest = measured()["lames:nest:middle_lame-top_lame"]
    assert figure(nest, "it is longer by") == pytest.approx(pi * 3.6, abs=0.01)
    assert figure(nest, "outer span has to be longer by") == pytest.approx(
        pi * 9 / 64 * 25.4, 0.01
    )


def test_its_middle_lame_drawn_5_mm_short_comes_2_5_mm_short_of_the_top_one():
    found = read_pattern(read_folder(samples_folder() / "three_lames"), SHELF)
    by = {"top_pivot_near": -2.5, "top_pivot_far": 2.5}
    parts = tuple(
        replace(
            part,
            holes=tuple(
                replace(h, centre=(h.centre[0] + by.get(h.id, 0.0), h.centre[1]))
                for h in part.holes
            ),
        )
        for part in found.pattern.parts
    )
    told = {m.id: m for m in lame_measures(replace(found.pattern, parts=parts), SHELF)}
    nest = told["lames:nest:middle_lame-top_lame"]
    inner, outer, d = 163.4 + 5, 174.7, 9 / 64 * 25.4
    chord = 2 * (inner / pi + d)
    # The height of either arc on that chord by scipy's root finder, not by the program's.
    halves = [
        brentq(lambda h, a=arc: sin(h) / h - chord / a, 1e-6, pi, xtol=1e-14)
        for arc in (outer, inner + pi * d)
    ]
    heights = [chord / 2 * tan(half / 2) for half in halves]
    assert figure(nest, "comes short of going over by") == pytest.approx(
        heights[1] - heights[0], abs=0.05
    )
    assert heights[1] - heights[0] == pytest.approx(2.5, abs=0.1)


def test_its_inner_leather_is_straight_and_its_slot_at_its_end_when_the_arm_is_bent():
    told = measured()
    leather = told["lames:elbow_bends:inner:inner_leather"]
    straight = [f.value for f in leather.figures if f.name.startswith("straight after")]
    assert straight == pytest.approx([140 / 3, 140 / 3], abs=0.2)
    slot = told["lames:elbow_bends:slot:back_slide"]
    assert 140 / 3 < figure(slot, "lets the lames turn") < 140 / 3 + 1


def test_all_edges_slide_by_the_circle():
    for pair in measured().values():
        names = {f.name: f.value for f in pair.figures}
        if "slide at the back" in names:
            assert names["slide at the back"] == pytest.approx(
                names["lever at the back"] * radians(140 / 3)
            )
