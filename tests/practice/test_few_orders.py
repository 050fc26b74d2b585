"""All right orders of a few steps: as trying every order finds them."""

import random
from collections import Counter
from itertools import permutations
from math import factorial

import pytest
from hypothesis import given
from hypothesis import strategies as st
from practice.few_cases import few_of, right_orders
from relations.relation_cases import (
    after_any,
    all_orders,
    before,
    before_all,
    kept_mixed_sets,
    mixed_sets,
    together,
)

from armorplan.practice.few_orders import FewOrders
from armorplan.relations.index import named_steps
from armorplan.relations.model import Force


def can_be_kept(relation):
    """Nothing stands before itself: what asks for that has no order at all, and no exercise."""
    return len(named_steps(relation)) > 1


@given(mixed_sets(most_steps=5))
def test_right_is_what_keeps_every_relation(case):
    steps, every = case
    relations = list(filter(can_be_kept, every))
    few = FewOrders(steps, relations)
    right = set(right_orders(steps, relations))
    assert few.count == len(right)
    assert set(few.orders()) == right
    assert {order for order in permutations(steps) if few.is_right(order)} == right


@given(kept_mixed_sets(), st.randoms(use_true_random=False))
def test_what_comes_before_and_after_counts(case, chance):
    steps, relations = case
    right = sorted(all_orders(steps, relations))
    whole = chance.choice(right)
    inside = slice(len(whole) // 3, len(whole) - len(whole) // 3)
    ahead, inner, behind = whole[: inside.start], whole[inside], whole[inside.stop :]
    few = FewOrders(inner, relations, before=ahead, after=behind)
    fits = {one[inside] for one in right if (*ahead, *one[inside], *behind) == one}
    assert set(few.orders()) == fits


def test_usual_practice_does_not_count():
    assert FewOrders("ab", [before("a", "b", Force.USUAL)]).count == 2


def test_each_kind_is_kept():
    assert set(FewOrders("abc", [before_all("a", "bc")]).orders()) == set(
        right_orders("abc", [before_all("a", "bc")])
    )
    assert FewOrders("abc", [after_any("a", "bc")]).count == 4
    assert FewOrders("abc", [together("ab")]).count == 4
    assert FewOrders("ab", [before("a", "b"), before("b", "a")]).count == 0


def test_other_steps_make_no_right_order():
    few = FewOrders("ab", [])
    assert not few.is_right("a")
    assert not few.is_right("abb")
    assert not few.is_right("az")


def test_no_more_steps_are_taken_than_an_exercise_has():
    with pytest.raises(ValueError, match="13 steps"):
        FewOrders("abcdefghijklm", [])
    with pytest.raises(ValueError, match="each once"):
        FewOrders("aa", [])


def test_every_right_order_is_drawn_as_often():
    few = few_of("abcd", ["ab", "cd"])
    chance = random.Random(7)  # noqa: S311 - orders, not secrets
    drawn = Counter(few.drawn(chance) for _ in range(1200))
    assert set(drawn) == set(few.orders())
    # Of 200 each, 60 off is more than four standard deviations (binomial).
    assert all(140 <= times <= 260 for times in drawn.values())
    assert FewOrders("ab", [before("a", "b"), before("b", "a")]).drawn(chance) == ()


@given(kept_mixed_sets())
def test_a_way_leads_to_every_state(case):
    steps, relations = case
    few = FewOrders(steps, relations)
    for done in few.ways:
        begun = few.way_to(done)
        assert few.bits(begun) == done
        assert any(order[: len(begun)] == begun for order in few.orders())


def test_a_dozen_free_steps_are_counted():
    assert few_of(range(12), []).count == factorial(12)
