"""All kinds together: satisfiability, completions and conflicts against every order tried."""

import random

import pytest
from hypothesis import given
from hypothesis import strategies as st
from relations.conflict_law import is_satisfiable_or_a_true_conflict
from relations.relation_cases import (
    after_any,
    all_orders,
    apart,
    before,
    before_all,
    keeps,
    kept_mixed_sets,
    mixed_sets,
    together,
    way_on,
)

from armorplan.relations.conflict import find_conflict
from armorplan.relations.index import index_relations
from armorplan.relations.mixing import mix
from armorplan.relations.model import AfterAny, Before, BeforeAll
from armorplan.relations.settling import settle


def test_after_any_needs_one_of_them():
    found = way_on("abc", (after_any("a", "bc"),))
    assert found[0] != "a"
    assert way_on("a", (after_any("a", "a"),)) is None


def test_steps_done_in_one_go_stand_side_by_side():
    relations = (together("ac"), before("b", "c"), before("a", "d"))
    assert way_on("abcd", relations)[0] == "b"
    assert find_conflict("abc", (together("ac"), before("a", "b"), before("b", "c")))


def test_groups_that_share_steps_stand_in_a_series():
    relations = (together("ab"), together("bc"), together("cd"))
    orders = {"".join(order) for order in all_orders("abcd", relations)}
    assert orders == {"abcd", "dcba"}
    assert "".join(way_on("abcd", (*relations, before("c", "b")))) == "dcba"


def test_three_pairs_of_three_steps_around_a_fourth_cannot_all_be_in_one_go():
    relations = (together("ad"), together("bd"), together("cd"), before("a", "b"))
    assert set(find_conflict("abcd", relations)) == set(relations[:3])


def test_a_group_that_was_begun_is_finished_first():
    relations = (together("abc"),)
    assert set(way_on("bcd", relations, after="a")[:2]) == {"b", "c"}
    assert way_on("cb", relations, after="ad") is None


def test_a_dead_end_is_seen_after_steps_that_break_nothing():
    # f comes after b, so that it has to come before x: once x is done, f is stuck for good.
    relations = (before_all("f", "xb"), before("b", "f"))
    assert way_on("fxb", relations) == tuple("bfx")
    assert way_on("xf", relations, after="b") == tuple("fx")
    assert way_on("bf", relations, after="x") is None


def test_before_all_is_kept_inside_a_group_or_outside():
    relations = (together("ab"), before_all("a", "bc"), before("c", "a"))
    assert way_on("abc", relations) == tuple("cab")


def test_what_is_apart_or_overruled_hinders_no_order():
    relations = (apart("ab"), before("a", "b"), before("b", "a", overruled=True))
    assert way_on("ab", relations) == tuple("ab")
    assert find_conflict("ab", relations) == ()


@given(mixed_sets(), st.randoms(use_true_random=False))
def test_every_order_tried_agrees(case, chance):
    steps, relations = case
    orders = all_orders(steps, relations)
    found = way_on(steps, relations)
    assert found in orders if orders else found is None
    done = tuple(chance.sample(steps, chance.randint(0, len(steps))))
    left = tuple(step for step in steps if step not in done)
    rest = [r for r in relations if not is_history(r, done)]
    onward = {o for o in all_orders(steps, rest) if o[: len(done)] == done}
    found = way_on(left, relations, after=done)
    assert (*done, *found) in onward if onward else found is None


def is_history(relation, done):
    """Tell whether nothing that is left can keep or break a relation any more."""
    if isinstance(relation, AfterAny):
        others = relation.of - {relation.then}
        return not others.isdisjoint(done) or (relation.then in done and not others)
    if isinstance(relation, Before | BeforeAll):
        return relation.first in done
    return relation.of <= set(done)


@given(mixed_sets(most_relations=9))
def test_satisfiable_or_a_true_conflict_of_which_none_can_be_left_out(case):
    is_satisfiable_or_a_true_conflict(*case)


@given(kept_mixed_sets(most_steps=8, most_relations=14))
def test_what_an_order_keeps_is_found_to_be_possible(case):
    steps, relations = case
    found = way_on(steps, relations)
    assert all(keeps(found, relation) for relation in relations)


@pytest.mark.parametrize("seed", range(20))
def test_betweenness_of_a_hidden_order_is_found(seed):
    """'b between a and c' in both directions, as two blocks may say it: a hard case."""
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    steps = [f"s{at:02}" for at in range(24)]
    hidden = chance.sample(steps, len(steps))
    relations = []
    while len(relations) < 60:
        at = sorted(chance.sample(range(len(steps)), 3))
        low, middle, high = (hidden[place] for place in at)
        relations.append(after_any(middle, (low, high)))
        relations.append(before_all(middle, (low, high)))
    index = index_relations(steps, relations)
    found = settle(mix(index, index.left_after(()), bytearray(b"\x01" * len(relations))))
    assert found.decided
    assert found.possible
