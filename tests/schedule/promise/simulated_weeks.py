"""Weeks at an invented bench, lived through with durations that nobody knew beforehand.

A gorget's plates are cut, cased, formed damp, dyed and finished by a maker and an apprentice, tried on
the wearer at the first appointment, riveted, tried on again at the second, and packed. Each
morning the rest is planned anew by the serial plan; by day its sequence is kept.
"""

from dataclasses import replace
from datetime import UTC, datetime

import numpy as np

from armorplan.schedule.activity import Activity, Demand
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Lag, Problem, Resource, Worker
from armorplan.schedule.promise.going import Going
from armorplan.schedule.promise.policy import policy_of

_NOT_BEGUN = {"fixed_start_min": None, "fixed_end_min": None, "fixed_who": None}
DAY = 1440
MONDAY_AT = datetime(2026, 11, 30, tzinfo=UTC)
DAYS = 42
OPENS = 8 * 60
_HANDS, _AIR = 0.3, 0.25


def a_shop(seed, plates=4):
    """Return a week's work of nine activities a plate and some more, with two fits on the wearer."""
    draw = np.random.default_rng(seed)
    activities, lags = [], []

    def add(name, minutes, *firsts, who=("maker", "apprentice"), low=0, high=None, **more):
        spread, cause = (_HANDS, f"hands.{name.split('.')[-1]}") if who else (_AIR, "air")
        activities.append(
            Activity(
                id=name,
                minutes=round(minutes * draw.uniform(0.6, 1.4)),
                people=who,
                spread=spread,
                cause=cause,
                priority=len(activities),
                **more,
            )
        )
        lags.extend(Lag(first=f, then=name, min_lag=low, max_lag=high) for f in firsts)
        return name

    dry = []
    for plate in ("p1", "p2", "p3", "p4")[:plates]:
        cut = add(f"{plate}.cut", 50)
        case = add(f"{plate}.case", 8, cut, who=("maker",))
        form = add(f"{plate}.form", 40, case, who=("maker",), low=10, high=120)
        rack = (Demand(resource="rack", amount=1),)
        set_dry = add(f"{plate}.set", 700, form, who=(), high=0, demands=rack)
        dye = add(f"{plate}.dye", 25, set_dry)
        dyed = add(f"{plate}.dyed", 240, dye, who=(), high=0, demands=rack)
        finish = add(f"{plate}.finish", 20, dyed)
        dry.append(add(f"{plate}.finished", 200, finish, who=(), high=0, demands=rack))
    fit = add("dry.fit", 45, *dry, who=("maker",), also=("wearer",))
    rivets = [add(f"r{n}.rivet", 90, fit) for n in range(plates)]
    last = add("last.fit", 30, *rivets, who=("maker",), also=("wearer",))
    polish = [add(f"q{n}.polish", 60, last) for n in range(3)]
    add("pack", 40, *polish)
    days = [d for d in range(DAYS) if d % 7 < 5]
    hours = tuple(
        (d * DAY + a, d * DAY + b) for d in days for a, b in ((OPENS, 12 * 60), (13 * 60, 17 * 60))
    )
    there = tuple((d * DAY + 840, d * DAY + 960) for d in days if d % 7 in (1, 2, 3, 4))
    return Problem(
        origin_at=MONDAY_AT,
        horizon_min=DAYS * DAY,
        activities=tuple(activities),
        lags=tuple(lags),
        resources=(Resource(id="rack", capacity=3),),
        workers=(
            Worker(id="apprentice", windows=hours),
            Worker(id="maker", windows=hours),
            Worker(id="wearer", windows=there),
        ),
    )


def lived_through(problem, truth):
    """Return when all is done, planned anew each morning; ``truth``: by activity, its factor."""
    factors = {i: np.array([f]) for i, f in truth.items()}
    now = OPENS
    while True:
        plan = first_plan(problem)
        parts = policy_of(problem, plan)
        day = Going(parts, factors, runs=1)
        tonight = now + DAY
        lived = {}
        for k, part in enumerate(parts):
            start, end = float(day.starts[k][0]), float(day.ends[k][0])
            for member in part.work.members:
                lived[member.activity.id] = (start, end, member.placed.who)
        if all(start < tonight for start, _, _ in lived.values()):
            return max(end for _, end, _ in lived.values())
        problem = replace(
            problem,
            activities=tuple(_as_of(a, lived, tonight) for a in problem.activities),
        )
        now = tonight
        assert now < problem.horizon_min


def _as_of(activity, lived, now):
    """Return an activity as the morning finds it: done, under way, or still to come."""
    start, end, who = lived[activity.id]
    damp_for = activity.id.replace(".case", ".form")
    if start >= now or lived[damp_for][0] >= now:
        # What was cased and not formed is dry by morning, and is cased again.
        return replace(activity, earliest_min=now, **_NOT_BEGUN)
    if activity.fixed_end_min is not None:
        return activity
    begun = replace(activity, fixed_start_min=round(start), fixed_who=who)
    return replace(begun, fixed_end_min=round(end)) if end <= now else begun
