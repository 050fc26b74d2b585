"""Between which steps the air leaves a window, and what the rules make of it on a usual day."""

from dataclasses import replace

import pytest
from steps.made_steps import square, work_of

from armorplan.assembly.expand import assemble
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage
from armorplan.rules.facts import Facts
from armorplan.rules.registry import rule_named
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch, sketch_form, sketch_part, sketch_treatment
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import StepKind
from armorplan.steps.windows import step_windows, window_of
from armorplan.workshop.air import Climate, Room

SHELF = sketch_shelf()
FORMS = (sketch_form("bow", "plate"),)
COATS = (sketch_treatment("lacquer", "plate", coats=2),)


def facts_of(room, *parts, shelf=SHELF, **tables):
    assembly = assemble(sketch(*parts, **tables), shelf, build="b")
    work = derive_steps(assembly, shelf, room)
    return Facts(assembly=assembly, work=work, shelf=shelf, room=room)


def told(facts, code):
    (relation,) = rule_named(code).derive(facts)
    return relation


def test_casing_opens_and_closes_and_a_coat_is_coated_again_in_time():
    work = work_of(square("plate", thickness_mm=2.5), shelf=SHELF, forms=FORMS, treatments=COATS)
    shaped, coated = step_windows(work, SHELF)
    assert work.step(shaped.first).serves == shaped.then
    assert (shaped.opens, shaped.closes) == (Stage.OPENS, Stage.CLOSES)
    assert shaped.body.thickness_mm == 2.5
    assert [work.step(s).coat for s in (coated.first, coated.then)] == [1, 2]
    assert (coated.opens, coated.closes) == (None, Stage.RECOAT_BY)


def test_no_window_between_what_has_none_or_is_not_there():
    timeless = replace(
        SHELF,
        treatments=tuple(
            replace(e, window_min=None, recoat_by_min=None) for e in SHELF.treatments
        ),
    )
    work = work_of(sketch_part("plate"), shelf=timeless, forms=FORMS, treatments=COATS)
    case, form = work.of_kind(StepKind.CASE)[0], work.of_kind(StepKind.FORM)[0]
    assert not list(step_windows(work, timeless))
    assert window_of(work, SHELF, case.id, "b/nowhere") is None
    assert window_of(work, SHELF, form.id, case.id) is None


@pytest.mark.parametrize(
    "climate", [Climate(), Climate(temperature_c=15.0, humidity_pct=70.0), Climate(air_m_s=1.0)]
)
def test_the_damp_window_of_a_usual_day_is_what_the_room_says_of_this_thickness(climate):
    shelf = replace(
        SHELF, treatments=tuple(replace(e, reference_mm=3.5) for e in SHELF.treatments)
    )
    room = Room(usual=climate)
    facts = facts_of(room, square("plate", thickness_mm=2.0), shelf=shelf, forms=FORMS)
    relation = told(facts, "damp-window")
    case = facts.work.step(relation.first)
    times = drying_room(room).usual(shelf.treatment("casing"), case.drying.body)
    least, most = times.likely_min(Stage.OPENS), times.likely_min(Stage.CLOSES)
    assert (relation.lag_min, relation.max_lag_min) == (least, most)
    assert f"{least} to {most} min after casing, on a usual day" in relation.reason.text


def test_thin_leather_dries_out_sooner():
    shelf = replace(
        SHELF, treatments=tuple(replace(e, reference_mm=3.5) for e in SHELF.treatments)
    )
    thin, thick = (
        told(
            facts_of(Room(), square("plate", thickness_mm=mm), shelf=shelf, forms=FORMS),
            "damp-window",
        )
        for mm in (2.0, 3.5)
    )
    assert thin.max_lag_min < thick.max_lag_min == 90


def test_coating_again_too_late_costs_a_scuff_and_so_only_steers():
    relation = told(facts_of(Room(), sketch_part("plate"), treatments=COATS), "recoat-window")
    assert relation.max_lag_min == 1440
    assert not relation.reason.binds
    assert relation.reason.price_min > 0


def _casing_of(*window_min):
    return replace(
        SHELF,
        treatments=tuple(
            replace(e, reference_mm=3.5, window_min=window_min) if e.window_min else e
            for e in SHELF.treatments
        ),
    )


_MIXED = (square("plate", thickness_mm=4.0), square("trim", thickness_mm=2.0))
_BOTH = (sketch_form("bow", "plate", "trim"),)


def test_of_mixed_thickness_it_opens_with_the_thickest_and_closes_with_the_thinnest():
    facts = facts_of(Room(), *_MIXED, shelf=_casing_of(20, 90), forms=_BOTH)
    (window,) = step_windows(facts.work, facts.shelf)
    assert window.body_at(Stage.OPENS).thickness_mm == 4.0
    assert window.body_at(Stage.CLOSES).thickness_mm == 2.0
    thick, thin = (
        told(facts_of(Room(), part, shelf=_casing_of(20, 90), forms=FORMS), "damp-window")
        for part in (
            square("plate", thickness_mm=4.0),
            square("plate", thickness_mm=2.0),
        )
    )
    both = told(facts, "damp-window")
    assert (both.lag_min, both.max_lag_min) == (thick.lag_min, thin.max_lag_min)
    assert both.max_lag_min < thick.max_lag_min


def test_where_the_thin_is_too_dry_before_the_thick_is_ready_the_thick_s_window_counts():
    """A plan stays possible; that the thin has to be damped again is told as a finding."""
    facts = facts_of(Room(), *_MIXED, shelf=_casing_of(20, 60), forms=_BOTH)
    (window,) = step_windows(facts.work, facts.shelf)
    assert window.body_at(Stage.CLOSES).thickness_mm == 4.0
    both = told(facts, "damp-window")
    assert both.lag_min < both.max_lag_min
