"""Parts that nothing holds are named; what is legally loose is left in peace."""

from dataclasses import replace

from geometry.leather_sketches import box, part, pattern, rivet

from armorplan.geometry.loose_parts import loose_part_findings
from armorplan.kernel.findings import Severity
from armorplan.pattern.own_work import OwnStep
from armorplan.pattern.parts import Piece
from armorplan.pattern.wearing import HardwareUse, StrapPlace, Suspension


def _plate(name, **more):
    return replace(part(name, box(60.0, 60.0), {f"{name}_h": (20.0, 20.0)}), **more)


def _sketch(*loose, joints=(), **more):
    """Front and back riveted together, and what is loose beside them."""
    held = (_plate("front"), _plate("back"))
    sketch = pattern(*held, *loose, joints=(rivet("j", "front_h", "back_h"), *joints))
    return replace(sketch, **more)


def _found(sketch):
    return tuple(loose_part_findings(sketch))


def test_a_part_that_nothing_holds_is_named():
    (found,) = _found(_sketch(_plate("boss")))
    assert (found.code, found.severity) == ("parts-unconnected", Severity.NOTE)
    assert found.text == "In piece nothing holds boss to the other parts."
    assert found.about == ("boss",)


def test_heaps_are_told_in_one_sentence():
    heap = (_plate("upper"), _plate("lower"))
    sketch = _sketch(*heap, _plate("boss"), joints=(rivet("k", "upper_h", "lower_h"),))
    (found,) = _found(sketch)
    assert "nothing holds upper with lower and boss to" in found.text
    assert found.about == ("upper", "lower", "boss")


def test_all_held_is_silent():
    assert _found(_sketch(_plate("boss"), joints=(rivet("k", "boss_h", "back_h"),))) == ()


def test_a_piece_in_which_nothing_is_joined_yet_is_silent():
    assert _found(pattern(_plate("one"), _plate("other"))) == ()


def test_shapes_cut_several_times_are_loose_by_nature():
    assert _found(_sketch(_plate("washer", count=6))) == ()


def test_what_hangs_the_piece_is_held_elsewhere():
    tie = Suspension(id="tie", piece="piece", part="tab", hangs_from="the belt")
    assert _found(_sketch(_plate("tab"), suspensions=(tie,))) == ()


def test_a_strap_that_closes_on_a_plate_is_held():
    place = StrapPlace(id="at", name="wrist", strap="strap", meets="back", girth_mm=(200.0, 220.0))
    assert _found(_sketch(_plate("strap"), strap_places=(place,))) == ()


def test_work_of_the_makers_own_may_hold_a_part():
    sewn = OwnStep(id="sew", name="Sew the lining in", piece="piece", parts=("lining", "back"))
    assert _found(_sketch(_plate("lining"), own_steps=(sewn,))) == ()


def test_a_half_that_closes_with_its_own_buckle_is_not_forgotten():
    halves = (_plate("rear"), _plate("tongue"))
    buckle = HardwareUse(id="buckle", use="buckle_20", part="tongue")
    joints = (rivet("k", "rear_h", "tongue_h"),)
    assert _found(_sketch(*halves, joints=joints, hardware=(buckle,))) == ()
    assert _found(_sketch(*halves, joints=joints))


def test_a_part_held_by_another_piece_is_not_loose():
    other = _plate("tassel", piece="other")
    strap = replace(
        part("strap", box(60.0, 20.0), {"s": (20.0, 10.0)}),
    )
    sketch = _sketch(strap, other, joints=(rivet("k", "s", "tassel_h"),))
    pieces = (*sketch.pieces, Piece(id="other", name="other"))
    assert _found(replace(sketch, pieces=pieces)) == ()
