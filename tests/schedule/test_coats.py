"""Coats of one family go in together, whatever build they belong to, where no date suffers."""

from dataclasses import replace
from random import Random

from schedule.small_problems import by_hand, problem

from armorplan.schedule.activity import Activity, Dip, Mode
from armorplan.schedule.bounds import fewest_batches
from armorplan.schedule.coats import Coats, batches_of
from armorplan.schedule.measures import batches
from armorplan.schedule.neighbourhoods import Grounds
from armorplan.schedule.planning import best_plan
from armorplan.schedule.problem import Bath, Job, Lag, Placed, Status
from armorplan.schedule.stages import CHANGES

RNG = Random(1)  # noqa: S311 - which two batches is no secret.


def dip(name, **parts):
    way = Mode(who="m", minutes=10, name="vat", bath="vat")
    return Activity(id=name, minutes=10, modes=(way,), dip=Dip(family="black"), **parts)


def builds(names="abc", *, last_min=200):
    """Builds that are each cut, dipped black and packed, and something that ends last anyway."""
    activities = []
    for at, name in enumerate(names):
        activities += [
            by_hand(f"cut {name}", 5, priority=3 * at),
            dip(f"dye {name}", priority=3 * at + 1),
            by_hand(f"pack {name}", 5, priority=3 * at + 2),
        ]
    activities.append(by_hand("last", 5, priority=99, earliest_min=last_min))
    return problem(
        *activities,
        lags=tuple(
            lag
            for n in names
            for lag in (
                Lag(first=f"cut {n}", then=f"dye {n}"),
                Lag(first=f"dye {n}", then=f"pack {n}"),
            )
        ),
        horizon_min=400,
        windows=((0, 400),),
        baths=(Bath(id="vat", capacity=2),),
        jobs=tuple(
            Job(id=n, activities=(f"cut {n}", f"dye {n}", f"pack {n}"), due_min=last_min)
            for n in names
        ),
    )


def each_alone(bench):
    at, placed = 0, []
    for activity in bench.activities:
        at = max(at, activity.earliest_min)
        mode = "vat" if activity.dip else ""
        end = at + activity.minutes
        placed.append(Placed(id=activity.id, start_min=at, end_min=end, who="m", mode=mode))
        at = end
    return {p.id: p for p in placed}


def test_each_batch_costs_its_setting_up():
    bench = builds()
    assert batches(bench, each_alone(bench)) == 3
    assert fewest_batches(bench) == 2


def test_coats_of_several_builds_go_in_together_where_dates_allow(solver):
    bench = builds()
    plan = best_plan(bench, solver)
    lies = {p.id: p for p in plan.placed}
    assert batches(bench, lies) == 2
    (stage,) = [s for s in plan.stages if s.name == CHANGES]
    assert (stage.value, stage.bound, stage.status) == (3, 3, Status.BEST)


def test_a_date_that_two_in_one_go_would_miss_is_kept(solver):
    """The first build is due before the second may begin."""
    bench = builds("ab")
    late = [
        Activity(id="cut b", minutes=5, people=("m",), earliest_min=100) if a.id == "cut b" else a
        for a in bench.activities
    ]
    first, second = bench.jobs
    soon = Job(id="a", activities=first.activities, due_min=50)
    plan = best_plan(replace(bench, activities=tuple(late), jobs=(soon, second)), solver)
    assert plan.stages[0].value == 0
    assert batches(bench, {p.id: p for p in plan.placed}) == 2


def test_two_batches_are_freed_with_all_that_lies_between():
    bench = builds("ab")
    lies = each_alone(bench)
    assert batches_of((a for a in bench.activities if a.dip), lies) == {
        "black": [("dye a",), ("dye b",)]
    }
    free, _ = Coats(bench).draw(lies, RNG)
    assert free == {"dye a", "pack a", "cut b", "dye b"}
    assert Grounds(bench).coats(lies, 4, RNG) >= free
