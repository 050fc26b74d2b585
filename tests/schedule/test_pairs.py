"""Work with somebody beside: both are busy; serial plan, solver and bounds against every plan."""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, Phase, given, settings
from schedule.pair_shops import alone, pair, pair_shops
from schedule.random_shops import all_plans, best_goals
from schedule.small_problems import kinds, problem
from schedule.test_cp_shops import held_against_all

from armorplan.schedule.activity import Activity, Dip
from armorplan.schedule.bounds import finish_bound
from armorplan.schedule.changeovers import changeovers
from armorplan.schedule.checker import violations
from armorplan.schedule.claims import open_to
from armorplan.schedule.comparing import plan_sum
from armorplan.schedule.measures import goals, times_at_bench
from armorplan.schedule.parting import parted
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Bath, Lag, Placed, Plan, Resource, Status, Worker
from armorplan.schedule.pulling import pulled_earlier
from armorplan.schedule.spans import placed_by_history
from armorplan.schedule.what_if import AnotherPair, Away, changed

# Not made smaller: every try goes through all plans, which takes minutes for a failure.
_QUICKLY = settings(
    deadline=None,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.reuse, Phase.generate),
)
MAKER = Worker(id="maker", windows=((0, 60), (100, 160)))
APPRENTICE = Worker(id="apprentice", windows=((10, 50), (100, 160)))
RIVET = Activity(id="rivet", minutes=0, modes=(alone("maker", 12), pair(8)))
SEW = Activity(id="sew", minutes=10, people=("maker",))
TIDY = Activity(id="tidy", minutes=10, people=("apprentice",))


def shop(*activities, workers=(MAKER, APPRENTICE), **parts):
    return problem(*activities, workers=workers, **parts)


def laid(*places):
    placed = tuple(
        Placed(id=name, start_min=start, end_min=end, who=who, mode=mode)
        for name, start, end, who, mode in places
    )
    return Plan(status=Status.GOOD, placed=placed)


def in_pair(name, start, end):
    return (name, start, end, "apprentice", "+maker")


def pairs_in(bench, plan):
    by_id = {a.id: a for a in bench.activities}
    return [p.id for p in plan.placed if by_id[p.id].way(p.who, p.mode).also]


@pytest.mark.parametrize(
    ("places", "found"),
    [
        ((in_pair("rivet", 10, 18), ("sew", 18, 28, "maker", "")), set()),
        ((in_pair("rivet", 10, 18), ("sew", 12, 22, "maker", "")), {"two at once"}),
        ((in_pair("rivet", 0, 8), ("sew", 18, 28, "maker", "")), {"outside hours"}),
        ((in_pair("rivet", 45, 53), ("sew", 18, 28, "maker", "")), {"outside hours"}),
        ((in_pair("rivet", 10, 22), ("sew", 22, 32, "maker", "")), {"duration"}),
        ((("rivet", 10, 18, "apprentice", ""), ("sew", 18, 28, "maker", "")), {"wrong person"}),
    ],
    ids=["holds", "who is beside is busy", "too early for one", "too late for one",
         "as long as alone", "alone"],
)  # fmt: skip
def test_the_checker_names_every_fault_of_a_pair(places, found):
    assert kinds(shop(RIVET, SEW), laid(*places)) == found


def test_who_is_beside_keeps_their_own_hours():
    late = replace(MAKER, windows=((12, 60),))
    plan = laid(in_pair("rivet", 10, 18), ("sew", 20, 30, "maker", ""))
    assert kinds(shop(RIVET, SEW, workers=(late, APPRENTICE)), plan) == {"outside hours"}


def test_a_pair_works_in_one_go_where_one_alone_may_pause():
    cut = Activity(id="cut", minutes=0, sitting_min=5, modes=(alone("maker", 30), pair(30)))
    bench = shop(cut)
    assert kinds(bench, laid(("cut", 40, 110, "maker", ""))) == set()
    assert kinds(bench, laid(in_pair("cut", 40, 110))) == {"duration", "outside hours"}


def test_one_batch_has_one_pair(solver):
    from armorplan.schedule.activity import Dip
    from armorplan.schedule.problem import Bath

    modes = tuple(
        replace(way, bath="vat", name=f"vat{way.name}")
        for way in (alone("maker", 5), pair(4), pair(4, beside="helper"))
    )
    dips = [
        Activity(id=name, minutes=0, modes=modes, dip=Dip(family="blue", set_up_min=2))
        for name in ("one", "two")
    ]
    helper = Worker(id="helper", windows=((0, 60),))
    bench = shop(
        *dips,
        workers=(MAKER, APPRENTICE, helper),
        baths=(Bath(id="vat", capacity=2),),
    )
    together = [(name, 10, 20, "apprentice", "vat+maker") for name in ("one", "two")]
    assert kinds(bench, laid(*together)) == set()
    mixed = [together[0], ("two", 10, 20, "apprentice", "vat+helper")]
    assert kinds(bench, laid(*mixed)) == {"shared batch"}
    plan = best_plan(bench, solver, seconds=5)
    assert violations(bench, plan) == ()


