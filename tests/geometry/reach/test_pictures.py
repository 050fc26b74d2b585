"""The section of a way in against closed forms: a tube's depth, its mouth, and what a horn misses."""

from dataclasses import replace
from math import pi

import pytest

from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.ways_in import Ends, Fits, Getting, ends, missing_mm
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.workshop.shelf import ToolEntry

SHELF = sketch_shelf()
ROUND_MM = 280.0
REACH_MM = 250.0
GIRTH_MM = 1.5
"""A girth is taken from a grid of points: so far it may be out, over π."""
SQUASH = SHELF.constants.squash_raw.value


def horned(**changes):
    return replace(SHELF, tools=(replace(SHELF.tools[0], **changes),))


def pictured(long_mm, shelf=SHELF, of="seats:plate"):
    """Return what is drawn of a strap in the middle of a tube that one row of rivets shuts."""
    spots = tuple(20.0 + at * (long_mm - 40.0) / 6 for at in range(7))
    pattern = sketch_tube(long_mm=long_mm, spots_mm=spots, strap_mm=long_mm / 2)
    return {m.id: m.picture for m in reach_measures(pattern, shelf)}[f"reach:{of}"]


# Closed form: depth is half the tube, a meridian of a tube is no longer than its depth and once
# across its mouth, P / 2π less is the least; the mouth pressed round is P / π wide.
@pytest.mark.parametrize(
    ("long_mm", "getting", "end"),
    [
        (300.0, Getting.REACHED, Ends.BEYOND),
        (560.0, Getting.DOUBTFUL, Ends.BETWEEN),
        (660.0, Getting.CANNOT, Ends.SHORT),
    ],
)
def test_a_tube_is_as_deep_as_half_of_it_and_the_horn_misses_the_rest(long_mm, getting, end):
    before, after = pictured(long_mm).sections
    assert (before.getting, before.way) == (Getting.FLAT, None)
    way, tool = after.way, after.tool
    assert (after.getting, ends(way, tool)) == (getting, end)
    assert way.along_mm == pytest.approx(long_mm / 2, rel=0.005)
    assert way.least_mm == pytest.approx(long_mm / 2 - ROUND_MM / (2 * pi), abs=GIRTH_MM)
    assert way.opening_mm == pytest.approx(ROUND_MM / pi, rel=0.005)
    assert way.squashed_mm == pytest.approx(way.opening_mm * SQUASH)
    least_mm, most_mm = missing_mm(way, tool)
    assert most_mm == pytest.approx(long_mm / 2 - REACH_MM, abs=1.0)
    assert most_mm - least_mm == pytest.approx(ROUND_MM / (2 * pi), abs=GIRTH_MM)


def test_330_mm_in_a_horn_of_250_mm_is_80_mm_short_along_the_leather():
    _, after = pictured(660.0).sections
    assert round(missing_mm(after.way, after.tool)[1]) == 80


def test_states_are_named_and_so_is_the_mouth():
    picture = pictured(660.0)
    assert picture.joint == "on"
    assert [each.when for each in picture.sections] == [
        "with nothing else set",
        "once back row is shut",
    ]
    assert picture.sections[1].way.name in {"mouth 1", "mouth 2"}


def test_a_tool_too_thick_for_any_opening_is_shown_before_the_widest_mouth():
    after = pictured(660.0, horned(opening_mm=200.0, reach_mm=500.0), "row:row").sections[-1]
    assert after.getting is Getting.CANNOT
    assert after.tool.fits is Fits.NOT
    assert after.way.opening_mm == pytest.approx(ROUND_MM / pi, rel=0.005)


def test_one_that_the_mouth_lets_in_only_squashed_says_so():
    after = pictured(300.0, horned(opening_mm=ROUND_MM / pi * 1.1)).sections[-1]
    assert after.tool.fits is Fits.SQUASHED
    assert after.getting is Getting.DOUBTFUL


def test_the_tool_that_is_told_comes_first_then_the_longest():
    horn = SHELF.tools[0]
    more = [
        ToolEntry(
            id=f"rod_{mm}",
            name=f"Rod {mm}",
            serves=horn.serves,
            source="",
            reach_mm=mm,
            opening_mm=30.0,
        )
        for mm in (40.0, 90.0)
    ]
    _, after = pictured(660.0, replace(SHELF, tools=(*more, horn))).sections
    assert [tool.reach_mm for tool in after.tools] == [250.0, 90.0, 40.0]


def test_where_no_tool_is_known_nothing_is_drawn():
    assert pictured(660.0, replace(SHELF, tools=())) is None
