"""Several builds in one problem: shared people and places, dates, ids, priorities."""

from dataclasses import replace
from datetime import UTC, datetime, time, timedelta
from itertools import groupby
from zoneinfo import ZoneInfo

import networkx as nx
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.in_hand import APPRENTICE, MAKER, MONDAY_8, SHOP, after, cuff, made, sound

from armorplan.schedule import joining
from armorplan.schedule.activity import Demand
from armorplan.schedule.bench_history import History
from armorplan.schedule.building import problem_from, problem_of
from armorplan.schedule.joining import BuildInHand, joined_problem, ranks
from armorplan.schedule.measures import goals
from armorplan.steps.model import StepKind
from armorplan.workshop.hours import Opening

BLUE, RED = made(cuff()), made(cuff(colour="red"))


def build(name, facts=BLUE, **more):
    return BuildInHand(id=name, title=f"Build {name}", **{**facts, **more})


def joined(*builds):
    return joined_problem(builds, origin_at=MONDAY_8)


def test_each_activity_is_named_after_its_build():
    problem = joined(build("one"), build("two"))
    names = [a.id for a in problem.activities]
    assert len(set(names)) == len(names) == 2 * len(BLUE["work"].steps)
    assert {name.partition("/")[0] for name in names} == {"one", "two"}
    known = set(names)
    assert all({g.first, g.then} <= known for g in problem.lags)
    assert all({h.first, *h.until} <= known for h in problem.holds)
    assert [job.id for job in problem.jobs] == ["one", "two"]
    assert sorted(i for job in problem.jobs for i in job.activities) == sorted(names)
    # Nothing of one build waits for the other, but for the paper that serves both.
    across = [g for g in problem.lags if g.first.partition("/")[0] != g.then.partition("/")[0]]
    assert {g.reason for g in across} == {"One print and one mock-up serve builds alike."}


def test_people_and_places_are_shared():
    problem = joined(build("one"), build("two", RED))
    assert [w.id for w in problem.workers] == ["maker", "apprentice", "captain", "nobody"]
    assert [(b.id, b.capacity, b.change_min) for b in problem.baths] == [
        ("vat", 2, 20),
        ("bench", 20, 5),
    ]
    assert [(r.id, r.capacity) for r in problem.resources] == [("anvil", 1), ("line", 200)]
    sound(problem)


def test_dates_and_weights_become_minutes():
    one = build("one", due_at=after(days=3, seconds=30), weight=4)
    two = build("two", ready_at=after(days=1, seconds=30))
    problem = joined(one, two)
    assert [(j.due_min, j.weight) for j in problem.jobs] == [(3 * 1440, 4), (None, 1)]
    mine = {a.id: a.earliest_min for a in problem.activities}
    assert {mine[i] for i in problem.jobs[0].activities} == {0}
    assert {mine[i] for i in problem.jobs[1].activities} == {1441}
    lies = sound(problem)
    assert min(lies[i].start_min for i in problem.jobs[1].activities) >= 1441


def test_the_build_due_first_comes_first_of_builds_alike():
    late, soon, never = (
        build("late", due_at=after(days=9)),
        build("soon", due_at=after(days=5)),
        build("never"),
    )
    assert ranks((late, soon, never)) == {"soon": 0, "late": 1, "never": 2}
    problem = joined(late, soon, never)
    by_build = {
        name: sorted(a.priority for a in activities)
        for name, activities in groupby(problem.activities, lambda a: a.id.partition("/")[0])
    }
    assert by_build["soon"][-1] < by_build["late"][0] < by_build["never"][0]
    assert by_build["late"][-1] < by_build["never"][0]


def test_a_build_waits_for_another():
    problem = joined(build("one", after=("two",)), build("two"))
    lies = sound(problem)
    first = min(lies[i].start_min for i in problem.jobs[0].activities)
    assert first >= max(lies[i].end_min for i in problem.jobs[1].activities)


