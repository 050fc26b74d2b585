"""Plain precedence against networkx, an independent library.

Sources: ``networkx.all_topological_sorts`` (D. E. Knuth, J. L. Szwarcfiter, 'A structured program
to generate all topological sorting arrangements', 1974) and
``networkx.lexicographical_topological_sort``.
"""

import random

import networkx as nx
import pytest
from relations.relation_cases import before

from armorplan.orders.next_steps import may_come_next
from armorplan.orders.sequence import one_order
from armorplan.relations.counting import count_orders


def random_graph(seed, *, nodes, chance_of_edge):
    """Return a random directed graph without rings over shuffled names."""
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    names = chance.sample("abcdefghijklmnopqrstuvwxyz"[:nodes], nodes)
    graph = nx.DiGraph()
    graph.add_nodes_from(sorted(names))
    for at, first in enumerate(names):
        graph.add_edges_from(
            (first, t) for t in names[at + 1 :] if chance.random() < chance_of_edge
        )
    return graph


def relations_of(graph):
    return tuple(before(first, then) for first, then in graph.edges)


def walks(steps, relations, done=()):
    if len(done) == len(steps):
        yield done
    for step in may_come_next(done, steps, relations):
        yield from walks(steps, relations, (*done, step))


@pytest.mark.parametrize("seed", range(10))
def test_the_same_orders_are_walked_and_counted(seed):
    graph = random_graph(seed, nodes=3 + seed % 5, chance_of_edge=0.35)
    theirs = {tuple(order) for order in nx.all_topological_sorts(graph)}
    ours = set(walks(tuple(graph), relations_of(graph)))
    assert ours == theirs
    assert count_orders(graph, relations_of(graph)).number == len(theirs)


@pytest.mark.parametrize("seed", range(10))
def test_the_same_order_comes_first_by_a_key(seed):
    graph = random_graph(seed, nodes=26, chance_of_edge=0.1)
    theirs = tuple(nx.lexicographical_topological_sort(graph, key=lambda s: (ord(s) % 7, s)))
    ours = one_order(graph, relations_of(graph), key=lambda s: (ord(s) % 7, s))
    assert ours.order == theirs
