"""Steps gathered round a relation: closed, no more than asked, tied to each other."""

import random
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import all_orders, before, before_all, kept_mixed_sets

from armorplan.practice.gathering import Gathering
from armorplan.practice.settled_order import SettledOrder


def gathering(order, relations, kind=str):
    return Gathering(SettledOrder(order, relations), relations, kind)


@given(kept_mixed_sets(), st.integers(1, 6), st.randoms(use_true_random=False))
def test_what_is_gathered_is_closed_and_no_more_than_asked(case, size, chance):
    steps, relations = case
    made = gathering(min(all_orders(steps, relations)), relations)
    everything = made.settled.bits(steps)
    for relation in relations[:3]:
        start = made.around(relation)
        found = made.grown(start, everything, size, wanted=0, chance=chance)
        assert found & start == start
        assert made.settled.hull(found) == found
        assert found.bit_count() <= max(size, start.bit_count())


def test_only_what_is_in_the_pool_is_taken():
    order = "abcdef"
    made = gathering(order, [before(a, b) for a, b in pairwise(order)])
    pool = made.settled.bits("abcd")
    found = made.grown(made.settled.bits("bc"), pool, 6, wanted=0, chance=fixed())
    assert made.settled.steps(found) == tuple("abcd")


def test_what_is_to_be_kept_apart_never_meets():
    order = "abcd"
    relations = [before(a, b) for a, b in pairwise(order)]
    apart = [0b1000, 0, 0, 0b0001]
    made = Gathering(SettledOrder(order, relations), relations, str, apart=apart)
    assert not made.may_meet(0b1001)
    assert made.may_meet(0b1110)
    found = made.grown(0b0010, 0b1111, 4, wanted=0, chance=fixed())
    assert found in (0b0111, 0b1110)


def test_what_lies_between_is_brought_along():
    made = gathering("abc", [before("a", "b"), before("b", "c"), before("a", "c")])
    assert made.settled.steps(made.around(before("a", "c"))) == tuple("abc")


def test_of_the_last_of_some_the_last_counts():
    made = gathering("abcd", [before_all("c", "abd")])
    assert made.settled.steps(made.around(before_all("c", "abd"))) == ("c", "d")


def test_a_new_rule_and_another_kind_are_rather_taken():
    order = "abcde"
    relations = [before("a", one) for one in "bcde"]
    made = gathering(order, relations, {"a": "x", "b": "y", "c": "y", "d": "y", "e": "z"}.get)
    start = made.settled.bits("ab")
    taken = [made.grown(start, 31, 3, wanted=0, chance=fixed(n)) for n in range(20)]
    with_e = sum(bool(one & made.settled.bits("e")) for one in taken)
    assert with_e > 10


def test_relations_that_bear_on_a_step_may_end_outside():
    relations = [before("a", "b"), before("c", "d"), before("b", "c")]
    made = gathering("abcd", relations)
    bits = made.settled.bits
    assert made.bearing_on(bits("b"), bits("b")) == [relations[0], relations[2]]


def fixed(seed=1):
    return random.Random(seed)  # noqa: S311 - a drill, not a secret
