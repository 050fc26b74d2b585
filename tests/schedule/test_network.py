"""Earliest and latest times, and rings of demands that cannot all be met, said in words."""

import networkx as nx
import pytest
from hypothesis import given, settings
from schedule.small_problems import by_hand, problem, problems, waiting

from armorplan.schedule.critical import critical_times
from armorplan.schedule.lag_cycle import cycle_words, lag_cycle
from armorplan.schedule.network import arcs_of, longest_paths
from armorplan.schedule.problem import EndsBeforeLast, Lag
from armorplan.schedule.table import Table


def times(bench):
    return {
        t.id: (t.earliest_start_min, t.latest_start_min, t.slack_min)
        for t in critical_times(bench)
    }


def test_slack_is_what_a_side_branch_can_slip():
    bench = problem(
        waiting("a", 10),
        waiting("b", 20),
        waiting("c", 5),
        waiting("d", 10),
        lags=(
            Lag(first="a", then="b"),
            Lag(first="a", then="c", min_lag=3),
            Lag(first="b", then="d"),
            Lag(first="c", then="d"),
        ),
    )
    assert times(bench) == {"a": (0, 0, 0), "b": (10, 10, 0), "c": (13, 25, 12), "d": (30, 30, 0)}


def test_a_maximum_lag_pulls_what_it_counts_from_along():
    bench = problem(
        waiting("long", 50),
        waiting("case", 5),
        waiting("form", 5),
        lags=(Lag(first="long", then="form"), Lag(first="case", then="form", max_lag=10)),
    )
    assert times(bench)["case"] == (35, 45, 10)


def test_earliest_and_fixed_starts_count():
    bench = problem(
        waiting("a", fixed_start_min=-30, fixed_end_min=5),
        waiting("b", earliest_min=20),
        waiting("c"),
        lags=(Lag(first="a", then="c", min_lag=2),),
    )
    found = times(bench)
    assert (found["a"][0], found["b"][0], found["c"][0]) == (-30, 20, 7)


def test_a_table_counts_at_its_least():
    bench = problem(
        waiting("dry", table=Table(grid_min=10, ready=(40, 45, 80))),
        waiting("then"),
        lags=(Lag(first="dry", then="then"),),
    )
    # A start in the second cell may be as late as minute 19, ready at 45.
    assert times(bench)["then"][0] == 26


def test_a_ring_is_named_in_words_with_its_reasons():
    bench = problem(
        by_hand("case", 5, title="Case the gore"),
        by_hand("tool", 40, title="Tool the border"),
        by_hand("form", 10, title="Form the gore"),
        by_hand("alone"),
        lags=(
            Lag(first="case", then="tool", min_lag=10, reason="Too wet to tool."),
            Lag(first="tool", then="form", reason="Tooling is lost on a curve."),
            Lag(first="case", then="form", max_lag=30, reason="Dry leather cracks."),
        ),
    )
    words = cycle_words(bench, lag_cycle(bench))
    assert "miss by 20 min" in words
    assert "“Tool the border” starts at least 10 min after “Case the gore” ends" in words
    assert "“Form the gore” starts at most 30 min after “Case the gore” ends" in words
    assert "(Dry leather cracks)" in words
    assert "alone" not in words


@pytest.mark.parametrize(
    ("lag", "text"),
    [
        ({}, "“b” starts after “a” ends"),
        ({"max_lag": 0}, "“b” starts as soon as “a” ends"),
        ({"min_lag": 7, "max_lag": 7}, "“b” starts 7 min after “a” ends"),
        ({"min_lag": 7, "max_lag": 9}, "“b” starts 7 to 9 min after “a” ends"),
    ],
)
def test_a_lag_is_said_as_a_maker_says_it(lag, text):
    back = Lag(first="b", then="a", min_lag=1)
    bench = problem(by_hand("a"), by_hand("b"), lags=(Lag(first="a", then="b", **lag), back))
    assert text in cycle_words(bench, lag_cycle(bench))


def test_one_after_another_in_a_ring_with_the_last_of_one():
    bench = problem(
        by_hand("a"),
        by_hand("b"),
        lags=(Lag(first="b", then="a"),),
        before_last=(EndsBeforeLast(first="a", of=frozenset({"b"})),),
    )
    assert "“a” ends before the last of “b” starts" in cycle_words(bench, lag_cycle(bench))


def test_a_ring_through_what_is_fixed():
    bench = problem(
        waiting("a", 30, earliest_min=20, title="Dry"),
        waiting("b", fixed_start_min=40, fixed_end_min=50, title="Fit"),
        lags=(Lag(first="a", then="b"),),
    )
    words = cycle_words(bench, lag_cycle(bench))
    assert "“Fit” has its start already" in words
    assert "“Dry” cannot start sooner" in words


def test_lags_between_what_has_happened_are_not_looked_at():
    bench = problem(
        waiting("a", fixed_start_min=-10, fixed_end_min=0),
        waiting("b", fixed_start_min=-30, fixed_end_min=-20),
        lags=(Lag(first="a", then="b"),),
    )
    assert lag_cycle(bench) == ()


def test_times_of_a_ring_are_refused():
    ring = (Lag(first="a", then="b"), Lag(first="b", then="a"))
    with pytest.raises(ValueError, match="contradict"):
        critical_times(problem(waiting("a"), waiting("b"), lags=ring))


@settings(max_examples=48, deadline=None)
@given(problems(most=8))
def test_longest_paths_agree_with_networkx(bench):
    """Against Bellman-Ford of networkx on the same arcs with their signs turned."""
    arcs = arcs_of(bench)
    longest = {}
    for arc in arcs:
        pair = (arc.tail, arc.head)
        longest[pair] = max(arc.minutes, longest.get(pair, arc.minutes))
    graph = nx.DiGraph()
    graph.add_weighted_edges_from((a, b, -minutes) for (a, b), minutes in longest.items())
    lengths, ring = longest_paths(arcs)
    if nx.negative_edge_cycle(graph):
        assert sum(arc.minutes for arc in ring) > 0
        assert all(a.head == b.tail for a, b in zip(ring, ring[1:] + ring[:1], strict=True))
    else:
        assert ring == ()
        assert lengths == {
            node: -length
            for node, length in nx.single_source_bellman_ford_path_length(graph, "").items()
        }


@pytest.mark.long
@settings(max_examples=800, deadline=None)
@given(problems(most=8))
def test_longest_paths_agree_with_networkx_in_many_drawings(bench):
    test_longest_paths_agree_with_networkx.hypothesis.inner_test(bench)


def test_a_latest_start_that_cannot_be_met_is_said():
    bench = problem(
        by_hand("cut", 30),
        by_hand("fit", latest_start_min=20),
        lags=(Lag(first="cut", then="fit"),),
    )
    text = cycle_words(bench, lag_cycle(bench))
    assert "they miss by 10 min" in text
    assert "“fit” cannot start later" in text
