"""The search for the cheapest way back, against plain Dijkstra on small problems."""

import pytest
from hypothesis import given, settings
from orders.recovery.random_recoveries import SEEDS, dijkstra, orderly, wild, without_risk

from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.search import cheapest

FEW = settings(max_examples=60, deadline=None)
MANY = settings(max_examples=3000, deadline=None)


def agrees_with_dijkstra(problem):
    problem = without_risk(problem)
    least, found = dijkstra(problem), cheapest(problem)
    if least is None:
        assert found is None
        return
    assert found is not None
    assert faults_of(problem, found.moves) == ()
    assert found.ticks == problem.ticks(found.moves) == least
    assert found.proved
    assert found.bound == least


@FEW
@given(SEEDS)
def test_the_cheapest_way_back_costs_what_plain_dijkstra_says(seed):
    agrees_with_dijkstra(orderly(seed))


@FEW
@given(SEEDS)
def test_of_problems_that_make_no_sense_too(seed):
    agrees_with_dijkstra(wild(seed))


@pytest.mark.long
@MANY
@given(SEEDS)
def test_the_cheapest_way_back_of_many_problems(seed):
    agrees_with_dijkstra(orderly(seed))


@pytest.mark.long
@MANY
@given(SEEDS)
def test_the_cheapest_way_back_of_many_wild_problems(seed):
    agrees_with_dijkstra(wild(seed))
