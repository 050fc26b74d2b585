"""One drying as rows: windows, words, why, what another air would change, and which one is meant."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from armorplan.app.drying_choices import Began, WhatIf
from armorplan.app.drying_rows import change_words, drying_page, page_if
from armorplan.app.rough_instants import rough_span
from armorplan.app.shop_air import DayNight
from armorplan.drying.body import Body
from armorplan.drying.room import drying_room
from armorplan.drying.spans import Stage, Verdict
from armorplan.files.catalogue import read_shelf
from armorplan.steps.model import StepKind
from armorplan.workshop.air import AirReading, Climate, Pace, Room
from armorplan.workshop.shelf import Carrier

MILD = Climate(temperature_c=18, humidity_pct=55)
COLD = Climate(temperature_c=10, humidity_pct=55)
WET = Climate(temperature_c=8, humidity_pct=99.5)
NIGHTS = Room(by_hour=DayNight(day=MILD, night=COLD).hours(), usual=MILD)


@pytest.fixture
def dryings(bench):
    return bench.session.dryings()


def treatment(dryings, kind):
    return next(c for c in dryings.treatments if c.entry.id == kind)


def finish(dryings):
    return next(c for c in dryings.treatments if c.entry.film_from_c is not None)


def test_every_drying_of_the_build_can_be_looked_at_and_each_treatment_once(bench, dryings):
    dry = {s.id for s in bench.session.derived.work.of_kind(StepKind.DRY) if s.drying}
    assert dry
    assert dry <= {c.step for c in dryings.steps}
    named = [c.entry.id for c in dryings.treatments]
    assert len(set(named)) == len(named)
    assert {c.entry.id for c in dryings.steps} == set(named)


def test_who_chooses_a_wet_step_or_its_drying_means_the_drying(bench, dryings):
    dry = next(s for s in bench.session.derived.work.of_kind(StepKind.DRY) if s.drying)
    assert dryings.for_steps((dry.id,)).step == dry.id
    wet = dryings.for_steps((dry.after,))
    assert wet.wet_steps == (dry.after,)
    assert dryings.for_steps(()) is dryings.treatments[0]


def test_what_runs_is_shown_from_its_real_start(bench):
    dye = bench.steps(StepKind.DYE)[0]
    bench.do_until(StepKind.DYE)
    bench.session.start((dye.id,))
    bench.clock.advance(600)
    bench.session.done((dye.id,))
    began_at = bench.clock.now()
    bench.clock.advance(3600)
    dryings = bench.session.dryings()
    (running, *_) = dryings.running()
    assert running.began is Began.RUNS
    assert running.start_at == began_at
    assert dryings.for_steps(()) == running
    assert dryings.now_at == bench.clock.now()


def test_the_page_says_what_the_room_reckons(dryings):
    choice = finish(dryings)
    page = drying_page(choice, Room())
    times = drying_room(Room()).times(choice.entry, choice.body, choice.start_at)
    bars = {bar.key: bar for bar in page.bars}
    handle = times.spans[Stage.HANDLE]
    assert page.verdict is Verdict.DRIES
    assert page.handle_min == handle.likely_min
    for at, minutes in (
        (bars["handle"].opens.soonest_at, handle.soonest_min),
        (bars["handle"].opens.likely_at, handle.likely_min),
        (bars["handle"].opens.latest_at, handle.latest_min),
    ):
        assert at == choice.start_at + timedelta(minutes=minutes)
    assert bars["recoat"].closes is not None
    assert page.curve.at[0] == choice.start_at
    assert page.curve.at[-1] == page.until_at
    assert page.trouble == page.remedy == ""
    assert choice.entry.source in page.sources[0]


def test_casing_has_a_window_to_shape(dryings):
    page = drying_page(treatment(dryings, "casing_water"), Room())
    shape = next(bar for bar in page.bars if bar.key == "shape")
    assert shape.opens.likely_at < shape.closes.likely_at


def test_leather_that_was_shaped_has_no_window_to_shape_any_more(dryings):
    shaped = next(c for c in dryings.steps if c.entry.id == "casing_water")
    assert shaped.stage is Stage.HANDLE
    assert "shape" not in [bar.key for bar in drying_page(shaped, Room()).bars]


def test_only_a_coat_that_another_follows_has_a_window_for_the_next(dryings):
    def keys(stage):
        coat = replace(finish(dryings), step="some/step", stage=stage)
        return [bar.key for bar in drying_page(coat, Room()).bars]

    assert "recoat" in keys(Stage.TOUCH)
    assert "recoat" not in keys(Stage.HANDLE)


def test_a_glue_is_closed_while_it_is_tacky_and_coated_again_after(dryings):
    """Contact cement is open for 30 to 60 min (common practice, no source; the tin rules)."""
    cement = next(e for e in read_shelf().treatments if e.id == "contact_cement")
    glue = replace(dryings.treatments[0], entry=cement, body=Body(), stage=None)
    bars = {bar.key: bar for bar in drying_page(glue, Room()).bars}
    assert "recoat" not in bars
    close = bars["close"]
    assert close.opens == bars["touch"].opens
    assert close.closes.likely_at - glue.start_at == timedelta(minutes=30)
    assert close.missed == "missed: Coat both faces again, thinly, and wait anew."
    assert any("30–60 min" in text and "the tin rules" in text for text in cement.cautions)


def test_cold_nights_are_told_as_the_reason(dryings):
    page = drying_page(finish(dryings), NIGHTS)
    usual = finish(dryings).entry.handle_min
    assert page.handle_min > 1.1 * usual
    assert page.why == (
        f"{rough_span(page.handle_min)} instead of {rough_span(usual)}: the nights are 10 °C."
    )


def test_what_takes_its_usual_time_needs_no_reason(dryings):
    choice = replace(finish(dryings), body=replace(finish(dryings).body, thickness_mm=None))
    assert drying_page(choice, Room()).why == ""


def test_damp_thick_leather_and_the_learned_pace_are_reasons(dryings):
    choice = treatment(dryings, "casing_water")
    choice = replace(choice, body=replace(choice.body, thickness_mm=2 * choice.entry.reference_mm))
    pace = Pace(treatment="casing_water", factor=1.5, spread=0.1, observations=6)
    damp = Room(usual=Climate(temperature_c=23, humidity_pct=70), paces=(pace,))
    why = drying_page(choice, damp).why
    assert "the air is damp, 70 %" in why
    assert "mm thick" in why
    assert "1.5 times as long" in why


def why(kind, climate, dryings, paces=()):
    choice = treatment(dryings, kind)
    choice = replace(choice, body=replace(choice.body, thickness_mm=None))
    return drying_page(choice, Room(usual=Climate(**climate), paces=paces)).why


def test_a_reason_pulls_the_way_that_is_told_or_stands_behind_although(dryings):
    cool_dry = why("casing_water", {"temperature_c": 6.5, "humidity_pct": 40}, dryings)
    assert cool_dry.endswith(": the air is only 6.5 °C, although the air is dry, 40 %.")
    warm_damp = why("casing_water", {"temperature_c": 50, "humidity_pct": 60}, dryings)
    assert warm_damp.endswith(": the air is 50 °C, although the air has a humidity of 60 %.")
    choice = treatment(dryings, "casing_water")
    thin = replace(choice, body=replace(choice.body, thickness_mm=2.8125))
    cold = Room(usual=Climate(temperature_c=10, humidity_pct=60))
    assert drying_page(thin, cold).why.endswith(", although the leather is 2.81 mm thick.")
    fast = Pace(treatment="casing_water", factor=0.8, spread=0.1, observations=6)
    seen = why("casing_water", {"temperature_c": 10, "humidity_pct": 50}, dryings, (fast,))
    assert seen.endswith(", although in this shop it was seen to take 0.8 times as long.")


def test_within_fifteen_per_cent_it_is_the_catalogues_time(dryings):
    def slower(factor):
        pace = Pace(treatment="casing_water", factor=factor, spread=0.1, observations=6)
        return why("casing_water", {}, dryings, (pace,))

    assert slower(1.14) == ""
    assert slower(1.2).startswith("29 h instead of 24 h: in this shop")


def test_what_is_wet_with_water_freezes_and_is_to_be_brought_inside(dryings):
    frost = Room(usual=Climate(temperature_c=-5, humidity_pct=60))
    page = drying_page(treatment(dryings, "casing_water"), frost)
    assert page.verdict is Verdict.WOULD_SPOIL
    assert "falls to -5 °C, and below 0 °C wet leather freezes." in page.trouble
    assert page.remedy.startswith("Bring it inside")
    assert page.bars == ()
    above = drying_page(page.choice, Room(usual=Climate(temperature_c=1, humidity_pct=60)))
    assert above.verdict is Verdict.DRIES


def test_of_oil_and_wax_it_is_said_that_the_air_counts_for_nothing(dryings):
    entry = replace(finish(dryings).entry, carrier=Carrier.OIL, film_from_c=None, film_min=None)
    waxed = replace(finish(dryings), entry=entry)
    cold = drying_page(waxed, Room(usual=Climate(temperature_c=-5)))
    assert cold.verdict is Verdict.DRIES
    assert cold.why == "Air is not reckoned for oil and wax: cold makes it slower."
    assert "not reckoned for oil and wax" in cold.sources[1]
    assert drying_page(waxed, Room()).why == ""


def test_air_just_at_the_limit_of_a_finish_is_told(dryings):
    limit = drying_page(finish(dryings), Room(usual=Climate(temperature_c=10)))
    assert "10 °C is just at its limit of 10 °C" in limit.why
    assert "limit" not in drying_page(finish(dryings), Room()).why


def test_what_never_dries_and_what_would_spoil_say_what_to_do(dryings):
    never = drying_page(finish(dryings), Room(usual=WET))
    assert never.verdict is Verdict.WILL_NOT_DRY
    assert "will not dry" in never.trouble
    assert "Warm the room" in never.remedy
    assert never.handle_min is None
    spoilt = drying_page(finish(dryings), Room(usual=Climate(temperature_c=6, humidity_pct=40)))
    assert spoilt.verdict is Verdict.WOULD_SPOIL
    assert spoilt.bars == ()
    assert "6 °C" in spoilt.trouble
    assert "label rules" in spoilt.remedy


def test_another_air_is_asked_about_and_nothing_else_changes(dryings):
    page = drying_page(finish(dryings), NIGHTS)
    fan = page_if(page, WhatIf(air_m_s=1.5))
    assert fan.handle_min < page.handle_min
    assert change_words(page, fan) == (
        f"{rough_span(fan.handle_min)} to handle instead of {rough_span(page.handle_min)}."
    )
    assert drying_page(finish(dryings), NIGHTS) == page
    thick = page_if(page, WhatIf(thickness_mm=9.0, faces=1))
    assert (thick.choice.body.thickness_mm, thick.choice.body.faces) == (9.0, 1)
    cold = page_if(page, WhatIf(temperature_c=5.0))
    assert change_words(page, cold).startswith("It would not do: ")
    assert "change little" in change_words(page, page)


def test_what_differs_is_taken_through_days_and_readings():
    at = AirReading(at=datetime(2026, 1, 1, tzinfo=UTC), climate=MILD)
    room = replace(NIGHTS, readings=(at,))
    fan = WhatIf(air_m_s=1.5).room(room)
    assert {c.air_m_s for c in fan.by_hour} == {1.5}
    assert {c.temperature_c for c in fan.by_hour} == {18, 10}
    assert fan.readings[0].climate.air_m_s == 1.5
    warm = WhatIf(temperature_c=22.0, humidity_pct=45.0).room(room)
    assert warm.is_steady
    assert warm.usual == Climate(temperature_c=22, humidity_pct=45)


@pytest.mark.parametrize(
    ("minutes", "words"),
    [
        (3, "3 min"),
        (14, "14 min"),
        (44, "45 min"),
        (85, "1 h 25 min"),
        (60, "1 h"),
        (150, "2.5 h"),
        (740, "12 h"),
        (2160, "36 h"),
        (7200, "5 days"),
    ],
)
def test_durations_are_told_as_coarsely_as_they_are_known(minutes, words):
    assert rough_span(minutes) == words
