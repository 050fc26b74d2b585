"""The whole way, from first plan to what is proved best: asking less of a shop never makes it worse.

And the best of some pieces of work by hand, six at the most, against every sequence of them.
"""

from dataclasses import replace
from itertools import permutations, product

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st
from schedule.random_shops import HORIZON_MIN, ORIGIN_AT, best_goals, shops

from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import best_plan
from armorplan.schedule.problem import Lag, Problem, Status, Worker

_QUICKLY = settings(
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)


def proved(problem, solver):
    """Return the proved goals of the best plan, as far as all before them are proved, or ``None``."""
    plan = best_plan(problem, solver, seconds=20, repeatable=True)
    if plan.status is Status.NONE:
        return None
    assert plan.placed
    assert violations(problem, plan) == ()
    sure = []
    for stage in plan.stages:
        if stage.status is not Status.BEST:
            break
        sure.append(stage.value)
    assert sure
    return tuple(sure)


def easier(draw, problem):
    """Draw the same shop with one thing less asked of it."""
    kinds = ["horizon"]
    kinds += ["lag"] if problem.lags else []
    kinds += ["hold"] if problem.holds else []
    kinds += ["place", "bath", "hours"]
    match draw(st.sampled_from(kinds)):
        case "lag":
            gone = draw(st.sampled_from(range(len(problem.lags))))
            return replace(
                problem, lags=tuple(g for at, g in enumerate(problem.lags) if at != gone)
            )
        case "hold":
            return replace(problem, holds=())
        case "place":
            wider = (replace(r, capacity=r.capacity + 1, windows=None) for r in problem.resources)
            return replace(problem, resources=tuple(wider))
        case "bath":
            roomy = (replace(b, capacity=9, change_min=0, holds="") for b in problem.baths)
            return replace(problem, baths=tuple(roomy))
        case "hours":
            always = tuple(replace(w, windows=((0, HORIZON_MIN),)) for w in problem.workers)
            return replace(problem, workers=always)
    return replace(problem, horizon_min=HORIZON_MIN + 5)


@given(data=st.data())
@settings(_QUICKLY, max_examples=6)
def test_asking_less_is_never_worse(solver, data):
    less_is_never_worse(solver, data)


@pytest.mark.long
@given(data=st.data())
@settings(_QUICKLY, max_examples=300)
def test_asking_less_is_never_worse_in_many_drawings(solver, data):
    less_is_never_worse(solver, data)


def less_is_never_worse(solver, data):
    problem = data.draw(shops(most=5))
    # How often people come to the bench is counted by their hours, which may change here.
    first = proved(problem, solver)
    second = proved(easier(data.draw, problem), solver)
    if first is not None:
        assert second is not None
        assert second[0] <= first[0]


@given(problem=shops(most=2))
@settings(_QUICKLY, max_examples=8)
def test_what_is_proved_best_is_the_best_of_all_plans(solver, problem):
    # Steps moved are proved few among plans that end as early; see `schedule.keeping_to`.
    problem = replace(problem, stood=())
    best = best_goals(problem)
    sure = proved(problem, solver)
    assert (sure is None) == (best is None)
    if sure is not None:
        assert sure == tuple(best.values())[: len(sure)]


@st.composite
def by_hand(draw, *, most):
    """Draw work by hand for two people with their hours, in which some has to follow other."""
    people = ("maker", "apprentice")
    hours = (((0, 10), (14, 40)), ((0, 40),), ((4, 12), (20, 40)))
    names = [f"a{n}" for n in range(draw(st.integers(4, most)))]
    activities = tuple(
        Activity(
            id=name,
            minutes=draw(st.integers(1, 6)),
            people=draw(st.sampled_from((people[:1], people))),
            priority=at,
        )
        for at, name in enumerate(names)
    )
    lags = tuple(
        Lag(first=one, then=other, min_lag=draw(st.integers(0, 4)))
        for at, one in enumerate(names)
        for other in names[at + 1 :]
        if draw(st.integers(0, 3)) == 0
    )
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=40,
        activities=activities,
        lags=lags,
        workers=tuple(Worker(id=who, windows=draw(st.sampled_from(hours))) for who in people),
    )


def soonest_of_all_sequences(problem):
    """Return the least finish over all sequences, each with each as early as it can be."""
    windows = {w.id: w.windows for w in problem.workers}
    best = None
    for row in permutations(problem.activities):
        for people in product(*(a.people for a in row)):
            finish = _finish(problem, row, people, windows)
            if finish is not None and (best is None or finish < best):
                best = finish
    return best


def _finish(problem, row, people, windows):
    free = dict.fromkeys(windows, 0)
    ends = {}
    for activity, who in zip(row, people, strict=True):
        start = free[who]
        for lag in problem.lags:
            if lag.then == activity.id:
                if lag.first not in ends:
                    return None
                start = max(start, ends[lag.first] + lag.min_lag)
        fits = (max(start, a) for a, b in windows[who] if max(start, a) + activity.minutes <= b)
        start = next(fits, None)
        if start is None:
            return None
        ends[activity.id] = free[who] = start + activity.minutes
    return max(ends.values())


def against_all_sequences(problem, solver):
    best = soonest_of_all_sequences(problem)
    sure = proved(problem, solver)
    assert (sure[0] if sure else None) == best


@given(problem=by_hand(most=5))
@settings(_QUICKLY, max_examples=6)
def test_five_by_hand_against_all_sequences(solver, problem):
    against_all_sequences(problem, solver)


@pytest.mark.long
@given(problem=by_hand(most=6))
@settings(_QUICKLY, max_examples=200)
def test_six_by_hand_against_all_sequences(solver, problem):
    against_all_sequences(problem, solver)
