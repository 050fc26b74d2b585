"""Critical-path tables of textbooks, through the same problem the planner takes.

Sources, each recomputed: A, the 'Example 1' network of seven activities of a course hand-out on
CPM (studylib.net document 8378728). B, an eleven-activity network of a course presentation on
project scheduling (slideplayer.com slide 3283910). C and D, B. W. Taylor, 'Introduction to
Management Science', solutions of chapter 8, numbers 5 and 6 (arc networks, one with a dummy).
The tables of A and B print what is off the critical path; on it, earliest and latest agree.
"""

import pytest
from schedule.small_problems import problem, waiting

from armorplan.schedule.checker import violations
from armorplan.schedule.critical import critical_times
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Lag, Status


def network(text):
    """Read ``A6; B2<A; D3<B,C``: a name, its duration, whom it waits for."""
    activities, lags = [], []
    for item in text.split(";"):
        own, _, befores = item.strip().partition("<")
        activities.append(waiting(own[0], int(own[1:])))
        lags += [Lag(first=first, then=own[0]) for first in befores.split(",") if first]
    return problem(*activities, lags=tuple(lags), horizon_min=1000, workers=())


def arcs(text):
    """Read ``1-2 7,1-3 10``: activities as arcs between events, with their durations."""
    given = [item.split() for item in text.split(",")]
    ends = {name: name.split("-") for name, _ in given}
    lags = tuple(
        Lag(first=one, then=two) for one in ends for two in ends if ends[one][1] == ends[two][0]
    )
    activities = (waiting(name, int(minutes)) for name, minutes in given)
    return problem(*activities, lags=lags, horizon_min=1000, workers=())


def table(bench):
    """ES, EF, LS, LF, slack of every activity."""
    return {
        t.id: (
            t.earliest_start_min,
            t.earliest_end_min,
            t.latest_start_min,
            t.latest_end_min,
            t.slack_min,
        )
        for t in critical_times(bench)
    }


A = network("A6; B2<A; C2<A; D3<B; E4<D,F; F2<C; G1<E")
TABLE_A = {
    "A": (0, 6, 0, 6, 0),
    "B": (6, 8, 6, 8, 0),
    "C": (6, 8, 7, 9, 1),
    "D": (8, 11, 8, 11, 0),
    "E": (11, 15, 11, 15, 0),
    "F": (8, 10, 9, 11, 1),
    "G": (15, 16, 15, 16, 0),
}
B = network("A4; B6<A; C3<A; D6<B; E14<D; F5<C; G2<E,F; H2<G; I3<G; J4<H,I; K2<J")
TABLE_B = {
    "A": (0, 4, 0, 4, 0),
    "B": (4, 10, 4, 10, 0),
    "C": (4, 7, 22, 25, 18),
    "D": (10, 16, 10, 16, 0),
    "E": (16, 30, 16, 30, 0),
    "F": (7, 12, 25, 30, 18),
    "G": (30, 32, 30, 32, 0),
    "H": (32, 34, 33, 35, 1),
    "I": (32, 35, 32, 35, 0),
    "J": (35, 39, 35, 39, 0),
    "K": (39, 41, 39, 41, 0),
}
C = arcs("1-2 7,1-3 10,2-4 6,3-4 5,3-5 4,4-5 3,5-6 2")
D = arcs("1-2 8,1-3 10,1-4 9,2-5 6,2-6 4,3-5 5,4-5 0,4-7 7,5-7 12,5-8 15,6-9 18,7-8 4,8-9 7")


@pytest.mark.parametrize(("bench", "expected"), [(A, TABLE_A), (B, TABLE_B)], ids=["A", "B"])
def test_whole_tables(bench, expected):
    assert table(bench) == expected


@pytest.mark.parametrize(
    ("bench", "slack"),
    [(C, [2, 0, 2, 0, 4, 0, 0]), (D, [1, 0, 6, 1, 8, 0, 6, 11, 0, 1, 8, 0, 0])],
    ids=["C", "D"],
)
def test_printed_slack(bench, slack):
    assert [row[4] for row in table(bench).values()] == slack


@pytest.mark.parametrize(
    ("bench", "duration"), [(A, 16), (B, 41), (C, 20), (D, 38)], ids=["A", "B", "C", "D"]
)
def test_with_resources_unlimited_the_serial_plan_is_the_critical_path(bench, duration):
    plan = first_plan(bench)
    assert plan.finish_min == duration
    assert plan.status is Status.BEST
    assert violations(bench, plan) == ()
    assert {p.id: p.start_min for p in plan.placed} == {
        i: row[0] for i, row in table(bench).items()
    }
