"""A plan in words: what is claimed is what was proved."""

from datetime import UTC, datetime

import pytest

from armorplan.kernel.units import span_words
from armorplan.schedule.facing import plan_words, stage_words
from armorplan.schedule.problem import Job, Placed, Plan, Problem, Stage, Status

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


def builds(*dues, weight=1):
    """A plan of builds that each end after 10 h, and their problem."""
    placed = tuple(
        Placed(id=f"a{at}", start_min=0, end_min=600, who=None) for at in range(len(dues))
    )
    jobs = tuple(
        Job(id=f"j{at}", title=f"Arm {at}", activities=(f"a{at}",), due_min=due, weight=weight)
        for at, due in enumerate(dues)
    )
    problem = Problem(
        origin_at=datetime(2025, 3, 3, 8, tzinfo=UTC), horizon_min=999, activities=(), jobs=jobs
    )
    return placed, problem


def due_plan(placed, late, bound, status=Status.GOOD):
    stages = (
        Stage(name="lateness", value=late, bound=bound, status=status),
        Stage(name="finish", value=600, bound=600, status=Status.BEST),
    )
    return Plan(status=status, placed=placed, stages=stages)


def test_a_late_build_is_named_with_how_late_it_is():
    placed, problem = builds(500, 700)
    face, _ = plan_words(due_plan(placed, 100, 40), problem)
    assert face.startswith("“Arm 0” is late by 1 h 40 min.")
    assert "Arm 1" not in face
    assert "That is 1 h 40 min in all; at the very best 1 h of it can be won." in face


def test_lateness_of_builds_that_weigh_more_says_so():
    placed, problem = builds(500, weight=3)
    face, _ = plan_words(due_plan(placed, 300, 300, Status.BEST), problem)
    assert "in all, counted by weight." in face


def test_lateness_that_is_proved_says_so():
    placed, problem = builds(500)
    face, details = plan_words(due_plan(placed, 100, 100, Status.BEST), problem)
    assert "No plan is less late than 1 h 40 min in all." in face
    assert "in no plan fewer, proved best" in details


def test_of_many_late_builds_the_latest_are_named_first():
    placed, problem = builds(*(590 - 60 * at for at in range(5)))
    face, _ = plan_words(due_plan(placed, 600, 0), problem)
    assert face.startswith("“Arm 4” is late by 4 h")
    assert "Arm 1" not in face
    assert "2 more are late." in face


def test_builds_in_time_are_told_before_the_finish():
    placed, problem = builds(700, 800)
    face, details = plan_words(due_plan(placed, 0, 0, Status.BEST), problem)
    assert face == "Every build is ready when it is due. This plan cannot be shortened."
    assert details.startswith("lateness: none, no build ends after it is due.")


@pytest.mark.parametrize(
    ("name", "value", "bound", "words"),
    [
        ("batches, colour changes and times at the bench", 7, 5, "7, in no plan fewer than 5"),
        ("jumps in the chosen order", 3, 3, "Steps out of the chosen order: 3, in no plan fewer,"),
        ("dry-fits", 900, 780, "all together 2 h sooner at the very best"),
        ("dry-fits", 900, 900, "none can be sooner"),
    ],
)
def test_every_stage_has_words(name, value, bound, words):
    assert words in stage_words(Stage(name=name, value=value, bound=bound, status=Status.GOOD))
