"""No coat ends where it would be too cold before its film has formed, if that can be had."""

from dataclasses import replace
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.night_rooms import SHELF, WARM, ZONE, derived_in, problem_in
from schedule.small_problems import by_hand, plan_of, problem

from armorplan.drying.body import USUAL_BODY
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Verdict
from armorplan.drying.spoiling import spoiled
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Room

FROST = Climate(temperature_c=6, humidity_pct=75)
MIDDAYS = Room(
    usual=WARM, zone=ZONE, by_hour=tuple(WARM if 11 <= h < 16 else FROST for h in range(24))
)
ALWAYS = Room(usual=FROST, zone=ZONE)
FINISH = SHELF.treatment("acrylic_finish")


def verdicts(room):
    """What becomes of each drying of the elbow cop, as planned in a room."""
    derived = derived_in(room)
    asked = problem_in(derived)
    plan = first_plan(asked)
    assert plan.placed
    assert not violations(asked, plan)
    start = {p.id: p.start_min for p in plan.placed}
    return [
        drying_room(room)
        .times(
            SHELF.treatment(step.drying.treatment),
            step.drying.body,
            asked.origin_at + timedelta(minutes=start[step.id]),
        )
        .verdict
        for step in derived.work.of_kind(StepKind.DRY)
        if step.drying
    ]


def test_a_plan_lays_no_finish_where_it_would_spoil(monkeypatch):
    assert Verdict.WOULD_SPOIL not in verdicts(MIDDAYS)
    monkeypatch.setattr(
        "armorplan.schedule.building.without_spoiling_hours", lambda problem, *_, **__: problem
    )
    assert Verdict.WOULD_SPOIL in verdicts(MIDDAYS)


def test_where_it_is_always_too_cold_there_is_a_plan_all_the_same():
    assert Verdict.WOULD_SPOIL in verdicts(ALWAYS)
    nearly = replace(MIDDAYS, by_hour=(WARM, *(FROST,) * 23))
    assert Verdict.WOULD_SPOIL in verdicts(nearly)


def test_it_is_told_for_each_start_as_the_room_tells_it():
    origin_at = problem_in(derived_in(MIDDAYS)).origin_at
    starts = [origin_at + timedelta(minutes=29 * at) for at in range(200)]
    told = spoiled(drying_room(MIDDAYS), FINISH, USUAL_BODY, starts).tolist()
    asked = [
        drying_room(MIDDAYS).times(FINISH, USUAL_BODY, at).verdict is Verdict.WOULD_SPOIL
        for at in starts
    ]
    assert told == asked
    assert len(set(told)) == 2


def shut_problem(minutes, shut):
    return problem(
        by_hand("coat", minutes, ends_outside=shut),
        by_hand("other", 15, priority=1),
    )


WINDOWS = st.lists(st.tuples(st.integers(0, 150), st.integers(1, 40)), max_size=3).map(
    lambda found: tuple(
        (a, a + n)
        for at, (a, n) in enumerate(sorted(found))
        if not any(b <= a < b + m or a <= b < a + n for b, m in sorted(found)[:at])
    )
)


@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(minutes=st.integers(1, 30), shut=WINDOWS)
def test_serial_plan_and_solver_end_it_outside(solver, minutes, shut):
    asked = shut_problem(minutes, shut)
    alone = [
        start
        for begin, end in ((0, 60), (100, 160))
        for start in range(begin, end - minutes + 1)
        if not any(a <= start + minutes < b for a, b in shut)
    ]
    for plan in (first_plan(asked), best_plan(asked, solver, seconds=2)):
        if plan.placed:
            assert not violations(asked, plan)
            assert next(p for p in plan.placed if p.id == "coat").start_min in alone
        elif len(alone) > 60:
            pytest.fail("there is room for both")


def test_the_checker_finds_one_that_ends_within():
    asked = shut_problem(10, ((20, 40),))
    kinds = {
        v.kind for v in violations(asked, plan_of(asked, ("coat", 15, 25), ("other", 40, 55)))
    }
    assert kinds == {"shut"}
    at_the_edge = plan_of(asked, ("coat", 30, 40), ("other", 40, 55))
    assert not violations(asked, at_the_edge)
