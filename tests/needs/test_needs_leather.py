"""Leather: what shares a row, both sides, counts, mass, and how much of a hide it is."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern
from needs.needs_sketches import built, plate, shelf

from armorplan.needs.leather import hide_words, leather_needs
from armorplan.pattern.parts import Material

THIN = Material(id="thin", leather="cop", thickness_mm=3.6, least_mm=3.2)


def test_holes_are_not_taken_off_and_the_yield_is():
    (need,) = leather_needs(built(pattern(plate())), shelf())
    assert need.net_dm2 == pytest.approx(2.0)
    assert need.buy_dm2 == pytest.approx(2.0 / 0.75)
    assert need.cost == pytest.approx(0.8 * 2.0 / 0.75)


def test_a_pair_takes_twice_the_leather():
    (need,) = leather_needs(built(pattern(plate()), mirrored=True), shelf())
    assert (need.parts, need.net_dm2) == (2, pytest.approx(4.0))


def test_a_part_cut_five_times_takes_five_times_the_leather():
    (need,) = leather_needs(built(pattern(replace(plate(), count=5))), shelf())
    assert (need.parts, need.net_dm2) == (5, pytest.approx(10.0))


def test_the_same_leather_in_another_thickness_is_bought_apart():
    other = replace(plate("other"), material="thin", thickness_mm=3.6, least_mm=3.2)
    made = pattern(plate(), other)
    made = replace(made, materials=(*made.materials, THIN))
    thick, ranged = leather_needs(built(made), shelf())
    assert (thick.least_mm, thick.thickness_mm) == (None, 3.2)
    assert (ranged.least_mm, ranged.thickness_mm) == (3.2, 3.6)
    least_g, most_g = ranged.mass_g
    assert most_g / least_g == pytest.approx(3.6 * 1.05 / (3.2 * 0.85))


def test_two_names_for_one_leather_and_thickness_share_a_row():
    other = replace(plate("other"), material="again")
    made = pattern(plate(), other)
    again = Material(id="again", leather="cop", thickness_mm=3.2)
    (need,) = leather_needs(built(replace(made, materials=(*made.materials, again))), shelf())
    assert need.parts == 2


def test_the_largest_part_is_measured_however_it_lies():
    turned = part("turned", ((0.0, 0.0), (30.0, 40.0), (-210.0, 220.0), (-240.0, 180.0)), {})
    (need,) = leather_needs(built(pattern(plate(), turned)), shelf())
    assert need.largest == "turned"
    assert need.largest_mm == pytest.approx((300.0, 50.0))


def test_feet_of_thirty_centimetres_are_whole_ones():
    (need,) = leather_needs(built(pattern(part("big", box(300.0, 300.0), {}))), shelf())
    assert need.buy_dm2 == pytest.approx(12.0)
    assert need.feet_30 == 2


def test_a_leather_that_is_not_on_the_shelf_is_still_counted():
    made = replace(
        pattern(plate()), materials=(Material(id="hide", leather="lost", thickness_mm=3.2),)
    )
    (need,) = leather_needs(built(made), shelf())
    assert (need.name, need.yield_pct, need.cost) == ("lost", 70.0, None)


@pytest.mark.parametrize(
    ("ft2", "words"),
    [
        (0.5, "an offcut"),
        (5.5, "about a quarter of a side"),
        (7.9, "about a quarter of a side"),
        (11.0, "about half a side or a double shoulder"),
        (14.0, "about half a side or a double shoulder"),
        (17.0, "about three quarters of a side"),
        (23.0, "about one side"),
        (46.0, "about 2 sides"),
        (57.0, "about 2.5 sides"),
    ],
)
def test_how_much_of_a_hide_that_is(ft2, words):
    assert hide_words(ft2) == words
