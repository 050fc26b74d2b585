import pytest
from hypothesis import given
from hypothesis import strategies as st
from orders.next_steps_laws import (
    offers_exactly_what_valid_orders_go_on_with,
    something_may_come_next_after_any_history,
    walked,
)
from relations.relation_cases import all_orders, before, before_all, kept_sets, relation_sets

from armorplan.orders.next_steps import may_come_next, standing, waits_for
from armorplan.relations.index import index_relations
from armorplan.relations.model import Force


def test_a_step_waits_for_those_before_it():
    relations = (before("a", "c"), before("b", "c"))
    assert may_come_next((), "abc", relations) == ("a", "b")
    assert waits_for("c", (), relations) == relations
    assert waits_for("c", "a", relations) == relations[1:]
    assert may_come_next("ab", "abc", relations) == ("c",)
    assert waits_for("c", "ab", relations) == ()


def test_of_before_all_only_the_last_member_waits():
    relation = before_all("a", "bc")
    assert may_come_next((), "abc", (relation,)) == ("a", "b", "c")
    assert may_come_next("b", "abc", (relation,)) == ("a",)
    assert waits_for("c", "b", (relation,)) == (relation,)
    assert waits_for("c", "ba", (relation,)) == ()


def test_a_step_that_leads_into_a_dead_end_waits_and_says_why():
    relations = (before_all("f", "xb"), before("b", "f"))
    assert may_come_next((), "fxb", relations) == ("b",)
    assert waits_for("x", (), relations) == relations[:1]


def test_the_look_ahead_sees_through_several_relations():
    # Done first, x would leave f to stand before y; y before g; g before the last of y and f: stuck.
    relations = (
        before_all("f", "xy"),
        before("y", "g"),
        before("g", "f"),
    )
    assert may_come_next((), "fgxy", relations) == ("y",)
    assert waits_for("x", (), relations) == relations[:1]


def test_relations_that_steer_hold_nothing_back():
    relation = before("a", "b", Force.EASIER)
    assert may_come_next((), "ab", (relation,)) == ("a", "b")
    assert waits_for("b", (), (relation,)) == ()


def test_what_was_broken_is_set_aside_and_the_work_goes_on():
    relations = (before("a", "b"), before("b", "c"))
    stands = standing("b", index_relations("abc", relations))
    assert stands.may_come_next == ("a", "c")
    assert stands.set_aside == relations[:1]
    assert stands.waits_for == {}


def test_after_a_dead_end_the_lightest_relation_is_set_aside():
    spoil = before_all("f", "xb", Force.SPOIL)
    cannot = before("b", "f", Force.CANNOT)
    stands = standing("x", index_relations("fxb", (cannot, spoil)))
    assert stands.set_aside == (spoil,)
    assert stands.may_come_next == ("b",)


def test_after_a_dead_end_of_equals_the_one_that_lost_a_member_goes():
    relations = (before("b", "f"), before_all("f", "xb"))
    assert standing("x", index_relations("fxb", relations)).set_aside == relations[1:]


def test_contradictory_relations_still_leave_something_to_do():
    relations = (before("a", "b", Force.CANNOT), before("b", "a", Force.SPOIL))
    stands = standing((), index_relations("ab", relations))
    assert stands.may_come_next == ("a",)
    assert stands.set_aside == relations[1:]


def test_done_steps_and_strangers_neither_come_next_nor_wait():
    index = index_relations("ab", (before("a", "b"),))
    stands = standing(("b", "a", "nobody"), index)
    assert stands.may_come_next == ()
    assert stands.waits_for == {}
    assert waits_for("a", ("a",), index) == ()


@pytest.mark.parametrize("most_steps", [4, 6])
@given(data=st.data())
def test_it_offers_exactly_the_steps_that_valid_orders_go_on_with(most_steps, data):
    steps, relations = data.draw(kept_sets(most_steps=most_steps, most_relations=12))
    offers_exactly_what_valid_orders_go_on_with(steps, relations, data)


@given(kept_sets(most_relations=12), st.randoms(use_true_random=False))
def test_any_walk_reaches_the_end_with_all_relations_kept(case, random):
    steps, relations = case
    done = walked(steps, relations, random)
    assert tuple(done) in all_orders(steps, relations)


@given(relation_sets(most_relations=12), st.randoms(use_true_random=False))
def test_after_any_history_something_may_come_next(case, random):
    something_may_come_next_after_any_history(*case, random)


@given(kept_sets(most_relations=12), st.data())
def test_a_step_is_freed_by_doing_what_it_waits_for(case, data):
    steps, relations = case
    index = index_relations(steps, relations)
    done = []
    wanted = data.draw(st.sampled_from(steps))
    while wanted in (waiting := standing(done, index).waits_for):
        # Follow the first of the relations that hold it, down to a step that may be done.
        step = wanted
        seen = set()
        while step in waiting and step not in seen:
            seen.add(step)
            step = waiting[step][0].first
        assert step not in waiting
        done.append(step)
    assert wanted in standing(done, index).may_come_next