def test_both_are_counted_at_the_bench_and_at_work():
    bench, plan = shop(RIVET, SEW), laid(in_pair("rivet", 10, 18), ("sew", 100, 110, "maker", ""))
    lies = {p.id: p for p in plan.placed}
    assert times_at_bench(bench, lies) == 3
    assert dict(plan_sum(bench, plan).hands_min) == {"maker": 18, "apprentice": 8}


def test_a_pair_is_taken_where_it_helps_and_not_else(solver):
    """By hand: one rivet alone till 12, four in pairs till 44, then he sews; all alone take till 70.

    That is beyond his first hours, so that sewing would begin at 100.
    """
    rivets = [
        replace(RIVET, id=f"rivet{n}", modes=(alone("maker", 12), pair(8))) for n in range(5)
    ]
    lags = tuple(Lag(first=f"rivet{n}", then="sew") for n in range(5))
    bench = shop(*rivets, SEW, lags=lags)
    plan = best_plan(bench, solver, seconds=10)
    assert violations(bench, plan) == ()
    assert plan.status is Status.BEST
    assert plan.finish_min == 12 + 4 * 8 + 10
    assert pairs_in(bench, plan)
    late = replace(bench, activities=(*rivets, replace(SEW, earliest_min=100)))
    plan = best_plan(late, solver, seconds=10)
    assert plan.finish_min == 110
    assert pairs_in(late, plan) == []


def test_of_plans_as_good_the_one_with_nobody_beside_is_taken(solver):
    even = replace(RIVET, modes=(pair(12), alone("maker", 12)))
    for plan in (first_plan(shop(even)), best_plan(shop(even), solver, seconds=5)):
        assert [(p.who, p.mode) for p in plan.placed] == [("maker", "")]


def test_without_who_is_beside_the_apprentice_does_nothing():
    gone = changed(shop(RIVET), Away(who="maker", window=(0, 160)))
    assert first_plan(gone).status is Status.NONE
    helped = changed(gone, AnotherPair(who="maker"))
    assert {w.also for w in helped.activities[0].ways} == {(), ("maker",), ("maker 2",)}
    assert len({(w.who, w.name) for w in helped.activities[0].ways}) == 4


def test_another_apprentice_needs_somebody_beside_as_well():
    helped = changed(shop(RIVET), AnotherPair(who="apprentice"))
    ways = [(w.who, w.also) for w in helped.activities[0].ways]
    assert ("apprentice 2", ("maker",)) in ways
    assert ("apprentice 2", ()) not in ways


def test_who_else_may_do_it_does_it_alone():
    opened = open_to(RIVET, ("maker", "apprentice", "helper"))
    assert {(w.who, w.also, w.minutes) for w in opened.ways} == {
        ("maker", (), 12),
        ("apprentice", ("maker",), 8),
        ("apprentice", (), 12),
        ("helper", (), 12),
    }


def test_a_conflict_says_who_may_do_it_alone(solver):
    """The maker sews all his hour while a damp lame waits to be riveted; the apprentice is there."""
    damp = Activity(id="damp", minutes=5)
    sew = replace(SEW, minutes=60, latest_start_min=0)
    lags = (Lag(first="damp", then="rivet", max_lag=20),)
    bench = shop(replace(damp, latest_start_min=0), RIVET, sew, TIDY, lags=lags, horizon_min=160)
    plan = best_plan(bench, solver, seconds=10)
    assert plan.status is Status.NONE
    assert "only maker may do “rivet” alone" in plan.conflict


def test_what_is_under_way_in_a_pair_keeps_both():
    begun = replace(RIVET, fixed_start_min=0, fixed_who="apprentice", modes=(pair(20),))
    bench = shop(begun, SEW, TIDY)
    plan = first_plan(bench)
    starts = {p.id: p.start_min for p in plan.placed}
    assert (starts["sew"], starts["tidy"]) == (20, 20)
    assert violations(bench, plan) == ()


def test_where_nobody_wrote_down_who_is_beside_it_is_one_whose_hands_are_free():
    helper = Worker(id="helper", windows=((0, 60),))
    sewing = replace(SEW, fixed_start_min=-5, fixed_end_min=30)
    begun = replace(
        RIVET, fixed_start_min=0, fixed_who="apprentice", modes=(pair(8), pair(8, beside="helper"))
    )
    bench = shop(sewing, begun, workers=(MAKER, APPRENTICE, helper))
    assert {p.id: p.mode for p in placed_by_history(bench)}["rivet"] == "+helper"


