"""Sides, covers and the assembly graph."""

from dataclasses import replace

import pytest

from armorplan.assembly.expand import assemble
from armorplan.assembly.model import Side
from armorplan.pattern.joining import Route, Seam, Thread
from armorplan.pattern.parts import PartKind, Piece
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import (
    sketch,
    sketch_form,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)

PLATE = sketch_part("plate", holes={"p1": (20.0, 20.0), "p2": (60.0, 20.0)}, slots=("slot",))
LAME = sketch_part("lame", holes={"l1": (20.0, 20.0), "l2": (60.0, 20.0)})
ROW = (sketch_rivet("a", "p1", "l1"), sketch_rivet("b", "p2", "l2"))


def pair():
    strap = sketch_part("strap", kind=PartKind.STRAP)
    return assemble(
        sketch(
            PLATE,
            LAME,
            strap,
            joints=ROW,
            seams=(Seam(id="row", name="Row", joints=("a", "b")),),
            threads=(Thread(id="t", part="strap", through=("slot",), closed_by=("b",)),),
            forms=(sketch_form("bow", "plate", route=Route.DRY),),
            treatments=(sketch_treatment("dye", "plate", "lame"),),
            mirrored=True,
        ),
        sketch_shelf(),
        build="b-1",
    )


def test_a_pair_has_everything_twice_with_its_side():
    found = pair()
    assert [p.id for p in found.parts[:2]] == ["plate.left", "plate.right"]
    assert [j.id for j in found.joints] == ["a.left", "a.right", "b.left", "b.right"]
    assert found.joint("a.right").stack == (("plate.right", "p1"), ("lame.right", "l1"))
    assert found.seams[1].joints == ("a.right", "b.right")
    assert found.threads[0].hosts == ("plate.left",)
    assert found.threads[1].closed_by == ("b.right",)
    assert [f.parts for f in found.forms] == [("plate.left",), ("plate.right",)]
    assert [t.parts for t in found.treatments] == [
        ("plate.left", "lame.left"),
        ("plate.right", "lame.right"),
    ]


def test_a_single_piece_keeps_plain_ids():
    found = assemble(sketch(PLATE, LAME, joints=ROW), sketch_shelf(), build="b-1")
    assert [(p.id, p.side) for p in found.parts] == [
        ("plate", Side.SINGLE),
        ("lame", Side.SINGLE),
    ]


def test_a_dip_is_made_for_each_piece():
    other = replace(sketch_part("greave"), piece="leg")
    pattern = sketch(PLATE, other, treatments=(sketch_treatment("dye", "plate", "greave"),))
    pattern = replace(pattern, pieces=(*pattern.pieces, Piece(id="leg", name="Leg")))
    dips = assemble(pattern, sketch_shelf(), build="b").treatments
    assert [(d.id, d.piece, d.parts) for d in dips] == [
        ("dye.piece", "piece", ("plate",)),
        ("dye.leg", "leg", ("greave",)),
    ]


def test_the_graph_has_an_edge_for_each_two_layers_and_a_loop_for_a_fold():
    strap = sketch_part(
        "strap", holes={"s1": (10.0, 20.0), "s2": (70.0, 20.0), "s3": (40.0, 20.0)}
    )
    fold, three = sketch_rivet("fold", "s1", "s2"), sketch_rivet("a", "p1", "l1", "s3")
    graph = assemble(
        sketch(PLATE, LAME, strap, joints=(fold, three)), sketch_shelf(), build="b"
    ).graph()
    assert set(graph.edges(keys=True)) == {
        ("strap", "strap", "fold"),
        ("plate", "lame", "a"),
        ("lame", "strap", "a"),
    }
    assert graph.number_of_nodes() == 3


def test_a_joint_closes_on_itself_only_where_a_part_comes_twice():
    joints = assemble(sketch(PLATE, LAME, joints=ROW), sketch_shelf(), build="b").joints
    assert not any(joint.closes_on_itself for joint in joints)


@pytest.mark.parametrize("declared", [True, False])
def test_covers_are_found_from_the_shapes_or_declared(declared):
    boss = sketch_part(
        "boss",
        kind=PartKind.TRIM,
        holes={"b1": (20.0, 20.0), "b2": (60.0, 20.0)},
        hides=("mid",) if declared else (),
    )
    plate = sketch_part(
        "plate", holes={"p1": (20.0, 20.0), "p2": (60.0, 20.0), "p3": (40.0, 20.0)}
    )
    lame = sketch_part("lame", holes={"l3": (40.0, 20.0)})
    joints = (
        sketch_rivet("mid", "p3", "l3"),
        sketch_rivet("one", "b1", "p1"),
        sketch_rivet("two", "b2", "p2"),
    )
    kept = joints[:2] if declared else joints
    (cover,) = assemble(sketch(plate, lame, boss, joints=kept), sketch_shelf(), build="b").covers
    assert (cover.cover, cover.joint, cover.declared) == ("boss", "mid", declared)
    assert cover.covered_pct == pytest.approx(100.0)
