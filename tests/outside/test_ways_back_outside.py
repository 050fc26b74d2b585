"""The state space of a way back against published counts, and its search against another library.

A harness is taken apart part by part, so that what is left always holds together, or opened and
closed join by join; every way of doing so is a path through the states that the search walks.
Counts after L. S. Homem de Mello and A. C. Sanderson (AND/OR graphs of assembly plans, IEEE Trans.
Robotics & Automation 6(2), 1990, and 7(2), 1991) and the OEIS: (n-1)! join sequences of a chain and
a star (A000142), 2^(n-1), 2 (n-1)! and n! connected part orders of a chain, a star and a complete
graph (A000079, A052849, A000142). A chain is a stack of lames, a star a cop with its straps.

The ball-point pen: D. G. Ullman, 'The Mechanical Design Process', 4th edition, section 11.5, p. 341;
30 orders follow from his two precedences, 12 from the third as remembered (see ``test_orders_pen``).

Shortest paths: E. W. Dijkstra, 'A note on two problems in connexion with graphs', Numerische
Mathematik 1, 1959, as networkx has it, on a graph laid move by move with the checker alone.
Hitting sets: R. M. Karp, 'Reducibility among combinatorial problems', 1972 (least hitting sets of
a few sets are found by trying all).
"""

from functools import cache
from itertools import combinations
from math import factorial
from random import Random

import networkx as nx
import pytest
from orders.recovery.random_recoveries import orderly, without_risk

from armorplan.orders.recovery.bits import RecoveryBits
from armorplan.orders.recovery.checking import faults_of, state_after, why_not
from armorplan.orders.recovery.model import Bar, Cost, Doing, Means, RecoveryProblem, TakeBack
from armorplan.orders.recovery.search import cheapest
from armorplan.orders.recovery.standing import moves_from


def off(step, minutes=1):
    return TakeBack(
        id=f"off {step}",
        means=Means.UNSCREW,
        title=step,
        clears=frozenset({step}),
        cost=Cost(minutes=minutes),
    )


def on(step, minutes=1):
    return Doing(id=f"on {step}", does=step, title=step, cost=Cost(minutes=minutes))


def bar(first, of):
    name = f"{first} before {'+'.join(sorted(of))}"
    return Bar(id=name, first=first, of=frozenset(of), bars_opening=True)


def paths(problem, end):
    """Return in how many ways the moves lead from what stands to a state."""
    bits = RecoveryBits(problem)
    target = bits.mask(end)

    @cache
    def count(state):
        if state == target:
            return 1
        return sum(count(after) for _, after in moves_from(bits, state))

    return count(bits.done)


def names(size):
    return [f"part {at}" for at in range(size)]


def taken_apart(size, bars):
    """Return in how many orders parts come off one by one, down to none."""
    parts = frozenset(names(size))
    moves = tuple(off(part) for part in sorted(parts))
    problem = RecoveryProblem(done=parts, goal=parts, bars=tuple(bars), moves=moves)
    return paths(problem, frozenset())


def put_together(size):
    """Return in how many orders the joins of a chain or a star are made, one by one."""
    joins = frozenset(f"join {at}" for at in range(size - 1))
    moves = tuple(on(join) for join in sorted(joins))
    problem = RecoveryProblem(done=frozenset(), goal=joins, bars=(), moves=moves)
    return paths(problem, joins)


@pytest.mark.parametrize("size", range(2, 9))
def test_connected_part_orders_and_join_sequences(size):
    parts = names(size)
    # A lame between two others holds them together; a cop holds any two of its straps together.
    chain = [bar(parts[at], (parts[at - 1], parts[at + 1])) for at in range(1, size - 1)]
    star = [bar(parts[0], pair) for pair in combinations(parts[1:], 2)]
    assert taken_apart(size, chain) == 2 ** (size - 1)
    assert taken_apart(size, star) == 2 * factorial(size - 1)
    assert taken_apart(size, []) == factorial(size)
    assert put_together(size) == factorial(size - 1)


PEN = (bar("3", "4"), bar("1", "5"))
INK_FIRST = (*PEN, bar("4", "12"))


