"""What a plan that keeps to the one before moved, and why, in words."""

from dataclasses import replace
from datetime import timedelta

import pytest
from schedule.hand_shops import HOUR, racks

from armorplan.app.replanned import replanned_words
from armorplan.app.shown_plan import ShownPlan
from armorplan.schedule.activity import Activity
from armorplan.schedule.keeping_to import kept_plan, stood_in
from armorplan.schedule.naming import Naming
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.workshop.absences import Absence, with_absences
from armorplan.workshop.shop import one_maker
from armorplan.workshop.skill_how import SkillHow

NOW_MIN = 10


def begun(bench, plan, end_min):
    """The bench ten minutes on: the first dip is under way and ends at this minute of the plan."""
    lies = {p.id: p for p in plan.placed}
    first = lies["dip0"]

    def as_it_stands(activity):
        if activity.id != first.id:
            return activity
        return replace(
            activity,
            fixed_start_min=first.start_min - NOW_MIN,
            fixed_end_min=end_min - NOW_MIN,
            fixed_who=first.who,
        )

    def hours(windows):
        moved = ((max(0, a - NOW_MIN), b - NOW_MIN) for a, b in windows)
        return tuple(w for w in moved if w[0] < w[1])

    return replace(
        bench,
        origin_at=bench.origin_at + timedelta(minutes=NOW_MIN),
        activities=tuple(map(as_it_stands, bench.activities)),
        workers=tuple(replace(w, windows=hours(w.windows)) for w in bench.workers),
    )


def told(end_min, shop=None):
    bench = racks()
    plan = first_plan(bench)
    now = begun(bench, plan, end_min)
    at_hand = ShownPlan(plan=plan, origin_at=bench.origin_at)
    kept = kept_plan(stood_in(now, plan, shift_min=-NOW_MIN))
    return replanned_words(now, at_hand, kept, Naming(), shop or one_maker("UTC"))


def test_what_goes_as_planned_is_not_told():
    assert told(20) == ""


def test_an_hour_late_says_which_step_and_what_moved():
    assert told(20 + HOUR) == "“Dip piece 0” of Piece 0 ends 1 h later. Nothing else has to move."
    words = told(20 + 15 * HOUR)
    assert words.startswith("“Dip piece 0” of Piece 0 ends 15 h later. 2 steps moved, 9 stay.")
    assert words.endswith("“buff0” of Piece 0 Tuesday 08:00 → Tuesday 09:20.")


def test_who_is_away_is_the_first_reason():
    now_at = racks().origin_at
    away = Absence(person="maker", from_at=now_at, until_at=now_at + timedelta(hours=30))
    words = told(20 + 15 * HOUR, with_absences(one_maker("UTC"), (away,)))
    assert words.startswith("Maker is away until Tuesday 14:00.")


@pytest.mark.parametrize(
    ("who", "kind", "words"),
    [
        ("mate", "rivet", "Mate does 'rivet' alone, as signed off. 1 step moved"),
        ("mate", "cut", "Hours, skills, air or other work have changed. 1 step moved"),
        ("maker", "rivet", "Hours, skills, air or other work have changed. 1 step moved"),
    ],
)
def test_what_was_signed_off_of_whoever_is_at_other_work_is_a_reason(who, kind, words):
    rivet, at = "cuff/cuff/single/rivet/r1", racks().origin_at
    work = Activity(id=rivet, minutes=6, people=("maker", "mate"))
    problem = Problem(origin_at=at, horizon_min=60, activities=(work,))
    stood, lies = (
        Plan(
            status=Status.GOOD,
            placed=(Placed(id=rivet, start_min=begin, end_min=begin + 6, who=name),),
        )
        for begin, name in ((0, "maker"), (6, who))
    )
    shop = one_maker("UTC")
    mate = replace(shop.people[0], id="mate", name="Mate", signed_off=((kind, SkillHow.ALONE),))
    shop = replace(shop, people=(*shop.people, mate))
    at_hand = ShownPlan(plan=stood, origin_at=at)
    assert replanned_words(problem, at_hand, lies, Naming(), shop).startswith(words)


def test_a_little_sooner_is_not_worth_a_word_where_nothing_moves():
    assert told(12) == ""
