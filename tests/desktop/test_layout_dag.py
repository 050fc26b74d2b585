"""The layered layout: boxes apart, edges one way, few crossings, the same every time."""

import random
from itertools import combinations, pairwise

import networkx as nx
import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import isotonic_regression

from armorplan.desktop.layout_dag import layered, rising

BOX = (200.0, 60.0)


def sizes_of(nodes):
    return dict.fromkeys(nodes, BOX)


def random_steps(count, seed):
    """A graph like a build's: each step hangs on one to three of the dozen before it."""
    pick = random.Random(seed)  # noqa: S311
    nodes = [f"n{i}" for i in range(count)]
    edges = {
        (f"n{max(0, i - pick.randint(1, 12))}", f"n{i}")
        for i in range(1, count)
        for _ in range(pick.choice([1, 1, 2, 2, 3]))
    }
    return nodes, sorted(edges)


def overlaps(centres):
    return [
        pair
        for pair in combinations(centres, 2)
        if all(abs(centres[pair[0]][axis] - centres[pair[1]][axis]) < BOX[axis] for axis in (0, 1))
    ]


def crossings_of(columns, edges):
    """Count crossings of straight edges between neighbouring columns, pair by pair."""
    return sum(
        (columns[a] - columns[c]) * (columns[b] - columns[d]) < 0
        for (a, b), (c, d) in combinations(edges, 2)
    )


@given(st.integers(1, 40), st.integers(0, 1000))
def test_no_box_lies_on_another_and_edges_run_to_the_right(count, seed):
    nodes, edges = random_steps(count, seed)
    laid = layered(sizes_of(nodes), edges)
    assert overlaps(laid.centres) == []
    for tail, head in edges:
        assert laid.centres[tail][0] < laid.centres[head][0]
        route = laid.routes[(tail, head)]
        assert (route[0], route[-1]) == (laid.centres[tail], laid.centres[head])
        assert all(left[0] < right[0] for left, right in pairwise(route))


def test_the_same_graph_gives_the_same_picture_whatever_the_order_of_its_edges():
    nodes, edges = random_steps(60, 5)
    shuffled = edges[:]
    random.Random(1).shuffle(shuffled)  # noqa: S311
    first, second = layered(sizes_of(nodes), edges), layered(sizes_of(nodes), edges)
    assert (first.centres, first.routes) == (second.centres, second.routes)
    assert overlaps(layered(sizes_of(nodes), shuffled).centres) == []


def test_a_tree_is_drawn_without_a_crossing():
    tree = nx.balanced_tree(3, 3, create_using=nx.DiGraph)
    edges = [(str(a), str(b)) for a, b in nx.bfs_edges(tree, 0)]
    random.Random(4).shuffle(edges)  # noqa: S311
    nodes = [str(node) for node in reversed(list(tree))]
    assert layered(sizes_of(nodes), edges).crossings == 0


def test_two_full_layers_cross_as_often_as_they_must():
    # K3,3 drawn in two layers has 9 crossings whatever the order: C(3,2) times C(3,2).
    edges = [(f"a{i}", f"b{j}") for i in range(3) for j in range(3)]
    laid = layered(sizes_of([*(f"a{i}" for i in range(3)), *(f"b{i}" for i in range(3))]), edges)
    assert laid.crossings == 9


def test_crossings_are_counted_rightly_and_beat_the_plain_layered_layout():
    """Against networkx's multipartite_layout, which puts a layer's nodes in their given order."""
    nodes, edges = random_steps(50, 3)
    laid = layered(sizes_of(nodes), edges)
    graph = nx.DiGraph(edges)
    for depth, generation in enumerate(nx.topological_generations(graph)):
        for node in generation:
            graph.nodes[node]["subset"] = depth
    plain = nx.multipartite_layout(graph)
    short = [(a, b) for a, b in edges if graph.nodes[b]["subset"] - graph.nodes[a]["subset"] == 1]
    depth = {n: graph.nodes[n]["subset"] for n in graph}
    by_layer = [[e for e in short if depth[e[0]] == d] for d in range(max(depth.values()))]
    theirs = sum(crossings_of({n: at[1] for n, at in plain.items()}, es) for es in by_layer)
    ours = sum(crossings_of({n: at[1] for n, at in laid.centres.items()}, es) for es in by_layer)
    assert ours < theirs / 2
    assert ours <= laid.crossings


def test_a_source_stands_next_to_what_needs_it():
    edges = [("cut", "bevel"), ("bevel", "dye"), ("dye", "rivet"), ("prepare strap", "rivet")]
    laid = layered(sizes_of(["cut", "bevel", "dye", "rivet", "prepare strap"]), edges)
    assert laid.centres["prepare strap"][0] == laid.centres["dye"][0]


def test_a_circle_of_trays_is_drawn_and_its_closing_edge_kept():
    edges = [("coat", "drying"), ("drying", "coat"), ("drying", "rivet")]
    laid = layered(sizes_of(["coat", "drying", "rivet"]), edges)
    assert laid.centres["coat"][0] < laid.centres["drying"][0] < laid.centres["rivet"][0]
    assert laid.routes[("drying", "coat")] == (laid.centres["drying"], laid.centres["coat"])


def test_an_edge_on_itself_and_one_to_nowhere_have_no_route():
    laid = layered(sizes_of(["strap"]), [("strap", "strap"), ("strap", "gone")])
    assert laid.routes == {}
    assert list(laid.centres) == ["strap"]
    assert layered({}, []).centres == {}


@pytest.mark.parametrize("seed", range(5))
def test_heights_are_the_least_squares_rising_run(seed):
    """Against SciPy's isotonic_regression."""
    values = np.random.default_rng(seed).normal(size=30) + np.linspace(0, 2, 30)
    np.testing.assert_allclose(list(rising(values)), isotonic_regression(values).x, atol=1e-9)
