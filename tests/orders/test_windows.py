"""A window opens once nothing else stands before what has to follow within it."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st
from relations.relation_cases import before

from armorplan.orders.sequence import one_order
from armorplan.orders.windows import windows
from armorplan.relations.model import Force

STEPS = "abcdefgh"


def window(first, then, most=60):
    return replace(before(first, then), max_lag_min=most)


def pairs(*relations):
    return sorted((wish.first, wish.then) for wish in windows(relations))


def ancestors(step, edges):
    found, todo = set(), [step]
    while todo:
        at = todo.pop()
        new = {a for a, b in edges if b == at} - found
        found |= new
        todo += new
    return found


def test_what_goes_before_the_second_step_goes_before_the_first():
    assert pairs(window("case", "form"), before("stamp", "form")) == [("stamp", "case")]


def test_one_window_behind_another_opens_the_first_last():
    relations = (window("a", "b"), window("b", "c"), before("x", "c"))
    assert pairs(*relations) == [("x", "a"), ("x", "b")]


def test_without_a_most_there_is_no_window():
    assert pairs(before("a", "b"), before("x", "b")) == []


def test_a_step_with_a_small_key_waits_until_its_window_can_be_kept():
    relations = (window("a", "c"), before("x", "c"), before("d", "x"))
    assert one_order("abcdx", relations, key=str).order == tuple("bdxac")


def test_what_has_to_stand_in_the_window_stays_there_and_nothing_is_called_dropped():
    found = one_order("abx", (window("a", "b"), before("a", "x"), before("x", "b")), key=str)
    assert found.order == tuple("axb")
    assert found.dropped == ()


def test_a_window_weighs_more_than_what_only_steers():
    steering = before("a", "x", Force.EASIER, price_min=90)
    found = one_order("abx", (window("a", "b"), before("x", "b"), steering), key=str)
    assert found.order == tuple("xab")
    assert found.dropped == (steering,)


@given(st.sets(st.tuples(*[st.sampled_from(STEPS)] * 2), max_size=14), st.data())
def test_of_one_window_all_that_goes_before_its_end_stands_before_its_start(drawn, data):
    edges = {(a, b) for a, b in drawn if a < b}
    first, then = data.draw(st.sampled_from([(a, b) for a in STEPS for b in STEPS if a < b]))
    places = data.draw(st.permutations(STEPS))
    relations = (window(first, then), *(before(a, b) for a, b in sorted(edges - {(first, then)})))
    edges.add((first, then))
    order = one_order(STEPS, relations, key=places.index).order
    place = {step: at for at, step in enumerate(order)}
    assert sorted(order) == sorted(STEPS)
    assert all(place[a] < place[b] for a, b in edges)
    # Whatever of it does not itself wait for the window's first step.
    for step in ancestors(then, edges) - {first}:
        assert place[step] < place[first] or first in ancestors(step, edges)


def test_rings_of_windows_are_a_conflict_and_no_endless_walk():
    ring = (window("a", "b"), window("b", "a"))
    assert one_order("ab", ring, key=str).order == ()
    assert set(one_order("ab", ring, key=str).conflict) == set(ring)
