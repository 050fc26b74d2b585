"""Groups that cannot be done in one go, against every order tried."""

from hypothesis import given
from relations.relation_cases import all_orders, before, before_all, kept_sets, together

from armorplan.orders.between import parted_groups
from armorplan.relations.index import index_relations


def parted(steps, relations, order, groups):
    index = index_relations(steps, relations)
    found = parted_groups(
        index,
        index.binds,
        [index.number[step] for step in order],
        {at: [index.number[step] for step in group] for at, group in enumerate(groups)},
    )
    return [groups[at] for at in sorted(found)]


def test_a_step_between_two_of_a_group_parts_it():
    relations = (before("a", "b"), before("b", "c"), before("c", "d"))
    groups = ["ac", "ad", "abc", "bc", "d"]
    assert parted("abcd", relations, "abcd", groups) == ["ac", "ad"]


def test_one_before_the_last_of_several_parts_nothing_for_certain():
    relations = (before("a", "b"), before_all("b", "cd"))
    assert parted("abcd", relations, "abcd", ["ac"]) == []


@given(kept_sets(most_relations=9))
def test_no_order_keeps_a_parted_group_together(case):
    steps, relations = case
    groups = [(one, other) for one in steps for other in steps if one < other]
    valid = all_orders(steps, relations)
    for group in parted(steps, relations, min(valid), groups):
        assert not all_orders(steps, [*relations, together(group)])
