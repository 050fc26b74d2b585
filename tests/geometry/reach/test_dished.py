"""The mouth of a dished cup is no wider than the ball its plates are dished to."""

from dataclasses import replace
from math import pi

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.reach.model import Rim, Through
from armorplan.geometry.reach.net import reach_net
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled
from armorplan.pattern.joining import FormKind

SHELF = read_shelf()
PETALS = ("petal_left", "petal_middle", "petal_right")


@pytest.fixture(scope="module")
def cop():
    return settled(read_pattern(read_folder(samples_folder() / "elbow_cop"), SHELF).pattern)


def dished(pattern, radius_mm):
    """Return a cop whose petals are dished to another radius; ``None``: the pattern does not say."""
    forms = tuple(
        replace(form, radius_mm=radius_mm)
        if form.kind is FormKind.DISH and set(form.parts) == set(PETALS)
        else form
        for form in pattern.forms
    )
    return replace(pattern, forms=forms)


def rim_of(pattern):
    (rim,) = reach_net(pattern).shells["petal_left"].rims
    return rim


def test_the_width_is_the_lesser_of_edge_and_ball():
    rim = Rim(id="rim-1", length_mm=100 * pi, spots=())
    assert rim.opening_mm == pytest.approx(100.0)
    assert replace(rim, ball_mm=80.0).opening_mm == pytest.approx(80.0)
    assert replace(rim, ball_mm=120.0).opening_mm == pytest.approx(100.0)


def test_a_cop_dished_to_a_ball_is_no_wider_than_it(cop):
    """Held by hand to a ball of radius 72 it is 126 to 133 mm wide; the ball is 144 mm across."""
    rim = rim_of(cop)
    assert rim.length_mm / pi == pytest.approx(180.0, abs=1.0)
    assert rim.opening_mm == pytest.approx(144.0)
    assert rim.even_mm == pytest.approx(144.0 * pi)
    for access in reach_net(cop).access.values():
        wide = [way.opening_mm for way in access.ways if way.through is Through.RIM]
        assert access.shell != "petal_left" or wide == [pytest.approx(144.0)]


@pytest.mark.parametrize(("radius_mm", "wide_mm"), [(None, 180.0), (95.0, 180.0), (70.0, 140.0)])
def test_an_edit_of_the_radius_is_followed(cop, radius_mm, wide_mm):
    assert rim_of(dished(cop, radius_mm)).opening_mm == pytest.approx(wide_mm, abs=1.0)


def test_a_dish_far_smaller_than_its_plates_is_in_one_place_only(cop):
    assert rim_of(dished(cop, 40.0)).opening_mm == pytest.approx(180.0, abs=1.0)


def test_a_shell_with_a_plate_that_is_not_dished_goes_by_its_edge(cop):
    forms = tuple(
        replace(form, parts=PETALS[:2]) if set(form.parts) == set(PETALS) else form
        for form in cop.forms
        if form.kind is FormKind.DISH
    )
    assert rim_of(replace(cop, forms=forms)).opening_mm == pytest.approx(180.0, abs=1.0)


def test_the_page_tells_the_ball_and_its_formula(cop):
    told = {measure.id: measure for measure in reach_measures(cop, SHELF)}
    shell = told["reach:shell:petal_left"]
    assert shell.verdict == "one mouth, at most 144 mm wide"
    assert "dished to a ball 144 mm across" in shell.text
    (wide,) = [each for each in shell.figures if "wide" in each.name]
    assert wide.formula == "min(P / π, 2 R) = min(565 / π, 2 × 72) = 144 mm"
    assert "radius_mm of the dish" in wide.source
