"""What closes a part: itself, a closure's seam, a ring of plates; a pivot never."""

from dataclasses import replace

from armorplan.assembly.expand import assemble
from armorplan.pattern.joining import FormKind, Joint, JointKind, Motion, Route, Seam
from armorplan.pattern.parts import PartKind
from armorplan.rules.closing import closing_joints, closing_rings
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_rivet

A, B, C = (
    sketch_part(name, holes={f"{name}{n}": (n * 9.0, 20.0) for n in range(1, 7)}) for name in "abc"
)


def built(*joints, **tables):
    return assemble(sketch(A, B, C, joints=joints, **tables), sketch_shelf(), build="b")


def closing(assembly, part="a"):
    return {joint.id for joint in closing_joints(assembly, part)}


def test_a_joint_with_itself_closes_a_part_whatever_lies_between():
    alone, between = sketch_rivet("alone", "a1", "a2"), sketch_rivet("between", "a3", "b1", "a4")
    assert closing(built(alone, between)) == {"alone", "between"}
    assert closing(built(alone, between), "b") == set()


def test_a_lace_closes_what_it_laces_to_itself():
    to_itself = Joint(id="own", kind=JointKind.LACE, stack=("a1", "a2"))
    to_other = Joint(id="two", kind=JointKind.LACE, stack=("a3", "b1", "a4", "b2"))
    assert closing(built(to_itself, to_other)) == {"own"}


def test_a_seam_closes_where_a_form_says_so():
    seam = Seam(id="row", name="Row", joints=("r",))
    form = replace(sketch_form("cup", "a", "b", route=Route.BY_SEAM), seams=("row",))
    rivet = sketch_rivet("r", "a1", "b1")
    bent = built(rivet, seams=(seam,), forms=(form,))
    drawn = built(rivet, seams=(seam,), forms=(replace(form, kind=FormKind.CLOSURE),))
    assert (closing(bent), closing(drawn)) == (set(), {"r"})


def test_three_plates_that_go_round_are_a_ring_and_a_chain_is_none():
    chain = (sketch_rivet("ab", "a1", "b1"), sketch_rivet("bc", "b2", "c1"))
    last = sketch_rivet("ca", "c2", "a2")
    assert not list(closing_rings(built(*chain), "a"))
    assert list(closing_rings(built(*chain, last), "a")) == [("ab", "bc", "ca")]
    pivot = replace(last, motion=Motion.TURNING)
    assert not list(closing_rings(built(*chain, pivot), "a"))


def test_two_plates_joined_by_two_seams_are_a_tube():
    joints = tuple(sketch_rivet(f"r{n}", f"a{n}", f"b{n}") for n in (1, 2, 3, 4))
    front = Seam(id="front", name="Front", joints=("r1", "r2"))
    back = Seam(id="back", name="Back", joints=("r3", "r4"))
    layers = built(*joints, seams=(front, back))
    assert not list(closing_rings(layers, "a")), "they lie flat on each other"
    joints = (*joints[:2], sketch_rivet("r3", "a3", "b5"), sketch_rivet("r4", "a4", "b6"))
    assert not list(closing_rings(built(*joints, seams=(front,)), "a"))
    assert list(closing_rings(built(*joints, seams=(front, back)), "a")) == [
        ("r1", "r2", "r3", "r4")
    ]


def test_straps_close_no_ring():
    strap = sketch_part("s", kind=PartKind.STRAP, holes={"s1": (8.0, 20.0), "s2": (70.0, 20.0)})
    joints = (
        sketch_rivet("ab", "a1", "b1"),
        sketch_rivet("as", "s1", "a2"),
        sketch_rivet("bs", "s2", "b2"),
    )
    assembly = assemble(sketch(A, B, strap, joints=joints), sketch_shelf(), build="b")
    assert not list(closing_rings(assembly, "a"))
    assert not list(closing_rings(assembly, "s"))


def test_what_hangs_on_a_ring_is_in_no_ring():
    ring = (
        sketch_rivet("ab", "a1", "b1"),
        sketch_rivet("bc", "b2", "c1"),
        sketch_rivet("ca", "c2", "a2"),
    )
    tail = sketch_part("tail", holes={"t1": (9.0, 20.0)})
    drawn = sketch(A, B, C, tail, joints=(*ring, sketch_rivet("at", "a3", "t1")))
    assembly = assemble(drawn, sketch_shelf(), build="b")
    assert list(closing_rings(assembly, "tail")) == []
    assert list(closing_rings(assembly, "a")) == [("ab", "bc", "ca")]
