from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import all_orders, before, before_all, relation_sets

from armorplan.relations.completing import can_finish


def test_an_order_is_found_where_one_exists():
    found = can_finish("abc", (), (before("b", "a"), before_all("c", "ab")))
    assert found.possible
    assert found.order in all_orders("abc", (before("b", "a"), before_all("c", "ab")))
    assert found.stuck == ()


def test_a_dead_end_is_seen_from_a_prefix_that_breaks_nothing():
    # b cannot come before f, so f has to come before x: once x is done, f is stuck for good.
    relations = (before_all("f", "xb"), before("b", "f"))
    assert can_finish("fxb", (), relations).possible
    assert can_finish("xf", "b", relations).possible
    after_x = can_finish("bf", "x", relations)
    assert not after_x.possible
    assert set(after_x.stuck) == {"b", "f"}


def test_the_stuck_core_leaves_out_what_merely_comes_earlier():
    relations = (before("a", "b"), before("b", "c"), before("c", "d"), before("d", "c"))
    found = can_finish("abcde", (), relations)
    assert not found.possible
    assert found.order == ()
    assert found.stuck == ("c", "d")


def test_a_relation_already_broken_leaves_its_step_stuck():
    assert can_finish("ac", "b", (before("a", "b"),)).stuck == ("a",)


def test_what_can_never_hold_is_stuck_by_itself():
    assert can_finish("ab", (), (before("a", "a"), before("b", "a"))).stuck == ("a",)


@given(relation_sets(), st.randoms(use_true_random=False))
def test_every_order_tried_agrees(case, random):
    steps, relations = case
    placed = tuple(random.sample(steps, random.randint(0, len(steps))))
    remaining = tuple(step for step in steps if step not in placed)
    # What the prefix kept or broke among itself no longer matters; what it broke for good does.
    open_relations = [r for r in relations if r.first in remaining]
    valid = {
        order[len(placed) :]
        for order in all_orders(steps, open_relations)
        if order[: len(placed)] == placed
    }
    found = can_finish(remaining, placed, relations)
    assert found.possible == bool(valid)
    assert bool(found.stuck) != found.possible
    assert not found.possible or found.order in valid
