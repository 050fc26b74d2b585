"""Which relations decide: without those that do not, the right orders stay what they are."""

from hypothesis import given
from practice.few_cases import few_of
from relations.relation_cases import after_any, before, before_all, kept_mixed_sets, together

from armorplan.practice.few_orders import FewOrders
from armorplan.practice.tight import tight_relations


@given(kept_mixed_sets())
def test_those_that_decide_are_all_that_is_needed(case):
    steps, relations = case
    few = FewOrders(steps, relations)
    assert set(FewOrders(steps, tight_relations(few)).orders()) == set(few.orders())


def test_what_follows_by_a_step_between_does_not_decide():
    few = few_of("abc", ["ab", "bc", "ac"])
    assert [(each.first, each.then) for each in tight_relations(few)] == [("a", "b"), ("b", "c")]


def test_one_of_several_decides_while_it_is_open_which():
    for relation in (before_all("a", "bc"), after_any("a", "bc"), together("ab")):
        assert tight_relations(FewOrders("abc", [relation])) == (relation,)
    certain = (before("b", "x"), before("x", "a"), after_any("a", "bc"))
    assert tight_relations(FewOrders("abcx", certain)) == certain[:2]
    certain = (before("a", "x"), before("x", "c"), before_all("a", "bc"))
    assert tight_relations(FewOrders("abcx", certain)) == certain[:2]
