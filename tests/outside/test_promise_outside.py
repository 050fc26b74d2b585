"""Three-point tables of textbooks against many runs of the same networks.

Sources: the tables E, G and H of ``test_pert_outside``. Each activity gets the log-normal law with
the table's mean and variance. Along the critical path alone the tables say the true mean; the
normal curve they take the odds from is an approximation (Lyapunov's theorem), which differs from
the log-normal sum by less than three standard errors of 1,000 runs. In the whole network other paths
may overtake, which the tables do not count (K. R. MacCrimmon, C. A. Ryavec, Operations Research
12(1), 1964; from memory): there the runs are held against drawing each network one by one.
"""

from datetime import UTC, datetime
from graphlib import TopologicalSorter
from math import exp, log, sqrt
from statistics import fmean, stdev

import numpy as np
import pytest
from outside.test_pert_outside import E, G, H

from armorplan.schedule.activity import Activity
from armorplan.schedule.odds import finish_odds
from armorplan.schedule.problem import Lag, Placed, Plan, Problem, Status
from armorplan.schedule.promise.causes import ends_of
from armorplan.schedule.promise.draws import factors
from armorplan.schedule.promise.going import Going
from armorplan.schedule.promise.policy import policy_of
from armorplan.schedule.promise.promising import jobs_of

RUNS = 1000
FINE = 10_000
"""So many minutes to a unit of the tables, so that whole minutes round nothing away."""
TABLES = pytest.mark.parametrize("table", [E, G, H], ids=["E", "G", "H"])


def log_normal(times):
    spread = sqrt(log(1 + times.variance_min2 / times.expected_min**2))
    return times.expected_min / exp(spread**2 / 2), spread


def finishes(table, only):
    times, waits_for = table
    activities, lags, ends = [], [], {}
    for name in TopologicalSorter(waits_for).static_order():
        if name in only:
            median, spread = log_normal(times[name])
            activities.append(Activity(id=name, minutes=round(median * FINE), spread=spread))
            firsts = [first for first in waits_for[name] if first in only]
            lags += [Lag(first=first, then=name) for first in firsts]
            start = max((ends[first].end_min for first in firsts), default=0)
            ends[name] = Placed(id=name, start_min=start, end_min=start + round(median * FINE))
    problem = Problem(
        origin_at=datetime(2025, 1, 1, tzinfo=UTC),
        horizon_min=10**7,
        activities=tuple(activities),
        lags=tuple(lags),
    )
    parts = policy_of(problem, Plan(status=Status.GOOD, placed=tuple(ends.values())))
    going = Going(parts, factors(problem, runs=RUNS, seed=1), runs=RUNS)
    return ends_of(going, parts, jobs_of(problem))[""] / FINE


@TABLES
def test_average_and_spread_along_the_critical_path(table):
    odds = finish_odds(*table)
    ends = finishes(table, odds.path)
    assert ends.mean() == pytest.approx(odds.expected_min, abs=3 * ends.std() / sqrt(RUNS))
    deviation = sqrt(odds.variance_min2)
    assert ends.std() == pytest.approx(deviation, abs=3 * deviation / sqrt(2 * RUNS))


@pytest.mark.parametrize(
    ("table", "by"), [(E, 53), (E, 55), (G, 16)], ids=["E 53", "E 55", "G 16"]
)
@pytest.mark.parametrize("whole", [False, True], ids=["critical path", "whole network"])
def test_odds_of_the_tables(table, by, whole):
    odds = finish_odds(*table)
    ends = finishes(table, table[0] if whole else odds.path)
    chance = odds.chance_by(by)
    error = sqrt(chance * (1 - chance) / RUNS)
    assert float((ends <= by).mean()) == pytest.approx(chance, abs=3 * error)


@TABLES
def test_the_whole_network_ends_as_if_drawn_one_by_one(table):
    times, waits_for = table
    order = tuple(TopologicalSorter(waits_for).static_order())
    draw = np.random.default_rng(7)
    singly = []
    for _ in range(RUNS):
        end = {}
        for name in order:
            median, spread = log_normal(times[name])
            start = max((end[first] for first in waits_for[name]), default=0.0)
            end[name] = start + median * exp(spread * draw.standard_normal())
        singly.append(max(end.values()))
    ends = finishes(table, times)
    error = sqrt((stdev(singly) ** 2 + ends.std() ** 2) / RUNS)
    assert ends.mean() == pytest.approx(fmean(singly), abs=3 * error)
    assert ends.mean() > finish_odds(*table).expected_min - 3 * ends.std() / sqrt(RUNS)