def test_what_is_done_in_one_build_leaves_the_other_whole():
    work = BLUE["work"]
    cut = work.of_kind(StepKind.CUT)[0]
    done = History(
        done={cut.id: (after(hours=-2), after(hours=-1))},
        running={},
        worked_min={},
        who={cut.id: "apprentice"},
    )
    problem = joined(build("one", history=done), build("two"))
    kinds = {a.id: a for a in problem.activities}
    mine = kinds[cut.id.replace("b/", "one/", 1)]
    assert (mine.fixed_start_min, mine.fixed_end_min, mine.fixed_who) == (-120, -60, "apprentice")
    assert kinds[cut.id.replace("b/", "two/", 1)].fixed_start_min is None
    sound(problem)


def test_what_hangs_already_hangs_on():
    work = BLUE["work"]
    dye, again = work.of_kind(StepKind.DYE)
    at = BLUE["order"].index(dye.id)
    done = {step: (after(hours=-9), after(hours=-8)) for step in BLUE["order"][: at + 1]}
    problem = joined(build("one", history=History(done=done, running={}, worked_min={})))
    hold = next(h for h in problem.holds if h.first.endswith(dye.id.partition("/")[2]))
    assert hold.until == (again.id.replace("b/", "one/", 1),)


def test_a_bath_holds_what_was_dipped_last():
    dye = RED["work"].of_kind(StepKind.DYE)[0].id
    red = History(done={dye: (after(hours=-3), after(hours=-2))}, running={}, worked_min={})
    blue = History(done={}, running={dye: after(minutes=-5)}, worked_min={})
    clean = joined(build("one"), build("two", RED))
    assert [b.holds for b in clean.baths] == ["", ""]
    once = joined(build("one"), build("two", RED, history=red))
    assert [b.holds for b in once.baths] == ["dye|red", ""]
    twice = joined(build("one", history=blue), build("two", RED, history=red))
    assert [b.holds for b in twice.baths] == ["dye|blue", ""]
    sound(once)


def test_each_pattern_is_gone_through_once(monkeypatch):
    asked = []
    monkeypatch.setattr(
        joining, "problem_of", lambda b, *more: asked.append(b.id) or problem_of(b, *more)
    )
    joined(*(build(f"b{n}") for n in range(5)), build("red", RED))
    assert asked == ["b0", "red"]


def test_a_plain_shop_plans_as_ever():
    plain = replace(SHOP, people=(MAKER,), wearers=(), baths=(), racks=(), stations=())
    facts = made(cuff(), plain)
    alone = problem_from(
        facts["work"],
        facts["relations"],
        facts["workplace"],
        origin_at=MONDAY_8,
        order=facts["order"],
    )
    (job,) = joined(build("b", facts)).jobs
    again = joined(build("b", facts))
    assert again.activities == alone.activities
    assert again.lags == alone.lags
    assert job.activities == tuple(a.id for a in alone.activities)
    assert not any(a.modes or a.sitting_min or a.soon or a.dip for a in alone.activities)
    assert (alone.holds, alone.baths) == ((), ())


