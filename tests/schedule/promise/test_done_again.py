"""Damp work done again takes hands, bath and room of others; nobody is ever at two things at once."""

import numpy as np
from schedule.promise.promise_scenes import (
    DAY,
    DAYTIME,
    MAKER,
    after,
    gone,
    hands,
    plan_of,
    problem_of,
)

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.problem import Bath, Resource, Worker
from armorplan.schedule.promise.diary import Diary
from armorplan.schedule.promise.hours import NEVER

APPRENTICE = Worker(id="apprentice", windows=DAYTIME)
DAMP = after("case", "form", 20, 60)
OTHER, FORM = hands("other", 30), hands("form", 30)
SPANS = {"other": (490, 520, "maker"), "form": (520, 550, "maker")}


def theirs(name, minutes, **more):
    return Activity(id=name, minutes=minutes, people=("apprentice",), **more)


def dipped(name, who, family, **more):
    way = Mode(who=who, minutes=10, name="vat", bath="vat")
    return Activity(id=name, minutes=10, modes=(way,), dip=Dip(family=family), **more)


def test_who_cases_again_has_no_time_for_others_meanwhile():
    activities = [theirs("case", 10), OTHER, FORM, theirs("next", 60, earliest_min=560)]
    problem = problem_of(activities, [DAMP], (MAKER, APPRENTICE))
    plan = plan_of(case=(480, 490, "apprentice"), next=(560, 620, "apprentice"), **SPANS)
    assert gone(problem, plan)["next"] == (560, 620)
    late = gone(problem, plan, other=3)
    assert late["form"][0] == 570 + 10 + 20
    assert late["next"] == (580, 640), "cased again from 570 to 580"


def test_the_bath_is_taken_again_and_changed_for_who_comes_next():
    activities = [dipped("case", "maker", "blue"), OTHER, FORM]
    activities.append(dipped("next", "apprentice", "brass", earliest_min=560))
    bath = Bath(id="vat", capacity=2, change_min=20, holds="blue")
    problem = problem_of(activities, [DAMP], (MAKER, APPRENTICE), baths=(bath,))
    spans = {"case": (480, 490, "maker", "vat"), "next": (560, 570, "apprentice", "vat")}
    plan = plan_of(**spans, **SPANS)
    assert gone(problem, plan)["next"][0] == 560
    assert gone(problem, plan, other=3)["next"][0] == 590 + 20


def test_what_is_done_again_waits_for_who_has_the_bath_meanwhile():
    activities = [dipped("case", "maker", "blue"), OTHER, FORM]
    activities.append(dipped("next", "apprentice", "brass"))
    bath = Bath(id="vat", capacity=2, change_min=20, holds="blue")
    problem = problem_of(activities, [DAMP], (MAKER, APPRENTICE), baths=(bath,))
    spans = {"case": (480, 490, "maker", "vat"), "next": (510, 520, "apprentice", "vat")}
    late = gone(problem, plan_of(**spans, **SPANS), other=3, next=8)
    assert late["next"] == (510, 590)
    assert late["form"][0] == 590 + 20 + 10 + 20


def test_the_rack_is_taken_again():
    on_rack = (Demand(resource="rack", amount=1),)
    wet = Activity(id="wet", minutes=20, demands=on_rack)
    other = Activity(id="next", minutes=100, demands=on_rack, earliest_min=560)
    lags = [after("case", "wet", 0, 0), after("wet", "form", 0, 40)]
    rack = Resource(id="rack", capacity=1)
    activities = [hands("case", 10), wet, OTHER, FORM, other]
    problem = problem_of(activities, lags, resources=(rack,))
    spans = {"case": (480, 490, "maker"), "wet": (490, 510, None), "next": (560, 660, None)}
    plan = plan_of(**spans, **SPANS)
    assert gone(problem, plan)["next"][0] == 560
    late = gone(problem, plan, other=3)
    assert late["form"][0] == 580 + 10 + 20
    assert late["next"][0] == 610, "wet again from 590 to 610"


def test_a_window_that_is_missed_whatever_is_tried_is_missed_for_good():
    mornings = tuple((d * DAY + 480, d * DAY + 540) for d in range(1, 30))
    evenings = tuple((d * DAY + 960, d * DAY + 1020) for d in range(30))
    maker = Worker(id="maker", windows=((480, 940), *mornings))
    apprentice = Worker(id="apprentice", windows=((470, 500), *evenings))
    problem = problem_of([theirs("case", 10), OTHER, FORM], [DAMP], (maker, apprentice))
    plan = plan_of(case=(480, 490, "apprentice"), **SPANS)
    assert gone(problem, plan)["form"][0] == 510
    late = gone(problem, plan, other=3)
    assert late["other"][1] == 570
    assert late["form"][0] >= NEVER


def test_however_many_bookings_are_in_the_way_nobody_is_at_two_things_at_once():
    at_two = tuple((d * DAY + 840, d * DAY + 900) for d in range(30))
    wearer = Worker(id="wearer", windows=at_two)
    days = range(12)
    names = {d: ("m", "a")[d % 2] + str(d) for d in days}
    busy = [(theirs if d % 2 else hands)(names[d], 120, earliest_min=d * DAY + 810) for d in days]
    fit = hands("fit", 45, also=("apprentice", "wearer"))
    problem = problem_of([*busy, fit], (), (MAKER, APPRENTICE, wearer))
    crew = ("maker", "apprentice")
    spans = {names[d]: (d * DAY + 810, d * DAY + 930, crew[d % 2]) for d in days}
    plan = plan_of(fit=(12 * DAY + 840, 12 * DAY + 885, "maker"), **spans)
    assert gone(problem, plan)["fit"][0] == 12 * DAY + 840


def test_time_can_be_taken_in_some_runs_only():
    diary = Diary(3)
    rows = np.array([0, 2])
    diary.book(np.array([10.0, 30.0]), np.array([20.0, 50.0]), rows)
    every = np.arange(3)
    assert list(diary.behind(every)) == [20, 0, 50]
    assert list(diary.free(np.zeros(3), 15.0, every)) == [20, 0, 0]
