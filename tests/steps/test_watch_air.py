"""Air that dries a dipped coat before it has dripped is told: no turning helps then."""

from dataclasses import replace

from steps.made_steps import work_of

from armorplan.kernel.findings import Severity
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.rules.sketches import sketch_bath, sketch_part, sketch_treatment
from armorplan.steps.airing import air_findings
from armorplan.workshop.air import Climate, Room

BATH = (sketch_bath("lacquer", "plate"),)
HOT = Climate(temperature_c=38.0, humidity_pct=15.0, air_m_s=1.0)


def told(room, touch_min, treatments=BATH):
    entries = tuple(
        replace(e, touch_min=touch_min) if e.id == "lacquer" else e
        for e in sketch_shelf().treatments
    )
    shelf = replace(sketch_shelf(), treatments=entries)
    work = work_of(sketch_part("plate"), shelf=shelf, climate=room, treatments=treatments)
    found = {finding.code: finding for finding in air_findings(work, shelf, room)}
    return found.get("dry-before-turned")


def test_what_dries_while_it_drips_is_told_with_its_minutes():
    finding = told(Room(), 4)
    assert finding.severity is Severity.WARNING
    assert "is dry to the touch after 4 min, and drips for 5 min" in finding.text


def test_what_still_runs_after_dripping_or_was_wiped_on_is_no_trouble():
    assert told(Room(), 15) is None
    assert told(Room(), 4, (sketch_treatment("lacquer", "plate"),)) is None


def test_the_hours_of_a_hot_noon_are_told():
    hours = tuple(HOT if 11 <= hour < 15 else Climate() for hour in range(24))
    assert "dipped from 11:00 to 15:00," in told(Room(by_hour=hours), 12).text
