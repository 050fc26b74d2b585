"""How far an answer is: against trying every right order."""

from hypothesis import given
from hypothesis import strategies as st
from practice.few_cases import few_of, moves_between, turned
from relations.relation_cases import before, kept_mixed_sets

from armorplan.orders.repairing import smallest_repair
from armorplan.practice.distance import choice_distance, credit_of, distance
from armorplan.practice.few_orders import FewOrders


@given(kept_mixed_sets(), st.randoms(use_true_random=False))
def test_no_right_order_is_nearer_and_of_those_as_near_none_turns_fewer_pairs(case, chance):
    steps, relations = case
    few = FewOrders(steps, relations)
    answer = chance.sample(steps, len(steps))
    found = distance(answer, few)
    told = [(moves_between(answer, one), turned(answer, one)) for one in few.orders()]
    assert (found.moves, found.kendall) == min(told)
    assert few.is_right(found.nearest)
    assert turned(answer, found.nearest) == found.kendall
    stays = [step for step in answer if step not in found.moved]
    assert stays == [step for step in found.nearest if step not in found.moved]


@given(kept_mixed_sets(), st.randoms(use_true_random=False))
def test_it_is_what_the_smallest_repair_moves(case, chance):
    steps, relations = case
    answer = chance.sample(steps, len(steps))
    repair = smallest_repair(answer, relations)
    assert repair.exact
    assert len(repair.moved) == distance(answer, FewOrders(steps, relations)).moves


def test_what_is_missing_is_added_and_what_is_strange_taken_out():
    few = few_of("abcd", ["ab", "bc", "cd"])
    found = distance("bxad", few)
    assert found.nearest == tuple("abcd")
    assert found.added == ("c",)
    assert found.removed == ("x",)
    assert len(found.moved) == 1
    assert found.moves == 3
    assert found.kendall == 1
    assert distance("abbcd", few).removed == ("b",)
    assert distance("", few).added == tuple("abcd")
    assert distance("abcd", few).moves == 0


def test_where_no_order_is_right_nothing_is_near():
    never = FewOrders("ab", [before("a", "b"), before("b", "a")])
    assert distance("ab", never).nearest == ()


def test_of_a_choice_both_sides_count():
    assert choice_distance("ab", "bc") == 2
    assert choice_distance("", "bc") == 2
    assert choice_distance("bc", "cb") == 0


def test_credit_goes_from_one_to_nothing():
    assert credit_of(0, 0) == credit_of(0, 5) == 1.0
    assert credit_of(1, 4) == 0.75
    assert credit_of(4, 4) == credit_of(9, 4) == 0.0
