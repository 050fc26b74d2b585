"""A gap left in a row is a way in that stays when the row is set."""

from dataclasses import replace
from itertools import chain, combinations
from math import inf, sqrt

import pytest
from geometry.leather_sketches import part, pattern, rivet
from geometry.reach.net_sketches import box_at, tube
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.app.reach_ways import opening_of, way_legs
from armorplan.geometry.reach.bars import own_row_bars, shell_bars
from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import gauges, margin
from armorplan.geometry.reach.marks import way_marks
from armorplan.geometry.reach.model import Standing, Through
from armorplan.geometry.reach.net import reach_net
from armorplan.geometry.reach.runs import Course, row_run
from armorplan.geometry.reach.sealing import sealed_bars, sealings
from armorplan.pattern.joining import Seam
from armorplan.pattern.parts import PartKind
from armorplan.workshop.shelf import ToolEntry

ROUND_MM, LONG_MM = 280.0, 800.0
HORN = ToolEntry(
    id="horn", name="Horn", serves=("rivet",), source="", reach_mm=250.0, opening_mm=35.0
)


def seamed(spots_mm, groups, seat_mm=400.0):
    """Return a tube 280 mm round, with rivets at these heights in some seams, and a strap opposite."""
    holes = {f"l{n}": (10.0, y) for n, y in enumerate(spots_mm)}
    holes |= {f"r{n}": (10.0 + ROUND_MM, y) for n, y in enumerate(spots_mm)}
    outline = box_at(0.0, 0.0, 20.0 + ROUND_MM, LONG_MM)
    sheet = part("sheet", outline, holes | {"seat": (10.0 + ROUND_MM / 2, seat_mm)})
    strap = replace(
        part("strap", box_at(0.0, 0.0, 16.0, 80.0), {"end": (8.0, 10.0)}), kind=PartKind.STRAP
    )
    joints = [rivet(f"j{n}", f"l{n}", f"r{n}") for n in range(len(spots_mm))]
    seams = tuple(
        Seam(id=f"row{at}", name=f"row {at}", joints=tuple(f"j{n}" for n in group))
        for at, group in enumerate(groups)
    )
    return pattern(sheet, strap, joints=(*joints, rivet("strap", "seat", "end")), seams=seams)


def with_horn(net, **changes):
    return Bench(tools=dict.fromkeys(net.access, (replace(HORN, **changes),)))


def subsets(items, most):
    return chain.from_iterable(combinations(items, size) for size in range(most + 1))


def forbidden(sketch, most=2, **changes):
    """Return what cannot be set: each joint, with all sets of few others made, or all but a few."""
    net = reach_net(sketch)
    bench, rows = with_horn(net, **changes), sorted(set(net.access) - {"strap"})
    states = {frozenset(s) for s in subsets(rows, most)}
    states |= {frozenset(rows) - s for s in states}
    return {
        (joint, state)
        for joint in net.access
        for state in states
        if joint not in state and margin(net, joint, state, bench).standing is Standing.CANNOT
    }


@pytest.mark.parametrize(
    ("spots_mm", "seat_mm"),
    [
        ((20.0, 60.0, 100.0, 140.0, 180.0, 220.0, *range(580, 800, 40)), 400.0),
        ((20.0, 60.0, 100.0, 700.0, 740.0, 780.0), 400.0),
        ((20.0, 210.0, 400.0, 590.0, 780.0), 305.0),
        ((20.0, 780.0), 400.0),
    ],
)
def test_a_row_with_a_gap_a_horn_goes_in_through_shuts_nothing_in(spots_mm, seat_mm):
    """By hand: the middle of 190 mm gapes 0.35 × 95 mm, and squashed 43: wider than a horn of 35."""
    assert not forbidden(seamed(spots_mm, [range(len(spots_mm))], seat_mm))


def test_the_same_row_without_a_gap_shuts_the_strap_in():
    spots = [20.0 + 40.0 * n for n in range(20)]
    found = forbidden(seamed(spots, [range(20)]), most=0)
    assert {joint for joint, _ in found} >= {"strap"}


