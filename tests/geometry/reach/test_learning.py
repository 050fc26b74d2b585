"""Lessons from orders that fail, until one holds."""

from itertools import permutations

import pytest
from geometry.reach_sketches import bench_with, cup, nets, tool, tool_lists
from hypothesis import given, settings

from armorplan.geometry.reach.learning import learn
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.geometry.reach.sealing import sealings


def holds(net, bench, order):
    states = (frozenset(order[:at]) for at in range(len(order)))
    return all(
        margin(net, joint, made, bench).standing is not Standing.CANNOT
        for joint, made in zip(order, states, strict=True)
    )


def failing(net, bench):
    """What fails in an order: a joint, and the fewest joints before it that shut it in."""
    known = sealings(net, bench)

    def fails(order):
        return tuple(
            (joint, known[joint].one_of(order[:at]))
            for at, joint in enumerate(order)
            if joint in known and known[joint].is_shut(frozenset(order[:at]))
        )

    return fails


def keeping(orders):
    def again(lessons):
        kept = (o for o in orders if not any(of.issubset(o[: o.index(j)]) for j, of in lessons))
        return next(kept, None)

    return again


@given(nets(rows=3, joints=2, seats=1), tool_lists)
@settings(max_examples=30, deadline=None)
def test_what_is_learned_ends_at_an_order_that_holds_and_refuses_none_that_does(net, tools):
    bench = bench_with(net, *tools)
    every = list(permutations(sorted(net.access)[:6]))
    found = learn(keeping(every), failing(net, bench), most=1000)
    sound = [order for order in every if holds(net, bench, order)]
    if sound:
        assert found.order == sound[0]
        assert not found.left
    else:
        assert found.left
    for joint, of in found.lessons:
        assert not any(of.issubset(order[: order.index(joint)]) for order in sound)


@pytest.mark.long
@given(nets(rows=3, joints=2, seats=1), tool_lists)
@settings(max_examples=500, deadline=None)
def test_what_is_learned_ends_at_an_order_that_holds_and_refuses_none_that_does_in_many_drawings(
    net, tools
):
    test_what_is_learned_ends_at_an_order_that_holds_and_refuses_none_that_does.hypothesis.inner_test(
        net, tools
    )


def test_a_half_made_row_teaches_where_to_begin():
    net = cup(joints=8)
    bench = bench_with(net, tool("short", 60.0, 20.0))
    order = tuple(f"s{at}" for at in range(8))
    found = learn(keeping([order, order[::-1]]), failing(net, bench), most=9)
    # By hand: through s2, 60 mm off s5, it gapes 21 mm, but 14 mm once s0 is made: squashed 18.2 mm.
    assert ("s5", frozenset({"s0"})) in found.lessons
    assert found.order == order[::-1]


def test_it_stops_after_so_many_orders_and_says_what_still_fails():
    net = cup(joints=8)
    bench = bench_with(net, tool("short", 60.0, 20.0))
    orders = [tuple(f"s{(at + turn) % 8}" for at in range(8)) for turn in range(8)]
    asked = []

    def stubborn(lessons):
        asked.append(lessons)
        return orders[len(asked) - 1]

    found = learn(stubborn, failing(net, bench), most=2)
    assert len(asked) == 3
    assert found.order == orders[2]
    assert found.left
    assert set(found.left).isdisjoint(found.lessons)


def test_what_no_order_keeps_is_left_and_the_order_before_it_stands():
    found = learn(lambda lessons: None if lessons else ("a",), lambda _: ("lesson",), most=5)
    assert (found.order, found.lessons, found.left) == (("a",), (), ("lesson",))
