from dataclasses import replace
from datetime import timedelta

import pytest
from schedule.promise.promise_scenes import (
    DAY,
    MAKER,
    MONDAY_AT,
    after,
    hands,
    plan_of,
    problem_of,
)

from armorplan.app.cause_words import cause_words
from armorplan.app.promises import Asked, names_in, promises, runs_words
from armorplan.schedule.problem import Job, Worker
from armorplan.schedule.promise.causes import Cause, CauseKind
from armorplan.workshop.shop import one_maker

WEARER = Worker(id="w", windows=((840, 900), (3 * DAY + 840, 3 * DAY + 900)))
CUT = hands("cut", 300, spread=0.3, cause="hands: cut", title="Cut the cop")
PROBLEM = problem_of(
    [CUT, hands("fit", 45, also=("w",))],
    [after("cut", "fit")],
    (MAKER, WEARER),
    jobs=(Job(id="cop", title="The cop", activities=("cut", "fit"), due_min=900, weight=2),),
)
PLAN = plan_of(cut=(480, 780, "maker"), fit=(840, 885, "maker"))


def test_a_row_tells_dates_odds_and_causes():
    found = promises(PROBLEM, PLAN, "UTC", Asked(odds_pct=90, names={"w": "The captain"}))
    (row,) = found.builds
    assert (row.build, row.title, row.weight) == ("cop", "The cop", 2)
    assert row.planned_at == MONDAY_AT + timedelta(minutes=885)
    assert row.due_at == MONDAY_AT + timedelta(minutes=900)
    assert row.kept_pct == pytest.approx(75, abs=6), "80 min to spare: 300 e^(0.3 z) < 375"
    assert [told.odds_pct for told in row.usual] == [50, 80, 95]
    assert row.promise.at == MONDAY_AT + timedelta(days=3, minutes=885)
    texts = [cause.text for cause in row.causes]
    comes = "The captain comes by appointment, and one missed is one waited for (1 step)"
    assert True in [text.startswith(f"{comes}: were that sure, 90 % would be") for text in texts]
    cut = "How long hands take to cut (1 step): were that sure, 90 % would be 72 h sooner."
    assert cut in texts
    assert "1000 times" in runs_words(found)


def test_a_promise_is_told_to_the_next_quarter_of_an_hour():
    found = promises(problem_of([hands("cut", 301)]), plan_of(cut=(480, 781, "maker")), "UTC")
    (row,) = found.builds
    assert row.build == ""
    assert row.promise.at == row.promise.high_at == MONDAY_AT + timedelta(minutes=795)
    assert row.promise.low_at == MONDAY_AT + timedelta(minutes=780)


def test_quarters_are_those_of_the_clock():
    problem = replace(
        problem_of([hands("cut", 301)]), origin_at=MONDAY_AT + timedelta(hours=1, minutes=7)
    )
    (row,) = promises(problem, plan_of(cut=(480, 781, "maker")), "UTC").builds
    assert row.promise.at == MONDAY_AT + timedelta(hours=14, minutes=15)
    assert row.promise.low_at == MONDAY_AT + timedelta(hours=14)


def test_what_lies_beyond_the_days_planned_ahead_has_no_date():
    alone = Worker(id="w", windows=((840, 900),))
    problem = problem_of(PROBLEM.activities, PROBLEM.lags, (MAKER, alone))
    (row,) = promises(problem, PLAN, "UTC", Asked(odds_pct=95)).builds
    assert (row.promise.at, row.promise.high_at) == (None, None)


@pytest.mark.parametrize(
    ("kind", "about", "words"),
    [
        (CauseKind.MINUTES, "drying: alcohol_dye", "How long alcohol dye takes to dry (2 steps)"),
        (CauseKind.MINUTES, "hands: rivet", "How long hands take to rivet (2 steps)"),
        (CauseKind.MINUTES, "cut", "How long 'Cut the cop' takes"),
        (
            CauseKind.WINDOW,
            "",
            "What is to be done while damp may be missed and be cased again (2 steps)",
        ),
    ],
)
def test_causes_are_told_in_words_of_the_bench(kind, about, words):
    cause = Cause(kind=kind, about=about, activities=("cut", "fit"), saves_min=60)
    assert cause_words(PROBLEM, cause, {}) == words


def test_people_are_called_by_their_names():
    assert names_in(one_maker("UTC")) == {"maker": "Maker"}
