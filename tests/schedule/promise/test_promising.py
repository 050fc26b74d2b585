from dataclasses import replace
from math import exp
from time import process_time

import pytest
from schedule.bench_problems import wardrobe
from schedule.promise.promise_scenes import (
    DAY,
    MAKER,
    after,
    hands,
    plan_of,
    problem_of,
)

from armorplan.schedule.activity import Activity
from armorplan.schedule.problem import Job, Placed, Plan, Status, Worker
from armorplan.schedule.promise.causes import CauseKind
from armorplan.schedule.promise.promising import promise

NORMAL_80 = 0.8416
"""Standard normal quantile of 80 %, from tables."""
DRY = Activity(id="dry", minutes=1000, spread=0.3)
DRIES = plan_of(dry=(0, 1000, None))


def test_one_drying_alone_follows_the_log_normal_law():
    found = promise(problem_of([DRY]), DRIES, runs=20_000).jobs[0].promise
    assert found.low < 1000 * exp(0.3 * NORMAL_80) < found.high
    assert found.high - found.low < 20


def test_the_error_covers_the_true_quantile_about_95_times_of_100():
    true = 1000 * exp(0.3 * NORMAL_80)
    problem = problem_of([DRY])
    found = [
        promise(problem, DRIES, runs=300, seed=s, why=None).jobs[0].promise for s in range(200)
    ]
    assert 180 <= sum(q.low <= true <= q.high for q in found) <= 199


def test_the_same_seed_gives_the_same_and_another_does_not():
    problem = problem_of([DRY])
    assert promise(problem, DRIES) == promise(problem, DRIES)
    assert promise(problem, DRIES) != promise(problem, DRIES, seed=2)


def test_odds_of_a_due_date_and_their_error():
    jobs = (
        Job(id="half", activities=("dry",), due_min=1000),
        Job(id="sure", activities=("dry",), due_min=9999),
        Job(id="free", activities=("dry",)),
    )
    half, sure, free = promise(problem_of([DRY], jobs=jobs), DRIES).jobs
    assert half.kept.pct == pytest.approx(50, abs=half.kept.error_pct)
    assert half.kept.error_pct == pytest.approx(3.1, abs=0.1), "1.96 × √(0.25 / 1000)"
    assert (sure.kept.pct, sure.kept.error_pct) == (100, pytest.approx(0.3)), "three of 1,000"
    assert free.kept is None


def test_higher_odds_are_promised_later():
    found = promise(problem_of([DRY]), DRIES, odds_pct=90).jobs[0]
    minutes = [q.minute for q in found.usual]
    assert minutes == sorted(minutes)
    assert minutes[1] < found.promise.minute < minutes[2]
    with pytest.raises(ValueError, match="from 1 to 99 %, not 100"):
        promise(problem_of([DRY]), DRIES, odds_pct=100)


def test_all_of_one_cause_run_late_together():
    def last(cause):
        pair = [replace(DRY, id=name, cause=cause) for name in ("a", "b")]
        problem = problem_of(pair, [after("a", "b")])
        plan = plan_of(a=(0, 1000, None), b=(1000, 2000, None))
        usual = promise(problem, plan, runs=4000, why=None).jobs[0].usual
        return usual[2].minute - usual[0].minute

    assert last("air") > 1.1 * last("")


def test_what_costs_most_is_told_first_by_how_much_it_costs():
    activities = [replace(DRY, id="slow", spread=0.5), replace(DRY, id="short", minutes=200)]
    problem = problem_of(activities, [after("slow", "short")])
    plan = plan_of(slow=(0, 1000, None), short=(1000, 1200, None))
    slow, short = promise(problem, plan).jobs[0].causes
    assert (slow.kind, slow.about, slow.activities) == (CauseKind.MINUTES, "slow", ("slow",))
    assert slow.saves_min > 5 * short.saves_min > 0
    assert slow.saves_min == pytest.approx(1000 * (exp(0.5 * NORMAL_80) - 1), rel=0.15)


def test_who_has_heard_enough_gets_no_more_causes():
    assert promise(problem_of([DRY]), DRIES, why=lambda: False).jobs[0].causes == ()
    assert promise(problem_of([DRY]), DRIES).jobs[0].causes != ()


def test_an_appointment_that_may_be_missed_is_a_cause():
    wearer = Worker(id="wearer", windows=((840, 900), (3 * DAY + 840, 3 * DAY + 900)))
    activities = [hands("cut", 300, spread=0.3), hands("fit", 45, also=("wearer",))]
    problem = problem_of(activities, [after("cut", "fit")], (MAKER, wearer))
    found = promise(problem, plan_of(cut=(480, 780, "maker"), fit=(840, 885, "maker"))).jobs[0]
    kinds = {cause.kind: cause for cause in found.causes}
    assert kinds[CauseKind.APPOINTMENT].about == "wearer"
    assert kinds[CauseKind.APPOINTMENT].saves_min > 2 * DAY
    assert found.promise.minute == 3 * DAY + 840 + 45


def test_a_window_that_may_be_missed_is_a_cause():
    activities = [hands("case", 10), hands("other", 30, spread=0.8), hands("form", 200)]
    problem = problem_of(activities, [after("case", "form", 20, 60)])
    plan = plan_of(case=(480, 490, "maker"), other=(490, 520, "maker"), form=(520, 720, "maker"))
    causes = promise(problem, plan, odds_pct=95).jobs[0].causes
    window = next(c for c in causes if c.kind is CauseKind.WINDOW)
    assert window.activities == ("form",)
    assert window.saves_min == pytest.approx(30, abs=2), "cased again and waited for"


def test_what_fits_no_days_looked_ahead_is_told_as_no_date():
    wearer = Worker(id="wearer", windows=((840, 900),))
    activities = [hands("cut", 300, spread=0.3), hands("fit", 45, also=("wearer",))]
    problem = problem_of(activities, [after("cut", "fit")], (MAKER, wearer))
    found = promise(problem, plan_of(cut=(480, 780, "maker"), fit=(840, 885, "maker"))).jobs[0]
    assert found.usual[0].minute is not None
    assert found.usual[2].minute is None


def test_nothing_to_do_promises_nothing():
    assert promise(problem_of([]), Plan(status=Status.GOOD)).jobs == ()


def test_a_thousand_runs_of_six_hundred_activities_within_a_second():
    problem = wardrobe(600)
    unsure = replace(
        problem,
        activities=tuple(
            replace(a, spread=0.3, cause=str(n % 7)) for n, a in enumerate(problem.activities)
        ),
    )
    plan = _one_after_another(unsure)
    took = []
    for _ in range(2):
        began = process_time()
        promise(unsure, plan, why=None)
        took.append(process_time() - began)
    assert min(took) < 1


def _one_after_another(problem):
    """Place one after another with a day between: a plan by no planner, loose enough for all lags."""
    placed, now = [], 480
    for activity in problem.activities:
        if now % DAY + activity.minutes > 1020 and activity.people:
            now += DAY - now % DAY + 480
        who = activity.people[0] if activity.people else None
        placed.append(
            Placed(id=activity.id, start_min=now, end_min=now + activity.minutes, who=who)
        )
        now += activity.minutes + (10 if activity.id.endswith("case") else 0)
    return Plan(status=Status.GOOD, placed=tuple(placed))
