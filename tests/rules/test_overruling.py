"""What a maker sets aside stays in sight with its note, and holds no more."""

from dataclasses import replace

import pytest

from armorplan.assembly.expand import assemble
from armorplan.kernel.findings import Severity
from armorplan.pattern.own_work import Overruling, OwnKind, OwnRelation
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.registry import derive_all
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet, sketch_treatment
from armorplan.steps.deriving import derive_steps

PATTERN = sketch(
    sketch_part("upper", holes={"u": (10.0, 10.0), "u2": (60.0, 10.0)}),
    sketch_part("lower", holes={"l": (10.0, 10.0), "l2": (60.0, 10.0)}),
    joints=(sketch_rivet("r", "u", "l"), sketch_rivet("r2", "u2", "l2")),
    treatments=(sketch_treatment("oil", "upper", "lower"),),
)


def derived(*overrulings, own=(), mirrored=False):
    pieces = tuple(replace(piece, mirrored=mirrored) for piece in PATTERN.pieces)
    pattern = replace(PATTERN, overrulings=overrulings, own_relations=own, pieces=pieces)
    shelf = sketch_shelf()
    assembly = assemble(pattern, shelf, build="b")
    return derive_all(assembly, derive_steps(assembly, shelf), shelf)


def over(rule, **more):
    return Overruling(id="mine", rule=rule, **more)


def set_aside(derivation):
    return [r for r in derivation.relations if r.reason.overruled]


def test_a_rule_is_set_aside_with_a_note_and_stays_in_sight():
    made = derived(over("wet-before-hardware", note="Brass, and masked."))
    assert not made.findings
    assert len(made.relations) == len(derived().relations)
    found = set_aside(made)
    assert len(found) == 2
    for relation in found:
        assert relation.reason.rule == "wet-before-hardware"
        assert relation.reason.note == "Brass, and masked."
        assert not relation.reason.binds


def test_only_between_the_steps_named_and_on_both_sides_of_a_pair():
    named = over("wet-before-hardware", step="dry/oil.coat-1.oil", other="rivet/r", note="Masked.")
    (one,) = set_aside(derived(named))
    assert one.then.endswith("/rivet/r")
    both = set_aside(derived(named, mirrored=True))
    assert {r.then.rsplit("/", 1)[-1] for r in both} == {"r.left", "r.right"}


def test_a_wet_step_named_stands_for_its_drying_too():
    named = over("wet-before-hardware", step="oil/oil.coat-1", note="Masked.")
    assert len(set_aside(derived(named))) == 2


def test_what_binds_is_not_set_aside_without_a_note():
    made = derived(over("wet-before-hardware"))
    (finding,) = made.findings
    assert finding.severity is Severity.ERROR
    assert finding.code == "overruled-without-note"
    assert finding.place.key == "overruled.mine"
    assert not set_aside(made)


def test_what_is_only_easier_needs_no_note():
    made = derived(over("punch-flat"))
    assert not made.findings
    assert {r.reason.rule for r in set_aside(made)} == {"punch-flat"}


@pytest.mark.parametrize(
    ("given", "told"),
    [
        (over("wet-before-hardwear", note="x"), "wet-before-hardware"),
        (over("wet-before-hardware", step="cut/upper", note="x"), "leave them out"),
        (over("zzz", note="x"), "none"),
    ],
)
def test_what_matches_nothing_is_told(given, told):
    (finding,) = derived(given).findings
    assert finding.code == "overruled-nothing"
    assert finding.severity is Severity.WARNING
    assert told in finding.remedy


def test_nobody_sets_the_beginning_of_a_drying_aside():
    made = derived(over("drying-starts-at-once", note="no time"))
    (finding,) = made.findings
    assert finding.severity is Severity.ERROR
    assert not set_aside(made)


def test_the_makers_own_relation_is_set_aside_by_its_id():
    own = OwnRelation(id="left_first", kind=OwnKind.BEFORE, step="rivet/r", others=("rivet/r2",))
    made = derived(over("left_first"), own=(own,))
    assert not made.findings
    assert [r.reason.rule for r in set_aside(made)] == ["own:left_first"]


@pytest.mark.parametrize(
    ("kind", "others"),
    [
        (OwnKind.BEFORE_ALL, ("rivet/r2", "cut/upper")),
        (OwnKind.AFTER_ANY, ("rivet/r2", "cut/upper")),
        (OwnKind.TOGETHER, ("rivet/r", "rivet/r2")),
        (OwnKind.APART, ("rivet/r", "rivet/r2")),
    ],
)
def test_every_kind_is_found_by_its_steps(kind, others):
    first = "" if kind in (OwnKind.TOGETHER, OwnKind.APART) else "rivet/r"
    own = OwnRelation(id="mine", kind=kind, step=first, others=others, on="the anvil")
    made = derived(over("mine", step="rivet/r", other="rivet/r2"), own=(own,))
    assert not made.findings
    assert len(set_aside(made)) == 1


def test_who_sets_aside_that_the_row_shuts_a_joint_in_sets_aside_every_part_of_the_row():
    pattern = sketch_tube(long_mm=700.0, spots_mm=(20, 130, 240, 350, 460, 570, 680), strap_mm=350)
    shelf, named = (
        sketch_shelf(),
        over("reach-before-closed", step="rivet/on", note="It did reach."),
    )
    for overruling in (named, replace(named, other="rivet/row_0")):
        assembly = assemble(replace(pattern, overrulings=(overruling,)), shelf, build="b")
        made = derive_all(assembly, derive_steps(assembly, shelf), shelf)
        by_reach = [r for r in made.relations if r.reason.rule == "reach-before-closed"]
        assert len(by_reach) > 1, "before the row, and before the part of it that does it"
        assert all(r.reason.overruled for r in by_reach)
