"""The line of a way in over the flat parts: straight on a part, from part to part at a row."""

from dataclasses import replace
from math import inf

import pytest

from armorplan.app.reach_rows import Opening
from armorplan.app.reach_ways import opening_of, way_legs
from armorplan.geometry.reach.model import Margin, Rim, Row, Shell, Standing, Through, Way
from armorplan.geometry.reach.words import mouths_told
from armorplan.pattern.joining import Joint, JointKind
from armorplan.pattern.parts import Hole, Part, PartKind
from armorplan.pattern.pattern import Pattern

HOLES = {
    "near": {"row_1": (90.0, 10.0), "row_2": (90.0, 90.0), "free": (50.0, 50.0)},
    "far": {"row_1": (210.0, 10.0), "row_2": (210.0, 90.0), "strap": (250.0, 80.0)},
}
"""By part and joint. The parts stand beside each other, the row along the edges that face."""
RIM = Rim(id="rim-1", length_mm=300.0, spots=(("near", (0.0, 100.0)), ("near", (0.0, 0.0))))
OTHER = Rim(id="rim-2", length_mm=300.0, spots=(("far", (300.0, 80.0)), ("far", (300.0, 0.0))))


def part(name: str, left_mm: float) -> Part:
    right_mm = left_mm + 100.0
    return Part(
        id=name,
        name=name,
        piece="cuff",
        kind=PartKind.PLATE,
        outline=((left_mm, 0), (right_mm, 0), (right_mm, 100), (left_mm, 100)),
        material="hide",
        thickness_mm=3.0,
        holes=tuple(
            Hole(id=f"{name}_{joint}", part=name, centre=centre, diameter_mm=3.0)
            for joint, centre in HOLES[name].items()
        ),
    )


def joint(name: str) -> Joint:
    stack = tuple(f"{part}_{name}" for part, holes in HOLES.items() if name in holes)
    return Joint(id=name, kind=JointKind.RIVET, stack=stack)


PATTERN = Pattern(
    uuid="u",
    slug="cuff",
    name="Cuff",
    version=1,
    content_hash="",
    pieces=(),
    materials=(),
    parts=(part("near", 0.0), part("far", 200.0)),
    joints=tuple(joint(name) for name in ("row_1", "row_2", "free", "strap")),
)
ROW = Row(
    id="row", name="row", joints=("row_1", "row_2"), at_mm=(0.0, 80.0), parts=("near", "far")
)
SHELL = Shell(
    id="near",
    parts=("near", "far"),
    rims=(RIM, OTHER),
    rows=(ROW,),
    seats=("row_1", "row_2", "free", "strap"),
    girth_mm={},
    formed=frozenset(),
)


def through_rim(name: str) -> Way:
    return Way(through=Through.RIM, name=name, along_mm=1.0, least_mm=0.0)


def through_row(at: str) -> Way:
    return Way(through=Through.ROW, name=at, row="row", along_mm=1.0, least_mm=0.0)


def test_on_one_part_the_way_is_straight_from_the_nearest_spot_of_the_rim():
    legs = way_legs(PATTERN, SHELL, "strap", through_rim("rim-2"))
    assert legs == (("far", (300.0, 80.0), (250.0, 80.0)),)


def test_to_another_part_the_way_crosses_at_the_row():
    legs = way_legs(PATTERN, SHELL, "strap", through_rim("rim-1"))
    assert legs == (
        ("near", (0.0, 100.0), (90.0, 90.0)),
        ("far", (210.0, 90.0), (250.0, 80.0)),
    )


def test_through_a_row_the_way_begins_at_the_joint_where_the_tool_goes_in():
    legs = way_legs(PATTERN, SHELL, "strap", through_row("row_1"))
    assert legs == (("far", (210.0, 10.0), (250.0, 80.0)),)


def test_what_a_tool_need_not_go_in_for_has_no_legs():
    assert way_legs(PATTERN, SHELL, "row_1", through_row("row_1")) == ()


def test_a_rim_that_shows_on_no_part_has_no_legs():
    assert way_legs(PATTERN, SHELL, "free", through_rim("rim-3")) == ()


@pytest.mark.parametrize(
    ("made", "opening"),
    [
        ((), Opening(words="from the edge")),
        (("free", "strap"), Opening(words="from the edge")),
        (("row_1",), Opening(words="by the mouth", wide_mm=78.0, once_shut=True)),
        (("row_1", "row_2"), Opening(words="by the mouth", wide_mm=78.0)),
    ],
)
def test_there_is_no_mouth_before_a_row_is_begun_and_it_has_its_width_once_all_are_shut(
    made, opening
):
    margin = Margin(standing=Standing.INSIDE, way=through_rim("rim-1"), opening_mm=78.0)
    assert opening_of(SHELL, margin, joint="strap", made=made) == opening


def test_the_last_joint_of_a_row_is_set_by_the_mouth_as_wide_as_it_comes_to_be():
    margin = Margin(standing=Standing.INSIDE, way=through_rim("rim-1"), opening_mm=78.0)
    found = opening_of(SHELL, margin, joint="row_2", made=("row_1",))
    assert found == Opening(words="by the mouth", wide_mm=78.0)


@pytest.mark.parametrize(("gapes_mm", "wide_mm"), [(38.0, 38.0), (inf, None)])
def test_an_open_row_tells_how_wide_it_gapes_there_if_anything_bounds_it(gapes_mm, wide_mm):
    margin = Margin(standing=Standing.INSIDE, way=through_row("row_1"), opening_mm=gapes_mm)
    found = opening_of(SHELL, margin, joint="strap", made=())
    assert found == Opening(words="by the open row", wide_mm=wide_mm, row="row")


def test_what_needs_no_way_in_has_no_opening():
    assert opening_of(SHELL, Margin(standing=Standing.FLAT), joint="strap", made=()) is None


def test_a_mouth_whose_width_is_not_sure_is_told_as_at_most_as_the_measures_tell_it():
    margin = Margin(standing=Standing.INSIDE, way=through_rim("rim-1"), opening_mm=78.0)
    hollow = replace(SHELL, hollow=True)
    found = opening_of(hollow, margin, joint="strap", made=("row_1", "row_2"))
    assert found == Opening(words="by the mouth", wide_mm=78.0, at_most=True)
    assert mouths_told(hollow).startswith("two mouths, at most")
