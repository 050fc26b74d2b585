from itertools import pairwise
from math import factorial

import pytest
from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import (
    after_any,
    all_orders,
    before,
    before_all,
    kept_sets,
    mixed_sets,
    relation_sets,
    together,
)

from armorplan.relations.counting import Count, count_orders


def test_no_relations_leave_every_order():
    assert count_orders("abcdef", ()) == Count(number=720, exact=True)
    assert count_orders("", ()) == Count(number=1, exact=True)


def test_a_conflict_leaves_none():
    assert count_orders("ab", (before("a", "b"), before("b", "a"))) == Count(number=0, exact=True)


def test_before_all_takes_away_only_the_orders_with_it_last():
    assert count_orders("abc", (before_all("a", "bc"),)).number == factorial(3) - 2


def test_groups_multiply_beyond_any_enumeration():
    pairs = [(f"a{at}", f"b{at}") for at in range(300)]
    counted = count_orders(
        [step for pair in pairs for step in pair], [before(*pair) for pair in pairs]
    )
    assert counted == Count(number=factorial(600) // 2**300, exact=True)


def test_a_long_alternation_of_series_and_groups_is_exact():
    # A comb: the spine in a row, and from each of its steps one tooth; by the hook formula.
    spine = [f"s{at:03}" for at in range(60)]
    teeth = [f"t{at:03}" for at in range(60)]
    relations = [before(a, b) for a, b in pairwise(spine)]
    relations += [before(a, b) for a, b in zip(spine, teeth, strict=True)]
    hooks = 1
    for at in range(60):
        hooks *= 2 * (60 - at)
    assert count_orders(spine + teeth, relations) == Count(
        number=factorial(120) // hooks, exact=True
    )


def test_beyond_the_limit_it_says_at_least_and_is_not_far_below():
    # Two rows of ten with a relation across every pair: Catalan number 16796.
    lower, upper = [f"l{at}" for at in range(10)], [f"u{at}" for at in range(10)]
    relations = [before(a, b) for a, b in zip(lower, upper, strict=True)]
    for row in (lower, upper):
        relations += [before(a, b) for a, b in pairwise(row)]
    assert count_orders(lower + upper, relations, most_states=66) == Count(
        number=16796, exact=True
    )
    bounded = count_orders(lower + upper, relations, most_states=40)
    assert not bounded.exact
    assert 100 < bounded.number < 16796


@pytest.mark.parametrize(
    ("count", "said"),
    [
        (Count(number=1234, exact=True), "1,234"),
        (Count(number=1234, exact=False), "at least 1,234"),
        (Count(number=1_299_999_999, exact=True), "about 1.2 × 10^9"),
        (Count(number=10**40, exact=False), "at least 1.0 × 10^40"),
        (Count(number=10**40 - 1, exact=False), "at least 9.9 × 10^39"),
        (Count(number=25 * 10**6000, exact=False), "at least 2.5 × 10^6001"),
    ],
)
def test_counts_are_said_without_rounding_up(count, said):
    assert str(count) == said


@given(relation_sets())
def test_trying_every_order_agrees(case):
    steps, relations = case
    assert count_orders(steps, relations) == Count(
        number=len(all_orders(steps, relations)), exact=True
    )


@given(kept_sets(), st.integers(0, 12))
def test_a_bound_never_exceeds_the_count(case, most_states):
    steps, relations = case
    truth = len(all_orders(steps, relations))
    counted = count_orders(steps, relations, most_states=most_states)
    assert 1 <= counted.number <= truth
    assert counted.number == truth or not counted.exact


@given(relation_sets(most_relations=6), st.data())
def test_adding_a_relation_never_adds_an_order(case, data):
    steps, relations = case
    at = data.draw(st.integers(0, len(relations)))
    assert count_orders(steps, relations).number <= count_orders(steps, relations[:at]).number


def test_steps_done_in_one_go_count_as_one_thing():
    assert count_orders("abcde", (together("abc"),)).number == 3 * 2 * 6
    assert count_orders("abc", (together("ab"), together("bc"))).number == 2


def test_after_any_takes_away_only_the_orders_with_it_first():
    assert count_orders("abcd", (after_any("a", "bcd"),)).number == 24 - 6


def test_after_any_is_before_all_read_backwards():
    steps = [f"s{at:02}" for at in range(12)]
    pairs = [(steps[at], (steps[at + 2], steps[at + 3])) for at in range(0, 9, 3)]
    back = count_orders(steps, [before_all(first, others) for first, others in pairs])
    assert count_orders(steps, [after_any(then, others) for then, others in pairs]) == back


@given(mixed_sets(most_relations=8))
def test_trying_every_order_agrees_with_every_kind(case):
    steps, relations = case
    count = count_orders(steps, relations)
    assert count.exact
    assert count.number == len(all_orders(steps, relations))


@given(mixed_sets(most_relations=8), st.integers(0, 6))
def test_a_bound_never_exceeds_the_count_with_every_kind(case, most_states):
    steps, relations = case
    orders = len(all_orders(steps, relations))
    bounded = count_orders(steps, relations, most_states=most_states)
    assert bounded.number <= orders
    assert bounded.number == orders or not bounded.exact
    assert bool(bounded.number) == bool(orders)


def test_too_many_cases_leave_a_bound():
    steps = [f"s{at:02}" for at in range(40)]
    relations = [after_any(steps[at], steps[at + 1 : at + 9]) for at in range(30)]
    count = count_orders(steps, relations)
    assert not count.exact
    assert count.number > 0