def longest_way(problem):
    """Return the longest chain of least durations and least waits, by a library's own search."""
    graph = nx.DiGraph()
    least = {}
    for a in problem.activities:
        shares = [w.minutes + (a.dip.set_up_min if a.dip else 0) for w in a.ways]
        least[a.id] = a.table.shortest_min if a.table else min(shares)
        graph.add_edge("begin", a.id, weight=a.earliest_min)
        graph.add_edge(a.id, "end", weight=least[a.id])
    for g in problem.lags:
        if g.min_lag >= 0:
            graph.add_edge(g.first, g.then, weight=least[g.first] + g.min_lag)
    return nx.dag_longest_path_length(graph)


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.too_slow], derandomize=True
)
@given(data=st.data())
def test_no_plan_ends_before_its_longest_way_or_its_hands(data):
    """Total ≥ max(critical path, hands-on / people), and nothing begins before it may."""
    count = data.draw(st.integers(1, 3))
    people = data.draw(st.sampled_from(((MAKER,), (MAKER, APPRENTICE))))
    builds = [
        build(
            f"b{at}",
            data.draw(st.sampled_from((BLUE, RED))),
            due_at=data.draw(st.sampled_from((None, after(days=4), after(days=9)))),
            ready_at=data.draw(st.sampled_from((None, after(hours=30)))),
            weight=data.draw(st.integers(1, 3)),
        )
        for at in range(count)
    ]
    shop = replace(SHOP, people=people)
    builds = [replace(b, workplace=replace(b.workplace, shop=shop)) for b in builds]
    problem = joined(*builds)
    lies = sound(problem)
    finish = max(p.end_min for p in lies.values())
    assert finish >= longest_way(problem)
    hands = sum(min(w.minutes for w in a.ways) for a in problem.activities if a.people)
    assert finish * len(people) >= hands
    late = 0
    for b, job in zip(builds, problem.jobs, strict=True):
        begins = MONDAY_8 + timedelta(minutes=min(lies[i].start_min for i in job.activities))
        ends = MONDAY_8 + timedelta(minutes=max(lies[i].end_min for i in job.activities))
        assert begins >= (b.ready_at or MONDAY_8)
        if b.due_at is not None:
            late += b.weight * max(0, int((ends - b.due_at).total_seconds() // 60))
    assert goals(problem, lies.values()).get("lateness", 0) == late


def test_demands_and_holds_name_what_there_is():
    problem = joined(build("one"))
    demands = {d for a in problem.activities for d in a.demands}
    assert demands == {Demand(resource="anvil", amount=1)}
    assert {h.resource for h in problem.holds} == {"line"}


@pytest.mark.parametrize(
    ("zone", "friday"),
    [
        # The Sundays after these days change the clock (Directive 2000/84/EC; 15 U.S.C. 260a).
        ("Europe/Lisbon", (2027, 3, 26)),
        ("Europe/Lisbon", (2026, 10, 23)),
        ("America/New_York", (2027, 3, 12)),
        ("America/New_York", (2026, 10, 30)),
    ],
)
def test_hands_keep_to_the_clock_on_the_wall_when_it_changes(zone, friday):
    local = ZoneInfo(zone)
    hours = tuple(
        Opening(weekday=day, start=start, end=end)
        for day in range(7)
        for start, end in ((time(9), time(12)), (time(13), time(17)))
    )
    people = tuple(replace(p, hours=hours) for p in (MAKER, APPRENTICE))
    shop = replace(SHOP, people=people, wearers=(), zone=zone)
    one = build("one", due_at=datetime(*friday, 17, tzinfo=local) + timedelta(days=3))
    one = replace(one, workplace=replace(one.workplace, shop=shop))
    origin_at = datetime(*friday, 9, tzinfo=local).astimezone(UTC)
    problem = joined_problem((one,), origin_at=origin_at)
    days = set()
    for placed in sound(problem).values():
        start = (origin_at + timedelta(minutes=placed.start_min)).astimezone(local)
        end = (origin_at + timedelta(minutes=placed.end_min)).astimezone(local)
        days |= {start.date()} if placed.who else set()
        if placed.who and start.date() == end.date():
            assert time(9) <= start.time() < time(17)
            assert time(9) < end.time() <= time(17)
    assert max(days) >= datetime(*friday, tzinfo=local).date() + timedelta(days=2)  # The Sunday.
    # Three days later at five on the wall: an hour less or more than three times 24 hours.
    due_at = origin_at + timedelta(minutes=problem.jobs[0].due_min)
    assert due_at.astimezone(local).timetz().replace(tzinfo=None) == time(17)
    assert problem.jobs[0].due_min in {80 * 60 - 60, 80 * 60 + 60}
