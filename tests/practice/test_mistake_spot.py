"""The step that comes too early: the one that mends an order by waiting."""

from hypothesis import given
from hypothesis import strategies as st
from practice.few_cases import few_of
from relations.relation_cases import before_all, kept_mixed_sets

from armorplan.practice.few_orders import FewOrders
from armorplan.practice.mistake_spot import moved_early, too_early


def test_of_a_pair_the_wrong_way_round_the_first_comes_too_early():
    few = few_of("abc", ["ab"])
    assert too_early(few, "bca") == {"b": tuple("cab")}
    assert too_early(few, "abc") == {}


def test_where_two_steps_are_wrong_none_mends_it_alone():
    assert too_early(few_of("abcd", ["ab", "cd"]), "badc") == {}


def test_of_several_that_mend_it_each_is_told():
    few = FewOrders("abc", [before_all("a", "bc")])
    assert set(too_early(few, "bca")) == {"c", "b"}


@given(kept_mixed_sets(), st.randoms(use_true_random=False))
def test_a_step_put_forward_is_found(case, chance):
    steps, relations = case
    few = FewOrders(steps, relations)
    order = few.drawn(chance)
    place = chance.randrange(len(order))
    for shown in moved_early(order, place):
        assert order.index(shown[place]) > place
        mends = too_early(few, shown)
        assert bool(mends) != few.is_right(shown)
        for step, order in mends.items():
            assert few.is_right(order)
            assert order.index(step) > shown.index(step)
            rest = [one for one in shown if one != step]
            assert rest == [one for one in order if one != step]
