"""The checker is silent on a plan that holds, and names every kind of fault planted in it."""

from dataclasses import replace

import pytest
from schedule.small_problems import by_hand, kinds, plan_of, problem, waiting

from armorplan.schedule.activity import Demand
from armorplan.schedule.checker import violations
from armorplan.schedule.problem import EndsBeforeLast, Lag, Resource, Stage, Status, Worker
from armorplan.schedule.table import Table

DYE = by_hand("dye")
DRY = waiting("dry", 30, demands=(Demand(resource="rack", amount=1),))
RIVET = by_hand("rivet")
BENCH = problem(
    DYE,
    DRY,
    RIVET,
    lags=(Lag(first="dye", then="dry", max_lag=0), Lag(first="dry", then="rivet", max_lag=15)),
    resources=(Resource(id="rack", capacity=1),),
)
HELD = (("dye", 0, 10), ("dry", 10, 40), ("rivet", 45, 55))


def test_silent_on_a_plan_that_holds():
    assert violations(BENCH, plan_of(BENCH, *HELD)) == ()


@pytest.mark.parametrize(
    ("place", "kind"),
    [
        (("dye", 0, 11), "duration"),
        (("dye", -10, 0), "too early"),
        (("dye", 55, 65), "outside hours"),
        (("rivet", 39, 49), "too soon"),
        (("rivet", 115, 125), "too long after"),
        (("dry", 12, 42), "too long after"),
        (("rivet", 5, 15), "two at once"),
        (("rivet", 45, 55, None), "wrong person"),
        (("dry", 10, 40, "m"), "wrong person"),
        (("rivet", 45, 55, "stranger"), "wrong person"),
        (("rivet", 195, 205), "too late"),
    ],
)
def test_names_a_fault_of_one_place(place, kind):
    places = [place if known[0] == place[0] else known for known in HELD]
    assert kind in kinds(BENCH, plan_of(BENCH, *places))


def test_names_what_is_missing_unknown_or_twice():
    assert "missing" in kinds(BENCH, plan_of(BENCH, *HELD[:2]))
    assert "unknown" in kinds(BENCH, plan_of(BENCH, *HELD, ("varnish", 56, 58)))
    assert "twice" in kinds(BENCH, plan_of(BENCH, *HELD, HELD[0]))


def test_one_thing_at_a_time_but_touching_and_empty_ones_are_fine():
    bench = problem(by_hand("a"), by_hand("b"), by_hand("look", 0))
    assert kinds(bench, plan_of(bench, ("a", 0, 10), ("b", 10, 20), ("look", 5, 5))) == set()
    assert kinds(bench, plan_of(bench, ("a", 0, 10), ("b", 9, 19), ("look", 5, 5))) == {
        "two at once"
    }


def test_a_long_one_is_compared_with_all_that_follow():
    bench = problem(by_hand("long", 30), by_hand("a", 5), by_hand("b", 5))
    plan = plan_of(bench, ("long", 0, 30), ("a", 40, 45), ("b", 20, 25))
    (fault,) = violations(bench, plan)
    assert fault.about == ("long", "b")


def test_capacity_is_counted_moment_by_moment():
    rack = (Demand(resource="rack", amount=1),)
    bench = problem(
        *(waiting(n, 10, demands=rack) for n in "abc"),
        resources=(Resource(id="rack", capacity=2),),
    )
    assert kinds(bench, plan_of(bench, ("a", 0, 10), ("b", 5, 15), ("c", 10, 20))) == set()
    plan = plan_of(bench, ("a", 0, 10), ("b", 5, 15), ("c", 9, 19))
    (fault,) = violations(bench, plan)
    assert fault.kind == "over capacity"
    assert fault.about == ("a", "b", "c")


def test_ends_before_the_last_of_several():
    bench = problem(
        waiting("rivet"),
        waiting("left"),
        waiting("right"),
        before_last=(EndsBeforeLast(first="rivet", of=frozenset({"left", "right"})),),
    )
    before_one = plan_of(bench, ("left", 0, 10), ("rivet", 5, 15), ("right", 15, 25))
    after_both = plan_of(bench, ("left", 0, 10), ("rivet", 6, 16), ("right", 15, 25))
    assert kinds(bench, before_one) == set()
    assert kinds(bench, after_both) == {"not before the last"}


def test_a_table_gives_the_duration():
    night = Table(grid_min=15, ready=(20, 50))
    bench = problem(waiting("dry", table=night))
    assert kinds(bench, plan_of(bench, ("dry", 3, 20))) == set()
    assert kinds(bench, plan_of(bench, ("dry", 16, 50))) == set()
    assert kinds(bench, plan_of(bench, ("dry", 16, 46))) == {"duration"}
    assert kinds(bench, plan_of(bench, ("dry", 40, 61))) == set()


def test_history_lies_where_it_lies_and_breaks_no_rule_by_itself():
    begun = {"fixed_start_min": -20, "fixed_end_min": 5}
    bench = problem(
        by_hand("a", **begun),
        by_hand("b", **begun),
        by_hand("c"),
        lags=(Lag(first="a", then="b"), Lag(first="b", then="c", min_lag=5)),
        windows=((5, 60),),
    )
    history = (("a", -20, 5), ("b", -20, 5))
    assert kinds(bench, plan_of(bench, *history, ("c", 10, 20))) == set()
    assert kinds(bench, plan_of(bench, *history, ("c", 5, 15))) == {"too soon"}
    moved = (("a", -19, 5), ("b", -20, 5), ("c", 10, 20))
    assert kinds(bench, plan_of(bench, *moved)) == {"moved"}
    shorter = (("a", -20, 0), ("b", -20, 5), ("c", 10, 20))
    assert kinds(bench, plan_of(bench, *shorter)) == {"duration"}


def test_what_is_under_way_still_keeps_its_person_busy():
    bench = problem(by_hand("a", fixed_start_min=0, fixed_end_min=20), by_hand("b"))
    assert kinds(bench, plan_of(bench, ("a", 0, 20), ("b", 15, 25))) == {"two at once"}


def test_hours_are_those_of_the_person_named():
    workers = (Worker(id="m", windows=((0, 60),)), Worker(id="n", windows=((100, 160),)))
    both = replace(by_hand("a"), people=("m", "n"))
    bench = problem(both, workers=workers)
    assert kinds(bench, plan_of(bench, ("a", 100, 110, "n"))) == set()
    assert kinds(bench, plan_of(bench, ("a", 100, 110, "m"))) == {"outside hours"}


@pytest.mark.parametrize(
    ("stage", "kind"),
    [
        (Stage(name="finish", value=54, bound=50, status=Status.GOOD), "false value"),
        (Stage(name="finish", value=55, bound=56, status=Status.GOOD), "false bound"),
        (Stage(name="finish", value=55, bound=50, status=Status.BEST), "false proof"),
        (Stage(name="finish", value=55, bound=55, status=Status.BEST), None),
    ],
)
def test_a_plan_may_not_claim_what_it_does_not_show(stage, kind):
    plan = replace(plan_of(BENCH, *HELD), stages=(stage,))
    assert kinds(BENCH, plan) == ({kind} if kind else set())


def test_the_sentence_holds_the_numbers():
    (fault,) = violations(BENCH, plan_of(BENCH, *HELD[:2], ("rivet", 39, 49)))
    assert fault.text == "rivet starts -1 min after dry ends, not at least 0."
    assert fault.about == ("dry", "rivet")
