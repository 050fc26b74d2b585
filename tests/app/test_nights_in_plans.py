"""A cold night moves the plan, and the plan, its chart and its picture say why."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest
from schedule.night_rooms import MONDAY_AT, NIGHTS, STEADY, derived_in, problem_in

from armorplan.app.bench_states import states_now
from armorplan.app.chart_air import air_of
from armorplan.app.chart_notes import NO_NOTE, night_loss, nights_words, note_of
from armorplan.app.chart_rows import chart_of
from armorplan.app.reports import plan_report
from armorplan.app.rows import BenchState
from armorplan.app.shown_plan import shown
from armorplan.app.week_picture import figure_of
from armorplan.drying.body import Body
from armorplan.kernel.units import span_words
from armorplan.ledger.state import derive
from armorplan.schedule.checker import violations
from armorplan.schedule.planning import first_plan
from armorplan.sheets.week_bars import legend
from armorplan.steps.model import StepKind
from armorplan.workshop.air import Climate, Pace


def planned(room, sample="elbow_cop"):
    derived = derived_in(room, sample)
    problem = problem_in(derived)
    plan = first_plan(problem)
    assert plan.placed, plan.conflict
    assert violations(problem, plan) == ()
    return derived, plan, problem


def charted(derived, plan, problem):
    states = states_now(derived, derive(()), problem.origin_at)
    return chart_of(derived, states, shown(plan, problem).spans(), problem.origin_at)


def says_why(sample):
    """Assert that the nights move a sample's plan, and that it is told where one looks."""
    _, plan, _ = planned(STEADY, sample)
    derived, later, problem = planned(NIGHTS, sample)
    assert later.finish_min >= plan.finish_min + 12 * 60
    nights = nights_words(derived, shown(later, problem).spans())
    losses = {
        step: loss.minutes
        for step, (start_at, _, _) in shown(later, problem).spans().items()
        if (loss := night_loss(derived, derived.work.step(step), start_at)) is not None
    }
    worst = max(losses, key=lambda step: (losses[step], step))
    assert nights == (
        f"Nights at 10 °C slow {len(losses)} dryings. The longest: {derived.work.step(worst).title}, "
        f"{span_words(losses[worst])} longer than in the air it begins in."
    )
    chart = charted(derived, later, problem)
    dryings = [b for b in chart.bars if b.note]
    assert {b.step for b in dryings} == {
        s.id for s in derived.work.of_kind(StepKind.DRY, StepKind.CURE) if s.drying
    }
    assert any("longer than the catalogue's 24 h: at night the air is 10 °C and 80 %" in b.note
               for b in dryings)  # fmt: skip
    assert all(b.surely_at >= b.end_at for b in dryings)
    return derived, later, problem


def test_a_night_at_ten_degrees_moves_the_plan_and_the_chart_says_why():
    says_why("elbow_cop")


@pytest.mark.long
def test_a_night_at_ten_degrees_moves_the_plan_of_an_arm_harness_and_the_chart_says_why():
    says_why("arm_harness")


def test_steady_air_has_no_nights_to_speak_of():
    derived, plan, problem = planned(STEADY)
    assert nights_words(derived, shown(plan, problem).spans()) == ""
    chart = charted(derived, plan, problem)
    assert chart.air == ()
    assert not any("night" in bar.note for bar in chart.bars)


def test_a_note_tells_when_it_is_ready_how_sure_that_is_and_why():
    derived = derived_in(NIGHTS)
    petals = next(s for s in derived.work.of_kind(StepKind.DRY) if "petal" in s.title)
    start_at = MONDAY_AT + timedelta(hours=7)
    end_at = start_at + timedelta(hours=44)
    note = note_of(derived, petals, start_at, end_at)
    assert note.text.startswith("ready Wed 11:00, likely; Tue ")
    assert "longer than the catalogue's 24 h: at night the air is 10 °C and 80 %" in note.text
    assert note.surely_at > end_at
    cutting = derived.work.of_kind(StepKind.CUT)[0]
    assert note_of(derived, cutting, start_at, end_at) == NO_NOTE


