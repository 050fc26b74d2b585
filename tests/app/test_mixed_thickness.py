"""A form of thin and thick leather: the bench and the plan take the thick to open, the thin to close."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from drying.sample_rooms import nights

from armorplan.app.derived import derive_build
from armorplan.app.open_windows import window_after
from armorplan.drying.body import Body
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_form, sketch_part
from armorplan.schedule.building import problem_from
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.schedule.workplace import Workplace
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shop import one_maker

AT = datetime(2026, 3, 2, 9, tzinfo=UTC)
STEADY = Room(usual=Climate(temperature_c=18.0))
NIGHTS = Room(by_hour=nights(8.0, humidity_pct=50.0))


@pytest.fixture(params=[STEADY, NIGHTS], ids=["steady", "nights"])
def derived(request):
    casings = (
        replace(e, reference_mm=3.5, window_min=(20, 90)) if e.window_min else e
        for e in sketch_shelf().treatments
    )
    parts = (
        replace(sketch_part("plate"), thickness_mm=4.0),
        replace(sketch_part("trim"), thickness_mm=2.0),
    )
    return derive_build(
        sketch(*parts, forms=(sketch_form("bow", "plate", "trim"),)),
        replace(sketch_shelf(), treatments=tuple(casings)),
        replace(one_maker(), room=request.param),
        build="b",
    )


def edges(derived, end_at):
    """Return when the thick is ready and the thin too dry, by the room itself."""
    room, entry = drying_room(derived.shop.room), derived.shelf.treatment("casing")
    return tuple(
        room.minutes(entry, Body(thickness_mm=mm), stage, end_at)
        for mm, stage in ((4.0, Stage.OPENS), (2.0, Stage.CLOSES))
    )


def test_the_bench_opens_with_the_thick_and_closes_with_the_thin(derived):
    (relation,) = (r for r in derived.waits if r.reason.rule == "damp-window")
    window = window_after(derived, relation, None, AT)
    opens, closes = edges(derived, AT)
    assert (window.opens_at, window.by_at) == (
        AT + timedelta(minutes=opens),
        AT + timedelta(minutes=closes),
    )


def test_so_does_the_plan(derived):
    (relation,) = (r for r in derived.waits if r.reason.rule == "damp-window")
    problem = problem_from(
        derived.work,
        derived.relations,
        Workplace(shop=derived.shop, shelf=derived.shelf),
        origin_at=AT,
        order=derived.order,
    )
    (lag,) = (g for g in problem.lags if (g.first, g.then) == (relation.first, relation.then))
    for end in (5, 47, 700):
        opens, closes = edges(derived, AT + timedelta(minutes=end))
        assert opens <= opens_at(lag, end) - end <= opens + 2
        assert closes - 2 <= closes_at(lag, end) - end <= closes