def test_the_hours_of_who_is_needed_either_way_bound_the_plan():
    """Whoever holds the rivet, the maker is there: 15 rivets take 120 of his minutes at the least."""
    rivets = [replace(RIVET, id=f"rivet{n}") for n in range(14)]
    idle = Worker(id="apprentice", windows=((0, 160),))
    assert finish_bound(shop(*rivets, workers=(MAKER, idle))) >= 100 + (14 * 8 - 60)


def test_a_bath_is_not_changed_by_who_only_helps():
    ways = tuple(replace(way, bath="vat") for way in (alone("maker", 12), pair(8)))
    dye = Activity(id="dye", minutes=0, modes=ways, dip=Dip(family="brown"))
    bench = shop(dye, SEW, baths=(Bath(id="vat", capacity=1, change_min=5, holds="black"),))
    # The maker sews up to the dip, the apprentice is free, and does not dip alone.
    plan = laid(("sew", 10, 20, "maker", ""), in_pair("dye", 20, 28))
    (change,) = changeovers(bench, plan.placed)
    assert (change.who, change.start_min, change.end_min) == ("maker", 5, 10)


@given(problem=pair_shops())
@settings(_QUICKLY, max_examples=8)
def test_each_stage_is_the_least_of_all_plans_with_pairs(solver, problem):
    held_against_all(solver, problem)


@pytest.mark.long
@given(problem=pair_shops(most=4))
@settings(_QUICKLY, max_examples=100)
def test_each_stage_is_the_least_of_all_plans_with_pairs_in_many_drawings(solver, problem):
    held_against_all(solver, problem)


def _first_plan_holds(problem):
    plan = first_plan(problem)
    best = best_goals(problem)
    if plan.status is Status.NONE:
        assert best is None, plan.conflict
    if plan.placed:
        assert violations(problem, plan) == ()
        name, least = next(iter(best.items()))
        stage = next(s for s in plan.stages if s.name == name)
        assert stage.bound <= least <= stage.value


@given(problem=pair_shops())
@settings(_QUICKLY, max_examples=12)
def test_first_plans_with_pairs_hold_and_bounds_are_true(problem):
    _first_plan_holds(problem)


@pytest.mark.long
@given(problem=pair_shops(most=4))
@settings(_QUICKLY, max_examples=200)
def test_many_first_plans_with_pairs_hold_and_bounds_are_true(problem):
    _first_plan_holds(problem)


def _is_as_good_parted_and_pulled(problem):
    for number, placed in enumerate(all_plans(problem)):
        if number >= 12:
            break
        worth = tuple(goals(problem, placed).values())
        apart = parted(problem, placed)
        assert violations(problem, Plan(status=Status.GOOD, placed=apart)) == ()
        assert tuple(goals(problem, apart).values()) <= worth
        pulled = pulled_earlier(problem, placed)
        assert violations(problem, Plan(status=Status.GOOD, placed=pulled)) == ()
        assert all(p.start_min <= q.start_min for p, q in zip(pulled, placed, strict=True))


@given(problem=pair_shops(most=3))
@settings(_QUICKLY, max_examples=12)
def test_plans_parted_or_pulled_hold_and_are_no_worse(problem):
    _is_as_good_parted_and_pulled(problem)


def test_a_run_of_pairs_is_parted_as_far_as_there_is_time():
    """By hand: the maker has 20 min till he sews; the last rivet alone takes 4 min more, and so on."""
    rivets = [replace(RIVET, id=f"rivet{n}") for n in range(3)]
    bench = shop(*rivets, SEW)
    runs = [in_pair(f"rivet{n}", 10 + 8 * n, 18 + 8 * n) for n in range(3)]
    plan = laid(*runs, ("sew", 42, 52, "maker", ""))
    assert violations(bench, plan) == ()
    apart = {p.id: (p.start_min, p.end_min, p.who) for p in parted(bench, plan.placed)}
    assert apart == {
        "rivet0": (10, 18, "apprentice"),
        "rivet1": (18, 30, "maker"),
        "rivet2": (30, 42, "maker"),
        "sew": (42, 52, "maker"),
    }


def test_a_place_that_is_taken_meanwhile_keeps_a_pair():
    from armorplan.schedule.activity import Demand

    anvil = (Demand(resource="anvil", amount=1),)
    bench = shop(
        replace(RIVET, demands=anvil),
        replace(TIDY, demands=anvil),
        resources=(Resource(id="anvil", capacity=1),),
    )
    plan = laid(in_pair("rivet", 10, 18), ("tidy", 18, 28, "apprentice", ""))
    assert violations(bench, plan) == ()
    assert parted(bench, plan.placed) == plan.placed
