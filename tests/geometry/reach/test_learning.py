"""What is learned joint by joint accepts the orders that the model accepts, no more and no fewer."""

from itertools import permutations

from geometry.reach_sketches import bench_with, cup, nets, tool, tool_lists
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.blocking import minimal_sets
from armorplan.geometry.reach.learning import Stuck, first_stuck, learn, stuck_by
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing

LEVELS = st.sampled_from([Standing.INSIDE, Standing.END, Standing.CANNOT])


def holds(net, bench, order, level):
    states = (frozenset(order[:at]) for at in range(len(order)))
    return all(
        margin(net, joint, made, bench).standing < level
        for joint, made in zip(order, states, strict=True)
    )


def all_bars(net, bench, level):
    """Return every minimal set of joints by which a joint is stuck."""
    found = []
    for joint in sorted(net.access):
        others = sorted(set(net.access) - {joint})
        sets = minimal_sets(
            others,
            lambda made, joint=joint: margin(net, joint, made, bench).standing >= level,
        )
        assert sets.complete
        after = margin(net, joint, frozenset(others), bench)
        found += [Stuck(joint=joint, of=each, after=after) for each in sets.sets]
    return found


@given(nets(rows=3, joints=2, seats=1), tool_lists, LEVELS)
@settings(max_examples=80, deadline=None)
def test_all_bars_of_joints_and_the_model_accept_the_same_orders(net, tools, level):
    assume(2 <= len(net.access) <= 6)
    bench = bench_with(net, *tools)
    bars = all_bars(net, bench, level)
    for order in permutations(sorted(net.access)):
        assert holds(net, bench, order, level) == (not any(bar.forbids(order) for bar in bars))


@given(nets(rows=3, joints=2, seats=1), tool_lists, LEVELS)
@settings(max_examples=80, deadline=None)
def test_bars_learned_one_by_one_end_at_the_first_order_that_holds(net, tools, level):
    assume(2 <= len(net.access) <= 6)
    bench = bench_with(net, *tools)
    every = list(permutations(sorted(net.access)))

    def next_order(known):
        return next((o for o in every if not any(bar.forbids(o) for bar in known)), None)

    found = learn(net, bench, next_order, at_least=level)
    assert found.complete
    assert found.order == next((o for o in every if holds(net, bench, o, level)), None)
    for bar in found.stuck:
        assert bar.after.standing >= level
        for less in bar.of:
            assert margin(net, bar.joint, bar.of - {less}, bench).standing < level


def test_a_half_made_row_already_bars():
    net = cup(joints=8)
    bench = bench_with(net, tool("short", 60.0, 20.0))
    found = first_stuck(net, bench, [f"s{at}" for at in range(8)])
    # By hand: through s2, 60 mm off s5, it gapes 21 mm, but 14 mm once s0 is made: squashed 18.2 mm.
    assert (found.joint, found.of) == ("s5", {"s0"})
    alone = stuck_by(net, bench, "s7", ["s0", "s2"], Standing.CANNOT)
    assert alone.of == {"s2"}
    assert first_stuck(net, bench, [f"s{at}" for at in range(7, -1, -1)]) is None


def test_it_stops_after_so_many_rounds():
    net = cup(joints=8)
    bench = bench_with(net, tool("short", 60.0, 20.0))
    order = [f"s{at}" for at in range(8)]
    found = learn(net, bench, lambda _: order, most=3)
    assert (found.order, len(found.stuck), found.complete) == (None, 3, False)
