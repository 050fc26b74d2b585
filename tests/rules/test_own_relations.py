"""The maker's own relations: names become steps, left with left and right with right."""

from dataclasses import replace

import pytest

from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Seam
from armorplan.pattern.options import Choice, Option
from armorplan.pattern.own_work import OwnKind, OwnRelation, OwnStep
from armorplan.pattern.parts import MadeOn, Piece
from armorplan.relations.model import AfterAny, Apart, Before, BeforeAll, Force, Together
from armorplan.rules.own import own_relations
from armorplan.rules.own_names import StepNames, step_name
from armorplan.rules.pages import example_facts
from armorplan.rules.sketches import sketch, sketch_part, sketch_rivet, sketch_treatment

UPPER = sketch_part("upper", holes={"u1": (10.0, 10.0), "u2": (60.0, 10.0), "u3": (30.0, 30.0)})
LOWER = sketch_part("lower", holes={"l1": (10.0, 10.0), "l2": (60.0, 10.0), "l3": (30.0, 30.0)})
JOINTS = tuple(sketch_rivet(f"r{n}", f"u{n}", f"l{n}") for n in (1, 2, 3))


def facts_with(*own, mirrored=False, **more):
    plain = sketch(
        UPPER,
        LOWER,
        joints=JOINTS,
        seams=(Seam(id="row", name="Row", joints=("r1", "r2")),),
        treatments=(sketch_treatment("dye", "upper", "lower"),),
        mirrored=mirrored,
    )
    return example_facts(replace(plain, own_relations=own, **more))


def relation(kind, *others, step="", **more):
    return OwnRelation(id="mine", kind=kind, step=step, others=others, **more)


def tail(step):
    return "/".join(step.split("/")[-2:])


def tails(steps):
    return {tail(step) for step in steps}


def read(facts):
    relations, findings = own_relations(facts)
    assert not findings
    return relations


def test_one_before_another_carries_the_makers_words():
    own = relation(
        OwnKind.BEFORE,
        "rivet/r2",
        step="rivet/r1",
        force="easier",
        why="the left hand is free",
        price_min=4,
        lag_min=5,
        max_lag_min=90,
    )
    (made,) = read(facts_with(own))
    assert isinstance(made, Before)
    assert (tail(made.first), tail(made.then)) == ("rivet/r1", "rivet/r2")
    assert (made.lag_min, made.max_lag_min) == (5, 90)
    reason = made.reason
    assert (reason.rule, reason.force, reason.price_min) == ("own:mine", Force.EASIER, 4)
    assert reason.text == "the left hand is free."
    assert reason.about == ("upper", "lower")


def test_on_a_pair_left_goes_with_left_and_right_with_right():
    own = relation(OwnKind.BEFORE, "rivet/r2", step="rivet/r1")
    made = read(facts_with(own, mirrored=True))
    assert {(tail(r.first), tail(r.then)) for r in made} == {
        ("rivet/r1.left", "rivet/r2.left"),
        ("rivet/r1.right", "rivet/r2.right"),
    }


def test_what_is_made_once_goes_with_both_sides():
    single = replace(sketch_part("boss"), piece="once")
    own = relation(OwnKind.BEFORE, "rivet/r1", step="cut/boss")
    pieces = (Piece(id="piece", name="Piece", mirrored=True), Piece(id="once", name="Once"))
    made = read(facts_with(own, parts=(UPPER, LOWER, single), pieces=pieces))
    assert {(tail(r.first), tail(r.then)) for r in made} == {
        ("cut/boss", "rivet/r1.left"),
        ("cut/boss", "rivet/r1.right"),
    }


