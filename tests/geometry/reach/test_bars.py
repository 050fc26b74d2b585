"""Bars against the model in every state, and their orders against its orders."""

from itertools import chain, combinations, permutations

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
    tube,
)
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.bars import MOST_TOLD, bars, own_row_bars, shell_bars
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing


def subsets(items):
    every = sorted(items)
    return chain.from_iterable(combinations(every, size) for size in range(len(every) + 1))


def own_row(net, joint):
    return next((each for each in net.shells["shell"].rows if joint in each.joints), None)


def joints_of(net, rows):
    return frozenset(
        j for each in net.shells["shell"].rows if each.id in rows for j in each.joints
    )


@given(nets(), tool_lists)
@settings(max_examples=30, deadline=None)
def test_bars_say_of_every_set_of_rows_what_the_model_says(net, tools):
    """Of a joint with many ways to be harder only the dearest are told; *cannot* is told in full."""
    bench = bench_with(net, *tools)
    found, cut_short = bars(net, bench), shell_bars(net, bench)["shell"].cut_short
    for joint in net.access:
        mine = [bar for bar in found if bar.joint == joint]
        own = own_row(net, joint)
        others = {each.id for each in net.shells["shell"].rows} - {own.id if own else ""}
        base = margin(net, joint, frozenset(), bench)
        for done in map(frozenset, subsets(others)):
            told = margin(net, joint, joints_of(net, done), bench)
            barred = [bar.after.standing for bar in mine if bar.rows <= done]
            most = max(barred, default=base.standing)
            if joint in cut_short and told.standing is not Standing.CANNOT:
                assert most <= told.standing
            else:
                assert most == told.standing


@pytest.mark.long
@given(nets(), tool_lists)
@settings(max_examples=600, deadline=None)
def test_bars_say_of_every_set_of_rows_what_the_model_says_in_many_drawings(net, tools):
    test_bars_say_of_every_set_of_rows_what_the_model_says.hypothesis.inner_test(net, tools)


@given(nets(), tool_lists)
@settings(max_examples=24, deadline=None)
def test_each_bar_is_what_the_model_says_and_none_of_its_rows_can_be_spared(net, tools):
    bench = bench_with(net, *tools)
    for bar in (*bars(net, bench), *own_row_bars(net, bench)):
        own = own_row(net, bar.joint)
        made = joints_of(net, bar.rows)
        assert margin(net, bar.joint, frozenset(), bench).standing == bar.before.standing
        full = margin(net, bar.joint, made | bar.own, bench)
        assert (full.standing, full.effort) == (bar.after.standing, bar.after.effort)
        assert full.margin_mm == bar.after.margin_mm
        assert bar.before.standing < bar.after.standing
        for less in bar.rows:
            fewer = margin(net, bar.joint, joints_of(net, bar.rows - {less}) | bar.own, bench)
            assert fewer.standing < full.standing
        if bar.own:
            at = own.joints.index(bar.joint)
            sides = frozenset(own.joints[:at]), frozenset(own.joints[at + 1 :])
            for side in sides:
                if side and side <= bar.own:
                    rest = margin(net, bar.joint, made | (bar.own - side), bench)
                    assert rest.standing < full.standing


@pytest.mark.long
@given(nets(), tool_lists)
@settings(max_examples=400, deadline=None)
def test_each_bar_is_what_the_model_says_and_none_of_its_rows_can_be_spared_in_many_drawings(
    net, tools
):
    test_each_bar_is_what_the_model_says_and_none_of_its_rows_can_be_spared.hypothesis.inner_test(
        net, tools
    )


def by_hand_ring():
    """Return a ring of three plates; a strap deep on one of them, reached through either row."""
    rows = [row("a", ["p", "q"]), row("b", ["q", "r"]), row("c", ["r", "p"])]
    ways = {
        "strap": [
            rim_way("rim-1", 120.0),
            row_way("a0", "a", 50.0),
            row_way("c1", "c", 30.0),
            row_way("b1", "b", 110.0),
        ]
    }
    return net_of(rows, ways, seats={"strap": ["p"]})


def test_a_strap_in_a_ring_is_settable_after_either_row_but_not_after_all():
    net = by_hand_ring()
    found = bars(net, bench_with(net, tool("short", 60.0)))
    assert [(set(bar.rows), bar.before.standing, bar.after.standing) for bar in found] == [
        ({"a", "b", "c"}, Standing.FLAT, Standing.CANNOT)
    ]


