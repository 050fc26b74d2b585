"""What somebody is at keeps its bath, its place and its people until it ends."""

from dataclasses import replace

import pytest
from schedule.in_hand import CAPTAIN, MONDAY_8, SHOP, after, cuff, in_hand, made, sound
from schedule.small_problems import problem

from armorplan.schedule.activity import Activity, Demand, Dip, Mode
from armorplan.schedule.bench_history import History
from armorplan.schedule.checker import violations
from armorplan.schedule.joining import Joiner, joined_problem
from armorplan.schedule.planning import best_plan
from armorplan.schedule.problem import Bath, Placed, Plan, Status, Worker
from armorplan.schedule.spans import placed_by_history
from armorplan.steps.model import StepKind
from armorplan.workshop.places import Station
from armorplan.workshop.shop import Person, usual_hours

WORK = made(cuff())["work"]


def first_of(kind):
    return WORK.of_kind(kind)[0]


def at_it(kind, minutes_ago=1, who="maker", *, before=()):
    """Return a history in which somebody is at the first step of a kind, all of others done."""
    over = (after(minutes=-60), after(minutes=-50))
    done = {s.id: over for other in before for s in WORK.of_kind(other)}
    running = {first_of(kind).id: after(minutes=-minutes_ago)}
    hands = {first_of(kind).id: who} if who else {}
    return History(done=done, running=running, worked_min={}, who=hands)


def two_builds(history, shop=SHOP, *, other=None, origin_at=MONDAY_8):
    builds = (
        in_hand("a", shop=shop, history=history),
        in_hand("b", other or cuff(), shop=shop),
    )
    return joined_problem(builds, origin_at=origin_at)


def step_in(problem, build, kind):
    slug, coat = kind.value.replace(" ", "-"), "coat-1" if kind is StepKind.DYE else ""
    return next(
        a
        for a in problem.activities
        if a.id.startswith(f"{build}/") and f"/{slug}/" in a.id and coat in a.id
    )


def kinds_broken(problem, name, start, end, who="maker", mode=""):
    """Return what a plan breaks that has one more thing at a time, beside what runs now."""
    history = placed_by_history(problem)
    placed = Placed(id=name, start_min=start, end_min=end, who=who, mode=mode)
    plan = Plan(status=Status.GOOD, placed=(*history, placed))
    return {v.kind for v in violations(problem, plan)} - {"missing"}


def test_a_coat_under_way_keeps_its_bath_and_its_hands():
    problem = two_builds(at_it(StepKind.DYE))
    runs, other = step_in(problem, "a", StepKind.DYE), step_in(problem, "b", StepKind.DYE)
    assert (runs.fixed_start_min, runs.fixed_end_min) == (-1, 8)
    assert (runs.fixed_who, runs.fixed_mode) == ("maker", "vat")
    assert runs.dip == other.dip
    broken = kinds_broken(problem, other.id, 0, 14, "apprentice", "vat")
    assert "bath in use" in broken
    assert "two at once" in kinds_broken(problem, other.id, 5, 14, "maker", "vat")
    assert "bath in use" not in kinds_broken(problem, other.id, 8, 17, "maker", "vat")
    assert sound(problem)[runs.id].mode == "vat"


def test_another_colour_waits_from_the_end_of_the_coat_under_way():
    """The bath is changed in 20 minutes, and the coat ends at minute 8."""
    problem = two_builds(at_it(StepKind.DYE), other=cuff(colour="red"))
    red = step_in(problem, "b", StepKind.DYE)
    assert "no change" in kinds_broken(problem, red.id, 27, 36, "maker", "vat")
    assert "no change" not in kinds_broken(problem, red.id, 28, 37, "maker", "vat")
    assert sound(problem)[red.id].start_min >= 28


def test_a_rivet_under_way_keeps_the_anvil():
    shop = replace(SHOP, people=(SHOP.people[0], replace(SHOP.people[1], cannot=())))
    problem = two_builds(at_it(StepKind.RIVET, 0), shop)
    runs, other = step_in(problem, "a", StepKind.RIVET), step_in(problem, "b", StepKind.RIVET)
    assert runs.demands == (Demand(resource="anvil", amount=1),)
    assert runs.fixed_end_min > 0
    assert "over capacity" in kinds_broken(problem, other.id, 0, 6, "apprentice")
    sound(problem)


def test_of_two_anvils_that_of_the_ledger_is_not_known_and_one_is_kept():
    two = (SHOP.stations[0], Station(id="block", name="Block", kinds=("rivet",)))
    problem = two_builds(at_it(StepKind.RIVET), replace(SHOP, stations=two))
    runs = step_in(problem, "a", StepKind.RIVET)
    assert runs.fixed_mode == ""
    assert {way.name for way in runs.modes} == {"anvil", "block"}
    assert sound(problem)[runs.id].mode == "anvil"


