"""Published scheduling instances run through the very planner the bench uses.

Sources: H. Fisher, G. L. Thompson, 'Probabilistic learning combinations of local job-shop
scheduling rules', in Muth & Thompson (eds.), Industrial Scheduling, 1963: the 6×6 job shop, best
55. R. Kolisch, A. Sprecher, 'PSPLIB', European Journal of Operational Research 96 (1996) 205-216:
j301_1, critical path 38 as printed in the file (MPM-Time), best 43; set j30. C. Schwindt, ProGen/max
test sets UBO (minimum and maximum lags). Bounds: the collections' own tables; where a table's
upper bound is old, a better one may be proved: never above the upper, never below the lower.
"""

import pytest
from outside.instance_files import best_known, build, data_folder, read_sch, read_sm

from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.critical import critical_times
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Lag, Problem, Status, Worker
from armorplan.solving.keeper import SolverKeeper

FOLDER = data_folder()
KNOWN = best_known(FOLDER) if FOLDER else {}
needs_data = pytest.mark.skipif(
    FOLDER is None,
    reason="the instances lie in ../shared/data or where ARMORPLAN_CHECK_DATA points",
)

# Machine and minutes of each job's operations in order.
FT06 = (
    ((2, 1), (0, 3), (1, 6), (3, 7), (5, 3), (4, 6)),
    ((1, 8), (2, 5), (4, 10), (5, 10), (0, 10), (3, 4)),
    ((2, 5), (3, 4), (5, 8), (0, 9), (1, 1), (4, 7)),
    ((1, 5), (0, 5), (2, 5), (3, 3), (4, 8), (5, 9)),
    ((2, 9), (1, 3), (4, 5), (5, 4), (0, 3), (3, 1)),
    ((1, 3), (3, 3), (5, 9), (0, 10), (4, 4), (2, 1)),
)

# Job: minutes, need of resources 1 to 4, jobs that follow.
J301_1 = {
    1: (0, (0, 0, 0, 0), (2, 3, 4)),
    2: (8, (4, 0, 0, 0), (6, 11, 15)),
    3: (4, (10, 0, 0, 0), (7, 8, 13)),
    4: (6, (0, 0, 0, 3), (5, 9, 10)),
    5: (3, (3, 0, 0, 0), (20,)),
    6: (8, (0, 0, 0, 8), (30,)),
    7: (5, (4, 0, 0, 0), (27,)),
    8: (9, (0, 1, 0, 0), (12, 19, 27)),
    9: (2, (6, 0, 0, 0), (14,)),
    10: (7, (0, 0, 0, 1), (16, 25)),
    11: (9, (0, 5, 0, 0), (20, 26)),
    12: (2, (0, 7, 0, 0), (14,)),
    13: (6, (4, 0, 0, 0), (17, 18)),
    14: (3, (0, 8, 0, 0), (17,)),
    15: (9, (3, 0, 0, 0), (25,)),
    16: (10, (0, 0, 0, 5), (21, 22)),
    17: (6, (0, 0, 0, 8), (22,)),
    18: (5, (0, 0, 0, 7), (20, 22)),
    19: (3, (0, 1, 0, 0), (24, 29)),
    20: (7, (0, 10, 0, 0), (23, 25)),
    21: (2, (0, 0, 0, 6), (28,)),
    22: (7, (2, 0, 0, 0), (23,)),
    23: (2, (3, 0, 0, 0), (24,)),
    24: (3, (0, 9, 0, 0), (30,)),
    25: (3, (4, 0, 0, 0), (30,)),
    26: (7, (0, 0, 4, 0), (31,)),
    27: (8, (0, 0, 0, 7), (28,)),
    28: (3, (0, 8, 0, 0), (31,)),
    29: (7, (0, 7, 0, 0), (32,)),
    30: (2, (0, 7, 0, 0), (32,)),
    31: (2, (0, 0, 2, 0), (32,)),
    32: (0, (0, 0, 0, 0), ()),
}


