"""The search for the cheapest way back, against plain Dijkstra on small problems."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from orders.recovery.random_recoveries import NAMES, SEEDS, dijkstra, orderly, wild, without_risk

from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.model import Doing, RecoveryProblem
from armorplan.orders.recovery.parting import parted
from armorplan.orders.recovery.search import cheapest

FEW = settings(max_examples=36, deadline=None)
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


@FEW
@given(SEEDS)
def test_a_move_more_never_makes_it_dearer_and_a_bar_more_never_cheaper(seed):
    problem = without_risk(orderly(seed))
    found = cheapest(problem)
    fewer = cheapest(replace(problem, moves=problem.moves[:-1]))
    freer = cheapest(replace(problem, bars=problem.bars[:-1]))
    if found is None:
        assert fewer is None
        return
    assert freer is not None
    assert freer.ticks <= found.ticks
    assert fewer is None or fewer.ticks >= found.ticks


@FEW
@given(SEEDS)
def test_where_all_that_is_done_is_done_in_order_nothing_is_taken_back(seed):
    drawn = without_risk(orderly(seed))
    # As listed no bar is ever shut too early: what is done is the beginning of that order.
    done = frozenset(NAMES[: seed % (len(NAMES) + 1)])
    usual = tuple(m for m in drawn.moves if isinstance(m, Doing) and m.means is None)
    problem = replace(drawn, done=done, goal=frozenset(NAMES), moves=usual)
    found = cheapest(problem)
    assert found.proved
    assert [move.does for move in found.moves] == [name for name in NAMES if name not in done]


def test_two_places_that_have_nothing_to_do_with_each_other_are_searched_apart():
    drawn = [without_risk(orderly(seed)) for seed in range(40)]
    stuck = [one for one in drawn if (found := cheapest(one)) and found.means]
    left, right = (_named(stuck[at], str(at)) for at in (0, 1))
    both = RecoveryProblem(
        done=left.done | right.done,
        goal=left.goal | right.goal,
        bars=left.bars + right.bars,
        moves=left.moves + right.moves,
    )
    found = cheapest(without_risk(both))
    assert found.ticks == cheapest(stuck[0]).ticks + cheapest(stuck[1]).ticks
    sizes = [len(part.moves) for part in parted(without_risk(both)).parts]
    assert len(sizes) > 1
    assert max(sizes) <= max(len(left.moves), len(right.moves))


def _named(problem, tag):
    """Return a problem with all its names told apart by a tag."""
    tagged = lambda names: frozenset(f"{name}{tag}" for name in names)  # noqa: E731
    bars = tuple(
        replace(b, id=f"{b.id}{tag}", first=f"{b.first}{tag}", of=tagged(b.of))
        for b in problem.bars
    )
    moves = tuple(_tagged(move, tag, tagged) for move in problem.moves)
    done, goal = tagged(problem.done), tagged(problem.goal)
    return replace(problem, done=done, goal=goal, bars=bars, moves=moves)


def _tagged(move, tag, tagged):
    common = {"id": f"{move.id}{tag}", "needs_open": tagged(move.needs_open)}
    if isinstance(move, Doing):
        spite = tagged(move.in_spite_of)
        return replace(move, does=f"{move.does}{tag}", in_spite_of=spite, **common)
    return replace(move, clears=tagged(move.clears), **common)


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
