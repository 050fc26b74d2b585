"""An order's pairs: whatever keeps them is right, and steps can be brought together."""

from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import all_orders, before, kept_mixed_sets

from armorplan.practice.settled_order import SettledOrder
from armorplan.relations.model import Force


def extensions(settled):
    """Every order that keeps an order's pairs, one step after another."""
    found = [((), 0)]
    for _ in settled.order:
        found = [
            ((*begun, settled.order[at]), done | 1 << at)
            for begun, done in found
            for at in range(len(settled.order))
            if not done >> at & 1 and not settled.before[at] & ~done
        ]
    return {begun for begun, _ in found}


@given(kept_mixed_sets(), st.randoms(use_true_random=False))
def test_every_order_that_keeps_its_pairs_is_right(case, chance):
    steps, relations = case
    right = all_orders(steps, relations)
    order = chance.choice(sorted(right))
    assert order in (kept := extensions(SettledOrder(order, relations)))
    assert kept <= right


@given(kept_mixed_sets(), st.randoms(use_true_random=False))
def test_steps_brought_together_stand_in_a_right_order(case, chance):
    steps, relations = case
    right = all_orders(steps, relations)
    order = chance.choice(sorted(right))
    settled = SettledOrder(order, relations)
    some = settled.bits(chance.sample(steps, chance.randint(1, len(steps))))
    closed = settled.hull(some)
    assert settled.hull(closed) == closed
    inner, ahead = settled.steps(closed), settled.ahead_of(closed)
    behind = [step for step in order if step not in (*inner, *ahead)]
    assert (*ahead, *inner, *behind) in right


@given(kept_mixed_sets())
def test_what_waits_is_what_others_come_before(case):
    steps, relations = case
    settled = SettledOrder(min(all_orders(steps, relations)), relations)
    for at in range(len(steps)):
        for other in range(len(steps)):
            assert settled.before[at] >> other & 1 == settled.after[other] >> at & 1


def test_what_is_usual_and_what_is_to_stay_is_kept_as_it_stands():
    usual = before("b", "c", force=Force.USUAL)
    settled = SettledOrder("abcd", [before("a", "b"), usual], also=[usual], pairs=[("c", "d")])
    assert [settled.steps(ahead) for ahead in settled.before] == [
        (),
        ("a",),
        ("a", "b"),
        tuple("abc"),
    ]
    assert not SettledOrder("abcd", [usual]).before[2]
    assert settled.ahead_of(settled.bits("d")) == tuple("abc")