def test_with_a_longer_tool_it_is_only_dearer():
    net = by_hand_ring()
    found = bars(net, bench_with(net, tool("long", 250.0)))
    assert [(set(bar.rows), bar.after.standing) for bar in found] == [
        ({"a", "b", "c"}, Standing.INSIDE)
    ]
    assert found[0].after.effort > found[0].before.effort == 1.0


def test_in_a_tube_both_sides_of_its_row_bar_the_joint_in_the_middle():
    net = tube(joints=9, spacing_mm=20.0)
    found = own_row_bars(net, bench_with(net, tool("short", 70.0, 5.0)))
    middle = [bar for bar in found if bar.joint == "s4" and bar.after.standing is Standing.CANNOT]
    assert [bar.own for bar in middle] == [frozenset(f"s{at}" for at in (0, 1, 2, 3, 5, 6, 7, 8))]
    # s3 lies 60 mm from the mouth: nothing bars it.
    assert not [b for b in found if b.joint == "s3" and b.after.standing is Standing.CANNOT]


def accepted_by_bars(order, found):
    place = {each: at for at, each in enumerate(order)}
    return all(
        place[bar.joint] < max(place[row_id] for row_id in bar.rows)
        for bar in found
        if bar.after.standing is Standing.CANNOT
    )


@given(nets(rows=4, seats=2), tool_lists)
@settings(max_examples=18, deadline=None)
def test_bars_and_model_accept_the_same_orders_of_straps_and_rows(net, tools):
    bench = bench_with(net, *tools)
    seats = [joint for joint in net.access if own_row(net, joint) is None]
    rows = {each.id: each for each in net.shells["shell"].rows}
    at_once = {s for s in seats if margin(net, s, frozenset(), bench).standing is Standing.CANNOT}
    found = [bar for bar in bars(net, bench) if bar.joint in seats]
    for order in permutations([*(s for s in seats if s not in at_once), *rows]):
        fits = True
        for at, each in enumerate(order):
            if each in seats:
                made = joints_of(net, [one for one in order[:at] if one in rows])
                fits &= margin(net, each, made, bench).standing is not Standing.CANNOT
        assert fits == accepted_by_bars(order, [bar for bar in found if bar.joint not in at_once])


@pytest.mark.long
@given(nets(rows=4, seats=2), tool_lists)
@settings(max_examples=300, deadline=None)
def test_bars_and_model_accept_the_same_orders_of_straps_and_rows_in_many_drawings(net, tools):
    test_bars_and_model_accept_the_same_orders_of_straps_and_rows.hypothesis.inner_test(net, tools)


@given(st.data())
@settings(max_examples=12, deadline=None)
def test_an_edit_elsewhere_leaves_a_shells_bars(data):
    net, tools = data.draw(nets()), data.draw(tool_lists)
    bench, again = bench_with(net, *tools), bench_with(net, *tools)
    assert shell_bars(net, bench)["shell"] is shell_bars(net, again)["shell"]


def test_of_many_ways_to_make_a_joint_harder_the_dearest_are_told():
    rows = [row(f"{name}{end}", [name, "p"]) for name in "abcdef" for end in "12"]
    ways = [row_way("a10", "a1", 40.0), row_way("b10", "b1", 60.0), rim_way("rim-1", 90.0)]
    net = net_of(rows, {"strap": ways}, seats={"strap": ["p"]})
    bench = bench_with(net, tool("long", 250.0))
    found = shell_bars(net, bench)["shell"]
    assert found.cut_short == {"strap"}
    assert len(found.bars) == MOST_TOLD
    assert len({bar.rows for bar in found.bars}) == MOST_TOLD
    told = shell_bars(net_of(rows[:6], {"strap": ways}, seats={"strap": ["p"]}), bench)["shell"]
    assert 0 < len(told.bars) <= MOST_TOLD
    assert not told.cut_short


def test_a_shell_with_more_rings_than_are_told_apart_says_so():
    plates = 5
    rows = [
        row(f"{x}{y}{side}", [f"{x}{y}", f"{x + dx}{y + dy}"], joints=1)
        for x in range(plates)
        for y in range(plates)
        for side, dx, dy in (("h", 1, 0), ("v", 0, 1))
        if x + dx < plates and y + dy < plates
    ]
    net = net_of(rows, {"strap": [rim_way("rim-1", 30.0)]}, seats={"strap": ["22"]})
    found = shell_bars(net, bench_with(net, tool("short", 60.0)))["shell"]
    assert found.cut_short == {"strap"}
    made = [joints_of(net, bar.rows) for bar in found.bars]
    assert min(len(each) for each in made) == 4
