"""A plan in words: what is claimed is what was proved."""

from datetime import UTC, datetime

import pytest

from armorplan.kernel.units import span_words
from armorplan.schedule.activity import Activity
from armorplan.schedule.facing import plan_words, stage_words
from armorplan.schedule.naming import Naming
from armorplan.schedule.problem import (
    Job,
    Lag,
    Placed,
    Plan,
    Problem,
    Stage,
    Status,
    Worker,
)

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
    assert "at most 2 h sooner in any plan with the joints in this order" in details


def test_no_line_of_the_details_contradicts_another_or_speaks_of_the_solver():
    """Two long spans that round alike, and a gap of minutes between them."""
    stages = (
        Stage(name="lateness", value=20285, bound=20270, status=Status.GOOD),
        Stage(name="finish", value=30000, bound=30000, status=Status.BEST),
    )
    made = Plan(status=Status.GOOD, placed=PLACED, stages=stages, made_by="around tonight")
    assert plan_words(made)[1].splitlines() == [
        "Lateness: 14 days 2 h in all; at most 15 min less.",
        "Finish: all is done after 20 days 20 h; no plan with the joints in this order ends sooner.",
        "Each line is about plans that are as good in the lines above it.",
        "This plan keeps to the one before where it could.",
    ]


def builds(*dues, weight=1, earliest=0):
    """A plan of builds that each end after 10 h, and their problem; by waits alone each takes 1 h."""
    placed = tuple(
        Placed(id=f"a{at}", start_min=0, end_min=600, who=None) for at in range(len(dues))
    )
    jobs = tuple(
        Job(id=f"j{at}", title=f"Arm {at}", activities=(f"a{at}",), due_min=due, weight=weight)
        for at, due in enumerate(dues)
    )
    acts = tuple(Activity(id=p.id, minutes=60, earliest_min=earliest) for p in placed)
    problem = Problem(
        origin_at=datetime(2025, 3, 3, 8, tzinfo=UTC), horizon_min=999, activities=acts, jobs=jobs
    )
    return placed, problem


def due_plan(placed, late, bound, status=Status.GOOD):
    stages = (
        Stage(name="lateness", value=late, bound=bound, status=status),
        Stage(name="finish", value=600, bound=600, status=Status.BEST),
    )
    return Plan(status=status, placed=placed, stages=stages)


def test_a_late_build_is_told_with_its_end_and_what_no_plan_can_do():
    placed, problem = builds(500)
    face, _ = plan_words(due_plan(placed, 100, 40), problem)
    assert face.startswith(
        "“Arm 0” ends 1 h 40 min late, Mon 3 Mar 18:00. Whether it can be sooner is not known yet: "
        "no plan can end before Mon 3 Mar 17:00."
    )


def test_of_several_builds_only_the_late_one_is_told_in_local_time():
    placed, problem = builds(500, 700)
    face, _ = plan_words(due_plan(placed, 100, 40), problem, Naming(zone="Europe/Berlin"))
    assert face.startswith("“Arm 0” ends 1 h 40 min late, Mon 3 Mar 19:00.")
    assert "Whether it can be in time is not known yet." in face
    assert "Arm 1" not in face


def test_dates_out_of_reach_are_said_so():
    placed, problem = builds(500, 400, earliest=450)
    face, _ = plan_words(due_plan(placed, 300, 0), problem)
    assert "Whether they can be sooner is not known yet." in face
    for name in ("Arm 0", "Arm 1"):
        assert f"“{name}” cannot be in time: no plan can end it before Mon 3 Mar 16:30." in face


def test_lateness_that_is_proved_says_so():
    placed, problem = builds(500)
    face, details = plan_words(due_plan(placed, 100, 100, Status.BEST), problem)
    assert "No plan is less late: the date asked is out of reach." in face
    assert "1 h 40 min in all; no plan is less late." in details


def test_lateness_of_builds_that_weigh_more_says_so():
    placed, problem = builds(500, 500, weight=3)
    face, _ = plan_words(due_plan(placed, 600, 600, Status.BEST), problem)
    assert "No plan is less late in all, counted by weight: not every date asked can" in face


def test_of_many_late_builds_the_latest_are_named_first():
    placed, problem = builds(*(590 - 60 * at for at in range(5)))
    face, _ = plan_words(due_plan(placed, 600, 0), problem)
    assert face.startswith("“Arm 4” ends 4 h late")
    assert "Arm 1" not in face
    assert "2 more are late." in face


def test_why_a_build_is_late_is_told_with_who_is_away_and_what_dries():
    """Glued at 8, dry at 20, and the captain comes only the next day at 10."""
    acts = (
        Activity(id="glue", minutes=60, people=("maker",), title="Glue"),
        Activity(id="dry", minutes=660, title="Glue dries"),
        Activity(id="fit", minutes=30, people=("maker",), also=("captain",), title="Fit"),
    )
    always = ((0, 5000),)
    problem = Problem(
        origin_at=datetime(2025, 3, 3, 8, tzinfo=UTC),
        horizon_min=5000,
        activities=acts,
        lags=(Lag(first="glue", then="dry", max_lag=0), Lag(first="dry", then="fit")),
        workers=(
            Worker(id="maker", windows=always),
            Worker(id="captain", windows=((1560, 2000),)),
        ),
        jobs=(Job(id="j", title="Elbows", activities=("glue", "dry", "fit"), due_min=1000),),
    )
    placed = (
        Placed(id="glue", start_min=0, end_min=60, who="maker"),
        Placed(id="dry", start_min=60, end_min=720),
        Placed(id="fit", start_min=1560, end_min=1590, who="maker"),
    )
    face, _ = plan_words(
        due_plan(placed, 590, 0), problem, Naming(names={"captain": "The captain"})
    )
    assert face == (
        "“Elbows” ends 10 h late, Tue 4 Mar 10:30. No plan can end it sooner. What holds it up "
        "longest: “Glue dries” lasts until Mon 3 Mar 20:00; The captain is not there from "
        "Mon 3 Mar 20:00 to Tue 4 Mar 10:00."
    )


def test_builds_in_time_are_told_before_the_finish():
    placed, problem = builds(700, 800)
    face, details = plan_words(due_plan(placed, 0, 0, Status.BEST), problem)
    assert face == "Every build is ready when it is due. This plan cannot be shortened."
    assert details.startswith("Lateness: none, no build ends after it is due.")


@pytest.mark.parametrize(
    ("name", "value", "bound", "words"),
    [
        ("colour changes and times at the bench", 7, 5, "times at the bench: 7; at most 2 fewer."),
        (
            "jumps in the chosen order",
            3,
            3,
            "Steps out of the chosen order: 3; no plan has fewer.",
        ),
        ("dry-fits", 900, 780, "Dry-fits: at most 2 h sooner all together."),
        ("dry-fits", 900, 900, "Dry-fits: none can be sooner."),
    ],
)
def test_every_stage_has_words(name, value, bound, words):
    assert words in stage_words(Stage(name=name, value=value, bound=bound, status=Status.GOOD))
