"""What is urgent: last starts by hours, appointments and pauses, and plans laid by them."""

from dataclasses import replace
from random import Random

from hypothesis import HealthCheck, given, settings
from schedule.full_week import full_week
from schedule.random_shops import shops
from schedule.small_problems import by_hand, problem

from armorplan.schedule.behind import Behind
from armorplan.schedule.checker import violations
from armorplan.schedule.critical import latest_ends
from armorplan.schedule.first import first_placing
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.last_starts import last_starts
from armorplan.schedule.measures import lateness
from armorplan.schedule.orders_tried import Orders
from armorplan.schedule.problem import Job, Lag, Plan, Status, Worker
from armorplan.schedule.relaying import Relaying
from armorplan.schedule.spans import least_minutes

HOURS = ((0, 100), (200, 300), (400, 500))
WEARER = Worker(id="wearer", windows=((220, 240),))
FITTED = problem(
    by_hand("sew", 40, priority=1),
    by_hand("fit", 10, also=("wearer",), priority=2),
    by_hand("other", 70, priority=0),
    lags=(Lag(first="sew", then="fit"),),
    workers=(Worker(id="m", windows=HOURS), WEARER),
    horizon_min=1000,
)
BUILDS = (
    Job(id="fitted", activities=("sew", "fit"), due_min=450),
    Job(id="other", activities=("other",), due_min=440),
)
TWO_BUILDS = replace(FITTED, jobs=BUILDS)


def test_what_leads_to_a_fit_is_due_before_the_wearer_comes():
    assert last_starts(TWO_BUILDS) == {"fit": 230, "sew": 60, "other": 230}


def test_work_that_may_stop_goes_back_over_closed_hours():
    bench = problem(by_hand("a", 120, sitting_min=10), windows=HOURS)
    due = replace(bench, jobs=(Job(id="a", activities=("a",), due_min=250),))
    assert last_starts(due) == {"a": 30}


def test_the_build_that_has_to_begin_first_is_laid_first_though_it_is_due_later():
    """By due dates the other comes first, and the wearer is missed by far."""
    placed = {p.id: p for p in first_placing(TWO_BUILDS)}
    assert lateness(TWO_BUILDS, placed) == 0


@settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(shop=shops())
def test_hours_never_leave_more_time_than_the_lags_alone(shop):
    if lag_cycle(shop):
        return
    ends, starts = latest_ends(shop), last_starts(shop)
    free = {a.id: a for a in shop.activities if a.fixed_start_min is None}
    assert starts.keys() == free.keys()
    for name, start in starts.items():
        assert start + least_minutes(free[name]) <= ends[name]


def test_an_order_that_gained_is_the_one_the_next_is_drawn_near():
    week = full_week(builds=2)
    placed = first_placing(week)
    orders = Orders(week, Random(1), last_starts(week), placed)  # noqa: S311
    while orders._tried is None:
        orders.next(placed)
    tried = orders._tried
    orders.gained()
    assert orders._order == tried


def test_builds_of_a_long_plan_are_laid_anew_a_few_at_a_time():
    """Thirteen builds are more than are laid as a whole; what comes is nearer, and holds."""
    weeks = full_week(builds=13)
    placed, behind = first_placing(weeks), Behind(weeks)
    relaying = Relaying(weeks, 1, placed)
    found = [relaying.next(placed) for _ in range(3)]
    assert min(behind.of(weeks, laid) for laid in found) < behind.of(weeks, placed)
    for laid in found:
        assert violations(weeks, Plan(status=Status.GOOD, placed=laid)) == ()
    again = Relaying(weeks, 1, placed)
    assert [again.next(placed) for _ in range(3)] == found
