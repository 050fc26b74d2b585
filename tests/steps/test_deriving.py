"""From assembly to steps: kinds, ids, minutes, trays."""

import pytest

from armorplan.assembly.expand import assemble
from armorplan.pattern.joining import Joint, JointKind, Route, Seam
from armorplan.pattern.parts import PartKind
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import (
    sketch,
    sketch_form,
    sketch_part,
    sketch_rivet,
    sketch_treatment,
)
from armorplan.steps.airing import air_findings
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Room

UPPER = sketch_part("upper", holes={"u1": (10.0, 10.0), "u2": (40.0, 10.0)})
LOWER = sketch_part("lower", holes={"l1": (10.0, 10.0), "l2": (40.0, 10.0)})
ROW = (sketch_rivet("a", "u1", "l1"), sketch_rivet("b", "u2", "l2"))


def work_of(*parts, **tables):
    return derive_steps(
        assemble(sketch(*parts, **tables), sketch_shelf(), build="b-1"), sketch_shelf()
    )


def kinds(work) -> list[StepKind]:
    return [step.kind for step in work.steps]


def test_two_riveted_plates():
    work = work_of(UPPER, LOWER, joints=ROW)
    assert kinds(work) == [
        StepKind.MEASURE,
        StepKind.MOCK_UP,
        StepKind.LAY_OUT,
        StepKind.CUT,
        StepKind.PUNCH,
        StepKind.CUT,
        StepKind.PUNCH,
        StepKind.DRY_FIT,
        StepKind.RIVET,
        StepKind.RIVET,
        StepKind.FIT,
        StepKind.INSPECT,
        StepKind.PACK,
    ]


def test_ids_say_what_a_step_is_and_never_where_it_stands():
    ids = {step.id for step in work_of(UPPER, LOWER, joints=ROW).steps}
    assert "b-1/piece/single/rivet/a" in ids
    assert "b-1/piece/single/dry-fit/piece" in ids
    fewer = {step.id for step in work_of(UPPER, LOWER, joints=ROW[1:]).steps}
    assert fewer < ids


def test_both_sides_have_their_own_steps():
    steps = work_of(UPPER, mirrored=True).steps
    assert "b-1/piece/left/cut/upper.left" in {step.id for step in steps}
    assert sum(step.kind is StepKind.CUT for step in steps) == 2
    assert any("(right)" in step.title for step in steps)


def test_coats_and_their_drying():
    work = work_of(UPPER, treatments=(sketch_treatment("dye", "upper", coats=2),))
    first, second = work.of_kind(StepKind.DYE)
    assert first.batch_key != second.batch_key
    between, last = work.drying_of(first.id), work.drying_of(second.id)
    assert between is not None
    assert last is not None
    assert (between.minutes, last.minutes) == (30, 720)
    assert not between.attended
    assert first.tray == second.tray


def test_a_damp_form_is_cased_shaped_and_dried():
    work = work_of(UPPER, forms=(sketch_form("bow", "upper"),))
    (form,) = work.of_kind(StepKind.FORM)
    casing = work.casing_for(form.id)
    assert casing is not None
    assert casing.kind is StepKind.CASE
    assert work.drying_of(form.id) is not None


def test_tooling_dries_only_where_no_damp_form_follows():
    tooled = sketch_part("upper", tooling="lantern")
    alone, formed = work_of(tooled), work_of(tooled, forms=(sketch_form("bow", "upper"),))
    assert alone.drying_of(alone.of_kind(StepKind.TOOL)[0].id)
    assert not formed.drying_of(formed.of_kind(StepKind.TOOL)[0].id)


def test_holes_placed_on_the_wearer_wait_and_the_strap_s_own_do_not():
    strap = sketch_part("strap", kind=PartKind.STRAP, holes={"s": (8.0, 20.0)})
    plate = sketch_part("plate", holes={"p": (8.0, 8.0)})
    work = work_of(strap, plate, joints=(sketch_rivet("r", "s", "p", placed_on_wearer=True),))
    assert [s.parts for s in work.of_kind(StepKind.PUNCH)] == [("strap",)]
    assert [s.parts for s in work.of_kind(StepKind.PUNCH_MARKED)] == [("plate",)]
    assert len(work.of_kind(StepKind.MARK)) == 1


def test_joints_of_a_seam_lie_in_one_tray():
    seam = Seam(id="row", name="Front row", joints=("a", "b"))
    first, second = work_of(UPPER, LOWER, joints=ROW, seams=(seam,)).of_kind(StepKind.RIVET)
    assert first.tray == second.tray
    assert first.title == "Rivet Front row, 1 of 2"


def test_a_rivet_says_its_stack_and_post():
    (rivet,) = work_of(UPPER, LOWER, joints=ROW[:1]).of_kind(StepKind.RIVET)
    assert "stack 7.2 mm" in rivet.detail
    assert "post 8 mm" in rivet.detail


def test_glue_sets_before_the_last_fit():
    glue = Joint(id="g", kind=JointKind.GLUE, stack=("u1", "l1"), fastener="cement")
    work = work_of(UPPER, LOWER, joints=(glue,))
    (step,) = work.of_kind(StepKind.GLUE)
    dry = work.drying_of(step.id)
    assert dry is not None
    assert dry.minutes == 720


def test_a_form_by_seams_has_no_step_of_its_own():
    work = work_of(
        UPPER, LOWER, forms=(sketch_form("cup", "upper", "lower", route=Route.BY_SEAM),)
    )
    assert not work.of_kind(StepKind.FORM, StepKind.FORM_DRY, StepKind.CASE)


def test_air_that_dries_nothing_is_a_finding():
    soaked = Room(usual=Climate(temperature_c=12.0, humidity_pct=100.0))
    work = work_of(UPPER, treatments=(sketch_treatment("finish", "upper"),))
    finding, mould = air_findings(work, sketch_shelf(), soaked)
    assert finding.code == "will-not-dry"
    assert mould.code == "damp-air-moulds"
    assert "100 %" in finding.text
    assert not air_findings(work, sketch_shelf(), Room())


@pytest.mark.parametrize("kind", [StepKind.CUT, StepKind.RIVET, StepKind.DRY_FIT])
def test_every_hands_on_step_takes_at_least_a_minute(kind):
    assert all(s.minutes >= 1 for s in work_of(UPPER, LOWER, joints=ROW).of_kind(kind))
