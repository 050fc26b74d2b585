"""The smallest sets of joints that put another out of reach, against the model in every state."""

from itertools import combinations, permutations

import pytest
from geometry.reach_sketches import (
    bench_with,
    net_of,
    nets,
    rim_way,
    row,
    row_way,
    tool,
    tool_lists,
)
from geometry.reach_sketches import tube as tube_by_hand
from hypothesis import assume, given, settings

from armorplan.geometry.reach.margins import gauges, margin
from armorplan.geometry.reach.model import Standing
from armorplan.geometry.reach.sealing import sealed_bars, sealings
from armorplan.geometry.reach.settled import settled
from armorplan.geometry.reach.stuck import stuck_in


def subsets(items):
    every = sorted(items)
    return (frozenset(s) for size in range(len(every) + 1) for s in combinations(every, size))


@given(nets(rows=3, joints=3, seats=2), tool_lists)
@settings(max_examples=30, deadline=None)
def test_the_sets_say_of_every_state_what_the_model_says(net, tools):
    bench = bench_with(net, *tools)
    known, told = sealings(net, bench), sealed_bars(net, bench)
    for joint in net.access:
        rows = {each.id: frozenset(each.joints) for each in net.shells["shell"].rows}
        sets = [
            frozenset().union(bar.own, bar.more, *(rows[each] for each in bar.rows))
            for bar in told.get(joint, ())
        ]
        for made in subsets(set(net.access) - {joint}):
            cannot = margin(net, joint, made, bench).standing is Standing.CANNOT
            assert cannot == (joint in known and known[joint].is_shut(made))
            if joint in told or joint not in known:
                assert cannot == any(each <= made for each in sets)


@pytest.mark.long
@given(nets(rows=3, joints=3, seats=2), tool_lists)
@settings(max_examples=600, deadline=None)
def test_the_sets_say_of_every_state_what_the_model_says_in_many_drawings(net, tools):
    test_the_sets_say_of_every_state_what_the_model_says.hypothesis.inner_test(net, tools)


@given(nets(rows=3, joints=3, seats=1), tool_lists)
@settings(max_examples=48, deadline=None)
def test_no_joint_of_a_set_can_be_spared_and_rows_are_told_whole(net, tools):
    bench = bench_with(net, *tools)
    rows = {each.id: each for each in net.shells["shell"].rows}
    for joint, bars in sealed_bars(net, bench).items():
        for bar in bars:
            whole = frozenset(each for id_ in bar.rows for each in rows[id_].joints)
            every = whole | bar.own | bar.more
            assert bar.after.standing is Standing.CANNOT
            assert all(
                margin(net, joint, every - {each}, bench).standing is not Standing.CANNOT
                for each in every
            )
            own = next((r for r in rows.values() if joint in r.joints), None)
            assert bar.own == (every & frozenset(own.joints) if own else frozenset())
            assert not any(frozenset(r.joints) <= bar.more for r in rows.values())


def test_a_joint_with_too_many_sets_is_left_to_the_orders_that_are_tried():
    # By hand: 20 mm apart they gape 7 mm, squashed 9.1 mm: each rivet shuts three places.
    net = tube_by_hand(joints=24, spacing_mm=20.0)
    bench = bench_with(net, tool("short", 150.0, 10.0))
    known = sealings(net, bench)
    assert "s11" in known
    assert "s11" not in sealed_bars(net, bench)
    made = [f"s{at}" for at in range(24) if at != 11]
    fewest = known["s11"].one_of(made)
    assert known["s11"].is_shut(fewest)
    assert all(not known["s11"].is_shut(fewest - {each}) for each in fewest)


def test_rows_far_apart_are_all_in_the_way_of_a_formed_plate():
    rows = [row(each, ["p", each], joints=4, spacing_mm=90.0) for each in "abc"]
    ways = {"on": [row_way(f"{each}{at}", each, 40.0) for each in "abc" for at in range(4)]}
    net = net_of(rows, ways, seats={"on": ["p"]}, formed=["p"])
    (bar,) = sealed_bars(net, bench_with(net, tool("horn", 60.0, 20.0)))["on"]
    assert bar.rows == {"a", "b", "c"}


def test_a_mouth_that_lets_a_tool_in_leaves_nothing_out_of_reach():
    rows = [row("a", ["p", "p"], joints=4)]
    net = net_of(rows, {"on": [rim_way("rim-1", 50.0)]}, seats={"on": ["p"]})
    assert not sealings(net, bench_with(net, tool("horn", 60.0, 20.0)))
    assert sealings(net, bench_with(net, tool("stub", 40.0, 20.0)))


@given(nets(rows=2, joints=2, seats=1), tool_lists)
@settings(max_examples=30, deadline=None)
def test_a_shell_counts_as_hollow_exactly_where_no_order_sets_what_can_be_set_at_all(net, tools):
    bench = bench_with(net, *tools)
    shell = net.shells["shell"]
    assume(shell.rims and not shell.hollow)

    def is_set(joint, made):
        return margin(net, joint, frozenset(made), bench).standing is not Standing.CANNOT

    joints = [joint for joint in net.access if is_set(joint, ())]
    has_order = any(
        all(is_set(joint, order[:at]) for at, joint in enumerate(order))
        for order in permutations(joints)
    )
    assert settled(net, bench).shells["shell"].hollow is not has_order
    gauge = gauges(net, bench)["shell"]
    assert (stuck_in(gauge, bench, joints) is None) is has_order


@pytest.mark.long
@given(nets(rows=2, joints=2, seats=1), tool_lists)
@settings(max_examples=500, deadline=None)
def test_a_shell_counts_as_hollow_exactly_where_no_order_sets_what_can_be_set_at_all_in_many_drawings(
    net, tools
):
    test_a_shell_counts_as_hollow_exactly_where_no_order_sets_what_can_be_set_at_all.hypothesis.inner_test(
        net, tools
    )
