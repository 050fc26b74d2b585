"""A long build is folded into bands that are read like lines of text."""

from itertools import combinations, pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.desktop.layout_bands import ASPECT, folded
from armorplan.desktop.layout_dag import layered

BOX = (200.0, 60.0)


def chain(length):
    nodes = [f"n{i}" for i in range(length)]
    return nodes, list(pairwise(nodes))


def lay(nodes, edges):
    sizes = dict.fromkeys(nodes, BOX)
    return folded(layered(sizes, edges), sizes)


def extent(laid, axis):
    spots = [spot[axis] for spot in laid.centres.values()]
    return max(spots) - min(spots) + BOX[axis]


def test_a_chain_of_forty_fills_a_page():
    laid = lay(*chain(40))
    assert 0.5 * ASPECT < extent(laid, 0) / extent(laid, 1) < 2 * ASPECT
    order = sorted(laid.centres, key=lambda node: (laid.centres[node][1], laid.centres[node][0]))
    assert order == [f"n{i}" for i in range(40)]


def test_a_short_graph_stays_one_line():
    laid = lay(*chain(2))
    assert laid.centres["n0"][1] == laid.centres["n1"][1]
    assert lay([], []).centres == {}
    assert list(lay(["alone"], []).centres) == ["alone"]


@given(
    st.integers(2, 45),
    st.lists(st.tuples(st.integers(0, 44), st.integers(0, 44)), max_size=20),
)
def test_no_box_lies_on_another_and_every_edge_ends_at_its_boxes(length, more):
    nodes, edges = chain(length)
    edges += [(f"n{a}", f"n{b}") for a, b in more if a < b < length]
    laid = lay(nodes, edges)
    for one, other in combinations(laid.centres.values(), 2):
        assert abs(one[0] - other[0]) >= BOX[0] or abs(one[1] - other[1]) >= BOX[1]
    for (tail, head), route in laid.routes.items():
        assert (route[0], route[-1]) == (laid.centres[tail], laid.centres[head])


def test_an_edge_turns_round_outside_the_boxes_of_both_bands():
    laid = lay(*chain(40))
    turning = [route for route in laid.routes.values() if len(route) > 2]
    assert turning
    right = max(x for x, _ in laid.centres.values()) + BOX[0] / 2
    left = min(x for x, _ in laid.centres.values()) - BOX[0] / 2
    for route in turning:
        start, out, down, back, up, end = route
        assert out[0] == down[0] > right
        assert back[0] == up[0] < left
        assert start[1] == out[1]
        assert up[1] == end[1]
        assert start[1] + BOX[1] / 2 < down[1] == back[1] < end[1] - BOX[1] / 2


@pytest.mark.parametrize("width", [2, 4])
def test_edges_that_turn_side_by_side_keep_apart(width):
    nodes = [f"{row}:{i}" for i in range(20) for row in range(width)]
    edges = [(f"{r}:{i}", f"{r}:{i + 1}") for r in range(width) for i in range(19)]
    laid = lay(nodes, edges)
    levels = [route[2][1] for route in laid.routes.values() if len(route) == 6]
    assert len(levels) == len(set(levels)) >= width
