"""Right answers counted by the judge of 'Put in order', against published counts; distances likewise.

Sources, the numbers from memory: OEIS A000108 (Catalan: two rows of n), A000111 (Euler's zigzag
numbers), A046873 (linear extensions of Boolean lattices), A056971 (heaps), A000142 (factorials);
D. E. Knuth, 'The Art of Computer Programming' vol. 3, 5.1.4 (hook formulas for tableaux and for
forests); R. P. Dilworth, 1950 (width). Kendall's distance is held against ``scipy.stats.kendalltau``:
tau = 1 - 4 d / (n (n - 1)) for d pairs turned round. How few moves it takes is found by making
them: a search in all directions from every right order at once.
"""

import random
from itertools import islice, pairwise, permutations
from math import comb, factorial, prod

import pytest
from app.drills.posed_orders import posed
from hypothesis import given
from hypothesis import strategies as st
from outside.test_orders_counts import boolean_lattice, chains, grid, heap, zigzag
from practice.few_cases import few_of
from relations.relation_cases import (
    after_any,
    all_orders,
    before,
    before_all,
    keeps,
    kept_mixed_sets,
    together,
)
from scipy.stats import kendalltau

from armorplan.app.drills.setting import judged
from armorplan.practice.distance import distance
from armorplan.practice.few_orders import FewOrders
from armorplan.practice.worst import worst

CATALAN = (1, 2, 5, 14, 42, 132)
ZIGZAG = (1, 1, 2, 5, 16, 61, 272, 1385, 7936, 50521, 353792, 2702765)
HEAPS = (1, 1, 2, 3, 8, 20, 80, 210, 896, 3360, 19200, 79200)
BOOLEAN = (1, 1, 2, 48)


def judged_right(steps, pairs):
    """Return how many of all orders the exercise's own judge calls right."""
    names = [str(step) for step in steps]
    case = posed(names, [before(str(a), str(b)) for a, b in pairs])
    answers = permutations(names)
    return sum(judged(case.source, case.drill, case.answer(one)).right for one in answers)


@pytest.mark.parametrize(("n", "right"), [(1, 1), (2, 2), (3, 5)])
def test_two_rows_are_judged_as_catalan_counts(n, right):
    assert judged_right(*grid(2, n)) == right


@pytest.mark.parametrize("n", [1, 2, 3, 4, 5])
def test_a_fence_is_judged_as_euler_counts(n):
    assert judged_right(*zigzag(n)) == ZIGZAG[n - 1]


def test_a_square_of_sets_is_judged_as_published():
    assert judged_right(*boolean_lattice(2)) == BOOLEAN[2]


def test_a_forest_is_judged_as_its_hooks_count():
    """Two trees, a over b and c, d over e: 5! over the sizes of what hangs below each."""
    forest = ["ab", "ac", "de"]
    assert judged_right("abcde", forest) == factorial(5) / prod((3, 1, 1, 2, 1))


@pytest.mark.parametrize("n", range(1, 7))
def test_two_rows_count_as_catalan(n):
    assert few_of(*grid(2, n)).count == CATALAN[n - 1]


@pytest.mark.parametrize("n", range(1, 13))
def test_a_fence_counts_as_zigzag(n):
    assert few_of(*zigzag(n)).count == ZIGZAG[n - 1]


@pytest.mark.parametrize("n", range(1, 13))
def test_a_heap_counts_as_published(n):
    assert few_of(*heap(n)).count == HEAPS[n - 1]


@pytest.mark.parametrize("atoms", range(4))
def test_a_boolean_lattice_counts_as_published(atoms):
    few = few_of(*boolean_lattice(atoms))
    assert few.count == BOOLEAN[atoms]
    assert sum(map(few.is_right, few.orders())) == BOOLEAN[atoms]


@pytest.mark.long
def test_of_all_orders_of_a_cube_of_sets_48_are_right():
    few = few_of(*boolean_lattice(3))
    assert sum(map(few.is_right, permutations(few.steps))) == 48


@pytest.mark.parametrize(("rows", "columns", "right"), [(3, 3, 42), (3, 4, 462), (2, 6, 132)])
def test_a_tableau_counts_as_its_hooks(rows, columns, right):
    hooks = prod(rows - r + columns - c - 1 for r in range(rows) for c in range(columns))
    assert few_of(*grid(rows, columns)).count == factorial(rows * columns) // hooks == right


def test_a_skew_tableau_counts_by_aitken():
    """Shape 3,2 without its corner 1: 4! det(1 / (l_i - m_j - i + j)!) = 5 (A. C. Aitken, 1943)."""
    cells = [(0, 1), (0, 2), (1, 0), (1, 1)]
    pairs = [((0, 1), (0, 2)), ((1, 0), (1, 1)), ((0, 1), (1, 1))]
    by_rows = (1 / factorial(2) * 1 / factorial(2)) - (1 / factorial(4) * 1 / factorial(0))
    assert few_of(cells, pairs).count == round(factorial(4) * by_rows) == 5


