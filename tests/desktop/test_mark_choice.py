"""Which marks are drawn: what is at fault always, the rest for what is chosen."""

import pytest

from armorplan.app.rows import DiagramMark, Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.mark_choice import PARTS_MOST, MarkChoice
from armorplan.geometry.marks import Mark, MarkKind
from armorplan.kernel.findings import Severity


def row(measure, *joints):
    return ShapeRow(
        id=measure, topic="covers", title=f"{measure} here", verdict="", text="", joints=joints
    )


def mark(measure, part, severity=None, kind=MarkKind.SPAN, label="3.0 mm"):
    spots = ((0.0, 0.0), (3.0, 0.0), (3.0, 3.0))
    made = Mark(kind=kind, part=part, spots=spots, label=label, severity=severity)
    return DiagramMark(measure=measure, mark=made)


ROWS = (row("rows:a", "rivet_1", "rivet_2"), row("bends:b"), row("covers:c", "rivet_9"))
MARKS = (
    mark("rows:a", "plate", Severity.ERROR),
    mark("bends:b", "plate", kind=MarkKind.ZONE),
    mark("bends:b", "strap", kind=MarkKind.LINE),
    mark("covers:c", "lame", kind=MarkKind.GHOST, label=""),
)
MANY = tuple(f"part_{n}" for n in range(PARTS_MOST))


@pytest.fixture
def choice():
    made = MarkChoice()
    made.take(MARKS, ROWS)
    return made


def drawn(choice, **chosen):
    choice.selection = Selection(**chosen)
    return [(one.measure, one.mark.part) for one in choice.shown()]


FAULT = ("rows:a", "plate")


def test_a_fault_is_drawn_whatever_is_chosen(choice):
    assert drawn(choice) == [FAULT]
    assert drawn(choice, parts=("lame",))[0] == FAULT


def test_a_part_brings_what_lies_on_it(choice):
    assert drawn(choice, parts=("plate",), joints=("rivet_1",)) == [FAULT, ("bends:b", "plate")]


def test_a_fastener_brings_the_marks_of_what_speaks_of_it(choice):
    layers = ("plate", "lame")
    assert drawn(choice, parts=layers, joints=("rivet_9",)) == [FAULT, ("covers:c", "lame")]


def test_a_step_without_fasteners_brings_what_lies_on_its_parts(choice):
    found = drawn(choice, parts=("plate", "strap"))
    assert found == [FAULT, ("bends:b", "plate"), ("bends:b", "strap")]


def test_a_step_on_many_parts_brings_no_thicket(choice):
    assert drawn(choice, parts=("plate", *MANY), joints=("rivet_9",)) == [FAULT]


def test_a_measure_brings_its_own_marks_only_and_they_are_chosen(choice):
    found = drawn(choice, parts=("plate", "lame"), measures=("bends:b",))
    assert found == [FAULT, ("bends:b", "plate"), ("bends:b", "strap")]
    assert [one.chosen for one in choice.shown()] == [False, True, True]


def test_everything_is_drawn_when_asked_for(choice):
    choice.everything = True
    assert len(drawn(choice)) == len(MARKS)
    assert [one.aside for one in choice.shown()] == [False, True, True, True]


def test_what_belongs_to_something_else_fades(choice):
    drawn(choice, parts=("strap",))
    assert [(one.mark.part, one.faded) for one in choice.shown()] == [
        ("plate", True),
        ("strap", False),
    ]
    drawn(choice)
    assert not any(one.faded for one in choice.shown())


def test_an_outline_without_a_name_has_that_of_what_was_looked_at(choice):
    drawn(choice, parts=("lame",))
    assert [one.mark.label for one in choice.shown()] == ["3.0 mm", "covers:c here"]


def test_while_reach_is_followed_what_the_measures_draw_of_it_waits_until_it_is_chosen(choice):
    marks = (
        mark("reach:row:a", "plate"),
        mark("reach:row:b", "plate", Severity.WARNING),
        mark("bends:b", "plate"),
    )
    choice.take(marks, ROWS)
    choice.everything = True
    assert len(drawn(choice)) == 3
    choice.follows_reach = True
    assert drawn(choice) == [("reach:row:b", "plate"), ("bends:b", "plate")]
    assert ("reach:row:a", "plate") in drawn(choice, measures=("reach:row:a",))
