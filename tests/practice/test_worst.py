"""The worst an order can be: against trying every order."""

from itertools import permutations

import pytest
from hypothesis import given
from practice.few_cases import few_of
from relations.relation_cases import kept_mixed_sets, kept_sets

from armorplan.practice.distance import distance
from armorplan.practice.few_orders import FewOrders
from armorplan.practice.worst import worst
from armorplan.relations.model import Before


def by_trying(few):
    return max(distance(order, few).moves for order in permutations(few.steps))


@given(kept_sets(most_steps=5))
def test_of_pairs_it_is_exact(case):
    steps, relations = case
    few = FewOrders(steps, [each for each in relations if isinstance(each, Before)])
    found = worst(few)
    assert found.exact
    assert found.moves == by_trying(few)


@given(kept_mixed_sets(most_steps=5))
def test_it_is_never_too_little(case):
    few = FewOrders(*case)
    found = worst(few)
    tried = by_trying(few)
    assert found.moves >= tried
    assert found.moves == tried or not found.exact


@pytest.mark.parametrize(
    ("pairs", "moves"),
    [([], 0), (["ab"], 1), (["ab", "bc", "cd"], 3), (["ab", "cd"], 2), (["ab", "ac", "ad"], 1)],
)
def test_all_but_the_largest_set_of_free_steps_move(pairs, moves):
    assert worst(few_of("abcd", pairs)).moves == moves
