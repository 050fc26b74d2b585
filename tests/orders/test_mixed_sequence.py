"""One order with every kind of relation, against every order tried."""

import random
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from orders.test_mixed_standing import tangle
from relations.relation_cases import (
    after_any,
    all_orders,
    apart,
    before,
    keeps,
    kept_mixed_sets,
    mixed_sets,
    together,
)

from armorplan.orders import mixed_sequence
from armorplan.orders.judging import judge_order
from armorplan.orders.sequence import one_order
from armorplan.relations.model import Force
from armorplan.relations.settling import Settled, settle
from armorplan.relations.weighing import binding


def order(steps, *relations):
    return "".join(one_order(steps, relations, key=str).order)


def test_a_group_stands_where_its_smallest_step_would():
    assert order("abcd", together("ad")) == "adbc"
    assert order("abcd", together("bd"), before("c", "b")) == "acbd"


def test_after_any_takes_what_comes_first_anyway():
    assert order("abcd", after_any("a", "dc")) == "bcad"


def test_what_is_overruled_or_apart_steers_nothing():
    overruled = before("b", "a", Force.USUAL, overruled=True)
    assert order("ab", overruled, apart("ab")) == "ab"
    assert one_order("ab", (overruled,), key=str).dropped == ()


def test_what_steers_is_kept_where_it_fits():
    loose = together("ac", Force.USUAL)
    assert order("abc", loose) == "acb"
    assert one_order("abc", (loose, before("a", "b"), before("b", "c")), key=str).dropped == (
        loose,
    )


def test_a_choice_is_settled_otherwise_for_what_steers():
    relations = (after_any("a", "bc"), before("a", "b", Force.USUAL))
    assert order("abc", *relations) == "cab"


@given(mixed_sets(most_relations=9))
def test_an_order_that_keeps_what_binds_or_a_conflict(case):
    steps, relations = case
    found = one_order(steps, relations, key=str)
    assert found.unsettled == ()
    assert bool(found.order) == bool(all_orders(steps, relations)) == (not found.conflict)
    assert not found.order or judge_order(found.order, steps, relations).valid


@given(mixed_sets(most_relations=9, forces=tuple(Force)))
def test_what_is_dropped_did_not_fit_beside_heavier_ones(case):
    steps, relations = case
    found = one_order(steps, relations, key=str)
    if not found.order:
        return
    kept = [r for r in relations if r not in found.dropped]
    assert all(keeps(found.order, relation) for relation in kept)
    heavy = list(binding(relations))
    for force in (Force.EASIER, Force.USUAL):
        heavy += [r for r in kept if r.reason.force is force]
        for relation in found.dropped:
            if relation.reason.force is force:
                assert not all_orders(steps, [*heavy, relation])


def test_hundreds_of_steps_with_every_kind():
    chance = random.Random(4)  # noqa: S311 - the same case on every run
    steps, relations = tangle(chance, steps=400, relations=500)
    found = one_order(steps, relations, key=str)
    assert judge_order(found.order, steps, relations).valid


def test_what_steers_as_a_group_is_kept_beside_a_plain_wish_of_its_weight():
    group, plain = together("ac", Force.USUAL), before("a", "b", Force.USUAL)
    found = one_order("abc", (group, plain, before("b", "c")), key=str)
    assert found.order == tuple("abc")
    assert found.dropped == (group,)


@given(
    kept_mixed_sets(most_relations=5),
    st.lists(st.sets(st.sampled_from("abcdef"), min_size=2, max_size=4), max_size=8),
)
def test_many_groups_are_kept_as_if_tried_one_by_one(case, groups):
    steps, relations = case
    wishes = list(dict.fromkeys(together(g, Force.USUAL) for g in groups if g <= {*steps}))
    kept, dropped = list(binding(relations)), []
    for wish in wishes:
        fits = all_orders(steps, [*kept, wish])
        (kept if fits else dropped).append(wish)
    found = one_order(steps, (*relations, *wishes), key=str)
    assert list(found.dropped) == dropped
    assert all(keeps(found.order, relation) for relation in kept)


def test_groups_are_let_go_where_it_is_not_known_whether_they_fit(monkeypatch):
    monkeypatch.setattr(
        mixed_sequence, "settle", lambda mixed, **_: Settled(active=mixed.fixed, decided=False)
    )
    groups = [together(f"{a}{b}", Force.USUAL) for a, b in pairwise("abcdefghijklmnopqrst")]
    found = one_order("abcdefghijklmnopqrst", (*groups, before("t", "a")), key=str)
    assert set(found.dropped) == set(groups)
    assert found.order == tuple("bcdefghijklmnopqrsta")


def test_groups_are_tried_so_often_and_what_binds_is_kept_all_the_same(monkeypatch):
    tried = []
    monkeypatch.setattr(mixed_sequence, "_MOST_TRIALS", 3)
    monkeypatch.setattr(
        mixed_sequence, "settle", lambda *told, **more: tried.append(told) or settle(*told, **more)
    )
    # Each of these pairs fits by itself, and no three of a ring fit beside each other.
    rings = ("abc", "def", "ghi", "jkl", "mno", "pqr")
    groups = [together(pair, Force.USUAL) for a, b, c in rings for pair in (a + b, b + c, a + c)]
    found = one_order("abcdefghijklmnopqr", (*groups, before("r", "a")), key=str)
    assert len(tried) == 3
    assert found.dropped
    assert judge_order(found.order, "abcdefghijklmnopqr", (before("r", "a"),)).valid
