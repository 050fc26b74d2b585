"""Faults planted into plans that hold: each is told, by its kind, and nothing else is."""

from dataclasses import replace

import pytest
from schedule.random_shops import ORIGIN_AT

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.checker import violations
from armorplan.schedule.problem import (
    Bath,
    Hold,
    Job,
    Lag,
    Placed,
    Plan,
    Problem,
    Resource,
    Stage,
    Status,
    Worker,
)
from armorplan.schedule.stages import LATENESS

HOURS = ((0, 240), (300, 540), (1440, 1680))


def shop(*activities, **fields):
    """A maker, an apprentice and a wearer who comes twice; other things as given."""
    return Problem(
        origin_at=ORIGIN_AT,
        horizon_min=4000,
        activities=activities,
        workers=(
            Worker(id="maker", windows=HOURS),
            Worker(id="apprentice", windows=HOURS),
            Worker(id="wearer", windows=((100, 160), (400, 460))),
        ),
        **fields,
    )


def kinds(problem, *placed):
    plan = Plan(status=Status.GOOD, placed=placed)
    return sorted({v.kind for v in violations(problem, plan)})


def at(name, start, end, who="maker", mode=""):
    return Placed(id=name, start_min=start, end_min=end, who=who, mode=mode)


def hands(name, minutes=30, **fields):
    return Activity(id=name, minutes=minutes, people=("maker",), **fields)


def dip(name, *, minutes=10, family="blue", amount=1, who=("maker",), baths=("vat",)):
    return Activity(
        id=name,
        minutes=minutes,
        dip=Dip(family=family, amount=amount, set_up_min=5),
        modes=tuple(Mode(who=w, minutes=minutes, name=b, bath=b) for w in who for b in baths),
    )


def test_what_may_start_no_later():
    problem = shop(hands("pinned", earliest_min=60, latest_start_min=60))
    assert kinds(problem, at("pinned", 60, 90)) == []
    assert kinds(problem, at("pinned", 61, 91)) == ["too late"]
    assert kinds(problem, at("pinned", 59, 89)) == ["too early"]


def test_each_way_has_its_own_minutes():
    ways = (Mode(who="maker", minutes=20), Mode(who="apprentice", minutes=35, name="mallet"))
    problem = shop(Activity(id="set", minutes=0, modes=ways))
    assert kinds(problem, at("set", 0, 20)) == []
    assert kinds(problem, at("set", 0, 35, "apprentice", "mallet")) == []
    assert kinds(problem, at("set", 0, 20, "apprentice", "mallet")) == ["duration"]
    assert kinds(problem, at("set", 0, 20, "apprentice")) == ["wrong person"]
    assert kinds(problem, at("set", 0, 20, "maker", "mallet")) == ["wrong person"]


def test_what_is_needed_by_one_way_only():
    press = Resource(id="press", capacity=1)
    ways = (
        Mode(who="maker", minutes=20, name="press", demands=(Demand(resource="press", amount=1),)),
        Mode(who="maker", minutes=20, name="mallet"),
    )
    other = Activity(id="other", minutes=60, people=("apprentice",), demands=ways[0].demands)
    problem = shop(Activity(id="set", minutes=0, modes=ways), other, resources=(press,))
    busy = at("other", 0, 60, "apprentice")
    assert kinds(problem, busy, at("set", 10, 30, mode="mallet")) == []
    assert kinds(problem, busy, at("set", 10, 30, mode="press")) == ["over capacity"]


def test_a_place_is_open_all_through():
    bench = Resource(id="cutting table", capacity=1, windows=((0, 60), (300, 400)))
    problem = shop(
        hands("cut", demands=(Demand(resource=bench.id, amount=1),)), resources=(bench,)
    )
    assert kinds(problem, at("cut", 30, 60)) == []
    assert kinds(problem, at("cut", 31, 61)) == ["closed place"]


