"""Which of two: the plain reason, once, with the numbers of all it holds of."""

from dataclasses import replace
from pathlib import Path

import pytest

from armorplan.app.between_rows import between_row
from armorplan.app.between_words import link_words
from armorplan.app.derived import derive_build
from armorplan.app.opening import derive_folder
from armorplan.files.catalogue import read_shelf
from armorplan.rules.reach_sketches import sketch_cone
from armorplan.workshop.shop import one_maker

GAUNTLET = Path(__file__).parents[1] / "patterns" / "gauntlet"


def shelf_of(reach_mm):
    """Return the shelf with no rivet tool that gets in further than so."""
    shelf = read_shelf()
    tools = tuple(
        replace(tool, reach_mm=min(tool.reach_mm, reach_mm)) if tool.reach_mm else tool
        for tool in shelf.tools
    )
    return replace(shelf, tools=tools)


@pytest.fixture(scope="module")
def gauntlet():
    """Return a deep cuff: a strap inside beneath a badge, and horns of 40 mm."""
    return derive_folder(GAUNTLET, shelf_of(40.0), one_maker("UTC"))


def test_what_says_it_of_the_two_is_told_and_no_chain_through_the_badge(gauntlet):
    row = between_row(gauntlet, "grip", "closing")
    (link,) = row.chain
    assert link.rule == "reach-before-closed"
    assert "badge" not in link_words(link)


def test_a_pair_is_told_in_one_paragraph(gauntlet):
    (link,) = between_row(gauntlet, "grip", "closing").chain
    assert link.order.startswith(
        "'Rivet cuff and inner strap, 1 of 2' and 'Rivet cuff and inner strap, 2 of 2', each before"
    )
    assert link.likewise.count("Rivet cuff and inner strap") == 1
    assert "mm in, needs at least" in link.likewise


def test_what_is_told_already_is_not_told_again_by_reach(gauntlet):
    (line,) = between_row(gauntlet, "grip", "closing").other_order
    assert "its leather lies flat" in line
    assert "Set after" not in line


def test_only_the_minutes_of_the_two_are_told():
    derived = derive_folder(GAUNTLET, read_shelf(), one_maker("UTC"))
    row = between_row(derived, "grip_1", "closing")
    (link,) = row.chain
    assert link.rule == "easier-while-open"
    assert row.price_min == pytest.approx(link.price_min)
    both = between_row(derived, "grip", "closing")
    assert both.price_min == pytest.approx(both.chain[0].price_min)
    assert both.price_min > 1.5 * row.price_min


def test_from_its_rim_a_row_is_told_by_its_deepest_rivet_and_the_rest_in_a_line():
    spots = (30.0, 80.0, 130.0, 180.0, 230.0, 280.0, 330.0)
    cone = sketch_cone(deep_mm=350.0, angle_deg=60.0, spots_mm=spots)
    derived = derive_build(cone, shelf_of(150.0), one_maker(), build="a")
    row = between_row(derived, "row_0", "row_6")
    by_reach = [link for link in row.chain if link.rule == "row-from-deep-end"]
    (link,) = by_reach
    assert link.first.endswith("/row_0")
    assert link.likewise.count("needs at least") >= 1
    assert "nothing forbids" not in row.sentence
