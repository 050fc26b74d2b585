"""The fewest rounds against trying every choice, and the checker against planted faults."""

import threading
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from orders.pinning.random_pins import fewest_by_trying, problems

from armorplan.orders.pinning import exact
from armorplan.orders.pinning.bounds import fewest_by_counting
from armorplan.orders.pinning.checking import faults_of
from armorplan.orders.pinning.limits import limits_of
from armorplan.orders.pinning.matching import Pinned, has_pins, most_pins
from armorplan.orders.pinning.model import PinProblem, PinSpot, PinStock, Rounds, SeamNeed
from armorplan.orders.pinning.rounds import Fewest, fewest_rounds
from armorplan.solving import cpsat
from armorplan.solving.model import Answer, Outcome

PLENTY = PinStock(counts={"pin": None})


def solve(model):
    return cpsat.solve(model, threading.Event())


def seam(name, needs=2, kinds=("pin",)):
    return SeamNeed(
        id=name, spots=tuple(PinSpot(joint=f"{name}.{at}", kinds=kinds) for at in range(needs))
    )


def problem(seams, together=(), most=None, stock=PLENTY):
    return PinProblem(
        seams=tuple(seams), together=tuple(together), stock=replace(stock, most=most)
    )


@settings(max_examples=12)
@given(problems(most_seams=4))
def test_the_solver_finds_the_fewest_and_proves_it(drawn):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(exact, "MOST_SETS", 0)
        found = fewest_rounds(drawn, solve)
    assert faults_of(drawn, found) == ()
    assert len(found.rounds) == fewest_by_trying(drawn) == found.bound
    assert found.proved


@settings(max_examples=12)
@given(problems(), st.sampled_from([0, 3, 15_000]))
def test_without_a_solver_rounds_hold_and_the_bound_is_one(drawn, budget):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(exact, "MOST_TRIED", budget)
        found = fewest_rounds(drawn)
    assert faults_of(drawn, found) == ()
    assert found.bound <= fewest_by_trying(drawn) <= len(found.rounds)
    assert found.proved or budget < 15_000


@pytest.mark.long
@settings(max_examples=1000)
@given(problems())
def test_many_are_the_fewest(drawn):
    """By sets of seams, by the solver alone, and without it within any budget."""
    found = fewest_rounds(drawn, solve)
    assert faults_of(drawn, found) == ()
    assert len(found.rounds) == fewest_by_trying(drawn)


@settings(max_examples=12)
@given(problems(), st.randoms(use_true_random=False))
def test_sums_tell_whether_seams_have_their_pins(drawn, chance):
    names = [seam.id for seam in drawn.seams]
    on = [name for name in names if chance.random() < 0.6]
    places = [names.index(name) for name in on]
    holds = all(sum(needs[at] for at in places) <= held for needs, held in limits_of(drawn))
    assert holds == has_pins(drawn.spots(on), drawn.stock)


def test_with_plenty_all_is_on_at_once():
    rows = [seam(name) for name in "abcd"]
    found = fewest_rounds(problem(rows, [("a", "b"), ("c", "d"), ("a", "d")]))
    assert found == Rounds(rounds=(("a", "b", "c", "d"),), bound=1)


def test_neighbours_are_seen_together_with_the_pins_of_two_rows():
    rows = [seam(name) for name in "abc"]
    found = fewest_rounds(problem(rows, [("a", "b"), ("b", "c"), ("a", "c")], most=4))
    assert {frozenset(on) for on in found.rounds} == {
        frozenset("ab"),
        frozenset("bc"),
        frozenset("ac"),
    }
    assert found.proved


def test_a_pin_of_another_kind_makes_room():
    stock = PinStock(counts={"pin": 1, "thick": 1})
    either, only = (
        PinSpot(joint="either", kinds=("pin", "thick")),
        PinSpot(joint="only", kinds=("pin",)),
    )
    pinned = Pinned(stock)
    assert pinned.put_all((either, only))
    assert pinned.kinds == {"either": "thick", "only": "pin"}
    assert not pinned.put(replace(only, joint="third"))
    assert len(pinned) == 2


def test_what_there_are_too_few_pins_for_is_told():
    rows = [seam("a"), seam("b"), seam("wide", 5), seam("odd", kinds=())]
    found = fewest_rounds(problem(rows, [("a", "b"), ("a", "wide")], most=3))
    assert found.unpinned == ("wide", "odd")
    assert found.apart == (("a", "b"),)
    assert found.rounds == (("a",), ("b",))


def test_all_that_is_worn_at_once_is_in_one_round():
    rows = [seam(name) for name in "abcde"]
    found = fewest_rounds(problem(rows, [("a", "e"), ("a", "b", "c")], most=6))
    assert any({*"abc"} <= {*on} for on in found.rounds)


def test_a_pair_is_asked_once(monkeypatch):
    monkeypatch.setattr(exact, "MOST_TRIED", 0)
    asked = []

    def at_a_loss(model):
        asked.append(model)
        return Answer(status=Outcome.OUT_OF_TIME)

    # Seven rows, four at once: counting says four rounds, and no four do.
    rows = [seam(name, 1) for name in "abcdefg"]
    pairs = [(a.id, b.id) for at, a in enumerate(rows) for b in rows[at + 1 :]]
    left = problem(rows, pairs, most=4)
    right = replace(
        left,
        seams=tuple(
            replace(
                s, id=f"{s.id}.r", spots=tuple(replace(x, joint=f"{x.joint}.r") for x in s.spots)
            )
            for s in left.seams
        ),
        together=tuple((f"{a}.r", f"{b}.r") for a, b in left.together),
    )
    fewest = Fewest(at_a_loss)
    one, other = fewest(left), fewest(right)
    assert len(asked) == 1
    assert not one.proved
    assert [[f"{s}.r" for s in on] for on in one.rounds] == [list(on) for on in other.rounds]
    assert faults_of(right, other) == ()


def test_counting_alone_knows_how_often_one_has_to_be_on():
    rows = [seam("hub"), *(seam(f"t{at}") for at in range(6))]
    found = problem(rows, [("hub", f"t{at}") for at in range(6)], most=6)
    assert fewest_by_counting(found) == 3 == len(fewest_rounds(found).rounds)


@pytest.mark.parametrize(
    ("rounds", "told"),
    [
        ((("a",),), "b is in no round"),
        ((("a",), ("b",)), "a and b are never on together"),
        ((("a", "b"),), "Round 1 takes 4 pins of 3"),
    ],
)
def test_the_checker_finds_what_is_wrong(rounds, told):
    checked = problem([seam("a"), seam("b")], [("a", "b")], most=3)
    said = " ".join(faults_of(checked, Rounds(rounds=rounds, bound=0)))
    assert told in said


def test_the_checker_counts_kinds():
    stock = PinStock(counts={"pin": 3})
    checked = problem([seam("a"), seam("b")], stock=stock)
    assert "Round 1 takes 4 pins" in faults_of(checked, Rounds(rounds=(("a", "b"),), bound=1))[0]
    assert most_pins(checked.spots("ab"), stock) == 3
    assert not has_pins(checked.spots("ab"), stock)
