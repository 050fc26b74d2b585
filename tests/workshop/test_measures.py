"""Measures of a body: percentiles, what a rare value may have meant, padding."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.files.catalogue import read_shelf
from armorplan.workshop.measures import MeasureKind, Sex
from armorplan.workshop.wearers import Wearer

SHELF = read_shelf()
BICEPS = SHELF.measure("biceps_girth")
ARM = SHELF.measure("upper_arm_length")


@given(st.floats(0.5, 99.5))
@settings(max_examples=60)
def test_value_and_percentile_are_each_others_inverse(percent):
    for measure in SHELF.measures:
        for usual in measure.usual(None):
            assert usual.percentile(usual.value_mm(percent)) == pytest.approx(percent, abs=1e-6)


def test_every_measure_says_where_it_is_taken_and_whence_its_figures_come():
    for measure in SHELF.measures:
        assert measure.taken.endswith(".")
        assert "NATICK" in measure.source or "no source" in measure.source
        assert measure.usual(None) or measure.between_mm
        assert measure.over_bare_mm is None or measure.kind is MeasureKind.GIRTH


@pytest.mark.parametrize(
    ("typed", "meant", "why"),
    [
        (35.8, 358.0, "it was typed in cm"),
        (14.1, 358.1, "it was typed in inches"),
        (3580, 358.0, "a nought too many was typed"),
        (909.3, 358.0, "centimetres were taken for inches"),
    ],
)
def test_another_unit_is_noticed_and_guessed(typed, meant, why):
    first = BICEPS.meant(typed, Sex.MALE)[0]
    assert first == (pytest.approx(meant, abs=0.2), why)


@pytest.mark.parametrize("percent", [1.5, 50, 98.5])
def test_a_plausible_value_is_not_asked_about(percent):
    (men,) = BICEPS.usual(Sex.MALE)
    assert BICEPS.meant(men.value_mm(percent), Sex.MALE) == ()


def test_what_is_rare_for_one_sex_may_be_usual_for_the_other():
    assert BICEPS.plausible_mm(Sex.MALE)[0] > 270
    assert BICEPS.plausible_mm(Sex.FEMALE)[0] < 270
    assert BICEPS.plausible_mm(None)[0] < 270


def test_a_girth_grows_by_two_pi_times_the_padding_and_a_length_does_not():
    wearer = Wearer(
        id="a",
        name="A",
        measures={"biceps_girth": 300.0, "upper_arm_length": 320.0},
        padding_mm=8.0,
    )
    assert wearer.over_padding(BICEPS).over_mm == pytest.approx(300 + 2 * pi * 8)
    assert wearer.over_padding(ARM).over_mm == 320.0
    assert wearer.over_padding(SHELF.measure("neck_girth")) is None


def test_what_was_taken_over_the_padding_goes_before_what_is_reckoned():
    wearer = Wearer(
        id="a",
        name="A",
        measures={"biceps_girth": 300.0},
        padded={"biceps_girth": 352.0},
        padding_mm=8.0,
    )
    found = wearer.over_padding(BICEPS)
    assert (found.over_mm, found.bare_mm, found.guessed) == (352.0, 300.0, False)


def test_where_no_padding_is_said_the_usual_is_taken_and_told():
    found = Wearer(id="a", name="A", measures={"biceps_girth": 300.0}).over_padding(BICEPS)
    assert found.guessed
    assert found.over_mm == 350.0
    assert "usual" in found.why


def test_a_side_has_its_own_measures_over_those_of_both():
    wearer = Wearer(
        id="a",
        name="A",
        measures={"biceps_girth": 300.0, "upper_arm_length": 320.0},
        padded={"biceps_girth": 350.0},
        left={"biceps_girth": 312.0},
    )
    assert wearer.differing == ("biceps_girth",)
    left = wearer.of_side("left")
    assert left.measures == {"biceps_girth": 312.0, "upper_arm_length": 320.0}
    assert left.padded == {}
    assert wearer.of_side("right").padded == {"biceps_girth": 350.0}


def test_inches_are_asked_about_whatever_the_sex_and_over_padding_too():
    calf = SHELF.measure("calf_girth")
    assert calf.meant(15.5, None)[0] == (393.7, "it was typed in inches")
    assert calf.meant(16.8, None, over_mm=calf.usual_over_mm)[0][0] == 426.7
    assert calf.meant(420.0, None, over_mm=calf.usual_over_mm) == ()
    shin = SHELF.measure("shin_length")
    assert shin.usual(None) == ()
    assert shin.meant(35.0, None)[0] == (350.0, "it was typed in cm")
