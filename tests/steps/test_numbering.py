"""Look-alikes are marked where it is covered, if anything covers them."""

from steps.made_steps import only, square, work_of

from armorplan.rules.sketches import sketch_rivet
from armorplan.steps.model import StepKind

UPPER = ((0.0, 0.0), (80.0, 0.0), (80.0, 60.0), (0.0, 60.0))
LOWER = ((0.0, 0.0), (81.2, 0.0), (81.2, 60.0), (0.0, 60.0))


def test_a_mark_goes_where_the_other_part_covers_it():
    upper = square("upper", outline=UPPER, holes={"a": (10.0, 50.0), "b": (70.0, 50.0)})
    lower = square("lower", outline=LOWER, holes={"c": (10.0, 30.0), "d": (70.0, 30.0)})
    joints = (sketch_rivet("r", "a", "c"), sketch_rivet("s", "b", "d"))
    detail = only(work_of(upper, lower, joints=joints), StepKind.NUMBER).detail
    assert "Or punch one dot and two dots where they will be covered: Lower " in detail
    assert "mm from the edge (under Upper)." in detail


def test_nothing_is_said_of_marks_that_nothing_covers():
    work = work_of(square("upper", outline=UPPER), square("lower", outline=LOWER))
    assert "covered" not in only(work, StepKind.NUMBER).detail
