"""A row that goes on over several plates holds together only those its made joints pass."""

from dataclasses import replace
from itertools import combinations

import pytest
from geometry.reach.net_sketches import box_at, rows_between
from geometry.reach_sketches import bench_with, net_of, nets, rim_way, row, tool, tool_lists
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.bars import bars, own_row_bars
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Link, Standing
from armorplan.geometry.reach.net import reach_net
from armorplan.geometry.reach.sealing import sealings
from armorplan.pattern.joining import Seam


def spanned(each, cut):
    """A row over p, q and r: its first joints hold p to q, those from ``cut`` on q to r."""
    links = (Link("p", "q", f"{each.id}:pq"), Link("q", "r", f"{each.id}:qr"))
    return replace(each, links=links, spans=(each.at_mm[:cut], each.at_mm[cut:]))


def ring():
    """Three plates: a row over all of them, and one from the last back to the first."""
    long = spanned(row("a", ["p", "q", "r"], joints=4), 2)
    back = row("c", ["r", "p"], joints=2)
    ways = {joint: [rim_way("rim-1", 90.0)] for joint in (*long.joints, *back.joints, "on")}
    return net_of([long, back], ways, seats={"on": ["p"]})


def standing(net, joint, *made):
    return margin(net, joint, frozenset(made), bench_with(net, tool("horn", 200.0))).standing


def test_plates_lie_flat_until_each_two_of_the_ring_are_held():
    net = ring()
    assert standing(net, "on", "c0", "c1", "a0", "a1") is Standing.FLAT
    assert standing(net, "on", "c0", "c1", "a2", "a3") is Standing.FLAT
    assert standing(net, "on", "c0", "a0", "a2") is Standing.INSIDE
    assert standing(net, "on", "a0", "a1", "a2", "a3") is Standing.FLAT


def test_a_row_met_from_its_far_plate_is_followed_too():
    # From p the row c leads to r, and only there the made joint of the long row begins.
    net = ring()
    formed = net_of(
        net.shells["shell"].rows,
        {joint: each.ways for joint, each in net.access.items()},
        seats={"on": ["p"]},
        formed=["q"],
    )
    assert standing(formed, "on", "c0") is Standing.FLAT
    assert standing(formed, "on", "c0", "a2") is Standing.INSIDE
    assert standing(formed, "on", "a2") is Standing.FLAT


@st.composite
def spanned_nets(draw):
    net = draw(nets(rows=3, joints=3, seats=1))
    shell = net.shells["shell"]
    rows = []
    for each in shell.rows:
        pairs = list(combinations(each.parts, 2))
        links = tuple(Link(one, other, f"{each.id}:{one}:{other}") for one, other in pairs)
        places = st.lists(st.sampled_from(each.at_mm), min_size=1, unique=True).map(tuple)
        spans = tuple(draw(places) for _ in links)
        rows.append(replace(each, links=links, spans=spans))
    return replace(net, shells={"shell": replace(shell, rows=tuple(rows))})


@given(spanned_nets(), tool_lists, st.data())
@settings(max_examples=30, deadline=None)
def test_margins_never_rise_and_what_shuts_joints_in_says_what_the_model_says(net, tools, data):
    bench = bench_with(net, *tools)
    known = sealings(net, bench)
    made = frozenset[str]()
    joints = sorted(net.access)
    for joint in data.draw(st.permutations(joints)):
        for each in joints:
            before, after = (margin(net, each, m - {each}, bench) for m in (made, made | {joint}))
            assert after.standing >= before.standing
            assert after.effort >= before.effort
            is_shut = each in known and known[each].is_shut(made - {each})
            assert is_shut == (before.standing is Standing.CANNOT)
        made |= {joint}


@pytest.mark.long
@given(spanned_nets(), tool_lists, st.data())
@settings(max_examples=600, deadline=None)
def test_margins_never_rise_and_what_shuts_joints_in_says_what_the_model_says_in_many_drawings(
    net, tools, data
):
    test_margins_never_rise_and_what_shuts_joints_in_says_what_the_model_says.hypothesis.inner_test(
        net, tools, data
    )


@given(spanned_nets(), tool_lists)
@settings(max_examples=24, deadline=None)
def test_no_bar_is_told_that_the_model_does_not_know(net, tools):
    bench = bench_with(net, *tools)
    rows = {each.id: each for each in net.shells["shell"].rows}
    for bar in (*bars(net, bench), *own_row_bars(net, bench)):
        made = bar.own.union(*(rows[id_].joints for id_ in bar.rows))
        assert margin(net, bar.joint, made, bench).standing >= bar.after.standing


@pytest.mark.long
@given(spanned_nets(), tool_lists)
@settings(max_examples=300, deadline=None)
def test_no_bar_is_told_that_the_model_does_not_know_in_many_drawings(net, tools):
    test_no_bar_is_told_that_the_model_does_not_know.hypothesis.inner_test(net, tools)


def test_a_drawn_seam_over_several_plates_says_which_joints_hold_which():
    plate = box_at(0.0, 0.0, 80.0, 80.0)
    left, right = [(72.0, y) for y in (10.0, 40.0, 70.0)], [(8.0, y) for y in (10.0, 40.0, 70.0)]
    sketch = rows_between(
        {"p": plate, "q": plate, "r": plate},
        {"a": ("p", left, "q", right), "b": ("q", left, "r", right)},
    )
    (first, second) = sketch.seams
    whole = Seam(id="a", name="a", joints=(*first.joints, *second.joints))
    apart = [row for shell in reach_net(sketch).shells.values() for row in shell.rows]
    assert [each.spans for each in apart] == [(), ()]
    (one,) = [
        row
        for shell in reach_net(replace(sketch, seams=(whole,))).shells.values()
        for row in shell.rows
    ]
    assert [(link.one, link.other) for link in one.links] == [("p", "q"), ("q", "r")]
    assert [len(span) for span in one.spans] == [3, 3]
    access = reach_net(replace(sketch, seams=(whole,))).access
    assert access["a0"].parts == ("p", "q")
    assert access["b2"].parts == ("q", "r")
