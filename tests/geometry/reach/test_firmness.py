"""Which orders by reach rest on a number that may be a fifth off."""

from dataclasses import replace

from geometry.reach_sketches import bench_with, net_of, rim_way, row, row_way, tool

from armorplan.geometry.reach.firmness import Holds, firm_words, flip_words, flips


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
    found = flips(net, bench_with(net, tool("horn", 250.0)))
    assert holds_of(found, "horn") == {(Holds.CANNOT, Holds.EASIER)}
    (flip,) = (f for f in found if f.joint == "seat" and f.number.id == "horn")
    assert flip.changed == 300.0
    assert flip.rows == ("a",)
    said = flip_words(flip)
    assert "it binds (cannot)" in said
    assert "from 250 to 300 mm, it is only easier so" in said


def test_what_is_just_within_reach_binds_with_a_shorter_horn():
    net = deep_seat(230.0)
    found = flips(net, bench_with(net, tool("horn", 250.0)))
    assert holds_of(found, "horn") == {(Holds.EASIER, Holds.CANNOT)}
    assert found[0].binds


def test_what_is_far_out_of_reach_is_firm():
    net = deep_seat(400.0)
    bench = bench_with(net, tool("horn", 250.0))
    assert not holds_of(flips(net, bench), "horn")


def test_a_mouth_that_only_just_admits_the_tool_flips_with_the_squash():
    net = deep_seat(100.0)
    narrow = replace(bench_with(net, tool("horn", 250.0, opening_mm=110.0)), squash_raw=1.3)
    found = flips(net, narrow)
    assert holds_of(found, "squash") == {(Holds.EASIER, Holds.CANNOT)}


def test_without_flips_it_says_that_all_is_firm():
    assert firm_words(()).startswith("All orders by reach are firm")
