"""Why something is dry or not: the air, the leather, the shop; and when nobody can be sure."""

import re
from dataclasses import replace

import pytest
from app.drills.dry_sets import DAMP, DRY, SEEDS, asked, sets, steady
from drying.sample_rooms import nights
from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.derived import derive_build
from armorplan.app.drills.dry_airs import airs_of
from armorplan.app.drills.dry_cases import NOTHING, cases_of
from armorplan.app.drills.dry_looks import Look
from armorplan.app.drills.dry_race import goal_rung
from armorplan.app.drills.dry_reasons import because_of_look
from armorplan.app.drills.dry_setting import set_of
from armorplan.app.drills.setting import drill_for
from armorplan.app.drills.source import DrillSource
from armorplan.app.in_room import in_room
from armorplan.drying.spans import Stage
from armorplan.files.catalogue import read_shelf
from armorplan.rules.sketches import sketch, sketch_bath, sketch_part, sketch_treatment
from armorplan.workshop.air import Climate, Pace, Room
from armorplan.workshop.shop import one_maker


def look_at(room, minutes, *, tail="case/plate_dish.form", name="collar"):
    derived = in_room(derived_sample(name), room)
    case = next(c for c in cases_of(derived) if c.step.id.endswith(tail))
    own = next(air for air in airs_of(room) if air.is_own)
    return derived, Look(case=case, air=own, start_min=540, now_min=540 + minutes)


def test_another_climate_changes_the_right_answer_and_its_reason():
    damp_build, damp = look_at(steady(DAMP), 100)
    dry_build, dry = look_at(steady(DRY), 100)
    assert damp.catalogue_rung() == dry.catalogue_rung()
    assert damp.rung() == "shape"
    assert dry.rung() == "too-dry"
    told = [because_of_look(b, look) for b, look in ((damp_build, damp), (dry_build, dry))]
    assert told[0].rule == told[1].rule == "damp-window"
    assert told[0].text != told[1].text
    pace = [next(q.value for q in one.exact if q.name == "pace of this air") for one in told]
    assert pace[0] < 1 < pace[1]


def test_a_reason_is_told_without_what_says_nothing():
    for name, found in ((each, one) for each in SAMPLES for one in sets(each)):
        for look in found.looks:
            because = because_of_look(derived_sample(name), look)
            said = " ".join(because.numbers)
            assert " Pa" not in because.text + said
            assert not re.search(r"\b(?:dipped|shop|thickness) 1(?:,|$| [a-z])", said)
            assert "passed 0" not in said
            assert not re.search(r"\d{4,} min", said)


def test_a_look_between_soonest_and_latest_is_a_toss_up():
    _, look = look_at(steady(DAMP), 60)
    span = look.span(look.case.rungs[1])
    between = replace(look, now_min=look.start_min + span.likely_min)
    assert span.soonest_min < span.likely_min < span.latest_min
    assert between.rung() is None
    assert replace(look, now_min=look.start_min + span.soonest_min - 1).rung() == NOTHING
    assert replace(look, now_min=look.start_min + span.latest_min).rung() == "shape"


def test_what_was_learned_of_the_shop_counts():
    pace = Pace(treatment="casing_water", factor=4.0, spread=0.1, observations=20)
    derived, slow = look_at(replace(steady(Climate()), paces=(pace,)), 25)
    _, usual = look_at(steady(Climate()), 25)
    assert (usual.rung(), slow.rung()) == ("shape", NOTHING)
    assert (
        "In this shop it was seen to take 4 times as long." in because_of_look(derived, slow).text
    )


def test_a_room_with_nights_goes_by_its_usual_day():
    room = Room(usual=Climate(), by_hour=nights(8.0), zone="Europe/Lisbon")
    derived, look = look_at(room, 24 * 60, tail="dry/plate_dish.form")
    assert "on average of these hours" in because_of_look(derived, look).text
    own = look.air.said
    assert "8 to 20 °C" in own
    day = replace(look, air=next(a for a in airs_of(steady(nights(8.0)[12])) if a.is_own))
    handle = goal_rung(look)
    assert look.span(handle).likely_min > day.span(handle).likely_min


@pytest.mark.parametrize("way", [sketch_bath, sketch_treatment], ids=["dipped", "wiped"])
def test_what_is_dipped_is_told_so_and_takes_longer(way):
    pattern = sketch(sketch_part("plate"), treatments=(way("alcohol_dye", "plate", coats=2),))
    derived = derive_build(pattern, read_shelf(), one_maker("UTC"), build="p")
    dipped = way is sketch_bath
    seen = 0
    for seed in SEEDS:
        found = set_of(derived, asked(seed, focus="dry-between-coats"))
        drill = drill_for(DrillSource(derived=derived), asked(seed, focus="dry-between-coats"))
        assert (", dipped" in drill.given[1]) is dipped
        assert (", wiped on" in drill.given[1]) is not dipped
        because = because_of_look(derived, found.looks[0])
        uptake = next(q.value for q in because.exact if q.name == "times because it was dipped")
        # 6 ml/dm² in the bath against 2 × 1.5 wiped on: twice as much, and √2 times the minutes.
        assert uptake == pytest.approx(2**0.5 if dipped else 1.0)
        assert ("Dipped it took up more" in because.text) is dipped
        seen += 1
    assert seen == len(SEEDS)


def test_a_coat_can_be_too_late_for_the_next():
    for case in cases_of(derived_sample("elbow_cop")):
        if case.entry.recoat_by_min and case.goal == "coat":
            assert [rung.stage for rung in case.rungs] == [None, Stage.TOUCH, Stage.RECOAT_BY]
            assert case.is_ready("coat")
            assert not case.is_ready("late-coat")
            return
    pytest.fail("no coat with a latest time")
