"""Beyond the search's reach: the solver's model, and what is found without a solver."""

import threading
from dataclasses import replace

import pytest
from hypothesis import given, settings
from orders.recovery.random_recoveries import SEEDS, dijkstra, orderly, without_risk

from armorplan.orders.recovery.bits import RecoveryBits
from armorplan.orders.recovery.by_solver import by_solver, can_be_bounded
from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.parting import parted
from armorplan.orders.recovery.search import cheapest
from armorplan.solving import cpsat


def solve(model):
    """Ask the solver here; the program asks it in a process of its own."""
    return cpsat.solve(model, threading.Event())


def agrees(seed):
    problem = without_risk(orderly(seed))
    for part in parted(problem).parts:
        bits, least = RecoveryBits(part), dijkstra(part)
        moves, bound = by_solver(bits, solve)
        if moves is None:
            assert least is None or not can_be_bounded(bits)
            continue
        assert faults_of(part, moves) == ()
        assert part.ticks(moves) >= least
        if can_be_bounded(bits):
            assert part.ticks(moves) == least == bound


@settings(max_examples=10, deadline=None)
@given(SEEDS)
def test_the_solver_agrees_with_plain_dijkstra(seed):
    agrees(seed)


@pytest.mark.long
@settings(max_examples=600, deadline=None)
@given(SEEDS)
def test_the_solver_agrees_with_plain_dijkstra_on_many(seed):
    agrees(seed)


@settings(max_examples=36, deadline=None)
@given(SEEDS)
def test_cut_short_the_way_back_is_sound_and_its_bound_true(seed):
    problem = without_risk(orderly(seed))
    least, found = dijkstra(problem), cheapest(problem, most_states=0)
    assert (found is None) == (least is None)
    if found is not None:
        assert faults_of(problem, found.moves) == ()
        assert found.bound <= least <= found.ticks
        assert found.proved == (found.bound == found.ticks)


def test_the_solver_proves_what_the_search_had_no_time_for():
    problem = next(
        one
        for one in map(without_risk, map(orderly, range(10**6)))
        if any(can_be_bounded(RecoveryBits(part)) for part in parted(one).parts)
        and (found := cheapest(one, most_states=0)) is not None
        and not found.proved
    )
    found = cheapest(problem, solver=solve, most_states=0)
    assert found.ticks == dijkstra(problem)
    assert found.proved


def test_a_solver_that_finds_nothing_leaves_a_sound_way_back():
    def silent(model):
        return replace(solve(replace(model, objective=None)), values=(), bound=None)

    problem = without_risk(orderly(2))
    found = cheapest(problem, solver=silent, most_states=0)
    assert faults_of(problem, found.moves) == ()
