"""Coats close together add up in the air of one room; the plan says when it is most."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from armorplan.app.derived import derive_build
from armorplan.app.solvent_hours import solvent_words
from armorplan.geometry.areas import outline_dm2
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Room
from armorplan.workshop.shop import one_maker

MONDAY_9 = datetime(2026, 11, 30, 9, tzinfo=UTC)
LEL = 63.0
"""3.3 % of ethanol by volume, NIOSH Pocket Guide."""


def derived_in(volume_m3):
    shelf = sketch_shelf()
    solvent = {
        "solvent": "ethanol",
        "solvent_g_per_ml": 0.75,
        "lel_g_per_m3": LEL,
        "lel_source": "NIOSH Pocket Guide",
        "wipe_ml_per_dm2": 1.5,
    }
    entries = tuple(
        replace(e, **solvent) if e.id == "dye" else e
        for e in shelf.treatments
        if e.id != "cleaner"
    )
    pattern = sketch(sketch_part("plate"), treatments=(sketch_treatment("dye", "plate", coats=3),))
    shop = replace(one_maker("UTC"), room=Room(zone="UTC", volume_m3=volume_m3))
    return derive_build(pattern, replace(shelf, treatments=entries), shop, build="b")


def told(derived, *hours):
    coats = derived.work.of_kind(StepKind.DYE)
    starts = [MONDAY_9 + timedelta(hours=hour) for hour in hours]
    lies = zip(coats, starts, strict=True)
    return solvent_words(
        derived, {c.id: (at, at + timedelta(minutes=30), "maker") for c, at in lies}
    )


def grams(derived, coats):
    """Both faces, 1.5 ml of a dm² each, 0.75 g of ethanol in a ml."""
    return coats * outline_dm2(derived.pattern.parts[0]) * 2 * 1.5 * 0.75


@pytest.mark.parametrize(
    ("hours", "coats", "until"),
    [((0, 1, 2), 3, "11:30"), ((0, 1, 5), 2, "10:30"), ((0, 3.5, 7), 2, "13:00")],
)
def test_what_lies_within_a_few_hours_is_added(hours, coats, until):
    derived = derived_in(0.05)
    said = told(derived, *hours)
    assert said.startswith("Most solvent at a time: Mon 30 Nov, 09:00 to ")
    assert (
        f"to {until}, {coats} steps give off about {grams(derived, coats):.0f} g of ethanol"
        in said
    )
    pct = 100 * grams(derived, coats) / LEL / 0.05
    assert f"in 0.05 m³ of still air {pct:.1f} % of the lower explosive limit; too much" in said


def test_coats_a_day_apart_add_nothing():
    assert told(derived_in(40.0), 0, 24, 48) == ""


def test_a_room_nobody_measured_is_told_the_air_it_takes_and_a_large_one_is_no_trouble():
    assert "m³ of air to stay below 10 % of the lower explosive limit." in told(
        derived_in(None), 0, 1, 2
    )
    assert "too much" not in told(derived_in(4000.0), 0, 1, 2)


def test_the_plan_shown_tells_it_among_its_details(bench):
    bench.plan()
    assert "Most solvent at a time: " in bench.session.plan_face().details
