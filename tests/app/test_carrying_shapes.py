"""What was cut stays cut: its ticks go over to the changed pattern, and what it is out by is told."""

import pytest
from app.carrying_scene import finding_of, of_kind, opened, rewrite, seated, state_of
from folders_cli import copy_sample

from armorplan.kernel.findings import Severity
from armorplan.ledger.records import StepStatus
from armorplan.steps.model import StepKind

DRAWING = "elbow_cop.svg"
RIM = "C 53,148 28,146 26,118 C 28,90"
WIDER = "C 53,148 22,146 20,118 C 22,90"
HOLE = '<circle id="left_2" cx="113.289"'
CODE = "made-before-change"


@pytest.fixture
def folder(tmp_path):
    return copy_sample(tmp_path)


@pytest.fixture
def all_done(folder, workshop, clock):
    """The sample with every step ticked."""
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done(first.derived.order)
    return first


def told(found):
    return [f for f in found.derived.findings if f.code == CODE]


def test_a_cut_to_a_former_outline_is_told_in_mm(all_done, folder, workshop, clock):
    rewrite(folder, RIM, WIDER, name=DRAWING)
    second = opened(folder, workshop, clock)
    finding = finding_of(second, CODE)
    assert finding.severity is Severity.WARNING
    assert finding.about == ("petal_left",)
    assert finding.text == (
        "Cut left petal was done to the former outline: it differs by up to 6.0 mm."
    )
    assert len(state_of(second, workshop).done_order) == len(second.derived.order)


def test_a_moved_hole_is_told_at_the_punching(all_done, folder, workshop, clock):
    rewrite(folder, HOLE, '<circle id="left_2" cx="114.789"', name=DRAWING)
    text = finding_of(opened(folder, workshop, clock), CODE).text
    assert text.startswith("Punch ")
    assert text.endswith(
        "in left petal was done to the former drawing: 'left_2' is out by 1.5 mm."
    )


def test_several_holes_are_counted_and_a_new_one_is_not_punched_yet(
    all_done, folder, workshop, clock
):
    rewrite(folder, HOLE, '<circle id="left_2" cx="114.789"', name=DRAWING)
    rewrite(folder, 'id="left_3" cx="117.839"', 'id="left_3" cx="118.839"', name=DRAWING)
    lone = '<circle id="left_extra" cx="80" cy="118" r="2"/>\n    <circle id="left_1"'
    rewrite(folder, '<circle id="left_1"', lone, name=DRAWING)
    text = finding_of(opened(folder, workshop, clock), CODE).text
    assert "2 holes or slots are out by up to 1.5 mm, 'left_2' most" in text
    assert "'left_extra' is new and not in it yet" in text


def test_a_hole_marked_on_the_wearer_is_not_told(all_done, folder, workshop, clock):
    rewrite(
        folder, 'id="left_buckle_inner" cx="63.5"', 'id="left_buckle_inner" cx="65"', name=DRAWING
    )
    assert told(opened(folder, workshop, clock)) == []


def test_other_thickness_is_told_of_every_part_of_that_leather(all_done, folder, workshop, clock):
    rewrite(folder, "weight_oz = 9", "thickness_mm = 5.9")
    found = told(opened(folder, workshop, clock))
    assert [f.about for f in found] == [("petal_left",), ("petal_middle",), ("petal_right",)]
    assert found[0].text == (
        "Cut left petal was done in leather of 3.6 mm (9 oz), where 5.9 mm (15 oz) is wanted now."
    )


def test_other_leather_other_tooling_and_other_bends_are_told(all_done, folder, workshop, clock):
    rewrite(folder, 'leather = "trim"', 'leather = "strap"')
    rewrite(folder, "radius_mm = 60.0", "radius_mm = 55.0")
    rewrite(folder, 'tooling = "lantern border"', 'tooling = "rope border"')
    boss, middle = sorted(told(opened(folder, workshop, clock)), key=lambda f: f.about)
    assert "Cut boss was done in '" in boss.text
    assert "to a radius of 60 mm, where a radius of 55 mm is wanted now" in boss.text
    assert "was done as 'lantern border', where 'rope border' is wanted now" in middle.text


def test_what_was_only_laid_out_names_the_part(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done(tuple(of_kind(first, StepKind.LAY_OUT)))
    rewrite(folder, RIM, WIDER, name=DRAWING)
    text = finding_of(opened(folder, workshop, clock), CODE).text
    assert "to the former outline of left petal: it differs by up to 6.0 mm" in text


def test_a_cut_that_was_begun_is_told_as_begun(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    cut = next(step for step in of_kind(first, StepKind.CUT) if step.endswith("petal_left"))
    seated(first, workshop, clock).start((cut,))
    rewrite(folder, RIM, WIDER, name=DRAWING)
    text = finding_of(opened(folder, workshop, clock), CODE).text
    assert text.startswith("Cut left petal was begun to the former outline")


def test_nothing_is_told_where_nothing_was_made_or_only_words_changed(folder, workshop, clock):
    opened(folder, workshop, clock)
    rewrite(folder, HOLE, '<circle id="left_2" cx="114.789"', name=DRAWING)
    second = opened(folder, workshop, clock)
    assert told(second) == []
    seated(second, workshop, clock).done(second.derived.order)
    rewrite(folder, 'name = "left petal"', 'name = "port petal"')
    assert told(opened(folder, workshop, clock)) == []


def test_another_colour_leaves_its_dryings_behind_too(all_done, folder, workshop, clock):
    rewrite(folder, 'colour = "harbour blue"', 'colour = "brass"')
    second = opened(folder, workshop, clock)
    work, state = second.derived.work, state_of(second, workshop)
    dyes = work.of_kind(StepKind.DYE)
    for step in (*dyes, *(work.drying_of(dye.id) for dye in dyes)):
        assert state.record(step.id).status is StepStatus.UNTOUCHED, step.title
    assert len(second.difference.left) == 2 * len(dyes) == 4


def test_another_treatment_leaves_its_running_timer_behind(folder, workshop, clock):
    first = opened(folder, workshop, clock)
    seated(first, workshop, clock).done(tuple(of_kind(first, StepKind.DYE)[:1]))
    assert seated(first, workshop, clock).timers()
    rewrite(folder, 'colour = "harbour blue"', 'colour = "brass"')
    second = opened(folder, workshop, clock)
    assert seated(second, workshop, clock).timers() == ()


def test_another_rivet_is_other_work_and_the_dry_fit_stays(all_done, folder, workshop, clock):
    rewrite(
        folder,
        'stack = ["middle_left_2", "left_2"]\nfastener = "tubular_9"',
        'stack = ["middle_left_2", "left_2"]\nfastener = "double_cap_9"',
    )
    second = opened(folder, workshop, clock)
    work, state = second.derived.work, state_of(second, workshop)
    undone = [s.joints for s in work.steps if state.record(s.id).status is not StepStatus.DONE]
    assert undone == [("left_row_2",)]


def test_many_parts_are_all_named(all_done, folder, workshop, clock, monkeypatch):
    monkeypatch.setattr("armorplan.app.made_before._TOLD", 1)
    rewrite(folder, "weight_oz = 9", "thickness_mm = 5.9")
    first, rest = told(opened(folder, workshop, clock))
    assert "left petal" in first.text
    assert "also middle petal and right petal" in rest.text