@pytest.mark.parametrize("lengths", [(3, 4), (5, 5), (2, 3, 4)])
def test_chains_side_by_side_count_as_multinomials(lengths):
    total, number = 0, 1
    for length in lengths:
        total += length
        number *= comb(total, length)
    assert few_of(*chains(*lengths)).count == number


@pytest.mark.parametrize(
    ("poset", "width"),
    [
        (boolean_lattice(3), 3),
        (grid(3, 4), 3),
        (zigzag(9), 5),
        (chains(5, 4, 3), 3),
        (heap(12), 6),
    ],
)
def test_the_worst_order_keeps_no_more_than_the_width(poset, width):
    """Sperner 1928 for the sets; a product of chains and a fence are counted at sight."""
    few = few_of(*poset)
    found = worst(few)
    assert found.exact
    assert found.moves == len(few.steps) - width
    reverse = tuple(reversed(next(few.orders())))
    assert distance(reverse, few).moves == found.moves


@given(st.permutations(range(9)), st.permutations(range(9)))
def test_pairs_turned_round_are_kendalls(one, other):
    """The one right order of a chain is the other: what is told of it is scipy's count."""
    right = [str(n) for n in other]
    turned = distance([str(n) for n in one], few_of(right, list(pairwise(right)))).kendall
    places = [other.index(n) for n in one]
    tau = kendalltau(range(9), places).statistic
    assert tau == pytest.approx(1 - 4 * turned / (9 * 8))


def moved_once(order):
    """Every order that one step taken out and put elsewhere makes of it."""
    for at in range(len(order)):
        rest = (*order[:at], *order[at + 1 :])
        yield from ((*rest[:to], order[at], *rest[to:]) for to in range(len(order)))


def moves_from(right):
    """Return by order how few moves lead from it to one of these, and so from them to it."""
    found, edge, moves = dict.fromkeys(right, 0), list(right), 0
    while edge:
        moves += 1
        edge = [
            new for old in edge for new in moved_once(old) if found.setdefault(new, moves) == moves
        ]
        edge = list(dict.fromkeys(edge))
    return found


CASES = {
    "chains": [before(*pair) for pair in ("ab", "bc", "de", "ef", "cg", "fg")],
    "fence": [before(*pair) for pair in ("ab", "cb", "cd", "ed", "ef", "gf", "ag")],
    "before all of": [before_all("g", "ab"), before("a", "c"), before_all("b", "cde"), before("f", "a")],
    "after any of": [after_any("a", "bc"), after_any("d", "ef"), before("a", "d"), before("g", "b")],
    "in one go": [together("abc"), before("d", "a"), before("b", "e"), together("fg"), before("e", "f")],
}  # fmt: skip


def held_by_moves(relations, every):
    few = FewOrders("abcdefg", relations)
    right = [o for o in permutations("abcdefg") if all(keeps(o, each) for each in relations)]
    assert few.count == len(right) > 0
    told = moves_from(right)
    assert len(told) == factorial(7)
    for order in islice(permutations("abcdefg"), 0, None, every):
        assert distance(order, few).moves == told[order], order
    assert worst(few).moves >= max(told.values())


@pytest.mark.parametrize("name", CASES)
def test_no_fewer_moves_lead_to_a_right_order(name):
    held_by_moves(CASES[name], 41)


@pytest.mark.long
@pytest.mark.parametrize("name", CASES)
def test_no_fewer_moves_lead_to_a_right_order_from_any(name):
    held_by_moves(CASES[name], 1)


@given(kept_mixed_sets(), st.randoms(use_true_random=False))
def test_a_right_order_is_never_marked_wrong_and_a_wrong_one_never_right(case, chance):
    steps, relations = case
    right = all_orders(steps, relations)
    asked = posed(steps, relations)
    wrong = sorted(set(islice(permutations(steps), 720)) - right)
    for order in chance.sample(sorted(right), min(3, len(right))):
        told = judged(asked.source, asked.drill, asked.answer(order))
        assert told.right
        assert (told.distance, told.kendall, told.credit) == (0, 0, 1.0)
    for order in chance.sample(wrong, min(3, len(wrong))):
        told = judged(asked.source, asked.drill, asked.answer(order))
        assert not told.right
        assert told.because
        assert told.distance == min(moves(order, one) for one in right)
        assert 0.0 <= told.credit < 1.0


def moves(order, other):
    """All but a longest stretch that stands the same way round in both."""
    longest = []
    for at, step in enumerate(order):
        longest.append(
            1
            + max(
                (longest[b] for b in range(at) if other.index(order[b]) < other.index(step)),
                default=0,
            )
        )
    return len(order) - max(longest)


def test_random_chains_of_many_are_far_from_their_reverse():
    chance = random.Random(3)  # noqa: S311 - orders, not secrets
    steps = [str(n) for n in chance.sample(range(12), 12)]
    few = few_of(steps, list(pairwise(steps)))
    assert distance(steps[::-1], few).moves == 11
    assert distance(steps[::-1], few).kendall == comb(12, 2)
