"""Slots that a fastener slides in: edges, neighbours, rows, covers and areas."""

from dataclasses import replace
from math import pi

import pytest
from geometry.row_sketches import told

from armorplan.geometry.areas import part_area_mm2
from armorplan.geometry.covers.covering import covered_heads
from armorplan.geometry.holes.edges import edge_distances_mm, too_close
from armorplan.pattern.joining import Joint, JointKind, Motion, Seam
from armorplan.pattern.parts import Hole, PartKind
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet


def slotted(travel_mm, travel_deg=0.0, **others):
    """An 80 × 40 mm plate with a slot in its middle, 4 mm wide."""
    slot = Hole(
        id="slot", part="plate", centre=(40.0, 20.0), diameter_mm=4.0,
        travel_mm=travel_mm, travel_deg=travel_deg,
    )  # fmt: skip
    plate = sketch_part("plate", holes=others)
    return replace(plate, holes=(slot, *plate.holes))


@pytest.mark.parametrize(
    ("travel_deg", "edge_mm"), [(0.0, 20.0), (90.0, 10.0), (270.0, 10.0), (30.0, 15.0)]
)
def test_an_edge_is_measured_from_where_the_fastener_comes_nearest(travel_deg, edge_mm):
    assert edge_distances_mm(slotted(20.0, travel_deg)) == pytest.approx((edge_mm,))


def test_which_way_a_slot_rises_counts():
    # 30° up to the right: the right end lies 5 mm higher, at (48.66, 15).
    upper, lower = slotted(20.0, 30.0, h=(48.66, 9.0)), slotted(20.0, 30.0, h=(48.66, 31.0))
    assert [len(list(too_close(part))) for part in (upper, lower)] == [1, 0]


def test_a_slot_leaves_less_leather():
    assert part_area_mm2(slotted(20.0)) == pytest.approx(80 * 40 - pi * 4 - 80)


def test_a_row_is_judged_without_its_slots():
    lame = sketch_part("lame", holes={"a": (20.0, 20.0), "b": (43.0, 20.0)})
    plate = slotted(6.0, p=(20.0, 20.0))
    joints = (sketch_rivet("one", "a", "p"), sketch_rivet("two", "b", "slot"))
    seam = Seam(id="row", name="Row", joints=("one", "two"))
    assert list(told(sketch(lame, plate, joints=joints, seams=(seam,)))) == []
    fixed = replace(plate, holes=tuple(replace(h, travel_mm=0.0) for h in plate.holes))
    assert [f.code for f in told(sketch(lame, fixed, joints=joints, seams=(seam,)))] == [
        "row-misfit"
    ]


@pytest.mark.parametrize("motion", [Motion.FIXED, Motion.SLIDING])
def test_a_joint_that_slides_places_no_cover(motion):
    boss = sketch_part("boss", kind=PartKind.TRIM, holes={"b1": (20.0, 20.0), "b2": (60.0, 20.0)})
    plate = sketch_part(
        "plate", holes={"p1": (20.0, 20.0), "p2": (60.0, 20.0), "p3": (40.0, 20.0)}
    )
    lame = sketch_part("lame", holes={"l3": (40.0, 20.0)})
    joints = (
        sketch_rivet("mid", "p3", "l3"),
        sketch_rivet("one", "b1", "p1"),
        replace(sketch_rivet("two", "b2", "p2"), motion=motion),
    )
    found = covered_heads(sketch(boss, plate, lame, joints=joints), sketch_shelf())
    assert bool(found) is (motion is Motion.FIXED)


def test_glue_over_a_surface_has_no_head_and_places_nothing():
    plate, lame = sketch_part("plate"), sketch_part("lame")
    glue = Joint(id="g", kind=JointKind.GLUE, layers=("plate", "lame"), fastener="double_cap_9")
    assert covered_heads(sketch(plate, lame, joints=(glue,)), sketch_shelf()) == ()