def test_the_wearer_is_there_and_not_elsewhere():
    fits = [hands("fit", also=("wearer",)), hands("measure", also=("wearer",))]
    fits[1] = replace(fits[1], people=("apprentice",))
    problem = shop(*fits)
    good = at("measure", 400, 430, "apprentice")
    assert kinds(problem, at("fit", 100, 130), good) == []
    assert kinds(problem, at("fit", 90, 120), good) == ["outside hours"]
    assert kinds(problem, at("fit", 410, 440), good) == ["two at once"]


def test_work_that_stops_at_closing():
    problem = shop(hands("tool", minutes=60, sitting_min=15))
    assert kinds(problem, at("tool", 220, 340)) == []
    assert kinds(problem, at("tool", 180, 240)) == []
    assert kinds(problem, at("tool", 220, 280)) == ["duration", "outside hours"]
    assert kinds(problem, at("tool", 220, 345)) == ["duration"]
    assert kinds(problem, at("tool", 230, 350)) == ["short sitting"]
    assert kinds(problem, at("tool", 250, 360)) == ["outside hours"]


def test_nothing_of_the_same_hands_lies_in_a_pause():
    problem = shop(hands("tool", minutes=60, sitting_min=15), hands("cut", minutes=20))
    assert kinds(problem, at("tool", 220, 340), at("cut", 340, 360)) == []
    assert kinds(problem, at("tool", 220, 340), at("cut", 300, 320)) == ["two at once"]


BATH = Bath(id="vat", capacity=3, change_min=20)


def test_a_batch_takes_its_set_up_once_and_all_shares():
    problem = shop(dip("a"), dip("b", minutes=7), baths=(BATH,))
    assert kinds(problem, at("a", 0, 22, mode="vat"), at("b", 0, 22, mode="vat")) == []
    assert kinds(problem, at("a", 0, 15, mode="vat"), at("b", 15, 27, mode="vat")) == []
    longer = at("a", 0, 22, mode="vat"), at("b", 0, 20, mode="vat")
    assert kinds(problem, *longer) == ["batch duration"]
    assert kinds(problem, at("a", 0, 15, mode="vat"), at("b", 14, 26, mode="vat")) == [
        "bath in use",
        "two at once",
    ]


def test_a_batch_has_one_family_one_person_and_fits():
    brass = dip("b", family="brass")
    problem = shop(dip("a"), brass, baths=(BATH,))
    both = at("a", 0, 25, mode="vat"), at("b", 0, 25, mode="vat")
    assert kinds(problem, *both) == ["mixed batch"]
    full = shop(dip("a", amount=2), dip("b", amount=2), baths=(BATH,))
    assert kinds(full, *both) == ["full bath"]
    either = shop(dip("a"), dip("b", who=("apprentice",)), baths=(BATH,))
    assert kinds(either, both[0], at("b", 0, 25, "apprentice", "vat")) == ["shared batch"]


def test_another_family_waits_for_the_change():
    problem = shop(dip("a"), dip("b", family="brass"), baths=(BATH,))
    first = at("a", 0, 15, mode="vat")
    assert kinds(problem, first, at("b", 35, 50, mode="vat")) == []
    assert kinds(problem, first, at("b", 34, 49, mode="vat")) == ["no change"]
    full = replace(problem, baths=(replace(BATH, holds="brass"),))
    assert kinds(full, first, at("b", 35, 50, mode="vat")) == ["no change"]
    assert kinds(full, at("a", 20, 35, mode="vat"), at("b", 55, 70, mode="vat")) == []


def test_a_dip_goes_into_a_bath_there_is():
    problem = shop(dip("a", baths=("tub",)), baths=(BATH,))
    assert kinds(problem, at("a", 0, 15, mode="tub")) == ["no bath"]


def test_two_batches_at_once_are_two_things():
    two = (BATH, replace(BATH, id="tub"))
    problem = shop(dip("a"), dip("b", baths=("tub",)), baths=two)
    assert kinds(problem, at("a", 0, 15, mode="vat"), at("b", 0, 15, mode="tub")) == [
        "two at once"
    ]


