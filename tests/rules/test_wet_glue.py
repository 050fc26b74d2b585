"""What handles a glued part comes before its glue or after its drying, never in between."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from rules.pattern_cases import patterns

from armorplan.assembly.expand import assemble
from armorplan.orders.sequence import one_order
from armorplan.pattern.own_work import Overruling, OwnKind, OwnRelation
from armorplan.pattern.parts import PartKind
from armorplan.relations.model import Before
from armorplan.rules.pages import example_facts
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_glue, sketch_part, sketch_rivet
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import STEP_RANK, StepKind

COP = sketch_part(
    "cop", kind=PartKind.COP, holes={"a": (10.0, 10.0), "b": (70.0, 10.0), "c": (40.0, 30.0)}
)
STRAP = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
LINING = sketch_part("lining", kind=PartKind.LINING)
JOINTS = (
    sketch_rivet("shut", "a", "b"),
    sketch_rivet("on", "s", "c"),
    sketch_glue("line", "cop", "lining"),
)
LATE = Overruling(id="late", rule="lining-before-closed", step="glue/line", note="Half a lining.")
GLUE_FIRST = OwnRelation(id="mine", kind=OwnKind.BEFORE, step="glue/line", others=("rivet/on",))
SHELF = sketch_shelf()


def built(**tables):
    """The relations of the lined cop, and its order."""
    facts = example_facts(replace(sketch(COP, STRAP, LINING, joints=JOINTS), **tables))
    relations = derive_all(facts.assembly, facts.work, facts.shelf, facts.room).relations
    rank = {step.id: STEP_RANK[step.kind] for step in facts.work.steps}
    order = one_order([s.id for s in facts.work.steps], relations, key=rank.__getitem__).order
    return relations, [step.split("/", 3)[3] for step in order]


def pairs(relations, code):
    return {
        (r.first.split("/", 3)[3], r.then.split("/", 3)[3])
        for r in relations
        if isinstance(r, Before) and r.reason.rule == code and not r.reason.overruled
    }


def stands(order, *steps):
    return [step for step in order if step in steps]


def test_a_lining_is_dry_before_its_cop_is_closed_and_follows_the_strap():
    _, order = built()
    wanted = ["rivet/on", "glue/line", "dry/line.glue", "rivet/shut"]
    assert stands(order, *wanted) == wanted


def test_a_lining_put_in_late_follows_all_rivets():
    relations, order = built(overrulings=(LATE,))
    assert ("rivet/shut", "glue/line") in pairs(relations, "hammer-before-glue")
    wanted = ["rivet/on", "rivet/shut", "glue/line", "dry/line.glue"]
    assert set(stands(order, *wanted)[:2]) == {"rivet/on", "rivet/shut"}


def test_a_rivet_that_the_maker_sets_after_the_glue_waits_for_its_drying():
    relations, order = built(own_relations=(replace(GLUE_FIRST, force="would spoil"),))
    assert ("dry/line.glue", "rivet/on") in pairs(relations, "dry-before-handling")
    (reason,) = {
        r.reason.text
        for r in relations
        if isinstance(r, Before)
        and r.first.endswith("dry/line.glue")
        and r.then.endswith("rivet/on")
    }
    assert (
        reason == "The glue between Cop and Lining slides under the hammer until it has set 12 h."
    )
    assert stands(order, "dry/line.glue", "rivet/on") == ["dry/line.glue", "rivet/on"]


def test_a_rivet_before_the_glue_stays_possible():
    first = replace(GLUE_FIRST, step="rivet/shut", others=("glue/line",), force="cannot")
    _, order = built(own_relations=(first,))
    assert stands(order, "rivet/shut", "glue/line") == ["rivet/shut", "glue/line"]


def test_the_last_fit_does_not_speak_of_the_hammer():
    relations, _ = built()
    fits = [r for r in relations if isinstance(r, Before) and "/fit/" in r.then]
    assert any("lets go" in r.reason.text for r in fits)
    assert not any("hammer" in r.reason.text for r in fits)


@pytest.mark.long
@settings(max_examples=200, deadline=None)
@given(patterns())
def test_no_order_has_a_rivet_between_a_glue_and_its_drying(pattern):
    assembly = assemble(pattern, SHELF, build="b")
    work = derive_steps(assembly, SHELF)
    relations = derive_all(assembly, work, SHELF).relations
    # Dryings as late as can be: whatever is free to stand before them would do so.
    rank = {s.id: (s.kind is StepKind.DRY, STEP_RANK[s.kind]) for s in work.steps}
    order = one_order([s.id for s in work.steps], relations, key=rank.__getitem__).order
    place = {step: at for at, step in enumerate(order)}
    for glue in work.of_kind(StepKind.GLUE):
        dry = work.drying_of(glue.id)
        for step in work.of_kind(StepKind.RIVET, StepKind.STITCH, StepKind.FORM_DRY):
            if dry and set(step.parts) & set(glue.parts):
                assert not place[glue.id] < place[step.id] < place[dry.id]
