"""Reads published scheduling instances into the planner's neutral problem.

``.sm`` is PSPLIB's format (Kolisch & Sprecher 1996), ``.sch`` that of ProGen/max (Schwindt):
``id modes nsucc succ… [lag]…`` with lags from start to start, a negative one being a maximum lag
the other way. The instances are not copied into the project; they are looked for beside it.
"""

import csv
import os
from datetime import UTC, datetime
from itertools import takewhile
from pathlib import Path

from armorplan.schedule.activity import Activity, Demand
from armorplan.schedule.problem import Lag, Problem, Resource

ORIGIN_AT = datetime(2025, 1, 1, tzinfo=UTC)


def data_folder():
    """Return the folder of published data, or ``None``."""
    given = os.environ.get("ARMORPLAN_CHECK_DATA")
    beside = Path(__file__).resolve().parents[2].parent / "shared" / "data"
    folder = Path(given) if given else beside
    return folder if (folder / "best-known.csv").is_file() else None


def best_known(folder):
    """Return lower and upper bound by file, ``None`` for those proved infeasible."""
    with (folder / "best-known.csv").open(encoding="utf-8", newline="") as lines:
        return {
            row["file"]: None
            if row["upper_bound"] == "unsat"
            else (int(row["lower_bound"]), int(row["upper_bound"]))
            for row in csv.DictReader(lines)
        }


def build(minutes, demands, capacities, lags):
    """Return a problem from durations, demands by job, capacities and lags."""
    activities = tuple(
        Activity(
            id=str(job),
            minutes=minutes[job],
            demands=tuple(
                Demand(resource=f"R{n}", amount=amount)
                for n, amount in enumerate(demands[job], start=1)
                if amount
            ),
        )
        for job in minutes
    )
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=sum(minutes.values()) + sum(max(0, g.min_lag) for g in lags),
        activities=activities,
        lags=tuple(lags),
        resources=tuple(
            Resource(id=f"R{n}", capacity=c) for n, c in enumerate(capacities, start=1)
        ),
    )


def _after(lines, heading, skip):
    at = next(n for n, line in enumerate(lines) if line.startswith(heading)) + skip
    rows = takewhile(lambda line: not line.startswith("*"), lines[at:])
    return [[int(word) for word in row.split()] for row in rows]


def read_sm(path):
    """Return the problem of a PSPLIB ``.sm`` file."""
    lines = path.read_text(encoding="ascii").splitlines()
    follow = {row[0]: row[3:] for row in _after(lines, "PRECEDENCE", 2)}
    rows = _after(lines, "REQUESTS", 3)
    return build(
        {row[0]: row[2] for row in rows},
        {row[0]: row[3:] for row in rows},
        _after(lines, "RESOURCEAV", 2)[0],
        [Lag(first=str(a), then=str(b)) for a, after in follow.items() for b in after],
    )


def read_sch(path):
    """Return the problem of a ProGen/max ``.sch`` file."""
    lines = path.read_text(encoding="ascii").splitlines()
    jobs = int(lines[0].split()[0]) + 2
    rows = [[int(word) for word in line.split()] for line in lines[jobs + 1 : 2 * jobs + 1]]
    minutes = {row[0]: row[2] for row in rows}
    lags = [lag for line in lines[1 : jobs + 1] for lag in _start_to_start(line.split(), minutes)]
    capacities = [int(word) for word in lines[2 * jobs + 1].split()]
    return build(minutes, {row[0]: row[3:] for row in rows}, capacities, lags)


def _start_to_start(words, minutes):
    job, count = int(words[0]), int(words[2])
    pairs = zip(words[3 : 3 + count], words[3 + count :], strict=True)
    for other, least in ((int(o), int(w.strip("[]"))) for o, w in pairs):
        if least >= 0:
            yield Lag(first=str(job), then=str(other), min_lag=least - minutes[job])
        else:
            yield Lag(
                first=str(other),
                then=str(job),
                min_lag=-sum(minutes.values()),
                max_lag=-least - minutes[other],
            )
