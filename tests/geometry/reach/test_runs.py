"""The order within a row: against every order of its kind, and by hand."""

from itertools import permutations
from math import inf, isinf

import pytest
from geometry.reach_sketches import bench_with, cup, nets, tool, tool_lists, tube
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.geometry.reach.runs import Course, may_follow, row_run


def is_stretch(places):
    return max(places) - min(places) + 1 == len(places)


def grows(order):
    return all(is_stretch(order[: at + 1]) for at in range(len(order)))


def effort(net, bench, order, before):
    total = 0.0
    for at, joint in enumerate(order):
        total += margin(net, joint, before.union(order[:at]), bench).effort
    return total


@given(st.data())
@settings(max_examples=15, deadline=None)
def test_runs_are_the_best_of_their_course(data):
    net = data.draw(nets(rows=3, joints=5, seats=0, most_ways=10))
    bench = bench_with(net, *data.draw(tool_lists))
    row = data.draw(st.sampled_from(net.shells["shell"].rows))
    others = sorted(set(net.access) - set(row.joints))
    before = data.draw(st.frozensets(st.sampled_from(others))) if others else frozenset()
    found = row_run(net, row, bench, before)
    every = list(permutations(range(len(row.joints))))
    told = {order: effort(net, bench, [row.joints[at] for at in order], before) for order in every}
    if len(row.joints) > 2:
        out = min(told[order] for order in every if grows(order))
        into = min(told[order] for order in every if grows(order[::-1]))
        assert found.run(Course.OUTWARD).effort == pytest.approx(out)
        assert found.run(Course.BOTH_ENDS).effort == pytest.approx(into)
    for run in found.runs:
        assert run.effort == pytest.approx(effort(net, bench, run.order, before))
        assert isinf(run.effort) == bool(run.stuck)
    # A row can be set in some order just where one is told.
    assert bool(found.order) == (min(told.values()) < inf)


@pytest.mark.long
@given(st.data())
@settings(max_examples=250, deadline=None)
def test_runs_are_the_best_of_their_course_in_many_drawings(data):
    test_runs_are_the_best_of_their_course.hypothesis.inner_test(data)


@given(st.data())
@settings(max_examples=15, deadline=None)
def test_what_may_follow_is_what_some_order_goes_on_with(data):
    net = data.draw(nets(rows=2, joints=5, seats=0, most_ways=10))
    bench = bench_with(net, *data.draw(tool_lists))
    row = net.shells["shell"].rows[0]
    made = data.draw(st.frozensets(st.sampled_from(sorted(net.access)), max_size=3))
    left = [joint for joint in row.joints if joint not in made]
    good = {
        order[0] for order in permutations(left) if order and effort(net, bench, order, made) < inf
    }
    assert set(may_follow(net, row, bench, made)) == good


@pytest.mark.long
@given(st.data())
@settings(max_examples=250, deadline=None)
def test_what_may_follow_is_what_some_order_goes_on_with_in_many_drawings(data):
    test_what_may_follow_is_what_some_order_goes_on_with.hypothesis.inner_test(data)


def cup_row(net):
    return net.shells["shell"].rows[0]


def test_a_deep_cup_is_run_from_its_deep_end():
    net = cup(joints=8)  # s7 lies 140 mm from the mouth
    bench = bench_with(net, tool("short", 60.0, 20.0))
    found = row_run(net, cup_row(net), bench)
    assert found.best.course is Course.FROM_LAST
    assert found.order == tuple(f"s{at}" for at in range(7, -1, -1))
    rim_first = found.run(Course.FROM_FIRST)
    assert rim_first.effort == inf
    assert rim_first.stuck[0] == "s5"  # s4 still has 60 mm of open row beyond it: 21 mm wide
    assert may_follow(net, cup_row(net), bench, frozenset()) == ("s7",)


def test_with_a_long_tool_rim_first_is_only_dearer():
    net = cup(joints=8)
    bench = bench_with(net, tool("short", 60.0, 20.0), tool("horn", 250.0, 35.0))
    found = row_run(net, cup_row(net), bench)
    assert found.best.course is Course.FROM_LAST
    assert found.effort < found.run(Course.FROM_FIRST).effort < inf


def test_a_short_tube_is_run_from_either_end():
    net = tube(joints=3, spacing_mm=20.0)
    found = row_run(net, cup_row(net), bench_with(net, tool("short", 60.0, 20.0)))
    assert found.best.course is Course.FROM_FIRST
    assert found.effort == found.run(Course.FROM_LAST).effort


def test_a_long_tube_is_run_from_its_middle_out():
    net = tube(joints=13, spacing_mm=20.0)  # 240 mm: 120 mm to the middle
    bench = bench_with(net, tool("short", 70.0, 20.0))
    found = row_run(net, cup_row(net), bench)
    assert found.run(Course.FROM_FIRST).effort < inf
    middle_last = margin(net, "s6", frozenset(f"s{at}" for at in range(13) if at != 6), bench)
    assert middle_last.standing is Standing.CANNOT
    assert found.run(Course.OUTWARD).effort <= found.effort
