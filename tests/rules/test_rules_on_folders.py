"""The rules on whole folders: the samples, and the golden patterns that use every word."""

from pathlib import Path

import pytest

from armorplan.app.opening import derive_folder
from armorplan.assembly.model import Side
from armorplan.files.catalogue import read_shelf
from armorplan.relations.checking import breaks
from armorplan.relations.model import Before
from armorplan.rules.registry import all_rules
from armorplan.steps.model import StepKind
from armorplan.workshop.shop import one_maker

ROOT = Path(__file__).resolve().parent.parent.parent
SAMPLES = sorted(path.parent for path in (ROOT / "sample_projects").glob("*/pattern.toml"))
GOLDEN = sorted(path.parent for path in (ROOT / "tests/golden_patterns").glob("*/*/pattern.toml"))
KNEE = ROOT / "tests/patterns/knee"


@pytest.fixture(scope="module", params=[*SAMPLES, *GOLDEN, KNEE], ids=lambda folder: folder.name)
def derived(request):
    return derive_folder(request.param, read_shelf(), one_maker())


def test_one_order_keeps_all_that_the_rules_and_the_maker_say(derived):
    assert len(derived.order) == len(derived.work.steps)
    standing = (r for r in derived.relations if not r.reason.overruled)
    assert not breaks(derived.order, standing)


def test_relations_grow_with_the_steps_and_not_with_their_pairs(derived):
    assert len(derived.relations) < 10 * len(derived.work.steps)


def test_no_rule_says_the_same_twice(derived):
    assert len(set(derived.relations)) == len(derived.relations)


def test_a_reason_speaks_of_parts_and_joints_that_are_there(derived):
    assembly = derived.assembly
    known = {part.id for part in assembly.parts} | {joint.id for joint in assembly.joints}
    for relation in derived.relations:
        assert set(relation.reason.about) <= known, relation.reason


def test_no_side_has_to_wait_for_the_other(derived):
    """What binds on the left says nothing of the right, but for paper made once for both."""
    paper = {StepKind.MEASURE, StepKind.MOCK_UP, StepKind.CHECK}
    pair = {Side.LEFT, Side.RIGHT}
    crossing = [
        relation
        for relation in derived.relations
        if isinstance(relation, Before)
        and relation.reason.binds
        and {derived.work.step(s).side for s in (relation.first, relation.then)} == pair
        and derived.work.step(relation.first).kind not in paper
    ]
    assert crossing == []


def test_most_rules_have_something_to_say_of_a_folder_that_uses_every_word():
    folder = ROOT / "tests/golden_patterns/form_1/every_word"
    every_word = derive_folder(folder, read_shelf(), one_maker())
    said = {relation.reason.rule for relation in every_word.relations}
    silent = {rule.code for rule in all_rules()} - said
    assert len(silent) < len(all_rules()) / 4, silent
