"""The sheet of the arm harness is tidy: no part lies on another, and each piece has its own column."""

from itertools import combinations, pairwise

import pytest
from samples import arm_harness_sample as sample
from shapely import LineString, Point, Polygon, box

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.kernel.shipped import samples_folder

PATTERN = read_pattern(read_folder(samples_folder() / "arm_harness"), read_shelf()).pattern
OUTLINES = {part.id: Polygon(part.outline) for part in PATTERN.parts}
APART_MM = 4.0
"""So far two parts on the sheet lie from each other, for a knife to pass."""


def test_outlines_are_simple_and_lie_on_the_sheet():
    page = box(0, 0, sample.WIDTH_MM, sample.HEIGHT_MM).buffer(-5)
    assert all(outline.is_valid and page.contains(outline) for outline in OUTLINES.values())


def test_no_part_lies_on_another():
    close = [
        (one, other, round(OUTLINES[one].distance(OUTLINES[other]), 1))
        for one, other in combinations(OUTLINES, 2)
        if OUTLINES[one].distance(OUTLINES[other]) < APART_MM
    ]
    assert close == []


@pytest.mark.parametrize("part", PATTERN.parts, ids=lambda part: part.id)
def test_holes_and_slots_lie_inside_their_part(part):
    outline = OUTLINES[part.id]
    for hole in part.holes:
        assert outline.contains(Point(hole.centre).buffer(hole.diameter_mm / 2)), hole.id
    for slot in part.slots:
        assert outline.contains(Polygon(slot.outline)), slot.id
        for hole in part.holes:
            if not hole.travel_mm:
                assert Polygon(slot.outline).distance(Point(hole.centre)) > hole.diameter_mm


def test_each_piece_has_a_column_of_the_sheet():
    columns = {}
    for part in PATTERN.parts:
        left, _, right, _ = OUTLINES[part.id].bounds
        first, last = columns.get(part.piece, (left, right))
        columns[part.piece] = min(first, left), max(last, right)
    ordered = [columns[piece.id] for piece in PATTERN.pieces]
    assert all(here[1] < beyond[0] for here, beyond in pairwise(ordered))


def test_lames_and_cop_stand_in_the_order_they_are_worn():
    chain = [part for part in PATTERN.movements[0].parts if PATTERN.part(part).piece == "elbow"]
    tops = [OUTLINES[part].bounds[1] for part in chain]
    assert tops == sorted(tops)


@pytest.mark.parametrize(
    "form", [f for f in PATTERN.forms if f.axis is not None], ids=lambda f: f.id
)
def test_the_axis_of_a_form_runs_through_its_part(form):
    (part,) = form.parts
    assert OUTLINES[part].buffer(0.1).contains(LineString(form.axis))
