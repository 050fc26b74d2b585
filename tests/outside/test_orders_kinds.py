"""'After any of' and 'together' against closed formulas and published integer sequences.

An assembly grown part by part, each new part touching one that is there: every part but the one
begun with comes after any of its neighbours. Summed over where one begins, the orders number
2^(n-1) for a chain (a stack of lames; OEIS A000079), n 2^(n-2) for a ring, 2 (n-1)! for a star (a
cop with straps) and n! where all touch. From one end of a chain to place k the single terms are
binomial coefficients. Couples that sit together in a row: 2^n n! (double factorials, A000165);
guests who sit together in a row of n are one guest of more: k! (n - k + 1)!. The conventions are
those of the liaison graphs of L. S. Homem de Mello and A. C. Sanderson, IEEE Transactions on
Robotics and Automation 6(2), 1990; the formulas were recomputed by brute force to n = 8.
"""

from math import comb, factorial

import pytest
from relations.relation_cases import after_any, before, before_all, together

from armorplan.relations.counting import Count, count_orders


def ids(count):
    return [f"p{at}" for at in range(count)]


def grown_from(root, neighbours):
    """Count the orders that begin with one part and add parts that touch what is there."""
    parts = sorted(neighbours)
    relations = [after_any(part, neighbours[part]) for part in parts if part != root]
    found = count_orders(parts, relations)
    assert found.exact
    return found.number


def touching(count, pairs):
    parts = ids(count)
    found = {part: set() for part in parts}
    for one, other in pairs:
        found[parts[one]].add(parts[other])
        found[parts[other]].add(parts[one])
    return found


def chain(count):
    return touching(count, [(at, at + 1) for at in range(count - 1)])


def ring(count):
    return touching(count, [(at, (at + 1) % count) for at in range(count)])


def star(count):
    return touching(count, [(0, at) for at in range(1, count)])


def everything(count):
    return touching(count, [(a, b) for a in range(count) for b in range(a)])


FORMULAS = (
    (chain, lambda n: 2 ** (n - 1), 7),
    (ring, lambda n: n * 2 ** (n - 2), 7),
    (star, lambda n: 2 * factorial(n - 1), 7),
    (everything, factorial, 6),
)


@pytest.mark.parametrize(
    ("graph", "formula", "count"),
    [(graph, formula, n) for graph, formula, most in FORMULAS for n in range(3, most + 1)],
)
def test_parts_added_one_at_a_time(graph, formula, count):
    neighbours = graph(count)
    assert sum(grown_from(root, neighbours) for root in neighbours) == formula(count)


@pytest.mark.parametrize("place", range(8))
def test_a_chain_grown_from_inside_interleaves_its_two_ends(place):
    assert grown_from(f"p{place}", chain(8)) == comb(7, place)


@pytest.mark.parametrize("couples", range(1, 8))
def test_couples_in_a_row(couples):
    relations = [together((f"p{2 * at}", f"p{2 * at + 1}")) for at in range(couples)]
    expected = 2**couples * factorial(couples)
    assert count_orders(ids(2 * couples), relations) == Count(number=expected, exact=True)


@pytest.mark.parametrize(("guests", "friends"), [(5, 2), (6, 3), (8, 4), (20, 7)])
def test_friends_in_a_row(guests, friends):
    expected = factorial(friends) * factorial(guests - friends + 1)
    found = count_orders(ids(guests), [together(ids(friends))])
    assert found == Count(number=expected, exact=True)


def test_neighbours_all_along_a_row_leave_it_and_its_reverse():
    pairs = [together((f"p{at}", f"p{at + 1}")) for at in range(19)]
    assert count_orders(ids(20), pairs) == Count(number=2, exact=True)
    assert count_orders(ids(20), [*pairs, before("p3", "p7")]) == Count(number=1, exact=True)


@pytest.mark.parametrize("count", range(3, 9))
def test_one_step_between_two_others_is_every_third_order(count):
    """Of three steps each is the middle one equally often, by symmetry."""
    between = [after_any("p0", ("p1", "p2")), before_all("p0", ("p1", "p2"))]
    assert count_orders(ids(count), between).number == factorial(count) // 3
