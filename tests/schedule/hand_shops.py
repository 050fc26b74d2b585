"""Small shops built by hand, in minutes from Monday 3 March 2025, 08:00 UTC."""

from dataclasses import replace

from schedule.small_problems import by_hand, problem, waiting

from armorplan.schedule.activity import Demand
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Job, Lag, Resource, Worker

HOUR, DAY = 60, 24 * 60
NAMES = Naming(names={"maker": "the maker", "apprentice": "the apprentice"}, zone="UTC")


def days_of(*hours, days=14, but=()):
    """Windows of the same hours each day, less those left out, told by day and start."""
    return tuple(
        (day * DAY + start, day * DAY + end)
        for day in range(days)
        for start, end in hours
        if (day, start) not in but
    )


def lames(dipped_min=DAY + 5 * HOUR):
    """Lames dipped by the apprentice at a set time, Tuesday 13:00, which only the maker may bend.

    The maker is away that afternoon.
    """
    one, five = 5 * HOUR, 9 * HOUR
    bath = by_hand("bath", 20, title="Dip the lames")
    return problem(
        waiting("cool", 30),
        replace(
            bath, people=("apprentice",), earliest_min=dipped_min, latest_start_min=dipped_min
        ),
        replace(by_hand("bend", 30, title="Bend the lames"), people=("maker",)),
        replace(by_hand("sew", 30, title="Sew the strap"), people=("maker", "apprentice")),
        horizon_min=14 * DAY,
        lags=(
            Lag(first="bath", then="bend", max_lag=60, reason="Damp leather takes a bend."),
            Lag(first="cool", then="sew"),
        ),
        workers=(
            Worker(id="apprentice", windows=days_of((0, five))),
            Worker(id="maker", windows=days_of((0, 4 * HOUR), (one, five), but={(1, one)})),
        ),
        jobs=(Job(id="gorget", activities=("bath", "bend"), due_min=2 * DAY),),
    )


def racks(pieces=6, capacity=1):
    """Pieces dipped one after another that each hang on the rack for a night, then are buffed."""
    dips = [by_hand(f"dip{n}", 20, priority=3 * n, title=f"Dip piece {n}") for n in range(pieces)]
    dries = [
        waiting(
            f"dry{n}", 10 * HOUR, priority=3 * n + 1, demands=(Demand(resource="rack", amount=1),)
        )
        for n in range(pieces)
    ]
    buffs = [by_hand(f"buff{n}", 30, priority=3 * n + 2) for n in range(pieces)]
    lags = []
    for n in range(pieces):
        lags += [
            Lag(first=f"dip{n}", then=f"dry{n}", max_lag=0),
            Lag(first=f"dry{n}", then=f"buff{n}"),
        ]
    return problem(
        *dips,
        *dries,
        *buffs,
        horizon_min=14 * DAY,
        lags=tuple(lags),
        resources=(Resource(id="rack", capacity=capacity),),
        workers=(Worker(id="m", windows=days_of((0, 4 * HOUR), (5 * HOUR, 9 * HOUR))),),
        jobs=tuple(
            Job(
                id=f"build{n}",
                activities=(f"dip{n}", f"dry{n}", f"buff{n}"),
                title=f"Piece {n}",
                due_min=3 * DAY,
            )
            for n in range(pieces)
        ),
    )
