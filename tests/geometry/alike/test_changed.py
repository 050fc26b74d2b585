"""A changed part against what it was: outline, holes and slots, in mm."""

from dataclasses import replace
from math import hypot

import pytest
from geometry.leather_sketches import box, part

from armorplan.geometry.alike.changed import Reshaped, reshaped
from armorplan.pattern.parts import Slot

HOLES = {"a": (10.0, 10.0), "b": (50.0, 10.0), "c": (90.0, 10.0)}
PLATE = part("plate", box(100.0, 60.0), HOLES)


def slot(left_mm: float, width_mm: float = 3.0):
    outline = tuple((x + left_mm, y + 30.0) for x, y in box(16.0, width_mm))
    return Slot(id="slot", part="plate", outline=outline, length_mm=16.0, width_mm=width_mm)


def moved(one, across_mm: float, down_mm: float):
    def shift(spot):
        return spot[0] + across_mm, spot[1] + down_mm

    return replace(
        one,
        outline=tuple(map(shift, one.outline)),
        holes=tuple(replace(h, centre=shift(h.centre)) for h in one.holes),
    )


def with_hole(one, hole_id: str, **what):
    return replace(
        one, holes=tuple(replace(h, **what) if h.id == hole_id else h for h in one.holes)
    )


def test_other_words_make_no_other_shape():
    assert reshaped(PLATE, replace(PLATE, name="board", thickness_mm=5.0)) == Reshaped()


def test_a_part_moved_or_turned_on_its_page_is_the_same():
    assert reshaped(PLATE, moved(PLATE, 31.0, -7.5)).most_mm == 0.0
    lop = replace(PLATE, outline=(*PLATE.outline[:3], (0.0, 40.0)))
    turned = replace(
        lop,
        outline=tuple((-y, x) for x, y in lop.outline),
        holes=tuple(replace(h, centre=(-h.centre[1], h.centre[0])) for h in lop.holes),
    )
    assert reshaped(lop, turned) == Reshaped()


def test_a_longer_edge_is_told_by_how_much():
    assert reshaped(PLATE, replace(PLATE, outline=box(106.0, 60.0))).outline_mm == pytest.approx(6)


def test_an_outline_moved_off_its_holes_differs():
    off = replace(moved(PLATE, 6.0, 0.0), holes=PLATE.holes)
    assert reshaped(PLATE, off) == Reshaped(outline_mm=pytest.approx(6.0))


def test_a_moved_hole_is_named_with_its_way():
    off = with_hole(PLATE, "b", centre=(51.2, 10.9))
    found = reshaped(PLATE, off)
    assert (found.outline_mm, found.moved) == (0.0, (("b", pytest.approx(hypot(1.2, 0.9))),))


def test_what_was_moved_on_its_page_and_changed_too_is_measured_where_it_lies_now():
    off = with_hole(moved(PLATE, 40.0, 0.0), "b", centre=(91.5, 10.0))
    assert reshaped(PLATE, off).moved == (("b", pytest.approx(1.5)),)


def test_a_wider_hole_and_one_that_is_no_longer_round():
    assert reshaped(PLATE, with_hole(PLATE, "a", diameter_mm=5.5)).moved[0][0] == "a"
    sliding = with_hole(PLATE, "c", travel_mm=8.0)
    assert reshaped(PLATE, sliding).moved == (("c", pytest.approx(4.0)),)


def test_holes_that_come_and_go_are_named():
    fewer = replace(PLATE, holes=PLATE.holes[:2])
    assert reshaped(PLATE, fewer).gone == ("c",)
    assert reshaped(fewer, PLATE).added == ("c",)


def test_a_slot_is_measured_at_its_ends_and_its_width():
    slotted = replace(PLATE, slots=(slot(20.0),))
    assert reshaped(slotted, replace(PLATE, slots=(slot(22.0),))).moved == (
        ("slot", pytest.approx(2.0)),
    )
    wider = reshaped(slotted, replace(PLATE, slots=(slot(20.0, 4.5),)))
    assert wider.moved == (("slot", pytest.approx(1.5)),)


def test_what_no_knife_holds_is_no_difference():
    hair = replace(PLATE, outline=box(100.05, 60.0))
    assert reshaped(PLATE, hair).most_mm == 0.0
