"""What stands against a relation that the order does not keep."""

from hypothesis import given
from relations.relation_cases import all_orders, before, before_all, kept_sets, together

from armorplan.orders.giving_way import giving_way
from armorplan.orders.sequence import one_order
from armorplan.relations.model import Force


def told(steps, relations):
    found = one_order(steps, relations, key=str)
    return giving_way(found.order, relations, found.dropped)


def test_what_binds_is_named_before_what_steers():
    wish = before("b", "a", Force.USUAL)
    bind, steer = before("a", "b"), before("a", "b", Force.EASIER, price_min=5)
    assert told("ab", (wish, steer, bind)) == {wish: (bind,)}


def test_a_chain_is_told_whole():
    wish = before("c", "a", Force.USUAL)
    chain = (before("a", "b"), before("b", "c"))
    assert set(told("abc", (wish, *chain))[wish]) == set(chain)


def test_what_weighs_more_stands_against_what_weighs_less():
    dear, cheap = (before(*"ab", Force.EASIER, price_min=9), before(*"ba", Force.USUAL))
    assert told("ab", (cheap, dear)) == {cheap: (dear,)}


def test_of_two_that_are_dropped_neither_stands_against_the_other():
    wishes = (before("b", "a", Force.USUAL, text="one"), before("b", "a", Force.USUAL, text="two"))
    bind = before("a", "b")
    assert told("ab", (*wishes, bind)) == dict.fromkeys(wishes, (bind,))


def test_together_gives_way_to_what_has_to_come_between():
    group = together("ac", Force.USUAL)
    between = (before("a", "b"), before("b", "c"))
    assert set(told("abc", (group, *between))[group]) == set(between)


def test_the_last_of_several_may_stand_against_it():
    wish = before("b", "a", Force.USUAL)
    relations = (wish, before_all("a", "bc"), before("c", "a"))
    assert set(told("abc", relations)[wish]) == set(relations[1:])


def test_where_all_is_kept_nothing_is_told():
    assert told("ab", (before("a", "b", Force.USUAL),)) == {}


@given(kept_sets(most_relations=10, forces=tuple(Force)))
def test_beside_what_is_told_no_order_keeps_it_and_all_of_it_takes_part(case):
    steps, relations = case
    for dropped, against in told(steps, relations).items():
        assert against
        assert not all_orders(steps, [*against, dropped])
        for one in against:
            assert all_orders(steps, [dropped, *(r for r in against if r != one)])
