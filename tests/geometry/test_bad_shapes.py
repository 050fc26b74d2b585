"""Whatever a drawing holds, posts, holes and covers are told or left unsaid, never in an error."""

from dataclasses import replace
from math import isfinite

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.alike.copies import copy_findings
from armorplan.geometry.alike.likeness import look_alikes
from armorplan.geometry.covers.covering import covered_heads
from armorplan.geometry.covers.measuring import cover_measures
from armorplan.geometry.posts.measuring import post_measures
from armorplan.pattern.joining import Joint, JointKind, Motion, Seam
from armorplan.pattern.parts import PartKind, Slot

SPOTS = st.tuples(
    st.sampled_from((0.0, 5.0, 20.0, 30.0, 60.0, 95.0, 200.0)),
    st.sampled_from((0.0, 5.0, 20.0, 30.0, 60.0, 95.0, -40.0)),
)
BOW_TIE = ((0.0, 0.0), (60.0, 60.0), (60.0, 0.0), (0.0, 60.0))
HORSESHOE = (
    (0.0, 0.0), (90.0, 0.0), (90.0, 90.0), (70.0, 90.0), (70.0, 20.0), (20.0, 20.0),
    (20.0, 90.0), (0.0, 90.0),
)  # fmt: skip
OUTLINES = st.one_of(
    st.sampled_from(
        (
            box(90.0, 60.0),
            HORSESHOE,
            BOW_TIE,
            (),
            ((0.0, 0.0),),
            ((0.0, 0.0), (90.0, 0.0)),
            ((0.0, 0.0), (90.0, 0.0), (45.0, 0.0)),
            ((5.0, 5.0),) * 4,
        )
    ),
    st.lists(SPOTS, max_size=7).map(tuple),
)


@st.composite
def parts(draw, name):
    holes = {f"{name}{n}": draw(SPOTS) for n in range(draw(st.integers(0, 4)))}
    made = part(name, draw(OUTLINES), holes, kind=draw(st.sampled_from(PartKind)))
    slots = ()
    if draw(st.booleans()):
        ring = draw(OUTLINES)
        slots = (Slot(id=f"s{name}", part=name, outline=ring, length_mm=10.0, width_mm=4.0),)
    wide = draw(st.sampled_from((0.0, 3.5, 40.0)))
    return replace(
        made,
        slots=slots,
        thickness_mm=draw(st.sampled_from((0.0, 1.0, 3.2, 30.0))),
        holes=tuple(replace(h, diameter_mm=wide) for h in made.holes),
        lies_over=draw(st.sampled_from(((), ("a",), ("b",), ("c",)))),
        copied=draw(st.booleans()),
        up_deg=draw(st.sampled_from((0.0, 90.0, 360.0))),
    )


@st.composite
def sketches(draw):
    """Three parts and joints through any of their holes, one of them twice if it comes to that."""
    made = [draw(parts(name)) for name in "abc"]
    holes = [hole.id for each in made for hole in each.holes]
    joints = []
    for n in range(draw(st.integers(0, 5)) if holes else 0):
        stack = tuple(draw(st.lists(st.sampled_from(holes), min_size=1, max_size=4)))
        kind = draw(st.sampled_from((JointKind.RIVET, JointKind.SCREW, JointKind.LACE)))
        joints.append(
            replace(
                rivet(f"j{n}", *stack, fastener=draw(st.sampled_from(("cap", "post", "none")))),
                kind=kind,
                motion=draw(st.sampled_from(Motion)),
                washer_mm=draw(st.sampled_from((0.0, 1.0))),
                post_mm=draw(st.sampled_from((None, 0.1, 6.0, 900.0))),
            )
        )
    joints.append(Joint(id="glued", kind=JointKind.GLUE, layers=("a", "b")))
    seams = (Seam(id="s", name="s", joints=tuple(j.id for j in joints)),)
    found = pattern(*made, joints=tuple(joints), seams=seams)
    pieces = tuple(replace(piece, mirrored=draw(st.booleans())) for piece in found.pieces)
    return replace(found, pieces=pieces)


