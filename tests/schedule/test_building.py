"""From steps, relations and history to the problem; every case checked by the checker."""

from datetime import UTC, datetime, timedelta

import pytest
from schedule.night_rooms import STEADY, derived_in, problem_in

from armorplan.assembly.expand import assemble
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Before, BeforeAll, Force, Reason
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import (
    sketch,
    sketch_form,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.schedule import first
from armorplan.schedule.bench_history import History
from armorplan.schedule.building import problem_from
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Plan, Problem, Status
from armorplan.schedule.serial import serial_placings
from armorplan.schedule.workplace import Workplace
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import StepKind, Work
from armorplan.workshop.shop import one_maker

MONDAY_9 = datetime(2026, 11, 30, 9, tzinfo=UTC)
SHELF = sketch_shelf()
WORKPLACE = Workplace(shop=one_maker("UTC"), shelf=SHELF)


def boss_over_a_rivet():
    plate = sketch_part(
        "plate", holes={"p1": (20.0, 20.0), "p2": (60.0, 20.0), "p3": (40.0, 20.0)}
    )
    lame = sketch_part("lame", holes={"l3": (40.0, 20.0)})
    boss = sketch_part("boss", kind=PartKind.TRIM, holes={"b1": (20.0, 20.0), "b2": (60.0, 20.0)})
    joints = (
        sketch_rivet("seam", "p3", "l3"),
        sketch_rivet("boss_a", "b1", "p1"),
        sketch_rivet("boss_b", "b2", "p2"),
    )
    return sketch(
        plate,
        lame,
        boss,
        joints=joints,
        forms=(sketch_form("bow", "plate"),),
        treatments=(sketch_treatment("dye", "plate", "lame", "boss", coats=2),),
    )


def made(pattern, **history) -> tuple[Work, Problem]:
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    relations = derive_all(assembly, work, SHELF).relations
    empty = {"done": {}, "running": {}, "worked_min": {}}
    problem = problem_from(
        work,
        relations,
        WORKPLACE,
        origin_at=MONDAY_9,
        order=tuple(step.id for step in work.steps),
        history=History(**{**empty, **history}),
    )
    return work, problem


def sound(problem: Problem) -> Plan:
    plan = first_plan(problem)
    assert plan.placed, plan.conflict
    assert violations(problem, plan) == ()
    return plan


def starts(plan: Plan) -> dict[str, int]:
    return {placed.id: placed.start_min for placed in plan.placed}


def test_a_build_from_nothing_has_a_plan_that_holds():
    work, problem = made(boss_over_a_rivet())
    plan = sound(problem)
    assert len(plan.placed) == len(work.steps)
    dye, _ = work.of_kind(StepKind.DYE)
    dry = work.drying_of(dye.id)
    ends = {placed.id: placed.end_min for placed in plan.placed}
    assert dry is not None
    assert starts(plan)[dry.id] == ends[dye.id]


def test_the_hidden_rivet_comes_before_the_last_of_the_boss():
    _work, problem = made(boss_over_a_rivet())
    (before_last,) = problem.before_last
    start = starts(sound(problem))
    assert start[before_last.first] < max(start[step] for step in before_last.of)


def test_what_only_steers_becomes_a_lag_where_the_order_keeps_it():
    work, _ = made(boss_over_a_rivet())
    first, then = work.steps[0].id, work.steps[1].id
    for force in Force:
        reason = Reason(rule="r", text="Because.", force=force, source="s")
        problem = problem_from(
            work,
            (Before(first=first, then=then, reason=reason),),
            WORKPLACE,
            origin_at=MONDAY_9,
            order=(then, first),
        )
        assert len(problem.lags) == int(force.binds)
        kept = problem_from(
            work,
            (Before(first=first, then=then, reason=reason),),
            WORKPLACE,
            origin_at=MONDAY_9,
            order=(first, then),
        )
        assert len(kept.lags) == 1


def test_what_was_done_out_of_order_asks_for_nothing_any_more():
    work, _ = made(boss_over_a_rivet())
    rivet = work.of_kind(StepKind.RIVET)[1].id
    moment = (MONDAY_9 - timedelta(hours=1), MONDAY_9 - timedelta(minutes=50))
    _, problem = made(boss_over_a_rivet(), done={rivet: moment})
    assert not [lag for lag in problem.lags if lag.then == rivet]
    sound(problem)


def test_a_relation_over_several_counts_those_still_to_do():
    _work, problem = made(boss_over_a_rivet())
    one = min(problem.before_last[0].of)
    moment = (MONDAY_9 - timedelta(hours=1), MONDAY_9)
    _, later = made(boss_over_a_rivet(), done={one: moment})
    assert later.before_last[0].of == problem.before_last[0].of - {one}


def test_a_running_step_ends_when_its_minutes_are_up():
    work, _ = made(boss_over_a_rivet())
    (mock_up,) = work.of_kind(StepKind.MOCK_UP)
    _, problem = made(boss_over_a_rivet(), running={mock_up.id: MONDAY_9})
    placed = next(p for p in sound(problem).placed if p.id == mock_up.id)
    assert (placed.start_min, placed.end_min) == (0, mock_up.minutes)


def test_a_paused_step_is_planned_for_the_rest():
    pattern = boss_over_a_rivet()
    work, _ = made(pattern)
    dye = work.of_kind(StepKind.DYE)[0]
    _, problem = made(pattern, worked_min={dye.id: dye.minutes - 2})
    assert next(a.minutes for a in problem.activities if a.id == dye.id) == 2


@pytest.mark.parametrize(("minutes_ago", "is_kept"), [(5, True), (600, False)])
def test_a_window_is_kept_only_while_it_can_be_met(minutes_ago, is_kept):
    pattern = boss_over_a_rivet()
    work, _ = made(pattern)
    (case,) = work.of_kind(StepKind.CASE)
    ended = MONDAY_9 - timedelta(minutes=minutes_ago)
    before = [s for s in work.steps if s.kind in (StepKind.MEASURE, StepKind.MOCK_UP)]
    before += [*work.of_kind(StepKind.CUT, StepKind.PUNCH), case]
    done = {step.id: (ended - timedelta(minutes=1), ended) for step in before}
    _, problem = made(pattern, done=done)
    (lag,) = (lag for lag in problem.lags if lag.first == case.id and lag.then == case.serves)
    assert (lag.max_lag is not None) is is_kept
    start = starts(sound(problem))[case.serves or ""]
    assert (start <= -minutes_ago + 90) is is_kept


def test_two_relations_between_the_same_steps_are_one_lag_as_tight_as_both():
    work, _ = made(boss_over_a_rivet())
    first, then = work.steps[0].id, work.steps[1].id

    def relation(lag_min: int, most: int | None, text: str) -> Before:
        reason = Reason(rule="r", text=text, force=Force.SPOIL, source="s")
        return Before(first=first, then=then, reason=reason, lag_min=lag_min, max_lag_min=most)

    problem = problem_from(
        work,
        (relation(10, None, "Short."), relation(30, 90, "Long."), relation(0, 60, "Soon.")),
        WORKPLACE,
        origin_at=MONDAY_9,
        order=(first, then),
    )
    (lag,) = problem.lags
    assert (lag.min_lag, lag.max_lag, lag.reason) == (30, 60, "Long.")


def test_relations_about_steps_that_are_gone_are_passed_over():
    work, _ = made(boss_over_a_rivet())
    reason = Reason(rule="r", text="Because.", force=Force.CANNOT, source="s")
    gone = (
        Before(first="b/gone", then=work.steps[0].id, reason=reason),
        BeforeAll(first=work.steps[0].id, of=frozenset({"b/gone"}), reason=reason),
    )
    problem = problem_from(work, gone, WORKPLACE, origin_at=MONDAY_9, order=())
    assert (problem.lags, problem.before_last) == ((), ())
    assert first_plan(problem).status in (Status.BEST, Status.GOOD)


def test_no_problem_is_laid_twice_to_see_whether_it_has_a_plan(monkeypatch):
    laid = []

    def placings(problem, ranks):
        laid.append(problem)
        return serial_placings(problem, ranks)

    monkeypatch.setattr(first, "serial_placings", placings)
    assert problem_in(derived_in(STEADY)).lags
    assert len(laid) > 1
    assert len({id(problem) for problem in laid}) == len(laid)
