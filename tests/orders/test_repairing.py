"""The smallest repair against every order tried, with every kind of relation."""

import random
from itertools import combinations, permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from orders.test_mixed_standing import tangle
from relations.relation_cases import all_orders, before, keeps, kept_mixed_sets, together

from armorplan.orders import repairing
from armorplan.orders.repairing import smallest_repair


def test_a_valid_order_needs_no_repair():
    found = smallest_repair("ab", (before("a", "b"),))
    assert (found.order, found.moved, found.exact) == (("a", "b"), (), True)


def test_one_step_done_too_late_is_moved_and_not_all_that_wait_for_it():
    relations = tuple(before("z", step) for step in "abcde")
    found = smallest_repair("abcdez", relations)
    assert found.order == tuple("zabcde")
    assert found.moved == ("z",)
    assert found.at_least == 1


def test_without_any_valid_order_there_is_no_repair():
    assert smallest_repair("ab", (before("a", "b"), before("b", "a"))) is None


def test_what_is_around_stays_where_it_is():
    relations = (together("xa"), together("cy"))
    found = smallest_repair("bca", relations, before="x", after="y")
    assert found.order == tuple("abc")
    assert found.moved == ("a",)


@given(kept_mixed_sets(most_relations=9), st.randoms(use_true_random=False))
def test_the_repair_is_the_smallest_by_trying_every_order(case, chance):
    steps, relations = case
    valid = all_orders(steps, relations)
    order = chance.choice(sorted(valid))
    at = chance.randint(0, len(order) - 1)
    size = chance.randint(1, len(order) - at)
    before, inner, after = order[:at], order[at : at + size], order[at + size :]
    given = tuple(chance.sample(inner, size))
    right = {middle for middle in permutations(inner) if before + middle + after in valid}
    found = smallest_repair(given, relations, before=before, after=after)
    assert found.exact
    assert found.order in right
    assert len(found.moved) == size - longest_in_common(given, found.order)
    assert len(found.moved) == min(size - longest_in_common(given, other) for other in right)
    stays = [step for step in given if step not in found.moved]
    assert [step for step in found.order if step in stays] == stays


def longest_in_common(one, other):
    """Return how many steps stand in the same order in both, as many as can be picked."""
    return next(
        count
        for count in range(len(one), -1, -1)
        for picked in combinations(one, count)
        if [step for step in other if step in picked] == list(picked)
    )


@pytest.mark.parametrize("most_work", [0, 300, 3000])
def test_beyond_the_limit_a_repair_is_given_with_its_bound(monkeypatch, most_work):
    monkeypatch.setattr(repairing, "MOST_WORK", most_work)
    chance = random.Random(1)  # noqa: S311 - the same case on every run
    steps, relations = tangle(chance, steps=40, relations=60)
    found = smallest_repair(sorted(steps), relations)
    assert all(keeps(found.order, relation) for relation in relations)
    assert found.at_least <= len(found.moved)
    assert found.exact == (found.at_least == len(found.moved))


def test_a_step_that_only_stands_between_two_may_be_the_one_to_move():
    # The c between d and b belongs to neither relation that speaks of d and b.
    relations = (together("eca"), before("e", "a"), together("edab"))
    found = smallest_repair("aedcb", relations)
    assert found.exact
    assert found.moved == ("a", "c")
    assert all(keeps(found.order, relation) for relation in relations)


def test_where_a_conflict_is_not_found_in_time_the_repair_claims_no_more_than_was_proved(
    monkeypatch,
):
    monkeypatch.setattr(repairing, "find_conflict", lambda *_: ())
    relations = (
        *(before(one, other) for one, other in ("cb", "db", "ad")),
        together("be"),
        together("cd"),
    )
    found = smallest_repair("cebda", relations)
    assert all(keeps(found.order, relation) for relation in relations)
    assert (found.moved, found.at_least, found.exact) == (("d", "a"), 1, False)
