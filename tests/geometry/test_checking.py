from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.checking import shape_findings
from armorplan.geometry.edge_rule import least_edge_mm
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.findings import Finding, Severity
from armorplan.pattern.joining import Joint, JointKind, Treatment
from armorplan.pattern.parts import Material, Slot


def _pair(hole=(20.0, 20.0), *, diameter_mm=3.5, fastener="cap", kind=JointKind.RIVET, **more):
    a = part("front_plate", box(60.0, 60.0), {"a": hole}, diameter_mm=diameter_mm)
    b = part("back_plate", box(60.0, 60.0), {"b": (30.0, 30.0)}, diameter_mm=diameter_mm)
    joint = Joint(id="j", kind=kind, stack=("a", "b"), fastener=fastener)
    return pattern(a, b, joints=(joint,), **more)


def _found(sketch):
    return {f.code: f for f in shape_findings(sketch, shelf())}


def test_a_sound_pair_has_nothing_to_tell():
    assert shape_findings(_pair(), shelf()) == ()


def test_a_hole_near_the_edge_is_told_with_its_mm():
    """Two 3.2 mm layers: 1.5 × 6.4 = 9.6 mm, but 8 mm is usual (common practice, from memory)."""
    found = _found(_pair((6.0, 30.0)))["hole-near-edge"]
    assert "6.0 mm from the nearest edge; 8.0 mm is the least" in found.text
    assert found.remedy.startswith("Move it 2.0 mm inward")
    assert "hole-near-edge" not in _found(_pair((8.0, 30.0)))


@pytest.mark.parametrize(
    ("diameter_mm", "stack_mm", "least_mm"),
    [(6.0, 0.0, 12.0), (3.0, 0.0, 6.0), (3.0, 5.0, 7.5), (3.0, 20.0, 8.0)],
)
def test_least_edge_takes_the_strictest_of_diameter_stack_and_floor(
    diameter_mm, stack_mm, least_mm
):
    assert least_edge_mm(diameter_mm, stack_mm) == least_mm


def test_a_slot_is_an_edge_too():
    slot = Slot(
        id="s", part="strap", outline=box(16.0, 4.0, (22.0, 18.0)), length_mm=16.0, width_mm=4.0
    )
    strap = part("strap", box(90.0, 40.0), {"h": (18.0, 20.0)}, slots=(slot,))
    assert "lies 4.0 mm from the nearest edge" in _found(pattern(strap))["hole-near-edge"].text


def test_holes_closer_than_three_diameters():
    plate = part("plate", box(60.0, 60.0), {"a": (20.0, 20.0), "b": (29.0, 20.0)})
    found = _found(pattern(plate))["holes-too-close"]
    assert "9.0 mm apart; 10.5 mm" in found.text
    assert found.about == ("plate", "a", "b")


@pytest.mark.parametrize(("diameter_mm", "word"), [(4.5, "looser"), (2.5, "tighter")])
def test_a_hole_of_the_wrong_punch(diameter_mm, word):
    found = _found(_pair(diameter_mm=diameter_mm))["hole-wrong-size"]
    assert f"1.0 mm {word} than Cap rivet needs" in found.text


def test_a_hole_within_six_tenths_passes():
    assert "hole-wrong-size" not in _found(_pair(diameter_mm=4.1))


def test_a_rivet_that_names_a_screw():
    found = _found(_pair(diameter_mm=5.0, fastener="post"))["fastener-wrong-kind"]
    assert found.severity is Severity.ERROR
    assert found.text == "Joint 'j' is a rivet but 'post' is a screw."


def test_no_post_on_sale_is_told_once_for_all_joints_alike():
    thick = [
        replace(
            part(p, box(90.0, 60.0), {f"{p}1": (20.0, 30.0), f"{p}2": (60.0, 30.0)}),
            thickness_mm=7.1,
        )
        for p in ("u", "v")
    ]
    joints = (rivet("j1", "u1", "v1"), rivet("j2", "u2", "v2"))
    (found,) = [
        f
        for f in shape_findings(pattern(*thick, joints=joints), shelf())
        if f.code == "no-post-length"
    ]
    assert found.about == ("j1", "j2")
    assert "the stack is 14.2 mm, 13.1 mm pinched" in found.text
    assert "needs a post of 13.1 to 16.1 mm; the nearest on sale 12 mm" in found.text


def test_names_that_are_not_on_the_shelf_come_with_the_nearest():
    material = Material(id="hide", leather="coop", thickness_mm=3.2)
    treatments = (Treatment(id="colour", use="woad", parts=("front_plate",)),)
    found = _found(_pair(fastener="caps", material=material, treatments=treatments))
    assert found["unknown-leather"].remedy == "Perhaps 'cop'?"
    assert found["unknown-fastener"].remedy == "Perhaps 'cap'?"
    assert found["unknown-treatment"].remedy == "The shelf holds: nothing."
    assert all(f.severity is Severity.ERROR for f in found.values())


def test_leather_of_unusual_thickness_is_a_note():
    material = Material(id="hide", leather="cop", thickness_mm=5.2)
    found = _found(_pair(material=material))["unusual-thickness"]
    assert found.severity is Severity.NOTE
    assert "5.2 mm (13.1 oz); 3.1 to 4.0 mm is usual" in found.text


def test_glue_and_stitch_need_no_fastener():
    assert shape_findings(_pair(kind=JointKind.GLUE, fastener=""), shelf()) == ()


def test_what_two_measures_find_alike_is_told_once():
    measure = Measure(
        id="lames:one",
        topic=Topic.LAMES,
        title="one",
        verdict="open",
        text=".",
        findings=(Finding(code="lame-gap-opens", severity=Severity.NOTE, text=".", remedy="."),),
    )
    shapes = (measure, replace(measure, id="lames:other"))
    assert len(shape_findings(_pair(), shelf(), shapes)) == 1
