"""Fasteners: post by post, spares, washers, what no post fits, hardware, pins for the dry fit."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import pattern, rivet
from needs.needs_sketches import built, plate, shelf

from armorplan.assembly.model import Side
from armorplan.needs.fasteners import hardware_needs, post_needs, trial_pins, washer_needs
from armorplan.needs.measures import spares
from armorplan.pattern.wearing import HardwareUse
from armorplan.steps.model import Step, StepKind, Work
from armorplan.workshop.constants import Constant, Constants

TWO = ("one", "two")


def two_plates(*joints, **changes):
    return replace(pattern(*(plate(name) for name in TWO), joints=joints), **changes)


def riveted(joint_id: str = "row_1", **changes):
    return replace(rivet(joint_id, "one_hole", "two_hole"), **changes)


def dry_fit(name: str, *joints: str) -> Step:
    return Step(
        id=name,
        kind=StepKind.DRY_FIT,
        piece="piece",
        side=Side.SINGLE,
        title=name,
        tray="tray",
        parts=(),
        joints=joints,
        minutes=5,
    )


def test_a_pair_sets_each_rivet_twice():
    (need,) = post_needs(built(two_plates(riveted()), mirrored=True), shelf())
    assert need.joints == ("row_1.left", "row_1.right")
    # 6.4 mm of leather pinched by 7.5 % is 5.92 mm: a post of 6 mm holds it.
    assert (need.length_mm, need.stack_mm) == (6.0, (6.4, 6.4))
    assert (need.spares, need.buy) == (2, 4)
    assert need.cost == pytest.approx(0.4)


def test_a_washer_makes_the_stack_thicker_and_is_bought():
    assembly = built(two_plates(riveted(washer_mm=2.0)))
    (need,) = post_needs(assembly, shelf())
    assert (need.length_mm, need.stack_mm) == (8.0, (8.4, 8.4))
    (washer,) = washer_needs(assembly)
    assert (washer.thickness_mm, washer.count, washer.buy) == (2.0, 1, 3)


def test_the_post_that_the_maker_names_is_bought():
    (need,) = post_needs(built(two_plates(riveted(post_mm=8.0))), shelf())
    assert (need.length_mm, need.buy) == (8.0, 3)


def test_posts_follow_how_far_leather_is_pinched_in_this_shop():
    """6.4 mm pinched by 4 % are 6.14 mm: a post of 6 mm is short."""
    hard = Constants(pinch=Constant(value=4.0, unit="%", name="pinch"))
    (need,) = post_needs(built(two_plates(riveted())), replace(shelf(), constants=hard))
    assert need.length_mm == 8.0


def test_what_no_post_fits_is_named_and_not_bought():
    (need,) = post_needs(built(two_plates(riveted(washer_mm=20.0))), shelf())
    assert need.length_mm is None
    assert need.joints == ("row_1",)
    assert (need.spares, need.buy, need.cost) == (0, 0, None)


def test_a_fastener_that_is_not_on_the_shelf_is_named():
    (need,) = post_needs(built(two_plates(riveted(fastener="lost"))), shelf())
    assert (need.name, need.length_mm) == ("lost", None)


@pytest.mark.parametrize(("count", "more"), [(0, 0), (1, 2), (20, 2), (21, 3), (100, 10)])
def test_a_tenth_to_spare_and_two_at_least(count, more):
    assert spares(count) == more


def test_pins_are_enough_for_the_largest_dry_fit_and_only_where_there_are_holes():
    joints = (riveted("row_1"), riveted("row_2"))
    assembly = built(two_plates(*joints))
    work = Work(steps=(dry_fit("small", "row_1"), dry_fit("large", "row_1", "row_2")))
    pins = trial_pins(assembly, work)
    assert (pins.count, pins.dry_fit) == (2, "large")
    assert trial_pins(assembly, Work(steps=())) is None


def test_hardware_is_counted_on_both_sides():
    use = HardwareUse(id="at_knee", use="buckle", part="one", count=2)
    assembly = built(two_plates(hardware=(use,)), mirrored=True)
    (need,) = hardware_needs(assembly, shelf())
    assert (need.name, need.count, need.cost) == ("Buckle", 4, pytest.approx(5.0))
