"""What may come next with every kind of relation, against every order tried."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from orders.next_steps_laws import (
    offers_exactly_what_valid_orders_go_on_with,
    something_may_come_next_after_any_history,
    walked,
)
from relations.relation_cases import (
    after_any,
    before,
    before_all,
    keeps,
    kept_mixed_sets,
    mixed_sets,
    together,
)

from armorplan.orders.consequence import consequences
from armorplan.orders.next_steps import standing, waits_for
from armorplan.relations.index import index_relations


def may(done, steps, *relations):
    return "".join(standing(done, index_relations(steps, relations)).may_come_next)


def test_after_any_waits_until_one_of_them_is_done():
    relation = after_any("a", "bc")
    assert may("", "abc", relation) == "bc"
    assert may("c", "abc", relation) == "ab"
    assert waits_for("a", "", (relation,)) == (relation,)


def test_steps_done_in_one_go_shut_others_out_until_they_are_done():
    relation = together("ab")
    assert may("", "abc", relation) == "abc"
    assert may("a", "abc", relation) == "b"
    assert waits_for("c", "a", index_relations("abc", (relation,))) == (relation,)
    assert may("ab", "abc", relation) == "c"


def test_a_group_waits_for_what_one_of_its_steps_waits_for():
    relations = (together("ab"), before("c", "b"))
    assert may("", "abc", *relations) == "c"
    assert set(waits_for("a", "", index_relations("abc", relations))) == set(relations)


def test_what_came_between_is_set_aside_and_the_work_goes_on():
    relation = together("ab")
    stands = standing("ac", index_relations("abcd", (relation,)))
    assert stands.set_aside == (relation,)
    assert stands.may_come_next == ("b", "d")


def test_coming_between_is_told_as_a_consequence():
    relations = (together("ab"), after_any("d", "bc"))
    index = index_relations("abcd", relations)
    assert consequences("c", "a", index) == relations[:1]
    assert consequences("d", "", index) == relations[1:]
    assert consequences("b", "a", index) == ()


@given(kept_mixed_sets(most_steps=7, most_relations=10), st.data())
def test_it_offers_exactly_the_steps_that_valid_orders_go_on_with(case, data):
    steps, relations = case
    offers_exactly_what_valid_orders_go_on_with(steps, relations, data)


@given(kept_mixed_sets(most_steps=8, most_relations=12), st.randoms(use_true_random=False))
def test_any_walk_reaches_the_end_with_all_relations_kept(case, chance):
    steps, relations = case
    done = walked(steps, relations, chance)
    assert all(keeps(done, relation) for relation in relations)


@given(mixed_sets(most_relations=9), st.randoms(use_true_random=False))
def test_after_any_history_something_may_come_next(case, chance):
    something_may_come_next_after_any_history(*case, chance)


@given(kept_mixed_sets(most_relations=10), st.randoms(use_true_random=False))
def test_a_step_has_consequences_just_when_it_has_to_wait(case, chance):
    steps, relations = case
    index = index_relations(steps, relations)
    done = []
    while len(done) < len(steps):
        stands = standing(done, index)
        for step in set(steps) - set(done):
            assert bool(consequences(step, done, index)) == (step in stands.waits_for)
        done.append(chance.choice(stands.may_come_next))


@pytest.mark.parametrize("seed", range(2))
def test_a_walk_through_eighty_steps_ends_in_a_full_order(seed):
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    steps, relations = tangle(chance, steps=80, relations=100)
    done = walked(steps, relations, chance)
    assert all(keeps(done, relation) for relation in relations)


def tangle(chance, *, steps, relations):
    """Return relations of all kinds that a hidden order keeps; groups may overlap."""
    ids = [f"s{at:04}" for at in range(steps)]
    hidden = chance.sample(ids, steps)
    made = []
    while len(made) < relations:
        at = chance.randrange(steps)
        near = hidden[max(0, at - 9) : at] + hidden[at + 1 : at + 10]
        members = chance.sample(near, 3)
        size = chance.randint(2, 5)
        relation = chance.choice(
            (
                before(hidden[at], members[0]),
                before_all(hidden[at], members),
                after_any(hidden[at], members),
                together(hidden[at : at + size]),
            )
        )
        if keeps(hidden, relation):
            made.append(relation)
    return ids, made