@pytest.fixture(scope="module")
def solver():
    with SolverKeeper() as keeper:
        yield keeper


def job_shop(jobs):
    """Every machine is a person who never goes home."""
    horizon = sum(minutes for job in jobs for _, minutes in job)
    activities, lags = [], []
    for number, job in enumerate(jobs):
        for at, (machine, minutes) in enumerate(job):
            activities.append(
                Activity(id=f"{number}.{at}", minutes=minutes, people=(f"machine {machine}",))
            )
            if at:
                lags.append(Lag(first=f"{number}.{at - 1}", then=f"{number}.{at}"))
    return Problem(
        origin_at=build({}, {}, (), ()).origin_at,
        horizon_min=horizon,
        activities=tuple(activities),
        lags=tuple(lags),
        workers=tuple(
            Worker(id=f"machine {m}", windows=((0, horizon),)) for m in range(len(jobs[0]))
        ),
    )


def psplib_j301_1():
    return build(
        {job: row[0] for job, row in J301_1.items()},
        {job: row[1] for job, row in J301_1.items()},
        (12, 13, 4, 12),
        [Lag(first=str(a), then=str(b)) for a, row in J301_1.items() for b in row[2]],
    )


def proved(solver, bench, seconds=20):
    """Return the finish of a plan that holds and is proved."""
    first = first_plan(bench)
    assert violations(bench, first) == ()
    plan = best_plan(bench, solver, seconds=seconds)
    assert violations(bench, plan) == ()
    assert plan.status is Status.BEST
    assert plan.stages[0].bound == plan.finish_min <= first.finish_min
    return plan.finish_min


def test_fisher_and_thompson_six_by_six(solver):
    assert proved(solver, job_shop(FT06)) == 55


def test_psplib_j301_1(solver):
    bench = psplib_j301_1()
    assert max(t.earliest_end_min for t in critical_times(bench)) == 38
    assert proved(solver, bench) == 43


@needs_data
def test_the_instance_typed_in_is_the_one_in_the_file():
    assert read_sm(FOLDER / "psplib/j30/j301_1.sm") == psplib_j301_1()


def files(pattern):
    return sorted(name for name in KNOWN if pattern in name)


def within_bounds(solver, name, bench, seconds):
    """Plan an instance; tell whether it was decided."""
    plan = best_plan(bench, solver, seconds=seconds)
    known = KNOWN[name]
    if known is None:
        assert not plan.placed
        return plan.status is Status.NONE
    finish = plan.stages[0]
    assert violations(bench, plan) == ()
    assert known[0] <= finish.value
    assert finish.bound <= known[1]
    assert finish.status is not Status.BEST or finish.value <= known[1]
    return finish.status is Status.BEST


@needs_data
@pytest.mark.parametrize("size", ["ubo10", pytest.param("ubo20", marks=pytest.mark.long)])
def test_minimum_and_maximum_lags_are_all_decided(solver, size):
    names = files(f"/{size}/")
    assert len(names) == 30
    assert all(within_bounds(solver, n, read_sch(FOLDER / n), 10) for n in names)


@needs_data
def test_a_dozen_of_j30(solver):
    names = files("/j30/")[:12]
    decided = [within_bounds(solver, n, read_sm(FOLDER / n), 1) for n in names]
    assert sum(decided) >= 10


@needs_data
@pytest.mark.long
def test_all_of_j30_j60_and_ubo50(solver):
    decided = {
        size: [
            within_bounds(solver, n, (read_sm if n.endswith(".sm") else read_sch)(FOLDER / n), 10)
            for n in files(f"/{size}/")
        ]
        for size in ("j30", "ubo50", "j60")
    }
    assert sum(decided["j30"]) >= 47
    assert sum(decided["ubo50"]) >= 9
    assert len(decided["j60"]) == 12
