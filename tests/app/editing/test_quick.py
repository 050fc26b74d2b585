"""A quick look tells of an edit what the whole reckoning tells of the same rows, covers and lames."""

import pytest
from app.editing.edited import sample, taken

from armorplan.app.draft import Draft, drafted
from armorplan.app.editing.holes import drop_holes, move_holes
from armorplan.app.editing.joints import set_row_order
from armorplan.app.editing.quick import touched
from armorplan.files.source import from_texts
from armorplan.geometry.measures import Topic
from armorplan.kernel.findings import Finding

EDITS = {
    "one hole moved": lambda d: move_holes(d, ["left_2"], (0.0, 3.0)),
    "a hole on its neighbour": lambda d: move_holes(d, ["strap_rim"], (2.0, 1.0)),
    "a row turned inside out": lambda d: set_row_order(
        d, "left_row", ["petal_left", "petal_middle"]
    ),
    "a joint gone": lambda d: drop_holes(d, ["boss_left"]),
}


def told(draft: Draft) -> set[Finding]:
    """What the whole reckoning tells of all topics but reach, and what was read."""
    derived = draft.checked().derived
    assert derived is not None
    measures = [each for each in derived.shapes if each.topic is not Topic.REACH]
    return {*draft.read_findings, *(f for each in measures for f in each.findings)}


@pytest.mark.parametrize("name", EDITS)
def test_what_is_known_after_a_quick_look_is_what_the_whole_reckoning_tells(name):
    before = sample("elbow_cop")
    after = taken(EDITS[name](before))
    look = touched(before, after)
    assert set(look.after(told(before))) == told(after)
    assert look.measures
    assert look.parts >= {part.id for part in before.pattern.parts if part.piece == "elbow_cop"}


def test_a_move_there_and_back_leaves_what_was_known():
    before = sample("elbow_cop")
    there = taken(move_holes(before, ["left_2"], (0.0, 3.0)))
    back = taken(move_holes(there, ["left_2"], (0.0, -3.0)))
    known = touched(before, there).after(told(before))
    assert set(touched(there, back).after(known)) == told(before)


def test_only_what_is_about_the_touched_parts_is_looked_at():
    arm = sample("arm_harness")
    hole = next(h for part in arm.pattern.parts if part.piece == "upper_arm" for h in part.holes)
    after = taken(move_holes(arm, [hole.id], (0.0, 0.5)))
    look = touched(arm, after)
    assert hole.part in look.parts
    assert len(look.parts) < len(arm.pattern.parts)
    assert touched(arm, arm).measures == ()


def test_of_what_cannot_be_read_the_faults_are_told():
    before = sample("elbow_cop")
    texts = dict(before.texts)
    texts["pattern.toml"] = texts["pattern.toml"].replace('kind = "cop"', 'kind = "lid"', 1)
    after = drafted(from_texts(before.slug, texts), before.bench, is_hasty=True)
    look = touched(before, after)
    assert [finding.code for finding in look.new] == [f.code for f in after.findings]
    assert touched(after, before).gone == look.new
