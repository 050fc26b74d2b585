"""A dipped coat is turned before it is dry to the touch, and no later than one turn after another."""

from dataclasses import replace

import pytest

from armorplan.app.derived import derive_build
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

PATTERN = sketch(sketch_part("cuff"), treatments=(sketch_bath("lacquer", "cuff"),), mirrored=True)


def derived_with(**fields):
    shelf = sketch_shelf()
    treatments = (replace(e, **fields) if e.id == "lacquer" else e for e in shelf.treatments)
    return derive_build(
        PATTERN, replace(shelf, treatments=tuple(treatments)), one_maker("UTC"), build="b"
    )


@pytest.mark.parametrize(
    ("fields", "most"),
    [
        ({}, 5),
        ({"watch_every_min": 1, "watch_for_min": 3, "drip_min": 1}, 1),
        ({"drip_min": 5, "touch_min": 9}, 3),
        ({"drip_min": 5, "touch_min": 5}, 0),
        ({"set_up_min": 3.0}, 5),
    ],
    ids=["every five minutes", "every minute", "dry soon", "dry at once", "one watch for both"],
)
def test_the_first_turn_comes_in_time_after_each_dripping_and_before_it_is_dry(fields, most):
    derived = derived_with(**fields)
    told = [r for r in derived.relations if r.reason.rule == "watch-after-drip"]
    assert {r.first for r in told} == {s.id for s in derived.work.of_kind(StepKind.DRIP)}
    assert [r.max_lag_min for r in told] == [most, most]
    assert all(r.reason.binds for r in told)


def test_the_order_watches_one_side_before_the_other_is_dipped():
    derived = derived_with()
    kinds = (StepKind.FINISH, StepKind.DRIP, StepKind.WATCH)
    steps = [derived.work.step(step) for step in derived.order]
    assert [(s.side.value, s.kind) for s in steps if s.kind in kinds] == [
        (side, kind) for side in ("left", "right") for kind in kinds
    ]