def test_a_name_with_its_side_means_that_side():
    own = relation(OwnKind.BEFORE, "rivet/r2", step="rivet/r1.left")
    (made,) = read(facts_with(own, mirrored=True))
    assert (tail(made.first), tail(made.then)) == ("rivet/r1.left", "rivet/r2.left")
    across = relation(OwnKind.BEFORE, "dye/dye.right.coat-1", step="rivet/r1.left")
    (made,) = read(facts_with(across, mirrored=True))
    assert (tail(made.first), tail(made.then)) == ("rivet/r1.left", "dye/dye.right.coat-1")
    row = relation(OwnKind.BEFORE, "rivet/r3", step="seam/row.right")
    made = read(facts_with(row, mirrored=True))
    assert {(tail(r.first), tail(r.then)) for r in made} == {
        ("rivet/r1.right", "rivet/r3.right"),
        ("rivet/r2.right", "rivet/r3.right"),
    }


def test_a_treatment_of_two_pieces_is_named_as_a_whole_or_by_its_piece():
    cuff = replace(sketch_part("cuff"), piece="once")
    pieces = (Piece(id="piece", name="Piece", mirrored=True), Piece(id="once", name="Once"))
    spanning = (sketch_treatment("dye", "upper", "lower", "cuff", coats=2),)
    more = {"parts": (UPPER, LOWER, cuff), "pieces": pieces, "treatments": spanning}
    names = StepNames(facts_with(mirrored=True, **more))
    dips = {
        "dye/dye.piece.left.coat-1",
        "dye/dye.piece.right.coat-1",
        "dye/dye.once.coat-1",
    }
    assert tails(s.id for s in names.steps("dye/dye.coat-1")) == dips
    assert tails(s.id for s in names.steps("dye/dye.once.coat-1")) == {"dye/dye.once.coat-1"}
    assert tails(s.id for s in names.steps("dye/dye.left.coat-1")) == {"dye/dye.piece.left.coat-1"}
    assert len(names.steps("dry/dye.coat-2.dye")) == len(dips)
    assert not names.steps("dye/dye.coat-3")


def test_the_card_of_a_pair_goes_with_both_sides():
    own = relation(OwnKind.BEFORE, "punch/upper", step="mock-up/piece")
    made = read(facts_with(own, mirrored=True))
    assert {(tail(r.first), tail(r.then)) for r in made} == {
        ("mock-up/piece", "punch/upper.left"),
        ("mock-up/piece", "punch/upper.right"),
    }


def test_what_is_made_on_one_side_only_can_wait_for_the_other_side():
    joints = (
        replace(JOINTS[0], made_on=MadeOn.LEFT),
        replace(JOINTS[1], made_on=MadeOn.RIGHT),
    )
    own = relation(OwnKind.BEFORE, "rivet/r2", step="rivet/r1")
    (made,) = read(facts_with(own, mirrored=True, joints=joints, seams=()))
    assert (tail(made.first), tail(made.then)) == ("rivet/r1.left", "rivet/r2.right")


def test_a_star_names_all_of_a_kind_and_a_seam_all_its_joints():
    all_cuts, row = (
        StepNames(facts_with()).steps("cut/*"),
        StepNames(facts_with()).steps("seam/row"),
    )
    assert tails(s.id for s in all_cuts) == {"cut/upper", "cut/lower"}
    assert tails(s.id for s in row) == {"rivet/r1", "rivet/r2"}
    own = relation(OwnKind.BEFORE, "rivet/r3", step="seam/row")
    made = read(facts_with(own))
    assert {(tail(r.first), tail(r.then)) for r in made} == {
        ("rivet/r1", "rivet/r3"),
        ("rivet/r2", "rivet/r3"),
    }


def test_before_all_of_leaves_the_step_itself_out_of_the_others():
    (made,) = read(facts_with(relation(OwnKind.BEFORE_ALL, "rivet/*", step="rivet/r3")))
    assert isinstance(made, BeforeAll)
    assert tail(made.first) == "rivet/r3"
    assert tails(made.of) == {"rivet/r1", "rivet/r2"}


