"""What comes too late whatever the plan is told at once, by name and time, and nothing else is."""

from dataclasses import replace

from hypothesis import given, settings
from schedule.random_shops import best_goals, shops
from schedule.small_problems import by_hand, problem, waiting

from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.naming import Naming
from armorplan.schedule.never_reached import never_reached
from armorplan.schedule.planning import first_plan
from armorplan.schedule.possible import Possible
from armorplan.schedule.problem import Job, Lag, Status, Worker

NAMING = Naming(names={"anna": "Anna", "m": "Mira"})


def fitting(dries_min, **parts):
    """Dyed at 8:00, dried, and then fitted on Anna, who comes 8:30 to 9:00."""
    acts = (
        by_hand("dye", 10),
        waiting("dry", dries_min),
        by_hand("fit", 10, title="Fit", also=("anna",), **parts),
    )
    people = (
        Worker(id="m", windows=((0, 60), (100, 160))),
        Worker(id="anna", windows=((30, 60),)),
    )
    lags = (Lag(first="dye", then="dry"), Lag(first="dry", then="fit"))
    jobs = (Job(id="anna", title="Anna's cop", activities=("dye", "dry", "fit")),)
    return problem(*acts, workers=people, lags=lags, jobs=jobs)


def test_an_appointment_before_the_work_can_be_there_is_told_with_both_times():
    plan = first_plan(fitting(60), naming=NAMING)
    assert plan.status is Status.NONE
    assert plan.conflict == (
        "“Fit” can start Monday 09:10 at the soonest, after all that has to be done and dry "
        "before, and Anna is not there any more: the last time ends Monday 09:00."
    )
    assert Possible(None)(fitting(60)) is False


def test_what_is_in_time_is_left_alone():
    assert not never_reached(fitting(30), NAMING)
    assert first_plan(fitting(30)).placed


def test_a_set_time_that_is_too_soon_is_told():
    bench = fitting(30, latest_start_min=35)
    assert never_reached(bench, NAMING).endswith(
        "can start Monday 08:40 at the soonest, after all that has to be done and dry before, "
        "and has to start by Monday 08:35."
    )


def test_work_that_comes_when_nobody_is_there_any_more_names_them():
    bench = replace(fitting(140), workers=(Worker(id="m", windows=((0, 60), (100, 155))),))
    acts = tuple(replace(a, also=()) for a in bench.activities)
    words = never_reached(replace(bench, activities=acts), NAMING)
    assert words.endswith("and Mira has no hours for it from then on.")


@given(shops(most=3))
@settings(max_examples=25, deadline=None)
def test_no_shop_that_has_a_plan_is_given_up(bench):
    if not lag_cycle(bench) and never_reached(bench):
        assert best_goals(bench) is None
