"""Work longer than any stretch of hours is planned in sittings, not refused."""

import itertools
from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st

from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import EndsBeforeLast, Lag, Problem, Worker
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
