"""What is only easier within a time never leaves a maker without a plan."""

from dataclasses import replace
from datetime import UTC, datetime, time

import pytest

from armorplan.app.derived import derive_build
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part, sketch_treatment
from armorplan.schedule.building import problem_from
from armorplan.schedule.planning import first_plan
from armorplan.schedule.problem import Status
from armorplan.schedule.workplace import Workplace
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import Opening, one_maker

MONDAY_9 = datetime(2026, 11, 30, 9, tzinfo=UTC)
COAT_BY_MIN = 120
TOUCH_MIN = 90
SHELF = replace(
    sketch_shelf(),
    treatments=tuple(
        replace(entry, touch_min=TOUCH_MIN, recoat_by_min=COAT_BY_MIN)
        if entry.id == "lacquer"
        else entry
        for entry in sketch_shelf().treatments
    ),
)
AN_HOUR_A_DAY = tuple(Opening(weekday=d, start=time(9), end=time(10)) for d in range(7))


def shop_open(hours):
    shop = one_maker("UTC")
    return (
        shop
        if hours is None
        else replace(shop, people=tuple(replace(p, hours=hours) for p in shop.people))
    )


def planned(hours):
    treatments = (sketch_treatment("lacquer", "plate", coats=2),)
    return laid(sketch(sketch_part("plate"), treatments=treatments), shop_open(hours))


def laid(pattern, shop, shelf=SHELF):
    derived = derive_build(pattern, shelf, shop, build="b")
    problem = problem_from(
        derived.work,
        derived.relations,
        Workplace(shop=shop, shelf=shelf),
        origin_at=MONDAY_9,
        order=derived.order,
    )
    plan = first_plan(problem)
    assert not plan.conflict
    assert plan.status is not Status.NONE
    return derived.work, {p.id: p for p in plan.placed}


@pytest.mark.parametrize(("hours", "in_time"), [(None, True), (AN_HOUR_A_DAY, False)])
def test_the_next_coat_goes_on_in_time_where_the_hours_let_it_and_later_where_not(hours, in_time):
    work, lies = planned(hours)
    first, then = work.of_kind(StepKind.FINISH)
    gap_min = lies[then.id].start_min - lies[first.id].end_min
    assert gap_min >= 90
    assert (gap_min <= COAT_BY_MIN) is in_time


def test_a_pair_dipped_twice_is_watched_in_time_and_coated_again_in_time():
    """A window of hours round windows of minutes: what is wished for does not scatter the pair."""
    treatments = (sketch_bath("lacquer", "plate", coats=2),)
    pattern = sketch(sketch_part("plate"), treatments=treatments, mirrored=True)
    work, lies = laid(pattern, shop_open(None))
    assert len(work.of_kind(StepKind.WATCH)) == 4
    for watch in work.of_kind(StepKind.WATCH):
        (drip,) = (s for s in work.following(watch.after) if s.kind is StepKind.DRIP)
        assert 0 <= lies[watch.id].start_min - lies[drip.id].end_min <= 5
        dry = work.drying_of(watch.after)
        assert lies[watch.id].start_min < lies[dry.id].start_min + TOUCH_MIN
    for side in ("left", "right"):
        first, then = (s for s in work.of_kind(StepKind.FINISH) if s.side.value == side)
        assert 90 <= lies[then.id].start_min - lies[first.id].end_min <= COAT_BY_MIN


def test_one_watch_for_both_begins_in_time_for_the_side_that_dripped_first():
    quick = tuple(
        replace(entry, set_up_min=3.0) if entry.id == "lacquer" else entry
        for entry in SHELF.treatments
    )
    pattern = sketch(
        sketch_part("plate"), treatments=(sketch_bath("lacquer", "plate"),), mirrored=True
    )
    work, lies = laid(pattern, shop_open(None), replace(SHELF, treatments=quick))
    (watch,) = work.of_kind(StepKind.WATCH)
    drips = work.of_kind(StepKind.DRIP)
    late = sorted(lies[watch.id].start_min - lies[drip.id].end_min for drip in drips)
    assert late == [0, 5]
