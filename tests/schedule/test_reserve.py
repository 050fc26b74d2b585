"""Damp work begins early in its window where nothing else changes."""

from dataclasses import replace

from hypothesis import HealthCheck, given, settings
from schedule.random_shops import shops
from schedule.small_problems import by_hand, plan_of, problem

from armorplan.schedule.checker import violations
from armorplan.schedule.measures import goals
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Lag, Plan, Status, Worker
from armorplan.schedule.reserve import WANTED_MIN, reserve_min, with_reserve
from armorplan.schedule.waiting import Visits

WINDOW = Lag(
    first="case", then="bend", min_lag=10, max_lag=60, reason="Damp leather takes a bend."
)


def bench(*more, lags=()):
    return problem(
        by_hand("case", 5),
        by_hand("bend", 10),
        *more,
        horizon_min=300,
        windows=((0, 300),),
        lags=(WINDOW, *lags),
    )


def room(shop, placed):
    """Minutes before the window closes; the plan still holds and is worth as much."""
    lies = with_reserve(shop, placed)
    assert violations(shop, Plan(status=Status.GOOD, placed=lies)) == ()
    assert tuple(goals(shop, lies).values()) <= tuple(goals(shop, placed).values())
    return reserve_min(WINDOW, {p.id: p for p in lies})


def test_leather_is_cased_later_where_hands_are_free():
    """Cased at 0 and bent at 65, the last minute: sewing lies between, from 15."""
    shop = bench(by_hand("sew", 30))
    placed = plan_of(shop, ("case", 0, 5), ("sew", 15, 45), ("bend", 65, 75)).placed
    assert reserve_min(WINDOW, {p.id: p for p in placed}) == 0
    assert room(shop, placed) >= WANTED_MIN


def test_what_lies_between_makes_room_where_hands_are_never_free():
    shop = bench(by_hand("sew", 30), by_hand("cut", 30))
    placed = plan_of(
        shop, ("case", 0, 5), ("sew", 5, 35), ("cut", 35, 65), ("bend", 65, 75)
    ).placed
    assert room(shop, placed) >= WANTED_MIN


def test_where_other_demands_leave_none_the_plan_stays():
    """What lies between waits for the casing, and is waited for by the bend."""
    held = (Lag(first="case", then="sew"), Lag(first="sew", then="bend"))
    shop = bench(by_hand("sew", 60), lags=held)
    placed = plan_of(shop, ("case", 0, 5), ("sew", 5, 65), ("bend", 65, 75)).placed
    assert with_reserve(shop, placed) == placed


def test_what_is_done_stays_where_it_was_done():
    shop = bench()
    case = replace(shop.activities[0], fixed_start_min=0, fixed_end_min=5)
    done = replace(shop, activities=(case, shop.activities[1]))
    placed = plan_of(done, ("case", 0, 5), ("bend", 65, 75)).placed
    assert with_reserve(done, placed)[0] == placed[0]


def test_a_plan_that_was_sought_has_room_before_its_windows_close(solver):
    shop = bench(by_hand("sew", 40), by_hand("cut", 30))
    plan = best_plan(shop, solver)
    assert plan.status is Status.BEST
    assert reserve_min(WINDOW, {p.id: p for p in plan.placed}) >= WANTED_MIN


@settings(max_examples=25, deadline=None, suppress_health_check=list(HealthCheck))
@given(shops())
def test_whatever_the_shop_the_plan_still_holds_and_is_worth_as_much(shop):
    plan = first_plan(shop)
    if not plan.placed:
        return
    lies = with_reserve(shop, plan.placed)
    assert violations(shop, replace(plan, placed=lies)) == ()
    assert tuple(goals(shop, lies).values()) <= tuple(goals(shop, plan.placed).values())


def fitting(*more, lags=()):
    """Two pieces to be marked on the wearer, and something to sew."""
    wearer = Worker(id="captain", windows=((0, 200),))
    maker = Worker(id="m", windows=((0, 300),))
    marks = (replace(by_hand(n, 10), also=("captain",)) for n in ("mark", "fit"))
    return problem(
        *marks,
        by_hand("sew", 40),
        *more,
        horizon_min=300,
        workers=(maker, wearer),
        lags=lags,
    )


def waits(shop, *places):
    placed = plan_of(shop, *places).placed
    lies = with_reserve(shop, placed)
    assert violations(shop, Plan(status=Status.GOOD, placed=lies)) == ()
    assert max(p.end_min for p in lies) == max(p.end_min for p in placed)
    return Visits(shop).waiting_min({p.id: p for p in lies})


def test_the_wearer_is_marked_and_fitted_in_one_go():
    assert waits(fitting(), ("mark", 0, 10), ("sew", 10, 50), ("fit", 50, 60)) == 0


def test_the_wearer_waits_for_what_has_to_be_done_between():
    lags = (Lag(first="mark", then="sew"), Lag(first="sew", then="fit"))
    assert waits(fitting(lags=lags), ("mark", 0, 10), ("sew", 10, 50), ("fit", 50, 60)) == 40


def test_two_marks_move_together_to_the_fit():
    third = replace(by_hand("mark again", 10), also=("captain",))
    shop = fitting(third)
    laid = ("mark", 0, 10), ("mark again", 10, 20), ("sew", 20, 60), ("fit", 60, 70)
    assert waits(shop, *laid) == 0
