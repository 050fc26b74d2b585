"""One length of a stitched or laced row, for the minutes at the bench and for the thread."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern
from needs.needs_sketches import built, shelf

from armorplan.geometry.row_lengths import row_mm
from armorplan.needs.supplies import run_needs
from armorplan.pattern.joining import Joint, JointKind
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Duration

SQUARE = part("square", box(100.0, 100.0), {})
STRIP = part("strip", box(300.0, 20.0), {})  # less leather, and a longer edge
SEWN = Joint(id="sewn", kind=JointKind.STITCH, layers=("square", "strip"), fastener="thread")


def test_without_a_length_the_smaller_layer_is_the_one_of_less_leather():
    assert row_mm(pattern(SQUARE, STRIP), SEWN) == pytest.approx(640.0)
    assert row_mm(pattern(SQUARE, STRIP), replace(SEWN, length_mm=85.0)) == 85.0


def test_a_lace_is_as_long_as_its_way_through_the_part_where_that_is_longest():
    one = part("one", box(200.0, 50.0), {"a": (10.0, 10.0), "b": (40.0, 50.0)})
    other = part("other", box(200.0, 50.0), {"c": (10.0, 10.0), "d": (20.0, 10.0)})
    laced = Joint(id="laced", kind=JointKind.LACE, stack=("a", "c", "d", "b"), fastener="lace")
    assert row_mm(pattern(one, other), laced) == pytest.approx(50.0)


def test_what_is_set_at_one_spot_has_no_row():
    assert row_mm(pattern(SQUARE, STRIP), replace(SEWN, kind=JointKind.GLUE)) == 0.0


def test_the_bench_and_the_take_off_tell_one_length():
    sewing = Duration(kind=StepKind.STITCH.value, per_cm_min=1.0)
    on = replace(shelf(), durations=(sewing,))
    assembly = built(pattern(SQUARE, STRIP, joints=(SEWN,)))
    (step,) = derive_steps(assembly, on, Room()).of_kind(StepKind.STITCH)
    (need,) = run_needs(assembly, on)
    assert (step.minutes, need.row_m) == (64, pytest.approx(0.64))
    assert "a row of 640 mm" in step.detail