def test_two_rivets_under_way_keep_both_anvils():
    two = (SHOP.stations[0], Station(id="block", name="Block", kinds=("rivet",)))
    shop = replace(SHOP, people=(SHOP.people[0], replace(SHOP.people[1], cannot=())), stations=two)
    builds = (
        in_hand("a", shop=shop, history=at_it(StepKind.RIVET, 0)),
        in_hand("b", shop=shop, history=at_it(StepKind.RIVET, 0, "apprentice")),
    )
    problem = joined_problem(builds, origin_at=MONDAY_8)
    lies = sound(problem)
    at = {lies[step_in(problem, build, StepKind.RIVET).id].mode for build in "ab"}
    assert at == {"anvil", "block"}


def test_a_fit_under_way_keeps_the_wearer():
    problem = two_builds(at_it(StepKind.FIT, 0))
    runs, other = step_in(problem, "a", StepKind.FIT), step_in(problem, "b", StepKind.FIT)
    assert runs.also == (CAPTAIN.id,)
    assert not runs.soon
    assert "two at once" in kinds_broken(problem, other.id, 0, 10, "apprentice")
    sound(problem)


def test_who_is_at_it_counts_though_the_shop_would_not_have_them_do_it():
    hand = Person(id="hand", name="Hand", hours=usual_hours(), cannot=("dye",))
    problem = two_builds(
        at_it(StepKind.DYE, who="hand"), replace(SHOP, people=(SHOP.people[0], hand))
    )
    runs = step_in(problem, "a", StepKind.DYE)
    assert {(way.who, way.bath) for way in runs.modes} == {("hand", "vat")}
    assert sound(problem)[runs.id].who == "hand"


def test_what_may_pause_and_was_begun_is_planned_to_its_end():
    runs = step_in(two_builds(at_it(StepKind.CUT)), "a", StepKind.CUT)
    assert (runs.sitting_min, runs.fixed_who) == (0, "maker")


def test_moved_on_in_time_it_keeps_them_still():
    joiner = Joiner()
    builds = (in_hand("a", history=at_it(StepKind.DYE)), in_hand("b"))
    joiner.problem(builds, origin_at=MONDAY_8)
    later = joiner.problem(builds, origin_at=after(minutes=3))
    runs = step_in(later, "a", StepKind.DYE)
    assert (runs.fixed_start_min, runs.fixed_end_min) == (-4, 5)
    assert runs.dip is not None
    assert runs == step_in(joined_problem(builds, origin_at=after(minutes=3)), "a", StepKind.DYE)


def test_two_coats_at_once_in_a_bath_are_not_refused_and_the_last_counts():
    """Two timers run: the bath is free again when the later coat ends."""
    shop = replace(SHOP, racks=())
    builds = (
        in_hand("a", shop=shop, history=at_it(StepKind.DYE, 5)),
        in_hand("b", shop=shop, history=at_it(StepKind.DYE, 2, "apprentice")),
        in_hand("c", cuff(colour="red"), shop=shop),
    )
    problem = joined_problem(builds, origin_at=MONDAY_8)
    assert sound(problem)[step_in(problem, "c", StepKind.DYE).id].start_min >= 27


def dip(name, family, minutes=10, **more):
    return Activity(
        id=name,
        minutes=minutes,
        modes=(Mode(who="w0", minutes=minutes, name="vat", bath="vat"),),
        dip=Dip(family=family),
        **more,
    )


@pytest.mark.parametrize("family", ["red", "blue"])
@pytest.mark.parametrize(
    ("spans", "free_at"),
    [
        (((-9, 40), (-3, 2)), {"red": 40, "blue": 60}),
        (((-3, 2), (-3, 40)), {"red": 40, "blue": 60}),
    ],
)
def test_a_short_coat_in_a_bath_does_not_hide_a_long_one(spans, free_at, family):
    begun = [
        dip(f"d{n}", "red", fixed_start_min=start, fixed_end_min=end, fixed_who="w1")
        for n, (start, end) in enumerate(spans)
    ]
    begun = [replace(a, modes=(replace(a.modes[0], who="w1"),)) for a in begun]
    asked = problem(
        *begun,
        dip("free", family),
        workers=tuple(Worker(id=w, windows=((0, 600),)) for w in ("w0", "w1")),
        baths=(Bath(id="vat", capacity=1, change_min=20),),
    )
    assert sound(asked)["free"].start_min == free_at[family]


@pytest.mark.parametrize("kind", [StepKind.DYE, StepKind.RIVET, StepKind.FIT])
def test_the_solver_keeps_clear_of_what_is_under_way(kind, solver):
    problem = two_builds(at_it(kind))
    plan = best_plan(problem, solver, seconds=1.0)
    assert plan.placed
    assert violations(problem, plan) == ()
