"""Margins by hand, and that setting a joint never widens a way to another."""

from dataclasses import replace
from itertools import pairwise
from math import inf
from random import Random

import pytest
from geometry.reach_sketches import (
    bench_with,
    cup,
    net_of,
    nets,
    rim_way,
    row,
    row_way,
    tool,
    tool_lists,
    tube,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import gauges, margin
from armorplan.geometry.reach.model import FLAT_LINK, Link, Standing


def standing(net, joint, made, *tools, **numbers):
    return margin(net, joint, frozenset(made), bench_with(net, *tools, **numbers)).standing


def test_two_plates_whose_rows_do_not_lie_flat_together_close_a_ring():
    """Each row draws the plates together in its own way, as the two sides of a tube do."""
    rows = [row("a", ["p", "q"]), row("b", ["p", "q"])]
    net = net_of(rows, {joint: [rim_way("rim-1", 30.0)] for each in rows for joint in each.joints})
    short = tool("short", 60.0)
    assert standing(net, "a0", [], short) is Standing.FLAT
    assert standing(net, "a0", ["a1", "a2"], short) is Standing.FLAT
    # The first joint of the second row draws the plates round.
    assert standing(net, "b0", ["a1"], short) is Standing.CURVED
    assert standing(net, "b0", [], short) is Standing.FLAT


def test_two_plates_that_lie_on_each_other_under_two_rows_stay_flat():
    rows = [replace(row(name, ["p", "q"]), links=(Link("p", "q", FLAT_LINK),)) for name in "ab"]
    net = net_of(rows, {joint: [rim_way("rim-1", 30.0)] for each in rows for joint in each.joints})
    short = tool("short", 60.0)
    for joint in net.access:
        assert standing(net, joint, net.access.keys() - {joint}, short) is Standing.FLAT


def test_formed_layers_on_each_other_move_as_one_and_shut_nothing_in():
    rows = [replace(row(name, ["p", "q"]), links=(Link("p", "q", FLAT_LINK),)) for name in "ab"]
    ways = {joint: [rim_way("rim-1", 30.0)] for each in rows for joint in each.joints}
    ways["strap"] = [rim_way("rim-1", 30.0)]
    net = net_of(rows, ways, seats={"strap": ["p"]}, formed=["p", "q"])
    every = net.access.keys() - {"strap"}
    assert standing(net, "strap", every, tool("short", 60.0)) is Standing.CURVED


def test_a_plate_closed_on_itself_and_a_formed_plate_never_lie_flat():
    assert standing(tube(), "s0", [], tool("short", 60.0)) is Standing.CURVED
    net = net_of([], {"strap": [rim_way("rim-1", 20.0)]}, seats={"strap": ["p"]}, formed=["p"])
    assert standing(net, "strap", [], tool("short", 60.0)) is Standing.CURVED


def test_a_form_is_felt_through_the_rows_that_hold_its_plate():
    rows = [row("a", ["p", "q"]), row("b", ["q", "r"])]
    net = net_of(rows, {"strap": [rim_way("rim-1", 20.0)]}, seats={"strap": ["p"]}, formed=["r"])
    short = tool("short", 60.0)
    assert standing(net, "strap", ["a0"], short) is Standing.FLAT
    assert standing(net, "strap", ["a0", "b2"], short) is Standing.CURVED


@pytest.mark.parametrize("shut", ["by a shape drawn by its rows", "by a ring"])
def test_in_a_shape_shut_round_work_is_inside_however_near_the_mouth(shut):
    # By hand: 30 mm of a tool of 120 mm: a quarter of the way from 1.25 to 2.
    rows = [row("a", ["p", "q"]), row("b", ["q", "r"])]
    drawn = [{"a", "b"}]
    if shut == "by a ring":
        rows, drawn = [*rows, row("c", ["r", "p"])], []
    ways = {"strap": [rim_way("rim-1", 30.0)]} | {j: [] for each in rows for j in each.joints}
    net = net_of(rows, ways, seats={"strap": ["p"]}, formed=["q"], closures=drawn)
    bench = bench_with(net, tool("bar", 120.0))
    every = frozenset(ways) - {"strap"}
    for last in every:
        before = margin(net, "strap", every - {last}, bench)
        assert (before.standing, before.effort) == (Standing.CURVED, 1.25)
    after = margin(net, "strap", every, bench)
    assert after.standing is Standing.INSIDE
    assert after.effort == pytest.approx(1.25 + 0.75 / 4)


def test_a_row_stays_open_for_its_own_last_joint():
    rows = [row("a", ["p", "q"]), row("b", ["p", "q"])]
    net = net_of(rows, {joint: [rim_way("rim-1", 30.0)] for each in rows for joint in each.joints})
    last = margin(net, "b2", frozenset(net.access) - {"b2"}, bench_with(net, tool("bar", 120.0)))
    assert last.standing is Standing.CURVED


def test_what_hangs_on_a_tube_by_one_row_is_not_shut_round_with_it():
    rows = [row("tube", ["p"]), row("tail", ["p", "q"])]
    ways = {"strap": [rim_way("rim-1", 30.0)], "on": [rim_way("rim-1", 30.0)]}
    net = net_of(rows, ways, seats={"strap": ["q"], "on": ["p"]})
    every = frozenset(joint for each in rows for joint in each.joints)
    assert standing(net, "strap", every, tool("bar", 120.0)) is Standing.CURVED
    assert standing(net, "on", every, tool("bar", 120.0)) is Standing.INSIDE


@pytest.mark.parametrize(
    ("along", "least", "expected", "effort"),
    [
        (40.0, 40.0, Standing.CURVED, 1.25),
        (60.0, 60.0, Standing.INSIDE, 1.25 + 0.75 * 20 / 60),
        (100.0, 100.0, Standing.INSIDE, 2.0),
        (101.0, 100.0, Standing.END, 3.0),
        (140.0, 100.4, Standing.END, 3.0),
        (140.0, 102.0, Standing.END, 3.0),
        (140.0, 102.1, Standing.CANNOT, inf),
    ],
)
def test_standing_and_effort_by_depth(along, least, expected, effort):
    net = net_of(
        [], {"j": [rim_way("rim-1", along, least_mm=least)]}, seats={"j": ["p"]}, formed=["p"]
    )
    found = margin(net, "j", frozenset(), bench_with(net, tool("bar", 100.0)))
    assert found.standing is expected
    assert found.effort == pytest.approx(effort)
    assert found.margin_mm == 100.0 - along
    assert found.most_margin_mm == pytest.approx(100.0 - (least - 0.02 * max(least, 100.0)))
    assert (found.tool, found.reach_mm, found.way.name) == ("bar", 100.0, "rim-1")


def test_a_mouth_squashed_open_is_the_end_of_reach_and_less_so_after_the_finish():
    net = net_of(
        [], {"j": [rim_way("rim-1", 30.0, opening_mm=40.0)]}, seats={"j": ["p"]}, formed=["p"]
    )
    wide = tool("wide", 100.0, 50.0)
    assert standing(net, "j", [], wide) is Standing.END  # 40 mm times 1.3
    assert standing(net, "j", [], wide, finished=frozenset({"j"})) is Standing.CANNOT  # times 1.15


def test_nothing_is_impossible_in_a_hollow_shell_or_without_a_tool():
    deep = {"j": [rim_way("rim-1", 300.0)]}
    net = net_of([], deep, seats={"j": ["p"]}, formed=["p"], hollow=True)
    assert standing(net, "j", [], tool("bar", 100.0)) is Standing.END
    assert standing(net, "j", []) is Standing.CURVED
    no_mouth = net_of([], {"j": []}, seats={"j": ["p"]}, formed=["p"])
    assert standing(no_mouth, "j", [], tool("bar", 100.0)) is Standing.CANNOT
    assert standing(no_mouth, "j", [], tool("none", 0.0, 0.0)) is Standing.CANNOT


def test_a_joint_in_no_shell_is_set_flat():
    assert margin(tube(), "elsewhere", frozenset(), Bench(tools={})).standing is Standing.FLAT


def test_an_open_row_gapes_from_the_nearest_joint_made():
    # By hand: from the mouth 140 mm, beyond any tool; through the row 0.35 mm for each mm.
    net, short = cup(), tool("short", 60.0, 20.0)
    bench = bench_with(net, short)
    alone = margin(net, "s7", frozenset(), bench)
    assert alone.standing is Standing.INSIDE  # s4 lies 60 mm off and gapes 21 mm
    assert (alone.way.name, alone.opening_mm) == ("s4", pytest.approx(21.0))
    assert alone.margin_mm == pytest.approx(0.0)
    beside = margin(net, "s7", frozenset({"s2"}), bench)
    assert beside.standing is Standing.CANNOT  # s4 gapes 14 mm, squashed 18.2 mm
    squashed = margin(net, "s7", frozenset({"s2"}), bench_with(net, tool("thin", 60.0, 18.0)))
    assert squashed.standing is Standing.END


def test_another_row_without_a_joint_made_lets_any_tool_in():
    other = row("b", ["p"], joints=2)
    net = net_of(
        [other],
        {"j": [row_way("b0", "b", 10.0)], "b0": [], "b1": []},
        seats={"j": ["p"]},
        formed=["p"],
    )
    found = margin(net, "j", frozenset(), bench_with(net, tool("huge", 60.0, 500.0)))
    assert (found.standing, found.opening_mm) == (Standing.CURVED, inf)
    assert standing(net, "j", ["b0"], tool("huge", 60.0, 500.0)) is Standing.CANNOT
    assert standing(net, "j", ["b1"], tool("thin", 60.0, 8.0)) is Standing.CURVED


def test_effort_and_margin_may_be_those_of_two_tools():
    ways = [rim_way("rim-1", 200.0, opening_mm=90.0), rim_way("rim-2", 45.0, opening_mm=25.0)]
    net = net_of([], {"j": ways}, seats={"j": ["p"]}, formed=["p"])
    found = margin(
        net, "j", frozenset(), bench_with(net, tool("long", 250.0, 80.0), tool("thin", 60.0, 20.0))
    )
    assert (found.tool, found.way.name, found.margin_mm) == ("thin", "rim-2", 50.0)


def lowered(before, after):
    """Tell whether a state in which more is made is no easier in any respect."""
    low = inf if before.standing is Standing.FLAT else -inf
    high = inf if after.standing is Standing.FLAT else -inf
    pairs = [(before.margin_mm, after.margin_mm), (before.most_margin_mm, after.most_margin_mm)]
    return (
        before.standing <= after.standing
        and before.effort <= after.effort
        and all(
            (low if one is None else one) >= (high if other is None else other)
            for one, other in pairs
        )
    )


def adding_never_widens(data, orders):
    """Check a net drawn, its joints added in several orders; return how many additions that were."""
    net = data.draw(nets())
    bench = bench_with(
        net,
        *data.draw(tool_lists),
        finished=frozenset(data.draw(st.sets(st.sampled_from(sorted(net.access))))),
    )
    (gauge,) = gauges(net, bench).values()
    chance, added = Random(data.draw(st.integers(0, 2**32))), 0  # noqa: S311 - drawn, so kept
    for _ in range(orders):
        order = chance.sample(sorted(net.access), len(net.access))
        for joint in order[:3]:
            others = [each for each in order if each != joint]
            states = [frozenset(others[:count]) for count in range(len(others) + 1)]
            told = [gauge.margin(joint, made) for made in states]
            assert all(lowered(one, other) for one, other in pairwise(told))
            assert told[-1] == margin(net, joint, states[-1], bench)
            added += len(others)
    return added


@given(st.data())
@settings(max_examples=24, deadline=None)
def test_adding_a_joint_never_widens_a_way(data):
    adding_never_widens(data, orders=2)


@pytest.mark.long
def test_ten_thousand_additions_never_widen_a_way():
    added = []

    @given(st.data())
    @settings(max_examples=400, deadline=None)
    def many(data):
        added.append(adding_never_widens(data, orders=6))

    many()
    assert sum(added) >= 10_000
