"""Whatever a legal pattern says, the rules never contradict each other and no step is lost."""

import pytest
from hypothesis import given, settings
from rules.pattern_cases import patterns

from armorplan.assembly.expand import assemble
from armorplan.relations.conflict import find_conflict
from armorplan.relations.index import unknown_steps
from armorplan.relations.weighing import binding
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import StepKind

SHELF = sketch_shelf()


def check_rules(pattern):
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    steps = tuple(step.id for step in work.steps)
    relations = derive_all(assembly, work, SHELF).relations
    assert len(set(steps)) == len(steps)
    assert not unknown_steps(steps, relations)
    assert find_conflict(steps, binding(relations)) == ()


@settings(max_examples=36, deadline=None)
@given(patterns())
def test_the_rules_never_contradict_each_other(pattern):
    check_rules(pattern)


@pytest.mark.long
@settings(max_examples=600, deadline=None)
@given(patterns())
def test_the_rules_never_contradict_each_other_in_many_patterns(pattern):
    check_rules(pattern)


@settings(max_examples=24, deadline=None)
@given(patterns())
def test_every_step_is_held_between_others(pattern):
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    relations = derive_all(assembly, work, SHELF).relations
    later = {step for r in relations for step in (getattr(r, "then", ""), *getattr(r, "of", ()))}
    begins = (StepKind.MEASURE,)
    loose = [step.id for step in work.steps if step.kind not in begins and step.id not in later]
    assert not loose


@settings(max_examples=24, deadline=None)
@given(patterns())
def test_nothing_in_the_pattern_is_left_without_a_step(pattern):
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    assert all(work.setting(joint.id) for joint in assembly.joints)
    ids = {step.id.rsplit("/", 1)[-1] for step in work.steps}
    shaped = {form.id for form in assembly.forms if form.form.route != "by_seam"}
    assert shaped <= ids
    assert {thread.id for thread in assembly.threads} <= ids
    assert {hardware.id for hardware in assembly.hardware} <= ids
    assert {f"{dip.id}.coat-1" for dip in assembly.treatments} <= ids
