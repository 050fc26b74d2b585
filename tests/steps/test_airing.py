"""What is told of the air of a room, through its days and nights, before anything is wet."""

from dataclasses import replace
from datetime import datetime

import pytest
from steps.made_steps import square, work_of

from armorplan.kernel.findings import Severity
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch_form, sketch_part, sketch_treatment
from armorplan.steps.airing import air_findings
from armorplan.steps.usual_air import hours_words
from armorplan.workshop.air import AirReading, Climate, Room

DAY, NIGHT = range(8, 20), Climate(temperature_c=8.0, humidity_pct=60.0)
LACQUERED = (sketch_treatment("lacquer", "plate"),)
DYED = (sketch_treatment("dye", "plate"),)


def room_of(day, night, *, until=20):
    hours = tuple(day if 8 <= hour < until else night for hour in range(24))
    return Room(usual=day, by_hour=hours)


def shelf_with(name, **fields):
    shelf = sketch_shelf()
    entries = (replace(e, **fields) if e.id == name else e for e in shelf.treatments)
    return replace(shelf, treatments=tuple(entries))


FILM = shelf_with("lacquer", film_from_c=10.0, film_min=120)


def found(room, shelf=FILM, treatments=LACQUERED, **tables):
    work = work_of(
        sketch_part("plate"), shelf=shelf, climate=room, treatments=treatments, **tables
    )
    return {finding.code: finding for finding in air_findings(work, shelf, room)}


def test_good_air_has_nothing_told_of_it():
    assert found(Room()) == {}


def test_a_finish_in_a_room_always_too_cold_would_be_spoilt_whenever_it_is_put_on():
    spoilt = found(Room(usual=Climate(temperature_c=9.0)))["too-cold-for-finish"]
    assert spoilt.severity is Severity.ERROR
    assert "no film below 10 °C, and at any hour it has 9 °C" in spoilt.text


def test_a_finish_put_on_before_a_cold_evening_would_be_spoilt_and_the_hours_are_told():
    room = room_of(Climate(temperature_c=20.0), NIGHT, until=18)
    spoilt = found(room)["too-cold-for-finish"]
    assert spoilt.severity is Severity.WARNING
    # At 20 °C and 50 % two hours of film take a little longer than at 23 °C: from four on it is late.
    assert "begun from 16:00 on it has 8 °C" in spoilt.text


def test_wet_leather_and_water_dye_freeze_before_they_are_dry():
    frozen = found(Room(usual=Climate(temperature_c=-2.0)), treatments=DYED)
    told = frozen["too-cold-while-wet"]
    assert told.severity is Severity.ERROR
    assert "freezes below 0 °C, and at any hour it has -2 °C" in told.text
    assert "bring it inside" in told.remedy
    assert "too-cold-while-wet" not in found(
        Room(usual=Climate(temperature_c=1.0)), treatments=DYED
    )


def test_a_room_just_as_warm_as_the_film_needs_is_told_as_at_the_limit():
    note = found(Room(usual=Climate(temperature_c=10.0)))["too-cold-for-finish"]
    assert note.severity is Severity.NOTE
    assert "just at the limit of 10 °C" in note.text
    assert "too-cold-for-finish" not in found(Room(usual=Climate(temperature_c=11.0)))


def test_a_night_after_the_film_has_formed_spoils_nothing():
    assert "too-cold-for-finish" not in found(
        room_of(Climate(temperature_c=23.0), NIGHT, until=23)
    )


def test_cold_nights_tell_how_much_longer_dryings_take():
    room = room_of(Climate(temperature_c=22.0), NIGHT)
    note = found(room, treatments=DYED)["cold-nights"]
    assert note.severity is Severity.NOTE
    assert note.about == ("dye", "wipe")
    assert note.text.startswith("Nights at 8 °C")
    assert " instead of 13 h" in note.text


def test_mild_nights_are_not_worth_a_note():
    room = room_of(Climate(temperature_c=22.0), Climate(temperature_c=20.0))
    assert "cold-nights" not in found(room, treatments=DYED)


def test_air_that_is_damp_on_average_names_its_hours():
    day, night = Climate(humidity_pct=60.0), Climate(humidity_pct=98.0)
    note = found(room_of(day, night), treatments=())["damp-air-moulds"]
    assert "79 % humidity on average, above 75 % from 20:00 to 8:00" in note.text
    assert "damp-air-moulds" not in found(room_of(day, Climate(humidity_pct=85.0)), treatments=())


def test_readings_count_by_the_usual_day_they_make():
    at = "2026-01-{:02}T{:02}:30:00+00:00"
    readings = tuple(
        AirReading(
            at=datetime.fromisoformat(at.format(day, hour)),
            climate=Climate(temperature_c=21.0) if hour in DAY else NIGHT,
        )
        for day in (12, 13)
        for hour in range(24)
    )
    note = found(Room(readings=readings), treatments=DYED)["cold-nights"]
    assert "Nights at 8 °C" in note.text


def test_what_never_dries_is_an_error_also_where_the_air_changes():
    wet = Climate(temperature_c=12.0, humidity_pct=100.0)
    room = room_of(wet, replace(wet, temperature_c=8.0))
    never = found(room)["will-not-dry"]
    assert never.severity is Severity.ERROR
    assert "100 % humidity" in never.text


@pytest.mark.parametrize(("thickness_mm", "told"), [(0.8, True), (3.5, False)])
def test_leather_so_thin_that_it_is_hardly_damp_is_told(thickness_mm, told):
    shelf = shelf_with("casing", reference_mm=3.5, window_min=(10, 60))
    work = work_of(
        square("plate", thickness_mm=thickness_mm),
        shelf=shelf,
        forms=(sketch_form("bow", "plate"),),
    )
    codes = [finding.code for finding in air_findings(work, shelf, Room())]
    assert codes == ["window-too-short"] * told


@pytest.mark.parametrize(
    ("hours", "among", "words"),
    [
        ([22, 23, 0, 1, 5], range(24), "from 5:00 to 6:00 and from 22:00 to 2:00"),
        ([0, 1, 23], range(24), "from 23:00 to 2:00"),
        (list(range(24)), range(24), "all day"),
        ([8, 9], range(8, 19), "before 10:00"),
        ([16, 17, 18], range(8, 19), "from 16:00 on"),
        ([8, 17, 18], range(8, 19), "before 9:00 and from 17:00 on"),
    ],
)
def test_hours_are_said_as_spans_that_go_round_midnight(hours, among, words):
    assert sorted(hours_words(hours, among).split(" and ")) == sorted(words.split(" and "))


@pytest.mark.parametrize(
    ("thin_mm", "told"),
    [
        (
            1.0,
            "1 mm leather is too dry to shape by the time 4 mm leather is ready, or soon after.",
        ),
        (1.7, "1.7 mm leather is right to shape for only 7 min on a usual day in this room."),
        (3.5, ""),
    ],
)
def test_a_form_of_thin_and_thick_leather_says_how_little_time_it_leaves(thin_mm, told):
    shelf = shelf_with("casing", reference_mm=3.5, window_min=(10, 60))
    work = work_of(
        square("plate", thickness_mm=4.0),
        square("trim", thickness_mm=thin_mm),
        shelf=shelf,
        forms=(sketch_form("bow", "plate", "trim"),),
    )
    texts = [finding.text for finding in air_findings(work, shelf, Room())]
    assert [text.split(": ", 1)[1] for text in texts] == [told] * bool(told)