@pytest.mark.parametrize(("apart_mm", "is_open"), [(160.0, True), (150.0, False)])
def test_what_a_gap_lets_in_goes_by_half_of_it(apart_mm, is_open):
    """Closed form: 0.35 × half the gap × 1.3 has to be 35 mm, so the gap 153.8 mm."""
    spots = [400.0 + apart_mm * n for n in (-2.5, -1.5, -0.5, 0.5, 1.5, 2.5)]
    found = forbidden(seamed(spots, [range(6)]), most=0)
    assert ("strap" in {joint for joint, _ in found}) is not is_open


def test_one_seam_and_two_forbid_the_same_where_an_arm_goes_through():
    """An arm hole of 600 mm left in a row is a mouth, whoever names the row on either side of it."""
    spots = (20.0, 60.0, 100.0, 700.0, 740.0, 780.0)
    one, two, none = (
        seamed(spots, groups) for groups in ([range(6)], [range(3), range(3, 6)], [])
    )
    for tool in ({}, {"reach_mm": 60.0}, {"opening_mm": 100.0}):
        assert forbidden(one, **tool) == forbidden(two, **tool) == forbidden(none, **tool)
    mouths = [
        [rim.length_mm for shell in reach_net(each).shells.values() for rim in shell.rims]
        for each in (one, two, none)
    ]
    assert mouths[0] == pytest.approx(mouths[1])
    assert mouths[0] == pytest.approx(mouths[2])
    assert len(mouths[0]) == 3


@pytest.mark.parametrize("gap_mm", [90.0, 130.0, 160.0, 175.0])
def test_one_seam_and_two_forbid_the_same_where_a_gap_is_but_a_slit(gap_mm):
    """Half a slit is seen past the end of either row."""
    spots = [400.0 + side * (gap_mm / 2 + 70.0 * n) for side in (-1, 1) for n in range(5)]
    spots = [spot for spot in sorted(spots) if 0.0 < spot < LONG_MM]
    half = len(spots) // 2
    one, two = (
        seamed(spots, groups)
        for groups in ([range(len(spots))], [range(half), range(half, len(spots))])
    )
    assert forbidden(one, most=1) == forbidden(two, most=1)


def test_a_gap_is_told_by_the_numbers_on_either_side_of_it():
    sketch = seamed((20.0, 210.0, 400.0, 590.0, 780.0), [range(5)], 305.0)
    net = reach_net(sketch)
    (shell,) = net.shells.values()
    made = frozenset(net.access) - {"strap"}
    found = margin(net, "strap", made, with_horn(net))
    assert found.way is not None
    assert (found.way.through, found.way.gap) == (Through.ROW, (2, 3))
    # Closed form: half of 280 mm round, straight across; 0.35 × 95 mm wide.
    assert found.way.along_mm == pytest.approx(140.0, rel=0.005)
    assert found.opening_mm == pytest.approx(0.35 * 95.0, rel=0.005)
    opening = opening_of(shell, found, joint="strap", made=made)
    assert opening.words == "by the gap between numbers 2 and 3 of row 0"
    legs = way_legs(sketch, shell, "strap", found.way)
    assert sum(sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) for _, a, b in legs) == pytest.approx(
        140.0, rel=0.005
    )
    assert [m.label for m in way_marks(sketch, shell, "strap", found.way, None) if m.label] == [
        "140 mm"
    ]


ROWS = st.lists(st.floats(25.0, 260.0), min_size=2, max_size=5)


def spaced(spans_mm):
    spots = [20.0]
    for span in spans_mm:
        spots.append(spots[-1] + span)
    return [spot for spot in spots if spot < LONG_MM - 5.0]


@given(ROWS, st.floats(50.0, 750.0), st.floats(10.0, 300.0), st.randoms(use_true_random=False))
@settings(max_examples=8, deadline=None)
def test_setting_a_joint_never_widens_a_gap(spans, seat_mm, reach_mm, chance):
    spots = spaced(spans)
    net = reach_net(seamed(spots, [range(len(spots))], seat_mm))
    bench, made = with_horn(net, reach_mm=reach_mm), set()
    order = [f"j{n}" for n in range(len(spots))]
    chance.shuffle(order)
    before = margin(net, "strap", frozenset(), bench)
    for joint in order:
        made.add(joint)
        after = margin(net, "strap", frozenset(made), bench)
        assert after.standing >= before.standing
        assert after.effort >= before.effort
        before = after


