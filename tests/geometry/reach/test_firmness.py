"""Which orders by reach rest on a number that may be a fifth off."""

from dataclasses import replace

import pytest
from geometry.reach_sketches import bench_with, net_of, rim_way, row, row_way, tool

from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.firm_measuring import firm_measures
from armorplan.geometry.reach.firm_words import firm_words, flips_told
from armorplan.geometry.reach.firmness import Holds, firmness, flips
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.rules.reach_sketches import sketch_cone


def deep_seat(along_mm):
    """Return a tube shut by one row, with a seat so far in from its only mouth."""
    ways = {
        "seat": (rim_way("rim-1", along_mm), row_way("a1", "a", 15.0)),
        "a0": (rim_way("rim-1", 10.0),),
        "a1": (rim_way("rim-1", 30.0),),
        "a2": (rim_way("rim-1", 50.0),),
    }
    return net_of([row("a", ["shell"])], ways, seats={"seat": ("shell",)})


def holds_of(found, number):
    return {(f.now, f.then) for f in found if f.joint == "seat" and f.number.id == number}


def test_what_lies_a_little_too_deep_flips_with_a_longer_horn_only():
    net = deep_seat(270.0)
    found = flips(net, bench_with(net, tool("horn", 250.0)), {})
    assert holds_of(found, "horn") == {(Holds.CANNOT, Holds.EASIER)}
    (flip,) = (f for f in found if f.joint == "seat" and f.number.id == "horn")
    assert flip.changed == 300.0
    assert flip.rows == ("a",)
    (said,) = flips_told([flip])
    assert "it binds (cannot)" in said
    assert "from 250 to 300 mm, it is only easier so" in said


def test_what_is_just_within_reach_binds_with_a_shorter_horn():
    net = deep_seat(230.0)
    found = flips(net, bench_with(net, tool("horn", 250.0)), {})
    assert holds_of(found, "horn") == {(Holds.EASIER, Holds.CANNOT)}
    assert found[0].binds


def test_what_is_far_out_of_reach_is_firm():
    net = deep_seat(400.0)
    bench = bench_with(net, tool("horn", 250.0))
    assert not holds_of(flips(net, bench, {}), "horn")


def test_a_mouth_that_only_just_admits_the_tool_flips_with_the_squash():
    net = deep_seat(100.0)
    narrow = replace(bench_with(net, tool("horn", 250.0, opening_mm=110.0)), squash_raw=1.3)
    found = flips(net, narrow, {})
    assert holds_of(found, "squash") == {(Holds.EASIER, Holds.CANNOT)}


def test_the_far_end_of_its_own_row_flips_with_the_horn():
    ways = {
        "a0": (rim_way("rim-1", 10.0),),
        "a1": (rim_way("rim-1", 140.0), row_way("a0", "a", 130.0), row_way("a2", "a", 130.0)),
        "a2": (rim_way("rim-1", 270.0), row_way("a1", "a", 130.0)),
    }
    net = net_of([row("a", ["shell"], spacing_mm=130.0)], ways)
    found = flips(net, bench_with(net, tool("horn", 250.0)), {})
    mine = [f for f in found if f.joint == "a2" and f.own and f.number.id == "horn"]
    assert {(f.now, f.then) for f in mine} == {(Holds.CANNOT, Holds.NOT)}
    (said,) = flips_told(mine)
    assert said.startswith("Number 3 of row a, before the last of the rest of row a: it binds")
    assert "from 250 to 300 mm, " in said
    assert not mine[0].rows


def test_without_flips_it_says_that_all_is_firm():
    assert firm_words((), orders=3).startswith("3 orders by reach, all firm")


def test_where_reach_asks_for_nothing_it_says_so():
    assert firm_words((), orders=0).startswith("There are no orders by reach")


@pytest.fixture
def cone():
    """Return a cone 300 mm deep: its tip lies just beyond the horn that ships."""
    return sketch_cone(deep_mm=300.0, angle_deg=60.0, spots_mm=(30.0, 120.0, 210.0, 280.0))


def test_the_page_of_shapes_tells_how_firm_with_the_numbers_that_flip(cone):
    shelf = read_shelf()
    (measure,) = firm_measures(cone, shelf)
    found = firmness(cone, shelf)
    assert found
    assert "flip" in measure.verdict
    assert {figure.name for figure in measure.figures} == {flip.number.name for flip in found}
    assert all(figure.source for figure in measure.figures)
    assert flips_told(found)[0] in measure.text
    assert measure.id in {each.id for each in reach_measures(cone, shelf)}


def test_plates_that_nothing_shuts_have_no_such_line():
    flat = sketch_cone(deep_mm=60.0, angle_deg=150.0, spots_mm=(20.0, 40.0))
    assert not list(firm_measures(flat, read_shelf()))


def test_what_its_own_row_only_makes_dearer_is_followed_too():
    shallow = sketch_cone(deep_mm=240.0, angle_deg=60.0, spots_mm=(30.0, 90.0, 150.0, 210.0))
    found = firmness(shallow, read_shelf())
    dearer = [flip for flip in found if flip.own and Holds.EASIER in (flip.now, flip.then)]
    assert dearer
    said = " ".join(flips_told(dearer))
    assert "before the last of " in said
    assert "umber 2 of back row" in said


def test_joints_of_which_the_same_holds_are_told_in_one_sentence():
    net = deep_seat(270.0)
    found = flips(net, bench_with(net, tool("horn", 250.0)), {})
    (flip,) = (f for f in found if f.joint == "seat" and f.number.id == "horn")
    (said,) = flips_told([flip, replace(flip, joint="other")])
    assert said.startswith("'seat' and 'other', each before the last of row a: it binds (cannot)")


def test_both_orders_at_the_end_of_reach_are_told_so():
    ways = {
        "a0": (rim_way("rim-1", 10.0),),
        "a1": (rim_way("rim-1", 140.0, least_mm=20.0), row_way("a2", "a", 110.0)),
        "a2": (rim_way("rim-1", 270.0, least_mm=20.0), row_way("a0", "a", 110.0)),
    }
    net = net_of([row("a", ["shell"], spacing_mm=130.0)], ways, formed=["shell"])
    runs = {"a": ("a2", "a1", "a0")}
    found = flips(net, bench_with(net, tool("horn", 120.0)), runs)
    (flip,) = (f for f in found if f.joint == "a2" and f.changed == pytest.approx(96.0))
    assert (flip.now, flip.then) == (Holds.EASIER, Holds.END)
    assert "both orders leave it at the end of reach" in " ".join(flips_told(found))


def test_a_joint_that_more_numbers_turn_is_told_once_with_all_of_them():
    net = deep_seat(270.0)
    (flip,) = flips(net, bench_with(net, tool("horn", 250.0)), {})[:1]
    other = replace(flip, changed=240.0, then=Holds.END)
    (said,) = flips_told([flip, other], lambda joint: f"Rivet {joint}")
    assert said.count("Rivet seat") == 1
    assert said.count("; with ") == 2
