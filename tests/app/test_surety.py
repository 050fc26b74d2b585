"""How sure the dates of a plan are, and what it leaves to spare, in words."""

from dataclasses import replace

import pytest
from schedule.promise.promise_scenes import DAY, MAKER, after, hands, plan_of, problem_of

from armorplan.app.promises import Asked, promises
from armorplan.app.spare import spare_words
from armorplan.app.surety import changed_words, least_words, surety_words
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import Job, Worker

WEARER = Worker(id="w", windows=((840, 900), (3 * DAY + 840, 3 * DAY + 900)))
ALONE = Worker(id="w", windows=((840, 900),))


def shop(due_min, wearer=WEARER):
    cop = Job(id="cop", title="The cop", activities=("cut", "fit"), due_min=due_min)
    cut = hands("cut", 300, spread=0.3, cause="hands: cut")
    fit = hands("fit", 45, also=("w",), title="Fit the cop")
    return problem_of([cut, fit], [after("cut", "fit")], (MAKER, wearer), jobs=(cop,))


PLAN = plan_of(cut=(480, 780, "maker"), fit=(840, 885, "maker"))
NAMING = Naming(names={"w": "The captain"})


def told(due_min):
    return promises(shop(due_min), PLAN, "UTC", Asked(names=NAMING.names), why=None)


def test_a_plan_that_is_kept_by_the_minute_only_says_so():
    found = told(900)
    (row,) = found.builds
    assert row.kept_pct < 80
    words = surety_words(found, "Builds in hand (Ctrl+Shift+D)")
    assert words == (
        "But it is planned to the minute, with too little to spare for “The cop” "
        f"(kept in {row.kept_pct:.0f} of 100 runs): Builds in hand (Ctrl+Shift+D) says why."
    )
    assert least_words(found) == "The least to spare before a date has “The cop”: 15 min."


def test_a_plan_with_room_says_that_it_is_sure_enough():
    found = told(6 * DAY)
    (row,) = found.builds
    assert row.kept_pct >= 80
    words = f"Surely enough: its date is kept in {row.kept_pct:.0f} of 100 runs."
    assert surety_words(found, "Builds in hand") == words
    assert least_words(found) == (
        "The plan has time to spare everywhere: at least 5 days 9 h (“The cop”)."
    )


def test_what_is_late_in_the_plan_itself_is_told_as_such_only():
    found = told(870)
    assert surety_words(found, "Builds in hand") == ""
    assert least_words(found) == "“The cop” is late in the plan by 15 min."


def test_without_dates_nothing_is_said():
    found = told(None)
    assert surety_words(found, "Builds in hand") == least_words(found) == ""
    assert found.builds[0].spare == ""


def test_of_many_the_least_sure_are_named_and_the_rest_counted():
    found = told(900)
    (row,) = found.builds
    many = [replace(row, title=f"No. {n}", kept_pct=10.0 * n) for n in range(1, 6)]
    words = surety_words(replace(found, builds=tuple(many)), "Builds in hand")
    named = "“No. 1” (kept in 10 of 100 runs), “No. 2” (20 of 100), “No. 3” (30 of 100) and 2 more"
    assert named in words


@pytest.mark.parametrize(
    ("wearer", "after_it"),
    [
        (WEARER, "the next visit is Thursday 14:00"),
        (ALONE, "no later visit is in the shop's hours"),
    ],
)
def test_the_visit_that_leaves_least_is_named_with_the_next_one(wearer, after_it):
    problem = shop(1000, wearer)
    assert spare_words(problem, PLAN, problem.jobs[0], NAMING) == (
        "The plan leaves 1 h 55 min before it is due. “Fit the cop” ends 15 min before The captain "
        f"leaves (Monday 15:00); {after_it}."
    )


def test_whose_odds_changed_is_told_with_what_they_were():
    sure, unsure = told(6 * DAY), told(900)
    now, before = (found.builds[0].kept_pct for found in (unsure, sure))
    words = f"Dates kept: “The cop” now {now:.0f} of 100, before {before:.0f}."
    assert changed_words(sure, unsure) == words
    assert changed_words(sure, sure) == ""