@pytest.mark.parametrize(("taken_down", "told"), [(600, ["over capacity"]), (500, [])])
def test_what_hangs_is_held_till_it_is_taken_down(taken_down, told):
    line = Resource(id="line", capacity=1)
    problem = shop(
        hands("dye", minutes=10),
        hands("take down", minutes=5),
        hands("seal", minutes=10),
        hands("pack", minutes=5),
        resources=(line,),
        holds=(
            Hold(resource="line", amount=1, first="dye", until=("take down",)),
            Hold(resource="line", amount=1, first="seal", until=("pack",)),
        ),
    )
    problem = replace(problem, workers=(Worker(id="maker", windows=((0, 4000),)),))
    lie = at("dye", 0, 10), at("take down", taken_down, taken_down + 5)
    assert kinds(problem, *lie, at("seal", 510, 520), at("pack", 700, 705)) == told


def test_history_keeps_who_did_it():
    done = hands("cut", fixed_start_min=-30, fixed_end_min=0, fixed_who="apprentice")
    problem = shop(done, hands("fold"), lags=(Lag(first="cut", then="fold"),))
    assert kinds(problem, at("cut", -30, 0, "apprentice"), at("fold", 0, 30)) == []
    assert kinds(problem, at("cut", -30, 0, "maker"), at("fold", 0, 30)) == ["wrong person"]


def test_a_batch_keeps_clear_of_all_before_it_not_only_of_the_last():
    done = [
        replace(dip(name), fixed_start_min=start, fixed_end_min=end, fixed_who="maker")
        for name, start, end in (("long", 0, 100), ("short", 10, 20))
    ]
    done = [replace(a, fixed_mode="vat") for a in done]
    problem = shop(*done, dip("free", who=("apprentice",)), baths=(BATH,))
    past = at("long", 0, 100, mode="vat"), at("short", 10, 20, mode="vat")
    assert kinds(problem, *past, at("free", 30, 45, "apprentice", "vat")) == ["bath in use"]
    assert kinds(problem, *past, at("free", 100, 115, "apprentice", "vat")) == []


def test_history_keeps_how_it_was_done():
    done = replace(dip("a"), fixed_start_min=0, fixed_end_min=15, fixed_mode="vat")
    problem = shop(done, hands("fold"), baths=(BATH,))
    assert kinds(problem, at("a", 0, 15, mode="vat"), at("fold", 20, 50)) == []
    assert kinds(problem, at("a", 0, 15, mode="tub"), at("fold", 20, 50)) == ["wrong way"]


def test_a_stage_says_what_the_plan_is_worth():
    problem = shop(hands("fold"), jobs=(Job(id="cop", activities=("fold",), due_min=20),))
    plan = Plan(
        status=Status.BEST,
        placed=(at("fold", 0, 30),),
        stages=(Stage(name=LATENESS, value=0, bound=0, status=Status.BEST),),
    )
    assert [v.kind for v in violations(problem, plan)] == ["false value"]
    true = replace(plan.stages[0], value=10, bound=10)
    assert violations(problem, replace(plan, stages=(true,))) == ()


def test_who_only_has_to_be_there_is_there():
    problem = shop(
        Activity(id="look", minutes=10, also=("wearer",)),
        Activity(id="rest", minutes=10, also=("wearer",)),
    )
    assert kinds(problem, at("look", 100, 110, None), at("rest", 110, 120, None)) == []
    assert kinds(problem, at("look", 90, 100, None), at("rest", 110, 120, None)) == [
        "outside hours"
    ]
    assert kinds(problem, at("look", 105, 115, None), at("rest", 110, 120, None)) == [
        "two at once"
    ]


def test_a_place_that_is_not_there_is_told():
    problem = shop(hands("press", demands=(Demand(resource="press", amount=1),)))
    assert kinds(problem, at("press", 0, 30)) == ["no place"]
