from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import all_orders, before, before_all, relation_sets

from armorplan.orders.judging import judge_order
from armorplan.relations.model import Force


def test_any_valid_order_is_valid():
    relations = (before("a", "b"), before_all("c", "ab"))
    assert judge_order("acb", "abc", relations).valid
    assert judge_order("cab", "abc", relations).valid
    assert judge_order("acb", "abc", relations).first_break is None


def test_the_first_break_is_named():
    relations = (before("a", "b"), before_all("c", "ab"))
    verdict = judge_order("bac", "abc", relations)
    assert not verdict.valid
    assert [b.relation for b in verdict.breaks] == list(relations)
    assert verdict.first_break.step == "b"


def test_missing_repeated_and_unknown_steps_are_told():
    verdict = judge_order(("c", "ghost", "a", "c"), "abc", ())
    assert not verdict.valid
    assert verdict.missing == ("b",)
    assert verdict.repeated == ("c",)
    assert verdict.unknown == ("ghost",)
    assert verdict.breaks == ()


def test_relations_that_steer_make_no_order_wrong():
    assert judge_order("ba", "ab", (before("a", "b", Force.USUAL),)).valid


def test_relations_about_strangers_make_no_order_wrong():
    assert judge_order(("b", "z", "a"), "ab", (before("a", "z"),)).breaks == ()


@given(relation_sets(most_steps=5), st.randoms(use_true_random=False))
def test_trying_every_order_agrees(case, random):
    steps, relations = case
    order = tuple(random.sample(steps, len(steps)))
    verdict = judge_order(order, steps, relations)
    assert verdict.valid == (order in all_orders(steps, relations))
