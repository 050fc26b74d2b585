"""On which sides things are made: the sides their parts share, and where they are joined."""

from dataclasses import replace

import pytest

from armorplan.assembly.expand import assemble
from armorplan.assembly.model import Side
from armorplan.pattern.joining import Joint, JointKind, Seam, Thread
from armorplan.pattern.parts import Harness, MadeOn, PartKind, Piece
from armorplan.pattern.wearing import HardwareUse
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet, sketch_treatment

PLATE = sketch_part("plate", holes={"p1": (20.0, 20.0), "p2": (60.0, 20.0)}, slots=("slot",))
STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s1": (10.0, 20.0), "s2": (70.0, 20.0)})
LEFT_STRAP = replace(STRAP, made_on=MadeOn.LEFT)
BELT = replace(sketch_part("belt", holes={"b1": (10.0, 10.0), "b2": (60.0, 10.0)}), piece="hip")
FIXED = sketch_rivet("fixed", "s1", "p1")


def made(*parts, harness=(), mirrored=True, **tables):
    pattern = sketch(*parts, mirrored=mirrored)
    pieces = (
        *pattern.pieces,
        Piece(id="hip", name="Hip"),
        Piece(id="knee", name="Knee", mirrored=True),
    )
    named = tuple(Harness(id="leg", name="Leg", pieces=harness) for _ in harness[:1])
    pattern = replace(pattern, pieces=pieces, harnesses=named, **tables)
    return assemble(pattern, sketch_shelf(), build="b")


def test_what_touches_a_part_of_one_side_is_made_on_that_side():
    found = made(
        PLATE,
        LEFT_STRAP,
        joints=(FIXED,),
        seams=(Seam(id="row", name="Row", joints=("fixed",)),),
        threads=(Thread(id="way", part="strap", through=("slot",), closed_by=("fixed",)),),
        treatments=(sketch_treatment("dye", "plate", "strap"),),
        hardware=(HardwareUse(id="ring", use="ring", part="strap", held_by=("fixed",)),),
    )
    assert [p.id for p in found.parts] == ["plate.left", "plate.right", "strap.left"]
    for table in (found.joints, found.seams, found.threads, found.hardware):
        assert [entry.side for entry in table] == [Side.LEFT]
    assert found.hardware[0].held_by == ("fixed.left",)
    assert [t.parts for t in found.treatments] == [("plate.left", "strap.left"), ("plate.right",)]


def test_a_thread_is_made_on_the_side_it_says():
    found = made(
        PLATE,
        STRAP,
        threads=(Thread(id="way", part="strap", through=("slot",), made_on=MadeOn.RIGHT),),
    )
    assert [t.id for t in found.threads] == ["way.right"]


def test_a_part_made_once_is_joined_with_each_side_and_keeps_its_id():
    found = made(
        BELT,
        PLATE,
        joints=(
            replace(sketch_rivet("one", "b1", "p1"), made_on=MadeOn.LEFT),
            replace(sketch_rivet("two", "b2", "p1"), made_on=MadeOn.RIGHT),
        ),
    )
    assert [j.id for j in found.joints] == ["one.left", "two.right"]
    assert found.joint("one.left").parts == ("belt", "plate.left")
    assert found.joint("two.right").parts == ("belt", "plate.right")
    assert {j.piece for j in found.joints} == {"piece"}


def test_a_strap_made_once_and_held_by_both_sides_is_threaded_once():
    thread = Thread(id="way", part="belt", through=("loop",), closed_by=("one", "two"))
    loop = replace(sketch_part("loop_plate", slots=("loop",)), piece="hip")
    found = made(
        BELT,
        loop,
        PLATE,
        joints=(
            replace(sketch_rivet("one", "b1", "p1"), made_on=MadeOn.LEFT),
            replace(sketch_rivet("two", "b2", "p1"), made_on=MadeOn.RIGHT),
        ),
        threads=(thread,),
    )
    (way,) = found.threads
    assert (way.id, way.side) == ("way", Side.SINGLE)
    assert way.closed_by == ("one.left", "two.right")


@pytest.mark.parametrize(("harness", "piece"), [(("piece", "knee"), "leg"), ((), "piece")])
def test_a_joint_between_pieces_of_a_harness_is_worked_when_they_hang_together(harness, piece):
    cop = replace(sketch_part("cop", holes={"c1": (20.0, 20.0)}), piece="knee")
    found = made(
        PLATE, STRAP, cop, harness=harness, joints=(FIXED, sketch_rivet("hang", "p2", "c1"))
    )
    assert [(j.id, j.piece) for j in found.joints if j.side is Side.LEFT] == [
        ("fixed.left", "piece"),
        ("hang.left", piece),
    ]


def test_layers_without_holes_have_empty_hole_ids():
    glue = Joint(id="g", kind=JointKind.GLUE, layers=("plate", "strap"), fastener="cement")
    (joint,) = made(PLATE, STRAP, mirrored=False, joints=(glue,)).joints
    assert joint.stack == (("plate", ""), ("strap", ""))
    assert joint.parts == ("plate", "strap")


def test_a_strap_glued_to_itself_closes_on_itself():
    glue = Joint(id="g", kind=JointKind.GLUE, layers=("strap", "strap"), fastener="cement")
    found = made(STRAP, mirrored=False, joints=(glue,))
    assert found.joints[0].closes_on_itself
    assert found.graph().number_of_edges("strap", "strap") == 1


def test_a_part_of_one_side_covers_only_there():
    boss = replace(sketch_part("boss", hides=("fixed",)), made_on=MadeOn.LEFT)
    found = made(PLATE, STRAP, boss, joints=(FIXED,))
    assert [(c.cover, c.joint) for c in found.covers] == [("boss.left", "fixed.left")]