def test_what_pulls_against_the_way_told_stands_behind_although():
    derived = derived_in(NIGHTS)
    dry = next(s for s in derived.work.of_kind(StepKind.DRY) if s.drying and "petal" in s.title)
    thin = replace(dry, drying=replace(dry.drying, body=Body(thickness_mm=2.7)))
    start_at = MONDAY_AT + timedelta(hours=11)
    text = note_of(derived, thin, start_at, start_at + timedelta(hours=30)).text
    assert "longer than the catalogue's" in text
    assert text.endswith("and 80 %, although the leather is 2.7 mm thick")


def test_about_the_catalogues_time_is_within_fifteen_per_cent():
    room = replace(STEADY, usual=Climate())
    derived = derived_in(room)
    dry = next(s for s in derived.work.of_kind(StepKind.DRY) if s.drying and "petal" in s.title)

    def text(factor):
        pace = Pace(treatment=dry.drying.treatment, factor=factor, spread=0.1, observations=6)
        seen = replace(derived, shop=replace(derived.shop, room=replace(room, paces=(pace,))))
        usual = replace(dry, drying=replace(dry.drying, body=Body()))
        return note_of(seen, usual, MONDAY_AT, MONDAY_AT + timedelta(hours=24 * factor)).text

    assert text(1.1).endswith("about the catalogue's 24 h")
    assert text(1.25).endswith("6 h longer than the catalogue's 24 h: so it was seen to dry here")


def test_what_a_look_put_off_is_surely_ready_no_sooner_than_likely():
    derived = derived_in(NIGHTS)
    dry = derived.work.of_kind(StepKind.DRY)[0]
    put_off_at = MONDAY_AT + timedelta(days=9)
    note = note_of(derived, dry, MONDAY_AT, put_off_at)
    assert note.surely_at == put_off_at
    assert note.text.startswith("ready Wed 08:00, likely: it was found still damp; ")


def test_what_is_done_has_no_note():
    derived, plan, problem = planned(NIGHTS)
    spans = shown(plan, problem).spans()
    dry = derived.work.of_kind(StepKind.DRY)[0].id
    states = states_now(derived, derive(()), problem.origin_at)
    states.states[dry] = BenchState.DONE
    chart = chart_of(derived, states, spans, problem.origin_at)
    bar = next(b for b in chart.bars if b.step == dry)
    assert (bar.note, bar.surely_at) == ("", None)


def test_the_air_of_the_chart_is_that_of_the_shop_hours_also_when_clocks_change():
    """On the night of 25 October 2026 the clocks go back: the cold lasts an hour longer."""
    begins_at = datetime(2026, 10, 24, 11, tzinfo=UTC)
    air = air_of(NIGHTS, begins_at, begins_at + timedelta(hours=30))
    assert [(a.temperature_c, a.humidity_pct) for a in air] == [(20, 50), (10, 80), (20, 50)]
    assert air[1].end_at - air[1].start_at == timedelta(hours=13)
    assert air[0].start_at == begins_at
    assert all(one.end_at == other.start_at for one, other in pairwise(air))


def test_the_chart_reaches_to_where_the_last_drying_is_surely_ready():
    derived, plan, problem = planned(NIGHTS)
    chart = charted(derived, plan, problem)
    surely_at = max(bar.surely_at for bar in chart.bars if bar.surely_at)
    assert chart.air[-1].end_at >= surely_at
    assert chart.closed[-1][1] >= surely_at


def test_report_and_picture_tell_the_same():
    derived, plan, problem = planned(NIGHTS)
    report = plan_report(derived, plan, problem, "")
    notes = {step.id: step.note for step in report.steps if step.note}
    figure = figure_of(derived, plan, problem, problem.origin_at)
    assert sorted(notes.values()) == sorted(b.note for b in figure.bars if b.note)
    assert figure.nights == report.nights != ""
    lines = legend(figure)
    assert report.nights in " ".join(lines)
    assert all(len(line) <= 180 for line in lines if line in report.nights)
    assert all((step.surely is None) == (step.note == "") for step in report.steps)
