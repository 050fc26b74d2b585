"""A build at which nothing happened is moved on in time, to the very problem made anew."""

from dataclasses import replace
from datetime import time, timedelta

import pytest
from schedule.in_hand import MONDAY_8, after, cuff, made, sound
from schedule.night_rooms import NIGHTS

from armorplan.schedule import joining
from armorplan.schedule.bench_history import History
from armorplan.schedule.joining import BuildInHand, Joiner, joined_problem
from armorplan.schedule.moving_on import STANDS
from armorplan.steps.model import StepKind
from armorplan.workshop.hours import Opening
from armorplan.workshop.places import Station

BLUE, RED = made(cuff()), made(cuff(colour="red"))


def build(name, facts=BLUE, **more):
    return BuildInHand(id=name, title=f"Build {name}", **{**facts, **more})


@pytest.fixture
def made_anew(monkeypatch):
    """The builds whose problem was made anew, in order."""
    found = []
    real = joining.problem_of

    def told(build, *more):
        found.append(build.id)
        return real(build, *more)

    monkeypatch.setattr(joining, "problem_of", told)
    return found


def begun(facts, *, until):
    """What was done by Monday eight, with the step of that kind under way."""
    order, work = facts["order"], facts["work"]
    at = next(i for i, s in enumerate(order) if work.step(s).kind is until)
    done = {s: (after(hours=-9), after(hours=-8, minutes=i)) for i, s in enumerate(order[:at])}
    running = {order[at]: after(minutes=-7)}
    return History(done=done, running=running, worked_min={}, who={order[at]: "maker"})


@pytest.mark.parametrize("minutes", [0, 1, 53])
@pytest.mark.parametrize("until", [StepKind.CUT, StepKind.DYE, StepKind.DRY])
def test_what_is_moved_on_is_what_would_be_made_anew(made_anew, minutes, until):
    builds = (
        build("one", history=begun(BLUE, until=until)),
        build("two", RED, ready_at=after(hours=3, seconds=20), due_at=after(days=5)),
        build("three", RED, due_at=after(days=3)),
    )
    joiner = Joiner()
    joiner.problem(builds, origin_at=MONDAY_8)
    del made_anew[:]
    at = MONDAY_8 + timedelta(minutes=minutes)
    moved = joiner.problem(builds, origin_at=at)
    assert made_anew == []
    assert moved == joined_problem(builds, origin_at=at)


def test_only_what_was_worked_at_is_made_anew(made_anew):
    joiner = Joiner()
    joiner.problem((build("one"), build("two", RED)), origin_at=MONDAY_8)
    one = build("one", history=begun(BLUE, until=StepKind.CUT))
    at = after(minutes=10)
    del made_anew[:]
    problem = joiner.problem((one, build("two", RED)), origin_at=at)
    assert made_anew == ["one"]
    assert problem == joined_problem((one, build("two", RED)), origin_at=at)
    sound(problem)


def test_another_rank_names_and_orders_it_anew(made_anew):
    joiner = Joiner()
    joiner.problem((build("one"), build("two", RED)), origin_at=MONDAY_8)
    turned = (build("one"), build("two", RED, due_at=after(days=4)))
    del made_anew[:]
    problem = joiner.problem(turned, origin_at=MONDAY_8)
    assert made_anew == []
    assert problem == joined_problem(turned, origin_at=MONDAY_8)


def test_after_hours_and_after_a_clock_set_back_all_is_looked_at_anew(made_anew):
    one = build("one")
    for at in (after(minutes=-1), MONDAY_8 + STANDS + timedelta(minutes=1)):
        joiner = Joiner()
        joiner.problem((one,), origin_at=MONDAY_8)
        del made_anew[:]
        joiner.problem((one,), origin_at=at)
        assert made_anew == ["one"]


def test_another_shop_is_another_problem(made_anew):
    joiner = Joiner()
    joiner.problem((build("one"),), origin_at=MONDAY_8)
    place = BLUE["workplace"]
    people = (replace(place.shop.people[0], name="Somebody"), *place.shop.people[1:])
    there = replace(place, shop=replace(place.shop, people=people))
    del made_anew[:]
    joiner.problem((build("one", workplace=there),), origin_at=MONDAY_8)
    assert made_anew == ["one"]


def test_places_keep_their_hours_as_time_goes_on():
    place = BLUE["workplace"]
    mornings = tuple(Opening(weekday=day, start=time(9), end=time(12)) for day in range(5))
    anvil = Station(id="anvil", name="Anvil", kinds=("rivet",), hours=mornings)
    shop = replace(place.shop, stations=(anvil,))
    facts = {**BLUE, "workplace": replace(place, shop=shop)}
    joiner = Joiner()
    for minutes in (0, 60, 300):
        at = after(minutes=minutes)
        problem = joiner.problem((build("one", facts),), origin_at=at)
        anew = joined_problem((build("one", facts),), origin_at=at)
        assert problem.resources == anew.resources
        (hours,) = (r.windows for r in problem.resources if r.id == "anvil")
        assert hours[0] == {0: (60, 240), 60: (0, 180), 300: (1200, 1380)}[minutes]


def test_in_a_room_with_nights_nothing_is_made_twice_in_one_minute(made_anew):
    place = BLUE["workplace"]
    nights = replace(place, shop=replace(place.shop, room=NIGHTS))
    one, two = build("one", workplace=nights), build("two", RED, workplace=nights)
    joiner = Joiner()
    first = joiner.problem((one, two), origin_at=MONDAY_8)
    begun_one = replace(one, history=begun(BLUE, until=StepKind.CUT))
    del made_anew[:]
    again = joiner.problem((begun_one, two), origin_at=MONDAY_8)
    assert made_anew == ["one"]
    assert again == joined_problem((begun_one, two), origin_at=MONDAY_8) != first
    del made_anew[:]
    joiner.problem((begun_one, two), origin_at=after(minutes=1))
    assert made_anew == ["one", "two"]
