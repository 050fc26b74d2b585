"""No plan is shown that the checker was not silent on, and no bound is believed that a plan beats."""

import logging
from dataclasses import replace

import pytest
from schedule.small_problems import by_hand, plan_of, problem

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule import planning
from armorplan.schedule.checked import passes
from armorplan.schedule.planning import best_plan, first_plan, sought_plan
from armorplan.schedule.problem import Stage, Status
from armorplan.schedule.stages import FINISH, LATENESS, stage
from armorplan.schedule.standing import Proof, Standing, no_proofs, plan_with

BENCH = problem(by_hand("cut"), by_hand("punch"))
BOTH_AT_ONCE = plan_of(BENCH, ("cut", 0, 10), ("punch", 5, 15))


class Lost:
    """A solver that cannot be had."""

    def solve(self, *_, **__):
        raise SolverLostError


@pytest.fixture
def laid_wrongly(monkeypatch):
    monkeypatch.setattr(planning, "first_placing", lambda *_: BOTH_AT_ONCE.placed)


@pytest.mark.usefixtures("laid_wrongly")
def test_a_first_plan_that_breaks_a_rule_is_logged_and_not_shown(caplog):
    with caplog.at_level(logging.ERROR):
        plan = first_plan(BENCH)
    assert (plan.status, plan.placed, plan.stages) == (Status.OUT_OF_TIME, (), ())
    assert "breaks a rule" in plan.conflict
    assert "serial is not shown" in caplog.text
    assert "punch" in caplog.text


@pytest.mark.usefixtures("laid_wrongly")
def test_the_solver_is_asked_where_the_first_plan_breaks_a_rule(solver):
    plan = best_plan(BENCH, solver, seconds=5)
    assert (plan.status, plan.finish_min) == (Status.BEST, 20)
    assert passes(BENCH, plan.placed, made_by=plan.made_by)


@pytest.mark.parametrize("seconds", [0, 1])
def test_a_start_that_breaks_a_rule_is_not_what_comes_back(seconds):
    start = plan_with(BENCH, BOTH_AT_ONCE.placed, {FINISH: Proof(bound=15)}, "serial")
    assert start.status is Status.BEST
    plan = sought_plan(BENCH, Lost(), start, seconds=seconds)
    assert (plan.status, plan.placed) == (Status.OUT_OF_TIME, ())


def test_the_same_plan_of_another_problem_is_looked_at_anew():
    plan = first_plan(BENCH)
    assert passes(BENCH, plan.placed, made_by="serial")
    late = replace(BENCH, activities=(by_hand("cut", earliest_min=5), by_hand("punch")))
    assert not passes(late, plan.placed, made_by="serial")


def test_a_bound_above_the_value_is_logged_and_proves_nothing(caplog):
    with caplog.at_level(logging.ERROR):
        told = stage(LATENESS, 6, 12, Status.BEST)
    assert told == Stage(name=LATENESS, value=6, bound=0, status=Status.GOOD)
    assert "12" in caplog.text
    assert stage(LATENESS, 6, 12, Status.STOPPED).status is Status.STOPPED


def test_a_search_goes_on_where_a_plan_beats_the_bound():
    plan = first_plan(BENCH)
    false = replace(plan, stages=(Stage(name=FINISH, value=20, bound=25, status=Status.GOOD),))
    standing = Standing(BENCH, false)
    assert standing.bound(FINISH) == 0
    assert not standing.is_proved(FINISH)
    standing.prove(FINISH, 20, Status.GOOD)
    assert standing.is_proved(FINISH)


def test_where_nothing_was_counted_nothing_is_proved():
    proofs = no_proofs(BENCH)
    assert {name: proof.bound for name, proof in proofs.items()} == {FINISH: 0}
    assert plan_with(BENCH, first_plan(BENCH).placed, proofs, "serial").status is Status.GOOD
