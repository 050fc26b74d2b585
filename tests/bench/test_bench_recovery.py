"""What a way back costs to find: against plain Dijkstra, on rows behind rows, on the largest sample.

Goals on 2 cores: the ways back of the largest sample within 2 s, the line before a blow within 10 ms.
"""

import pytest
from bench.stopwatch import busy_s
from bench.test_bench_shapes import say
from orders.recovery.random_recoveries import dijkstra
from outside.test_ways_back_outside import behind_rows

from armorplan.app.closes_off import closes_off
from armorplan.app.opening import derive_folder
from armorplan.app.reach_track import reach_track
from armorplan.app.ways_back import ways_back
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.orders.recovery.search import cheapest
from armorplan.workshop.shop import one_maker

pytestmark = pytest.mark.bench

WAYS_S, LINE_S = 2.0, 0.010
LEAST_RATIO = 20
"""The search is at least so many times quicker than plain Dijkstra on what both can do."""
ROWS_S = 1.0


@pytest.fixture(scope="module")
def harness():
    return derive_folder(samples_folder() / "arm_harness", read_shelf(), one_maker("UTC"))


def test_the_search_against_plain_dijkstra(capsys):
    problems = [behind_rows(seed, rivets=12, rows=8) for seed in range(3)]
    plain = busy_s(lambda: [dijkstra(one) for one in problems])
    ours = busy_s(lambda: [cheapest(one) for one in problems])
    say(capsys, f"12 rivets: Dijkstra {plain:.2f} s, search {ours:.3f} s: 1/{plain / ours:.0f}")
    assert plain / ours >= LEAST_RATIO


@pytest.mark.parametrize(("rivets", "rows"), [(15, 10), (40, 20), (100, 50)])
def test_a_strap_behind_many_rows_is_proved(rivets, rows, capsys):
    problem = behind_rows(1, rivets=rivets, rows=rows)
    found = []
    spent = busy_s(lambda: found.append(cheapest(problem)))
    say(capsys, f"{rivets} rivets in {rows} rows: {spent:.3f} s, {found[0].ticks} ticks")
    assert found[0].proved
    assert spent <= ROWS_S


def test_the_ways_back_of_the_largest_sample(harness, capsys):
    """Of each row the strap or tab that was forgotten before it."""
    joints = [step for step in harness.order if harness.work.sets(harness.work.step(step))]
    spent = []
    for at in range(0, len(joints), 20):
        done = [step for step in harness.order[:-5] if step not in joints[at : at + 2]]
        spent.append(busy_s(lambda done=done: ways_back(harness, done)))
    say(capsys, f"{len(spent)} mistakes: the longest {max(spent):.2f} s")
    assert max(spent) <= WAYS_S


def test_the_line_before_each_blow(harness, capsys):
    order, made, done, spent = reach_track(harness), [], [], []
    closes_off(harness, order, (), harness.order[:1])
    for step in harness.order:
        asked = tuple(made), tuple(done)
        spent.append(
            busy_s(lambda s=step, a=asked: closes_off(harness, order, a[0], (s,), done=a[1]))
        )
        made += harness.work.sets(harness.work.step(step))
        done.append(step)
    say(
        capsys,
        f"{len(spent)} lines: mean {1000 * sum(spent) / len(spent):.1f} ms, "
        f"longest {1000 * max(spent):.1f} ms",
    )
    assert sum(spent) / len(spent) <= LINE_S