@given(sketches())
@settings(max_examples=60, deadline=None)
def test_nothing_drawn_ends_in_an_error_and_every_measure_is_whole(sketch):
    found = [*cover_measures(sketch, shelf()), *post_measures(sketch, shelf())]
    assert len({measure.id for measure in found}) == len(found)
    known = {p.id for p in sketch.parts}
    for measure in found:
        assert measure.title
        assert measure.text.endswith(".")
        assert {mark.part for mark in measure.marks} <= known
        assert all(finding.remedy.endswith(".") for finding in measure.findings)
        assert "nan" not in measure.text
        assert all(isfinite(figure.value) for figure in measure.figures)
    assert all(
        finding.remedy.endswith(".") for finding in copy_findings(sketch, shelf().constants)
    )
    look_alikes(sketch.parts)


@pytest.mark.long
@given(sketches())
@settings(max_examples=1000, deadline=None)
def test_nothing_drawn_ends_in_an_error_and_every_measure_is_whole_in_many_drawings(sketch):
    test_nothing_drawn_ends_in_an_error_and_every_measure_is_whole.hypothesis.inner_test(sketch)


def _sound():
    plate = part("plate", box(100.0, 100.0), {"p1": (30.0, 30.0), "p2": (70.0, 30.0)})
    tab = part("tab", box(60.0, 30.0), {"t1": (10.0, 15.0), "t2": (50.0, 15.0)})
    return pattern(tab, plate, joints=(rivet("one", "t1", "p1"), rivet("two", "t2", "p2")))


def test_leather_without_thickness_has_no_post_and_the_rest_is_told():
    sketch = _sound()
    flat = tuple(replace(p, thickness_mm=0.0) for p in sketch.parts)
    thin = [*post_measures(replace(sketch, parts=flat), shelf())]
    assert [f.code for m in thin for f in m.findings] == ["no-post-length"]
    (over,) = cover_measures(replace(sketch, parts=flat), shelf())
    assert "tab" in over.about


def test_a_stack_that_lists_a_hole_twice_is_as_thick_as_it_says():
    sketch = _sound()
    first, second = sketch.joints
    twice = replace(sketch, joints=(replace(first, stack=("t1", "t1", "p1")), second))
    stacks = {m.id: m.figures[0].value for m in post_measures(twice, shelf())}
    assert stacks == {"posts:one": pytest.approx(9.6), "posts:two": pytest.approx(6.4)}


def test_a_cover_with_a_hollow_hides_only_what_lies_under_its_leather():
    """A horseshoe riveted at both ends: a head in its hollow stays open, one under it does not."""
    plate_holes = {"p1": (10.0, 80.0), "p2": (80.0, 80.0), "hollow": (45.0, 60.0)}
    plate = part("plate", box(100.0, 100.0), {**plate_holes, "under": (45.0, 10.0)})
    shoe = part("shoe", HORSESHOE, {"s1": (10.0, 80.0), "s2": (80.0, 80.0)})
    tab = part("tab", box(60.0, 60.0), {"t1": (10.0, 10.0), "t2": (30.0, 10.0)})
    joints = (
        rivet("left", "s1", "p1"),
        rivet("right", "s2", "p2"),
        rivet("in_hollow", "hollow", "t1"),
        rivet("beneath", "under", "t2"),
    )
    sketch = pattern(shoe, plate, tab, joints=joints)
    assert covered_heads(sketch, shelf()) == (("shoe", "beneath", 100.0),)


def test_a_hole_outside_its_part_is_the_reader_s_to_tell():
    plate = part("plate", box(90.0, 60.0), {"out": (-3.0, 30.0), "near": (3.0, 30.0)})
    (found,) = post_measures(pattern(plate), shelf())
    near = [f for f in found.findings if f.code == "hole-near-edge"]
    assert [f.about for f in near] == [("plate", "near")]
