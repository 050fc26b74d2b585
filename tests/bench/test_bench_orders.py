"""2,000 steps with 6,000 relations: one order, the state of every step, a repair.

The ratio is against ``networkx.lexicographical_topological_sort`` over the plain relations of the
same set, in the same run; it stands in the benchmark's extra information. Groups best done in one
go are measured against the same set without them.
"""

import random

import networkx as nx
import pytest
from bench.stopwatch import seconds
from relations.relation_cases import after_any, before, before_all, together

from armorplan.orders.next_steps import standing
from armorplan.orders.repairing import smallest_repair
from armorplan.orders.sequence import one_order
from armorplan.relations.index import index_relations
from armorplan.relations.model import Before, Force, Together

pytestmark = pytest.mark.bench

STEPS = tuple(f"s{at:04}" for at in range(2000))
SHARE_WITH_ALL = 0.1
SHARE_THAT_STEERS = 0.1


@pytest.fixture(scope="module")
def relations():
    """Return relations of a hidden order: one in ten 'before all', one in ten only steering."""
    chance = random.Random(20)  # noqa: S311 - the same case on every run
    hidden = chance.sample(STEPS, len(STEPS))
    made = []
    while len(made) < 6000:
        at = chance.randrange(len(STEPS) - 1)
        force = Force.EASIER if chance.random() < SHARE_THAT_STEERS else Force.CANNOT
        later = chance.choice(hidden[at + 1 : at + 61])
        if chance.random() < SHARE_WITH_ALL:
            others = chance.sample(hidden[max(0, at - 60) : at] or hidden[at + 1 : at + 3], 1)
            made.append(before_all(hidden[at], {later, *others}, force))
        else:
            made.append(before(hidden[at], later, force))
    return made


@pytest.fixture(scope="module")
def baseline_s(relations):
    """Return the seconds networkx takes for the plain relations, the graph's making included."""

    def sort():
        graph = nx.DiGraph()
        graph.add_nodes_from(STEPS)
        graph.add_edges_from((r.first, r.then) for r in relations if isinstance(r, Before))
        return list(nx.lexicographical_topological_sort(graph))

    return min(seconds(sort) for _ in range(5))


def note_ratio(benchmark, baseline_s):
    if benchmark.enabled:
        benchmark.extra_info["ratio_to_networkx"] = benchmark.stats.stats.min / baseline_s


def test_one_order_of_2000_steps(benchmark, relations, baseline_s):
    found = benchmark(one_order, STEPS, relations, key=str)
    note_ratio(benchmark, baseline_s)
    assert len(found.order) == len(STEPS)


@pytest.mark.parametrize("share_done", [0.0, 0.5])
def test_the_state_of_2000_steps(benchmark, relations, baseline_s, share_done):
    index = index_relations(STEPS, relations)
    order = one_order(STEPS, relations, key=str).order
    done = order[: int(share_done * len(order))]
    stands = benchmark(standing, done, index)
    note_ratio(benchmark, baseline_s)
    assert order[len(done)] in stands.may_come_next


@pytest.fixture(scope="module")
def mixed(relations):
    """Return the same relations with twenty more of the kinds that leave a choice."""
    order = one_order(STEPS, relations, key=str).order
    chance = random.Random(21)  # noqa: S311 - the same case on every run
    places = chance.sample(range(60, len(order) - 8), 20)
    in_one_go = [together(order[at : at + 4]) for at in places[:10]]
    return [
        *relations,
        *in_one_go,
        *(after_any(order[at], (order[at - 3], *order[at + 1 : at + 4])) for at in places[10:]),
    ]


def test_one_order_of_2000_steps_with_every_kind(benchmark, mixed, baseline_s):
    found = benchmark(one_order, STEPS, mixed, key=str)
    note_ratio(benchmark, baseline_s)
    assert len(found.order) == len(STEPS)


@pytest.fixture(scope="module")
def wishes(relations):
    """Return 400 groups best done in one go, some ten of which do not fit."""
    order = one_order(STEPS, relations, key=str).order
    chance = random.Random(23)  # noqa: S311 - the same case on every run
    fit = [together(order[at : at + 4], Force.USUAL) for at in range(0, 1560, 4)]
    return [*fit, *(together(chance.sample(order[1600:], 3), Force.USUAL) for _ in range(10))]


def test_one_order_with_400_groups_best_done_in_one_go(benchmark, relations, wishes):
    found = benchmark(one_order, STEPS, [*relations, *wishes], key=str)
    if benchmark.enabled:
        without = min(seconds(lambda: one_order(STEPS, relations, key=str)) for _ in range(5))
        benchmark.extra_info["ratio_to_the_same_without"] = benchmark.stats.stats.min / without
    assert len(found.order) == len(STEPS)
    groups = [r for r in found.dropped if isinstance(r, Together)]
    assert 0 < len(groups) <= len(wishes) // 10


def test_the_state_of_2000_steps_with_every_kind(benchmark, mixed, baseline_s):
    order = one_order(STEPS, mixed, key=str).order
    stands = benchmark(standing, order[:1000], index_relations(STEPS, mixed))
    note_ratio(benchmark, baseline_s)
    assert order[1000] in stands.may_come_next


def test_mending_five_steps_out_of_place(benchmark, relations, baseline_s):
    chance = random.Random(22)  # noqa: S311 - the same case on every run
    order = list(one_order(STEPS, relations, key=str).order)
    for step in chance.sample(order, 5):
        order.remove(step)
        order.insert(chance.randrange(len(order)), step)
    found = benchmark.pedantic(smallest_repair, (order, relations), rounds=3)
    note_ratio(benchmark, baseline_s)
    assert found.exact


def test_indexing_6000_relations(benchmark, relations, baseline_s):
    index = benchmark(index_relations, STEPS, relations)
    note_ratio(benchmark, baseline_s)
    assert len(index.relations) == len(relations)
