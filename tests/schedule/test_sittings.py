"""Work longer than any stretch of hours is planned in sittings, not refused."""

import itertools
from dataclasses import replace
from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st
from schedule import small_problems

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import EndsBeforeLast, Hold, Job, Lag, Problem, Resource, Worker
from armorplan.schedule.sittings import in_sittings, step_of

MONDAY_9 = datetime(2026, 11, 30, 9, tzinfo=UTC)
EVENINGS = tuple((day * 1440 + 600, day * 1440 + 630) for day in range(60))


def problem(*minutes: int) -> Problem:
    names = [f"b/step-{n}" for n in range(len(minutes))]
    return Problem(
        origin_at=MONDAY_9,
        horizon_min=60 * 1440,
        activities=tuple(
            Activity(id=name, minutes=long, people=("maker",), priority=at)
            for at, (name, long) in enumerate(zip(names, minutes, strict=True))
        ),
        lags=tuple(Lag(first=a, then=b) for a, b in itertools.pairwise(names)),
        workers=(Worker(id="maker", windows=EVENINGS),),
    )


@given(st.lists(st.integers(1, 200), min_size=1, max_size=4))
def test_short_evenings_carry_long_steps_in_order(minutes):
    divided = in_sittings(problem(*minutes))
    plan = first_plan(divided)
    assert violations(divided, plan) == ()
    worked: dict[str, int] = {}
    for placed in plan.placed:
        worked[step_of(placed.id)] = worked.get(step_of(placed.id), 0) + (
            placed.end_min - placed.start_min
        )
    assert list(worked.values()) == minutes
    lies = {placed.id: placed for placed in plan.placed}
    ends = [max(p.end_min for p in plan.placed if step_of(p.id) == name) for name in worked]
    starts = [lies[name].start_min for name in worked]
    assert all(end <= start for end, start in zip(ends, starts[1:], strict=False))


def test_what_fits_stays_as_it_is():
    whole = problem(30, 5)
    assert in_sittings(whole) is whole


def test_before_the_last_counts_from_the_last_sitting():
    rule = EndsBeforeLast(first="b/step-0", of=frozenset({"b/step-1"}))
    base = problem(50, 20)
    divided = in_sittings(
        Problem(
            origin_at=base.origin_at,
            horizon_min=base.horizon_min,
            activities=base.activities,
            before_last=(rule,),
            workers=base.workers,
        )
    )
    assert divided.before_last[0].first == "b/step-0#2"


def test_a_worker_without_hours_divides_nothing():
    idle = problem(50)
    nobody = Problem(
        origin_at=idle.origin_at,
        horizon_min=idle.horizon_min,
        activities=idle.activities,
        workers=(Worker(id="maker", windows=()),),
    )
    assert in_sittings(nobody) is nobody


def test_each_way_of_doing_it_is_divided_and_holds_count_from_the_last_sitting():
    ways = (Mode(who="m", minutes=101), Mode(who="m", minutes=80, name="press"))
    carve = Activity(id="carve", minutes=0, modes=ways)
    hold = Hold(resource="rack", amount=1, first="carve", until=("fit",))
    bench = small_problems.problem(
        carve,
        small_problems.by_hand("fit", 10),
        resources=(Resource(id="rack", capacity=1),),
        holds=(hold,),
        jobs=(Job(id="cop", activities=("carve", "fit")),),
    )
    laid = in_sittings(bench)
    assert [[w.minutes for w in a.ways] for a in laid.activities] == [[51, 40], [50, 40], [10]]
    assert laid.holds == (replace(hold, first="carve#2"),)
    assert laid.jobs[0].activities == ("carve", "carve#2", "fit")


def test_what_may_stop_at_closing_is_not_divided():
    bench = small_problems.problem(small_problems.by_hand("carve", 100, sitting_min=20))
    assert in_sittings(bench) == bench
