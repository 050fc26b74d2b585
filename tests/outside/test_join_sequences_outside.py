"""Connected part orders and join sequences against published integer sequences.

Parts are joined along a graph: a chain (a stack of lames), a ring, a star (a cop with its straps),
a complete graph. A connected part order adds one part at a time to what holds together already; a
join sequence joins two connected subassemblies at a time. Counts after L. S. Homem de Mello and
A. C. Sanderson (AND/OR graphs of assembly plans, 1991) and the OEIS: A000108 (Catalan), A001700,
A001147, A006472; 2^(n-1), n * 2^(n-2), 2 (n-1)! and n! for the part orders; (n-1)!, n!/2 and
(n-1)! for the joins of chain, ring and star.
"""

from functools import cache
from itertools import combinations, permutations, product
from math import comb, factorial

import pytest
from relations.relation_cases import after_any, before, before_all

from armorplan.orders.effort_bits import cost_of
from armorplan.orders.effort_model import Atom, EffortProblem, Rise
from armorplan.orders.least_effort import least_effort
from armorplan.relations.counting import Count, count_orders


def chain(size):
    return [(at, at + 1) for at in range(size - 1)]


def ring(size):
    return [*chain(size), (size - 1, 0)]


def star(size):
    return [(0, at) for at in range(1, size)]


def complete(size):
    return list(combinations(range(size), 2))


def part_orders(size, joins):
    """Return how many orders of the parts never leave one alone: the first part is chosen apart."""
    beside = {at: {str(a + b - at) for a, b in joins if at in (a, b)} for at in range(size)}
    parts = [str(at) for at in range(size)]
    total = 0
    for first in range(size):
        relations = [before(str(first), p) for p in parts if p != str(first)]
        relations += [after_any(str(at), beside[at]) for at in range(size) if at != first]
        found = count_orders(parts, relations)
        assert found.exact
        total += found.number
    return total


@pytest.mark.parametrize("size", range(2, 7))
def test_connected_part_orders(size):
    assert part_orders(size, chain(size)) == 2 ** (size - 1)
    assert part_orders(size, star(size)) == 2 * factorial(size - 1)
    assert part_orders(size, complete(size)) == factorial(size)
    if size > 2:
        assert part_orders(size, ring(size)) == size * 2 ** (size - 2)


def free_of_cost(size, joins):
    """Count the part orders that take no more than the least, by what each order costs.

    A part put on while none of its neighbours is there takes a minute more: that is no rise, so
    the parts are counted from the last to the first, where it is one.
    """
    beside = {at: {a + b - at for a, b in joins if at in (a, b)} for at in range(size)}
    atoms = tuple(Atom(id=str(at), minutes=1) for at in range(size))
    rises = tuple(
        Rise(atom=str(at), after=frozenset(map(str, others)), minutes=1)
        for at, others in beside.items()
    )
    problem = EffortProblem(atoms=atoms, rises=rises)
    cost, least = cost_of(problem), least_effort(problem)
    assert least.proved
    # The part that is left last has no neighbour left: one minute more in any order.
    assert least.spent.work_min == size + 1
    orders = permutations([atom.id for atom in atoms])
    return sum(cost(order).work_min == least.spent.work_min for order in orders)


@pytest.mark.parametrize("size", range(3, 7))
def test_as_many_orders_of_least_effort_as_connected_part_orders(size):
    assert free_of_cost(size, chain(size)) == 2 ** (size - 1)
    assert free_of_cost(size, ring(size)) == size * 2 ** (size - 2)
    assert free_of_cost(size, star(size)) == 2 * factorial(size - 1)
    assert free_of_cost(size, complete(size)) == factorial(size)


def is_connected(parts, joins):
    seen, todo = set(), [min(parts)]
    while todo:
        at = todo.pop()
        seen.add(at)
        todo += [a + b - at for a, b in joins if at in (a, b) and a + b - at in parts - seen]
    return seen == set(parts)


def halves(parts, joins):
    """Yield the connected halves with the lowest part, of which the other half is connected too."""
    rest = sorted(parts - {min(parts)})
    for taken in range(len(rest)):
        for more in combinations(rest, taken):
            half = frozenset({min(parts), *more})
            if is_connected(half, joins) and is_connected(parts - half, joins):
                yield half


def join_trees(size, joins):
    """Return the ways to halve a whole into connected parts, down to single ones, as wholes made."""

    @cache
    def trees(parts):
        if len(parts) == 1:
            return [()]
        return [
            (parts, *one, *other)
            for half in halves(parts, joins)
            for one, other in product(trees(half), trees(parts - half))
        ]

    return trees(frozenset(range(size)))


def sequences_of(tree):
    """Return in how many orders the joins of a tree can be made, through the relation language."""
    relations = [
        before(str(sorted(inner)), str(sorted(outer)))
        for inner in tree
        for outer in tree
        if inner < outer
    ]
    found = count_orders([str(sorted(parts)) for parts in tree], relations)
    assert found.exact
    return found.number


@pytest.mark.parametrize(
    ("joins", "trees", "sequences"),
    [
        (chain, lambda n: comb(2 * n - 2, n - 1) // n, lambda n: factorial(n - 1)),
        (ring, lambda n: comb(2 * n - 3, n - 1), lambda n: factorial(n) // 2),
        (star, lambda n: factorial(n - 1), lambda n: factorial(n - 1)),
        (
            complete,
            lambda n: factorial(2 * n - 3) // (2 ** (n - 2) * factorial(n - 2)),
            lambda n: factorial(n) * factorial(n - 1) // 2 ** (n - 1),
        ),
    ],
)
@pytest.mark.parametrize("size", range(3, 6))
def test_join_trees_and_sequences(joins, trees, sequences, size):
    found = join_trees(size, joins(size))
    assert len(found) == trees(size)
    assert sum(map(sequences_of, found)) == sequences(size)


@pytest.mark.parametrize("size", range(3, 8))
def test_a_row_from_either_end_or_from_the_middle(size):
    """A row worked as one run: the first anywhere, then always beside it; 2^(n-1) orders."""
    names = [str(at) for at in range(size)]
    total = 0
    for first in range(size):
        outward = [before(names[at], names[at - 1]) for at in range(1, first + 1)]
        outward += [before(names[at], names[at + 1]) for at in range(first, size - 1)]
        total += count_orders(names, outward).number
    assert total == 2 ** (size - 1)


def test_one_that_must_come_before_the_last_of_a_set():
    # Of the n! orders of n steps, one of the n is last of them with 1/n: n! - (n-1)! are left.
    found = count_orders("abcd", [before_all("a", "bcd")])
    assert found == Count(number=factorial(4) - factorial(3), exact=True)
