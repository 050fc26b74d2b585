"""Marks are laid where the diagram shows their part, once for each side."""

import re
from dataclasses import replace

import pytest

from armorplan.app.derived import derive_build
from armorplan.app.diagram_rows import DiagramRows
from armorplan.app.mark_rows import mark_rows
from armorplan.app.opening import derive_folder
from armorplan.app.rows import BenchState
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.geometry.measures import Measure, Topic
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker

SHELF = read_shelf()
SHOP = one_maker("UTC")


@pytest.fixture(scope="module")
def pair():
    return derive_folder(samples_folder() / "three_lames", SHELF, SHOP)


def measure(part, *spots):
    mark = Mark(
        kind=MarkKind.MOVE, part=part, spots=spots, label="2.0 mm", severity=Severity.ERROR
    )
    return Measure(
        id="rows:one",
        topic=Topic.ROWS,
        title="row",
        verdict="",
        text="",
        marks=(mark,),
    )


def test_an_arrow_at_a_hole_lies_at_that_hole_on_both_sides(pair):
    part = pair.pattern.part("top_lame")
    hole = part.holes[0]
    x, y = hole.centre
    rows = tuple(mark_rows(pair.assembly, [measure(part.id, hole.centre, (x + 2, y))]))
    assert [row.mark.part for row in rows] == ["top_lame.left", "top_lame.right"]
    diagram = DiagramRows(pair).at(lambda _step: BenchState.WAITING)
    shown = {h.part: h.centre for h in diagram.holes if h.id.startswith(f"{hole.id}.")}
    assert {row.mark.part: row.mark.spots[0] for row in rows} == shown
    left, right = (row.mark.spots for row in rows)
    assert left[1][0] - left[0][0] == pytest.approx(2.0)
    assert right[1][0] - right[0][0] == pytest.approx(-2.0)
    assert all(row.measure == "rows:one" and row.mark.label == "2.0 mm" for row in rows)


def test_a_copied_part_shows_its_arrow_the_same_way_up(pair):
    pattern = pair.pattern
    copied = tuple(replace(part, copied=part.id == "top_lame") for part in pattern.parts)
    build = derive_build(replace(pattern, parts=copied), SHELF, SHOP, build="copy-1")
    found = measure("top_lame", (10.0, 20.0), (12.0, 20.0))
    _, right = mark_rows(build.assembly, [found])
    assert right.mark.spots[1][0] - right.mark.spots[0][0] == pytest.approx(2.0)


def test_a_mark_on_a_part_that_is_not_made_has_no_place(pair):
    assert tuple(mark_rows(pair.assembly, [measure("no_such_part", (0.0, 0.0))])) == ()


def told(*about):
    finding = Finding(
        code="post-too-short", severity=Severity.WARNING, text=".", remedy=".", about=about
    )
    return Measure(
        id="posts:one",
        topic=Topic.POSTS,
        title="posts",
        verdict="1 mm too short",
        text="",
        findings=(finding,),
    )


def test_a_finding_without_marks_is_ringed_at_the_heads_it_speaks_of(pair):
    joints = [joint for joint in pair.pattern.joints if joint.stack][:2]
    rows = list(mark_rows(pair.assembly, [told(*(joint.id for joint in joints))]))
    heads = [pair.pattern.hole(joint.stack[0]) for joint in joints]
    left = [row.mark for row in rows if row.mark.part.endswith(".left")]
    middles = []
    for mark in left:
        xs, ys = [x for x, _ in mark.spots], [y for _, y in mark.spots]
        middles.append((round((min(xs) + max(xs)) / 2, 6), round((min(ys) + max(ys)) / 2, 6)))
        assert max(xs) - min(xs) > max(hole.diameter_mm for hole in heads)
        assert mark.severity is Severity.WARNING
    assert sorted(middles) == sorted(hole.centre for hole in heads)
    assert [mark.label for mark in left] == ["1 mm too short", ""]


def test_a_finding_on_parts_alone_shades_them(pair):
    part = pair.pattern.part("middle_lame")
    left, _right = mark_rows(pair.assembly, [told("middle_lame")])
    assert (left.mark.kind, left.mark.spots) == (MarkKind.ZONE, part.outline)
    everything = told(*(part.id for part in pair.pattern.parts))
    assert list(mark_rows(pair.assembly, [everything])) == []


def test_what_is_sound_needs_no_mark(pair):
    sound = replace(told("middle_lame"), findings=(), about=("middle_lame",))
    assert list(mark_rows(pair.assembly, [sound])) == []


def test_the_diagram_carries_the_marks_of_the_build(pair):
    made = replace(pair, shapes=(measure("cop", (0.0, 0.0), (1.0, 0.0)),))
    diagram = DiagramRows(made).at(lambda _step: BenchState.WAITING)
    assert [mark.mark.part for mark in diagram.marks] == ["cop.left", "cop.right"]


def test_a_slot_that_a_fastener_slides_in_is_drawn_as_it_is_cut(pair):
    """Against the drawing itself: the straight sides and round ends of the path ``lower_slide``."""
    drawing = (samples_folder() / "three_lames" / "three_lames.svg").read_text("utf-8")
    path = re.search(r'id="lower_slide" d="([^"]*)"', drawing).group(1)
    right, top, foot, radius, left = (
        float(re.search(pattern, path).group(1))
        for pattern in (r"M ([\d.]+)", r"M [\d.]+,([\d.]+)", r"L [\d.]+,([\d.]+)", r"A ([\d.]+)",
                        r"1 ([\d.]+),")
    )  # fmt: skip
    diagram = DiagramRows(pair).at(lambda _step: BenchState.WAITING)
    lame = next(part for part in diagram.parts if part.id == "lower_lame.left")
    (slide,) = lame.slots
    xs, ys = [x for x, _ in slide], [y for _, y in slide]
    assert (min(xs), max(xs)) == pytest.approx((left, right), abs=0.1)
    assert (min(ys), max(ys)) == pytest.approx((top - radius, foot + radius), abs=0.1)