def test_after_any_of():
    (made,) = read(facts_with(relation(OwnKind.AFTER_ANY, "seam/row", step="rivet/r3")))
    assert isinstance(made, AfterAny)
    assert tail(made.then) == "rivet/r3"
    assert tails(made.of) == {"rivet/r1", "rivet/r2"}


def test_together_is_said_of_each_side_and_of_both_where_one_name_is_given():
    each = read(facts_with(relation(OwnKind.TOGETHER, "rivet/r1", "rivet/r2"), mirrored=True))
    assert all(isinstance(r, Together) for r in each)
    assert [tails(r.of) for r in each] == [
        {"rivet/r1.left", "rivet/r2.left"},
        {"rivet/r1.right", "rivet/r2.right"},
    ]
    (both,) = read(facts_with(relation(OwnKind.TOGETHER, "dye/dye.coat-1"), mirrored=True))
    assert tails(both.of) == {"dye/dye.left.coat-1", "dye/dye.right.coat-1"}


def test_apart_holds_across_the_sides_since_there_is_one_of_it():
    own = relation(OwnKind.APART, "rivet/r1", on="the small anvil")
    (made,) = read(facts_with(own, mirrored=True))
    assert isinstance(made, Apart)
    assert made.on == "the small anvil"
    assert tails(made.of) == {"rivet/r1.left", "rivet/r1.right"}


def test_what_follows_an_own_step_waits_for_its_wait():
    own_step = OwnStep(id="paint", name="Paint it", piece="piece", wait_min=60)
    own = relation(OwnKind.BEFORE, "rivet/r1", step="own/paint")
    (made,) = read(facts_with(own, own_steps=(own_step,)))
    assert (tail(made.first), tail(made.then)) == ("dry/paint.own", "rivet/r1")


def test_a_name_no_step_has_is_told_with_names_near_it():
    relations, (finding,) = own_relations(
        facts_with(relation(OwnKind.BEFORE, "rivit/r2", step="rivet/r1"))
    )
    assert not relations
    assert finding.severity is Severity.ERROR
    assert finding.code == "own-relation-names-no-step"
    assert "'rivit/r2'" in finding.text
    assert "rivet/r2" in finding.remedy
    assert finding.place.key == "relations.mine"


def test_a_name_like_no_other_is_told_how_steps_are_named():
    own = relation(OwnKind.BEFORE, "qqqqqqqq", step="rivet/r1")
    _, (finding,) = own_relations(facts_with(own))
    assert "last two parts" in finding.remedy


def test_a_step_that_a_choice_may_have_left_out_is_only_a_warning():
    option = Option(id="look", name="Look", choices=(Choice(id="a", name="A"),), chosen="a")
    own = relation(OwnKind.BEFORE, "own/line", step="rivet/r1")
    _, (finding,) = own_relations(facts_with(own, options=(option,)))
    assert finding.severity is Severity.WARNING


@pytest.mark.parametrize(
    "own",
    [
        relation(OwnKind.BEFORE, "rivet/r1", step="rivet/r1"),
        relation(OwnKind.BEFORE_ALL, "rivet/r1", step="rivet/r1"),
        relation(OwnKind.AFTER_ANY, "rivet/r1", step="rivet/r1"),
        relation(OwnKind.TOGETHER, "rivet/r1"),
        relation(OwnKind.APART, "rivet/r1", on="the anvil"),
    ],
    ids=lambda own: own.kind.value,
)
def test_a_relation_of_a_step_with_itself_says_nothing(own):
    relations, (finding,) = own_relations(facts_with(own))
    assert not relations
    assert finding.code == "own-relation-says-nothing"
    assert finding.severity is Severity.WARNING


@pytest.mark.parametrize("mirrored", [False, True])
def test_every_step_can_be_named(mirrored):
    facts = facts_with(mirrored=mirrored)
    names = StepNames(facts)
    for step in facts.work.steps:
        assert step in names.steps(step_name(step))
        assert ".left" not in step_name(step)
