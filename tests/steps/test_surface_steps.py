"""Cleaning, coats wiped and dipped, masks and roughening where glue goes."""

from dataclasses import replace

import pytest
from steps.made_steps import full_shelf, only, square, work_of

from armorplan.assembly.expand import assemble
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Applying, Joint, JointKind
from armorplan.pattern.parts import PartKind, Piece
from armorplan.rules.sketches import sketch, sketch_treatment
from armorplan.steps.airing import air_findings
from armorplan.steps.deriving import lining_findings
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Room

PLATE, LINING = square("plate"), square("lining", kind=PartKind.LINING, grain_out=False)
GLUE = Joint(id="g", kind=JointKind.GLUE, layers=("plate", "lining"), fastener="cement")


def test_a_dyed_piece_is_cleaned_first_and_dries():
    work = work_of(PLATE, LINING, treatments=(sketch_treatment("dye", "plate"),))
    clean = only(work, StepKind.CLEAN)
    assert clean.id == "b/piece/single/clean/piece"
    assert clean.parts == ("plate",)
    assert clean.cautions == ("Mind the clean.", "Mind the deglazer.")
    dried = work.drying_of(clean.id)
    assert dried
    assert dried.minutes == 1440
    assert work.steps.index(dried) < work.steps.index(only(work, StepKind.DYE))


@pytest.mark.parametrize(("use", "shelf"), [("finish", full_shelf()), ("dye", None)])
def test_no_cleaning_without_dye_or_without_a_cleaner(use, shelf):
    full = full_shelf()
    bare = replace(full, treatments=tuple(e for e in full.treatments if e.id != "deglazer"))
    work = work_of(PLATE, treatments=(sketch_treatment(use, "plate"),), shelf=shelf or bare)
    assert not work.of_kind(StepKind.CLEAN)


def test_dipping_takes_its_own_minutes_and_its_own_bath():
    wiped = sketch_treatment("dye", "plate", "lining")
    by_cloth = only(work_of(PLATE, LINING, treatments=(wiped,)), StepKind.DYE)
    dipped = replace(wiped, applying=Applying.DIP)
    in_bath = only(work_of(PLATE, LINING, treatments=(dipped,)), StepKind.DYE)
    assert by_cloth.id == in_bath.id
    assert (by_cloth.minutes, in_bath.minutes) == (5 + 4, 5 + 1)
    assert by_cloth.batch_key != in_bath.batch_key
    assert in_bath.detail == "Dipped: Plate and Lining"
    assert in_bath.title == "Dip in dye: Plate and Lining"
    assert by_cloth.title == "Dye: Plate and Lining"


def test_a_treatment_of_two_pieces_says_which():
    pattern = sketch(PLATE, replace(square("cuff"), piece="arm"))
    pieces = (*pattern.pieces, Piece(id="arm", name="Arm"))
    work = work_of(
        *pattern.parts, pieces=pieces, treatments=(sketch_treatment("dye", "plate", "cuff"),)
    )
    assert [s.title for s in work.of_kind(StepKind.DYE)] == [
        "Dye, Piece: Plate",
        "Dye, Arm: Cuff",
    ]


def test_glue_on_finished_leather_is_masked_before_and_roughened_after():
    finish = sketch_treatment("finish", "plate")
    work = work_of(PLATE, LINING, joints=(GLUE,), treatments=(finish,))
    mask, roughen = only(work, StepKind.MASK), only(work, StepKind.ROUGHEN)
    assert (mask.id, mask.parts) == ("b/piece/single/mask/g", ("plate",))
    assert (roughen.id, roughen.parts) == ("b/piece/single/roughen/g", ("plate", "lining"))
    assert work.setting("g") == only(work, StepKind.GLUE)


def test_a_glue_face_that_is_only_oiled_is_masked_too():
    work = work_of(PLATE, LINING, joints=(GLUE,), treatments=(sketch_treatment("oil", "plate"),))
    mask = only(work, StepKind.MASK)
    assert mask.parts == ("plate",)
    assert "Oil and finish spoil the glue" in mask.detail
    dyed = work_of(PLATE, LINING, joints=(GLUE,), treatments=(sketch_treatment("dye", "plate"),))
    assert not dyed.of_kind(StepKind.MASK)


@pytest.mark.parametrize(("use", "noted"), [("oil", 1), ("finish", 1), ("dye", 0)])
def test_a_lining_that_is_sealed_along_with_its_piece_is_noted(use, noted):
    treated = sketch(PLATE, LINING, treatments=(sketch_treatment(use, "plate", "lining"),))
    shelf = full_shelf()
    notes = lining_findings(assemble(treated, shelf, build="b"), shelf)
    assert len(notes) == noted
    assert all(
        note.text.startswith(f"The lining 'Lining' gets {use.title()} too") for note in notes
    )
    left_out = sketch(PLATE, LINING, treatments=(sketch_treatment(use, "plate"),))
    assert not lining_findings(assemble(left_out, shelf, build="b"), shelf)


def test_flesh_on_flesh_without_finish_needs_neither():
    work = work_of(PLATE, LINING, joints=(GLUE,))
    assert not work.of_kind(StepKind.MASK, StepKind.ROUGHEN)


@pytest.mark.parametrize(
    ("outer_out", "inner_out", "rough"),
    [(True, True, True), (False, False, True), (False, True, True), (True, False, False)],
)
def test_a_grain_face_in_the_glue_is_roughened(outer_out, inner_out, rough):
    work = work_of(
        replace(PLATE, grain_out=outer_out),
        replace(LINING, grain_out=inner_out),
        joints=(GLUE,),
    )
    assert bool(work.of_kind(StepKind.ROUGHEN)) is rough


@pytest.mark.parametrize("grain_out", [True, False])
def test_a_strap_glued_to_itself_meets_itself_with_its_inner_side(grain_out):
    strap = square("strap", kind=PartKind.STRAP, grain_out=grain_out)
    fold = replace(GLUE, layers=("strap", "strap"))
    work = work_of(strap, joints=(fold,))
    assert bool(work.of_kind(StepKind.ROUGHEN)) is not grain_out


@pytest.mark.parametrize(
    ("temperature_c", "humidity_pct", "codes"),
    [
        (23.0, 50.0, []),
        (10.0, 75.0, []),
        (9.0, 50.0, ["too-cold-for-finish"]),
        (23.0, 76.0, ["damp-air-moulds"]),
    ],
)
def test_cold_and_damp_air_are_noted(temperature_c, humidity_pct, codes):
    climate = Room(usual=Climate(temperature_c=temperature_c, humidity_pct=humidity_pct))
    work = work_of(PLATE, climate=climate, treatments=(sketch_treatment("finish", "plate"),))
    notes = air_findings(work, full_shelf(), climate)
    assert [note.code for note in notes] == codes
    assert all(note.severity is Severity.NOTE for note in notes)


def test_cold_air_says_nothing_where_nothing_is_finished():
    cold = Room(usual=Climate(temperature_c=5.0))
    work = work_of(PLATE, climate=cold, treatments=(sketch_treatment("dye", "plate"),))
    assert air_findings(work, full_shelf(), cold) == ()
