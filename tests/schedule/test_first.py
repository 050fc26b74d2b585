"""The best of a few serial plans: dips together, due builds first, everything pinned that is."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from schedule.full_week import full_week
from schedule.random_shops import shops
from schedule.small_problems import by_hand, problem, waiting

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.batching import ALONE, OF_A_BUILD, OF_ALL, READY
from armorplan.schedule.bounds import stage_bounds
from armorplan.schedule.checker import violations
from armorplan.schedule.first import first_placing
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.measures import goals, lateness
from armorplan.schedule.problem import Bath, Hold, Job, Lag, Plan, Resource, Status, Worker
from armorplan.schedule.pulling import pulled_earlier
from armorplan.schedule.serial import Stuck, serial_placing

WIDE = ((0, 200),)
VAT = Bath(id="vat", capacity=2, change_min=15)


def dip(name, family="blue", minutes=10, **parts):
    """A dip by the maker in the vat, five minutes to set up."""
    way = Mode(who="m", minutes=minutes, name="vat", bath="vat")
    return Activity(
        id=name, minutes=0, modes=(way,), dip=Dip(family=family, set_up_min=5), **parts
    )


def laid(bench, patience=READY):
    """Lay by priority; the plan has to hold."""
    placing = serial_placing(bench, {a.id: (a.priority,) for a in bench.activities}, patience)
    assert not isinstance(placing, Stuck), placing
    assert violations(bench, Plan(status=Status.GOOD, placed=placing)) == ()
    return {p.id: (p.start_min, p.end_min) for p in placing}


def test_dips_of_one_family_that_are_ready_go_in_together_as_far_as_the_bath_holds():
    bench = problem(*(dip(n) for n in "abc"), baths=(VAT,), windows=WIDE)
    assert laid(bench) == {"a": (0, 25), "b": (0, 25), "c": (25, 40)}
    assert laid(bench, ALONE) == {"a": (0, 15), "b": (15, 30), "c": (30, 45)}


def test_another_colour_waits_for_the_change():
    bench = problem(dip("a", "red"), dip("b"), baths=(replace(VAT, holds="blue"),), windows=WIDE)
    assert laid(bench) == {"a": (15, 30), "b": (45, 60)}


def test_a_dip_waits_for_what_its_neighbours_wait_for():
    bench = problem(
        dip("a", priority=0),
        by_hand("bevel", 10, priority=2),
        dip("b", priority=3),
        lags=(Lag(first="bevel", then="b"),),
        baths=(VAT,),
        windows=WIDE,
    )
    assert laid(bench)["a"] == (0, 15)
    assert laid(bench, OF_A_BUILD) == {"bevel": (0, 10), "a": (10, 35), "b": (10, 35)}
    apart = replace(bench, jobs=(Job(id="one", activities=("a",)),))
    assert laid(apart, OF_A_BUILD)["a"] == (0, 15)
    assert laid(apart, OF_ALL)["a"] == (10, 35)


def test_dips_that_would_be_too_late_together_are_laid_apart():
    """Each is wiped within five minutes of its bath, which takes ten."""
    bench = problem(
        *(dip(n, priority=at) for at, n in enumerate("ab")),
        *(by_hand(f"wipe {n}", 10, priority=5) for n in "ab"),
        lags=tuple(Lag(first=n, then=f"wipe {n}", max_lag=5) for n in "ab"),
        baths=(VAT,),
        windows=WIDE,
    )
    assert laid(bench) == {
        "a": (0, 15),
        "wipe a": (15, 25),
        "b": (25, 40),
        "wipe b": (40, 50),
    }


def test_what_hangs_on_a_full_rack_is_taken_down_before_more_is_hung():
    names = ("a", "b", "c")
    bench = problem(
        *(by_hand(f"dye {n}", 10, priority=at) for at, n in enumerate(names)),
        *(by_hand(f"take {n}", 5, priority=9) for n in names),
        lags=tuple(Lag(first=f"dye {n}", then=f"take {n}", min_lag=20) for n in names),
        resources=(Resource(id="rack", capacity=1),),
        holds=tuple(
            Hold(resource="rack", amount=1, first=f"dye {n}", until=(f"take {n}",)) for n in names
        ),
        windows=WIDE,
    )
    places = laid(bench)
    assert [places[f"dye {n}"][0] for n in names] == [0, 20, 40]


def test_the_quicker_hand_is_taken_where_it_ends_sooner():
    ways = (Mode(who="slow", minutes=30), Mode(who="quick", minutes=10, name="press"))
    workers = (Worker(id="slow", windows=WIDE), Worker(id="quick", windows=((25, 200),)))
    bench = problem(
        Activity(id="a", minutes=0, modes=ways, priority=0),
        Activity(id="b", minutes=0, modes=ways, priority=1),
        workers=workers,
    )
    assert laid(bench) == {"a": (0, 30), "b": (25, 35)}


def test_the_wearer_has_to_be_there_and_the_press_open():
    press = Resource(id="press", capacity=1, windows=((0, 40), (60, 90)))
    bench = problem(
        by_hand("fit", 10, also=("wearer",), priority=0),
        by_hand("press", 20, demands=(Demand(resource="press", amount=1),), priority=1),
        resources=(press,),
        workers=(Worker(id="m", windows=WIDE), Worker(id="wearer", windows=((25, 50),))),
    )
    assert laid(bench) == {"fit": (25, 35), "press": (0, 20)}
    late = replace(bench, resources=(replace(press, windows=((15, 30), (60, 90))),))
    assert laid(late)["press"] == (60, 80)


def test_work_that_may_stop_goes_on_as_hours_begin_again():
    bench = problem(by_hand("a", 40, priority=0), by_hand("b", 45, sitting_min=10, priority=1))
    assert laid(bench) == {"a": (0, 40), "b": (40, 125)}
    short = problem(by_hand("a", 55, priority=0), by_hand("b", 45, sitting_min=10, priority=1))
    assert laid(short)["b"] == (100, 145)


def test_what_is_pinned_to_a_start_gets_it_though_others_come_first():
    bench = problem(
        by_hand("long", 50, priority=0),
        by_hand("before", 10, priority=1),
        by_hand("fit", 10, earliest_min=20, latest_start_min=20, priority=2),
        lags=(Lag(first="before", then="fit"),),
    )
    assert laid(bench) == {"long": (100, 150), "before": (0, 10), "fit": (20, 30)}


def test_the_sooner_due_build_comes_first():
    bench = problem(by_hand("a", 40, priority=0), by_hand("b", 40, priority=1))
    jobs = (Job(id="a", activities=("a",)), Job(id="b", activities=("b",), due_min=50))
    placing = first_placing(replace(bench, jobs=jobs))
    assert lateness(replace(bench, jobs=jobs), {p.id: p for p in placing}) == 0


def test_a_week_of_five_builds_is_laid_whole():
    bench = full_week()
    placing = first_placing(bench)
    assert violations(bench, Plan(status=Status.GOOD, placed=placing)) == ()
    bounds = stage_bounds(bench)
    assert all(bounds[name] <= value for name, value in goals(bench, placing).items())


@settings(max_examples=15, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops(most=5), st.lists(st.booleans(), min_size=5, max_size=5))
def test_a_plan_of_which_parts_are_pinned_can_be_kept_laid_and_pulled(shop, pinned):
    """What is pinned becomes history: its place, its person, its way; a dip may join its batch."""
    placed = () if lag_cycle(shop) else first_placing(shop)
    if not placed or isinstance(placed, Stuck):
        return
    activities = tuple(
        replace(
            a,
            fixed_start_min=p.start_min,
            fixed_end_min=p.end_min,
            fixed_who=p.who,
            fixed_mode=p.mode,
        )
        if keep
        else a
        for a, p, keep in zip(shop.activities, placed, pinned, strict=False)
    )
    rest = replace(shop, activities=activities)
    assert not lag_cycle(rest)
    assert all(stage_bounds(rest)[n] <= value for n, value in goals(rest, placed).items())
    again = first_placing(rest)
    for plan in (pulled_earlier(rest, placed), () if isinstance(again, Stuck) else again):
        assert not plan or violations(rest, Plan(status=Status.GOOD, placed=plan)) == ()


@pytest.mark.long
@settings(max_examples=1500, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops(most=6), st.lists(st.booleans(), min_size=6, max_size=6))
def test_many_plans_of_which_parts_are_pinned(shop, pinned):
    test = test_a_plan_of_which_parts_are_pinned_can_be_kept_laid_and_pulled
    test.hypothesis.inner_test(shop, pinned)


def test_what_hangs_with_nobody_to_take_it_down_says_what_does_not_fit():
    """The second is hung before the first is taken down, and the rack holds one."""
    bench = problem(
        waiting("a", 5),
        waiting("b", 5),
        waiting("off", 5),
        lags=(Lag(first="a", then="b"), Lag(first="b", then="off")),
        resources=(Resource(id="rack", capacity=1),),
        holds=tuple(Hold(resource="rack", amount=1, first=n, until=("off",)) for n in "ab"),
    )
    placing = serial_placing(bench, {a.id: (0,) for a in bench.activities})
    assert isinstance(placing, Stuck)
    assert "does not fit" in placing.text