@given(ROWS, st.floats(50.0, 750.0), st.floats(10.0, 200.0), st.floats(10.0, 60.0))
@settings(max_examples=8, deadline=None)
def test_what_shuts_a_joint_in_is_what_the_model_says(spans, seat_mm, reach_mm, wide_mm):
    """Against brute force: joints of which all ways are shut are those that cannot be set."""
    spots = spaced(spans)
    net = reach_net(seamed(spots, [range(len(spots))], seat_mm))
    bench = with_horn(net, reach_mm=reach_mm, opening_mm=wide_mm)
    known, rows = sealings(net, bench), sorted(set(net.access) - {"strap"})
    barred = sealed_bars(net, bench)
    for joint in net.access:
        for state in subsets([each for each in rows if each != joint], len(rows)):
            made = frozenset(state)
            cannot = margin(net, joint, made, bench).standing is Standing.CANNOT
            assert (joint in known and known[joint].is_shut(made)) is cannot
            for bar in barred.get(joint, ()):
                assert not made.issuperset(every(net, bar)) or cannot
    by_rows = (bar for found in shell_bars(net, bench).values() for bar in found.bars)
    for bar in chain(by_rows, own_row_bars(net, bench)):
        if bar.after.standing is Standing.CANNOT:
            made = every(net, bar)
            assert margin(net, bar.joint, made, bench).standing is Standing.CANNOT


def every(net, bar):
    """Return all joints that a bar counts as made."""
    rows = {row.id: row for shell in net.shells.values() for row in shell.rows}
    whole = {joint for row in bar.rows for joint in rows[row].joints}
    return frozenset({*whole, *bar.own, *getattr(bar, "more", ())}) - {bar.joint}


@given(ROWS, st.floats(10.0, 250.0), st.floats(10.0, 60.0))
@settings(max_examples=8, deadline=None)
def test_a_row_with_gaps_is_run_at_the_least_effort_of_all_runs_outward(spans, reach_mm, wide_mm):
    """Against brute force: all orders that begin somewhere and grow on both sides."""
    spots = spaced(spans)
    net = reach_net(seamed(spots, [range(len(spots))]))
    bench = with_horn(net, reach_mm=reach_mm, opening_mm=wide_mm)
    (shell,) = net.shells.values()
    gauge = gauges(net, bench)[shell.id]
    for row in shell.rows:
        if len(row.joints) < 3:
            continue
        efforts = [
            sum(gauge.margin(j, frozenset(order[:at])).effort for at, j in enumerate(order))
            for order in outward(row.joints)
        ]
        found = row_run(net, row, bench).run(Course.OUTWARD).effort
        assert found == pytest.approx(min(efforts), abs=1e-6) or min(efforts) == inf


def outward(joints):
    """Yield all orders in which a stretch of a row grows joint by joint from one of them."""
    count = len(joints)
    left = [(at, at, (joints[at],)) for at in range(count)]
    while left:
        low, high, order = left.pop()
        if len(order) == count:
            yield order
        if low:
            left.append((low - 1, high, (*order, joints[low - 1])))
        if high < count - 1:
            left.append((low, high + 1, (*order, joints[high + 1])))


def test_past_the_end_of_a_row_a_lap_gapes_up_to_its_mouth():
    """By hand: a row that ends 200 mm from the mouth leaves a slit that is wide enough half way."""
    spots = [400.0 + 70.0 * n for n in range(-2, 3)]
    net = reach_net(seamed(spots, [range(5)]))
    (row,) = next(iter(net.shells.values())).rows
    assert {gap.between for gap in row.gaps} >= {(1, 0), (5, 0)}
    assert min(gap.at_mm for gap in row.gaps) < -150.0
    assert all(0.0 <= spot[1] <= LONG_MM for gap in row.gaps for _, spot in gap.spots)


@pytest.mark.parametrize("apart_mm", [20.0, 40.0, 59.0])
def test_a_row_as_close_as_rows_are_has_no_gap(apart_mm):
    count = int(200.0 / apart_mm) + 1
    sheet = tube(240.0, apart_mm * (count - 1) + 20.0, 10.0, count=count)
    assert not [row.gaps for s in reach_net(sheet).shells.values() for row in s.rows if row.gaps]
