"""A plan in words: what is claimed is what was proved."""

import pytest

from armorplan.kernel.units import span_words
from armorplan.schedule.facing import plan_words
from armorplan.schedule.problem import Placed, Plan, Stage, Status

PLACED = (Placed(id="a", start_min=0, end_min=600),)


def plan(value: int, bound: int, status: Status) -> Plan:
    stage = Stage(name="finish", value=value, bound=bound, status=status)
    return Plan(status=status, placed=PLACED, stages=(stage,))


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (1, "1 min"),
        (59, "59 min"),
        (60, "1 h"),
        (100, "1 h 40 min"),
        (300, "5 h"),
        (1680, "28 h"),
        (1440, "24 h"),
        (3120, "2 days 4 h"),
        (2880, "2 days"),
    ],
)
def test_spans_read_as_a_maker_says_them(minutes, words):
    assert span_words(minutes) == words


def test_a_proved_plan_cannot_be_shortened():
    assert "cannot be shortened" in plan_words(plan(600, 600, Status.BEST))[0]


def test_an_open_gap_is_told_in_time_not_in_per_cent():
    assert "might save 2 h" in plan_words(plan(600, 480, Status.GOOD))[0]


def test_a_plan_after_a_stop_claims_nothing():
    assert "cannot" not in plan_words(plan(600, 480, Status.STOPPED))[0]


def test_a_conflict_is_told_in_its_own_words():
    none = Plan(status=Status.NONE, conflict="'Dish' has to begin before it ends.")
    lost = Plan(status=Status.OUT_OF_TIME, conflict="'Dish' would start too late.")
    assert "'Dish' has to begin before it ends." in plan_words(none)[0]
    assert "No plan was found yet" in plan_words(lost)[0]
    assert plan_words(Plan(status=Status.BEST))[0] == "Nothing is left to plan."


def test_words_of_the_search_stay_behind_the_details():
    face, details = plan_words(plan(600, 480, Status.GOOD))
    assert "any plan" not in face
    assert "not before 8 h in any plan with the joints in this order" in details
