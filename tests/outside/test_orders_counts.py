"""Counts of orders against published integer sequences and theorems.

Sources: OEIS A000108 (Catalan), A005789 (3 × n), A000111 (zigzag), A046873 (Boolean lattices),
A000680 ((2n)!/2^n), A056971 (heaps); D. E. Knuth, 'The Art of Computer Programming' vol. 3, 5.1.4
(hook formula for forests); the binomial coefficient for two chains; the example in the SageMath
documentation of linear extensions (sage/graphs/linearextensions.py), 5 orders.
"""

from itertools import combinations, pairwise
from math import comb, factorial, prod

import pytest
from relations.relation_cases import all_orders, before

from armorplan.relations.counting import Count, count_orders


def count(steps, pairs, **limit):
    ids = [str(step) for step in steps]
    return count_orders(ids, [before(str(a), str(b)) for a, b in pairs], **limit)


def exactly(number):
    return Count(number=number, exact=True)


def grid(rows, columns):
    """Return the cells of a grid and who must come before whom: left of, and above."""
    cells = [(row, column) for row in range(rows) for column in range(columns)]
    pairs = [((r, c), (r, c + 1)) for r, c in cells if c + 1 < columns]
    return cells, pairs + [((r, c), (r + 1, c)) for r, c in cells if r + 1 < rows]


def chains(*lengths):
    """Return disjoint chains."""
    rows = [[(row, at) for at in range(length)] for row, length in enumerate(lengths)]
    return [cell for row in rows for cell in row], [pair for row in rows for pair in pairwise(row)]


def heap(size):
    """Return a binary heap: every node before its two children."""
    return range(1, size + 1), [(at // 2, at) for at in range(2, size + 1)]


def zigzag(size):
    """Return a fence: up, down, up, down."""
    ups = [(at, at + 1) if at % 2 else (at + 1, at) for at in range(1, size)]
    return range(1, size + 1), ups


def boolean_lattice(atoms):
    """Return the subsets of ``atoms`` things, each before those with one thing more."""
    sets = [frozenset(s) for size in range(atoms + 1) for s in combinations(range(atoms), size)]
    number = {one: at for at, one in enumerate(sets)}
    pairs = [(a, b) for a in sets for b in sets if a < b and len(b) == len(a) + 1]
    return range(len(sets)), [(number[a], number[b]) for a, b in pairs]


@pytest.mark.parametrize(("n", "orders"), list(enumerate([1, 2, 5, 14, 42, 132, 429], start=1)))
def test_two_rows_count_as_catalan(n, orders):
    assert count(*grid(2, n)) == exactly(orders)


@pytest.mark.parametrize(("n", "orders"), list(enumerate([1, 5, 42, 462, 6006], start=1)))
def test_three_rows(n, orders):
    assert count(*grid(3, n)) == exactly(orders)


@pytest.mark.parametrize(
    ("n", "orders"), list(enumerate([1, 1, 2, 5, 16, 61, 272, 1385, 7936, 50521], start=1))
)
def test_zigzags_count_as_euler(n, orders):
    assert count(*zigzag(n)) == exactly(orders)


@pytest.mark.parametrize(("atoms", "orders"), list(enumerate([1, 1, 2, 48, 1680384])))
def test_boolean_lattices(atoms, orders):
    assert count(*boolean_lattice(atoms)) == exactly(orders)


@pytest.mark.parametrize(
    ("n", "orders"), list(enumerate([1, 6, 90, 2520, 113400, 7484400], start=1))
)
def test_pairs_side_by_side(n, orders):
    assert count(*chains(*[2] * n)) == exactly(orders) == exactly(factorial(2 * n) // 2**n)


HEAPS = "1 1 2 3 8 20 80 210 896 3360 19200 79200 506880 2745600 21964800"


@pytest.mark.parametrize(("size", "orders"), list(enumerate(map(int, HEAPS.split()), start=1)))
def test_heaps_count_by_the_hook_formula(size, orders):
    subtree = dict.fromkeys(range(1, size + 1), 1)
    for at in range(size, 1, -1):
        subtree[at // 2] += subtree[at]
    assert count(*heap(size)) == exactly(orders)
    assert orders == factorial(size) // prod(subtree.values())


@pytest.mark.parametrize(("a", "b"), [(3, 4), (5, 5), (40, 60)])
def test_two_chains_interleave_by_the_binomial(a, b):
    assert count(*chains(a, b)) == exactly(comb(a + b, a))


def test_the_example_of_the_sagemath_documentation():
    pairs = [(0, 1), (0, 2), (1, 3), (2, 3), (2, 4)]
    assert count(range(5), pairs) == exactly(5)
    orders = all_orders("01234", [before(str(a), str(b)) for a, b in pairs])
    assert {"".join(order) for order in orders} == {"01234", "01243", "02134", "02143", "02413"}


@pytest.mark.parametrize(
    ("case", "orders"),
    [(grid(2, 7), 429), (grid(3, 5), 6006), (zigzag(10), 50521), (boolean_lattice(4), 1680384)],
)
@pytest.mark.parametrize("most_states", [0, 5, 20, 60])
def test_a_bound_stays_below_the_published_count(case, orders, most_states):
    bounded = count(*case, most_states=most_states)
    assert 1 <= bounded.number <= orders
    assert bounded.exact == (bounded.number == orders)
