"""Pins for the dry fit: which enter a hole and hold a stack, and how many there are."""

from dataclasses import replace

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.workshop.pins import are_counted, pins_for
from armorplan.workshop.pricing import with_prices

SHELF = read_shelf()
PINS = {pin.id: pin for pin in SHELF.pins}


@pytest.mark.parametrize(
    ("pin", "hole_mm", "enters"),
    [
        ("screw_post_5x8", 3.0, False),
        ("screw_post_5x8", 5.0, True),
        ("screw_post_5x8", 5.5, True),
        ("screw_post_5x8", 6.1, False),
        ("bolt_3x12", 3.0, True),
        ("bolt_3x12", 2.9, False),
        ("bolt_3x12", 4.0, True),
        ("bolt_3x12", 4.1, False),
    ],
)
def test_a_pin_enters_its_hole_and_does_not_rattle_in_it(pin, hole_mm, enters):
    assert PINS[pin].enters(hole_mm) == enters


@pytest.mark.parametrize(
    ("pin", "stack_mm", "holds"),
    [
        ("bolt_4x12", 8.0, True),
        ("bolt_4x12", 8.1, False),
        ("screw_post_5x8", 8.0, True),
        ("screw_post_5x8", 8.1, False),
        ("screw_post_5x8", 4.9, False),
    ],
)
def test_a_pin_holds_what_leaves_room_for_its_nut(pin, stack_mm, holds):
    assert PINS[pin].holds(stack_mm) == holds


def test_the_snuggest_comes_first_then_the_shortest():
    found = [pin.id for pin in pins_for(SHELF.pins, hole_mm=4.0, stack_mm=7.0)]
    assert found == ["bolt_4x12", "bolt_4x16", "bolt_4x20", "bolt_3x12", "bolt_3x16"]


def test_every_usual_hole_of_the_shelf_takes_a_pin():
    for fastener in SHELF.fasteners:
        assert pins_for(SHELF.pins, hole_mm=fastener.hole_mm, stack_mm=7.0), fastener.id


def test_nobody_has_counted_the_shipped_ones():
    assert not are_counted(SHELF.pins)


def test_a_running_build_knows_todays_pins():
    today = replace(SHELF, pins=tuple(replace(pin, owned=7) for pin in SHELF.pins))
    assert with_prices(replace(SHELF, pins=()), today).pins == today.pins