@pytest.mark.parametrize(("bars", "orders"), [(PEN, 30), (INK_FIRST, 12)])
def test_the_pen_goes_together_and_comes_apart_in_as_many_ways(bars, orders):
    joins = frozenset("12345")
    forth = RecoveryProblem(
        done=frozenset(), goal=joins, bars=bars, moves=tuple(on(join) for join in "12345")
    )
    back = RecoveryProblem(
        done=joins, goal=joins, bars=bars, moves=tuple(off(join) for join in "12345")
    )
    assert paths(forth, joins) == orders
    assert paths(back, frozenset()) == orders


def test_a_pen_without_its_ink_is_opened_at_one_end_only():
    """The ink was forgotten: of body and button the cheaper is taken out, and only that."""
    dear = {"1": 9, "2": 4, "3": 5, "5": 2}
    problem = RecoveryProblem(
        done=frozenset("1235"),
        goal=frozenset("12345"),
        bars=INK_FIRST,
        moves=tuple(move for join in "12345" for move in (off(join, dear.get(join, 1)), on(join))),
    )
    found = cheapest(problem)
    assert sorted(move.id for move in found.moves) == ["off 2", "on 2", "on 4"]
    assert faults_of(problem, found.moves) == ()
    assert found.proved


def by_networkx(problem):
    """Return the least price of a way back, on a graph of all states; ``None`` without one."""
    graph = nx.DiGraph()
    todo, seen = [problem.done], {problem.done}
    while todo:
        state = todo.pop()
        graph.add_node(state)
        for move in problem.moves:
            if why_not(problem, state, move):
                continue
            after, price = state_after(state, move), problem.rates.ticks(move.cost)
            known = graph.get_edge_data(state, after)
            if known is None or known["weight"] > price:
                graph.add_edge(state, after, weight=price)
            if after not in seen:
                seen.add(after)
                todo.append(after)
    length = nx.single_source_dijkstra_path_length(graph, problem.done)
    return min((spent for state, spent in length.items() if problem.goal <= state), default=None)


@pytest.mark.parametrize("seed", range(60))
def test_the_search_agrees_with_dijkstra_of_another_library(seed):
    problem = without_risk(orderly(10**6 + seed, "abcdef"))
    found, least = cheapest(problem), by_networkx(problem)
    assert (found is None) == (least is None)
    if found is not None:
        assert found.ticks == least
        assert faults_of(problem, found.moves) == ()


def least_hitting_set(sets, prices):
    """Return the least price of elements that meet every set, by trying all choices of them."""
    elements = sorted(prices)
    return min(
        sum(prices[one] for one in chosen)
        for size in range(len(elements) + 1)
        for chosen in combinations(elements, size)
        if all(set(chosen) & of for of in sets)
    )


def behind_rows(seed, *, rivets, rows):
    """Return a strap behind rows that are closed: of each a rivet has to come out."""
    random = Random(seed)  # noqa: S311
    names_of = [f"rivet {at}" for at in range(rivets)]
    prices = {one: random.randint(1, 9) for one in names_of}
    sets = [frozenset(random.sample(names_of, random.randint(1, 4))) for _ in range(rows)]
    return RecoveryProblem(
        done=frozenset(names_of),
        goal=frozenset(names_of) | {"strap"},
        bars=tuple(bar("strap", of) for of in dict.fromkeys(sets)),
        moves=(
            on("strap", 5),
            *(move for one in names_of for move in (off(one, prices[one]), on(one, 2))),
        ),
    )


@pytest.mark.parametrize("seed", range(25))
def test_what_to_undo_is_a_least_hitting_set_of_what_is_in_the_way(seed):
    problem = behind_rows(seed, rivets=9, rows=6)
    again = {
        step: move.cost.minutes + 2
        for move in problem.moves
        if isinstance(move, TakeBack)
        for step in move.clears
    }
    found = cheapest(problem)
    sets = [one.of for one in problem.bars]
    assert found.ticks == 100 * (least_hitting_set(sets, again) + 5)
    assert found.proved
