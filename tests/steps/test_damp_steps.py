"""Damp forms, wet folds and hardening: what is cased, shaped, dried and hardened, in which bath."""

import pytest
from steps.made_steps import full_shelf, only, square, work_of

from armorplan.pattern.joining import Form, FormKind, Route
from armorplan.rules.sketches import sketch_treatment
from armorplan.steps.model import StepKind

PLATE = square("plate", tooling="a lantern")


def form(route, **fields):
    kind = fields.pop("kind", FormKind.DISH)
    return Form(id="shape", kind=kind, parts=("plate",), route=route, **fields)


def test_a_hardened_form_is_shaped_dried_and_hardened_for_good():
    work = work_of(PLATE, forms=(form(Route.HARDENED, hardening="hot_bath"),))
    shaped, harden = only(work, StepKind.FORM), only(work, StepKind.HARDEN)
    assert harden.id == "b/piece/single/harden/shape"
    assert work.casing_for(shaped.id)
    dried, cooled = work.drying_of(shaped.id), work.drying_of(harden.id)
    assert dried
    assert cooled
    assert cooled.id == "b/piece/single/dry/shape.harden"
    assert (cooled.minutes, cooled.treatment) == (1440, "hot_bath")
    assert harden.cautions == ("Mind the harden.", "Mind the hot_bath.")
    assert work.steps.index(dried) < work.steps.index(harden)
    assert cooled.title == "Dry the hardened Plate"


@pytest.mark.parametrize(("hardening", "late"), [("hot_bath", False), ("hot_wax", True)])
def test_water_hardens_before_the_dye_and_wax_after_it(hardening, late):
    work = work_of(
        PLATE,
        forms=(form(Route.HARDENED, hardening=hardening),),
        treatments=(sketch_treatment("dye", "plate"),),
    )
    at = {step.id: place for place, step in enumerate(work.steps)}
    harden, dye = only(work, StepKind.HARDEN), only(work, StepKind.DYE)
    assert (at[harden.id] > at[dye.id]) is late


def test_a_form_that_names_no_hardening_takes_the_first_that_goes_before_dye():
    work = work_of(PLATE, forms=(form(Route.HARDENED),))
    assert only(work, StepKind.HARDEN).treatment == "hot_bath"


def test_a_hardening_the_shelf_does_not_know_is_still_a_step():
    work = work_of(PLATE, forms=(form(Route.HARDENED, hardening="magic"),))
    assert work.drying_of(only(work, StepKind.HARDEN).id) is None


def test_a_wet_fold_is_cased_folded_and_held_until_dry():
    work = work_of(PLATE, forms=(form(Route.WET_FOLD, kind=FormKind.FOLD, radius_mm=3.0),))
    fold = only(work, StepKind.FORM)
    assert fold.title == "Fold Plate while damp"
    assert "held in the fold until dry" in fold.detail
    assert work.casing_for(fold.id)
    assert work.drying_of(fold.id)


@pytest.mark.parametrize("route", [Route.DAMP, Route.HARDENED, Route.WET_FOLD])
def test_tooling_dries_with_any_damp_form_that_follows(route):
    work = work_of(PLATE, forms=(form(route),))
    assert work.drying_of(only(work, StepKind.TOOL).id) is None


def test_titles_say_what_dries_and_what_the_leather_is_damped_for():
    work = work_of(PLATE, square("lame", tooling="rope"), forms=(form(Route.DAMP),))
    assert [s.title for s in work.of_kind(StepKind.CASE)] == [
        "Case Plate for tooling",
        "Case Lame for tooling",
        "Case Plate for forming",
    ]
    assert [s.title for s in work.of_kind(StepKind.TOOL)] == [
        "Tool a lantern into Plate",
        "Tool the rope into Lame",
    ]
    dryings = [s.title for s in work.of_kind(StepKind.DRY)]
    assert dryings == ["Dry the tooled Lame", "Dry the damp-formed Plate"]


def test_a_form_on_a_shelf_without_casing_is_left_out():
    from dataclasses import replace

    shelf = full_shelf()
    dry = replace(shelf, treatments=tuple(e for e in shelf.treatments if e.id != "casing"))
    work = work_of(PLATE, forms=(form(Route.WET_FOLD),), shelf=dry)
    assert not work.of_kind(StepKind.FORM, StepKind.CASE)
