"""What is asked of drying: nothing is a toss-up, and no rule of one line gives the answer."""

from collections import Counter

import pytest
from app.drills.dry_sets import SEEDS, asked, every_sample, pairs, sets, source
from orders.recovery.build_scenes import derived_sample

from armorplan.app.drills.dry_airs import airs_of
from armorplan.app.drills.dry_race import BOTH, first_ready, goal_rung
from armorplan.app.drills.dry_setting import set_of
from armorplan.app.drills.setting import drill_for, judged
from armorplan.app.drills.source import DrillSource
from armorplan.practice.drill import Level


@every_sample
def test_neither_all_nor_none_nor_the_first_is_always_right(name):
    several = [s for s in sets(name) if s.level >= Level.PIECE]
    assert all(0 < len(s.right) < len(s.looks) for s in several)
    one = [s for s in sets(name) if s.level is Level.STRAP]
    assert len({s.right for s in one}) > 1


@every_sample
def test_of_several_the_catalogue_s_time_misleads_and_nothing_is_a_toss_up(name):
    for found in sets(name):
        if found.level is Level.STRAP:
            look = found.looks[0]
            assert look.rung() == found.right[0]
        elif found.level >= Level.PIECE:
            wrong = 0
            for look in found.looks:
                rung = look.rung()
                assert rung is not None
                is_ready = look.case.is_ready(rung)
                assert is_ready == (look.case.step.id in found.right)
                wrong += look.case.is_ready(look.catalogue_rung()) is not is_ready
            assert wrong
        for look in found.looks if found.level is not Level.ROW else ():
            for rung in look.case.rungs[1:]:
                span = look.span(rung)
                inside = span.soonest_min <= look.passed_min < (span.latest_min or 10**9)
                assert not inside


OF_ONE = range(40)
SLOW, FAST = ("Damp", "Cold"), ("Warm", "Hot")


def place_by_eye(look):
    """Return the rung that one would take who reckons nothing: the catalogue's, one up or down by the air."""
    told, said = look.case.place(look.catalogue_rung()), look.air.said
    shift = said.startswith(FAST) - said.startswith(SLOW)
    return min(max(told + shift, 0), len(look.case.rungs) - 1)


@every_sample
def test_of_one_thing_neither_the_catalogue_nor_a_glance_at_the_air_gives_the_answer(name):
    derived = derived_sample(name)
    off, by_eye, airs = Counter(), 0, set()
    for seed in OF_ONE:
        found = set_of(derived, asked(seed))
        look = found.looks[0]
        place = look.case.place(found.right[0])
        off[abs(place - look.case.place(look.catalogue_rung()))] += 1
        by_eye += place_by_eye(look) == place
        airs.add(look.air.said)
        drill = drill_for(DrillSource(derived=derived), asked(seed))
        assert judged(DrillSource(derived=derived), drill, found.right).right
    assert 0.2 < off[0] / len(OF_ONE) < 0.5
    assert off[2] >= 2
    assert 0.35 < by_eye / len(OF_ONE) < 0.75
    assert len(airs) == len(airs_of(derived.shop.room))
    assert any(air.said in airs for air in airs_of(derived.shop.room) if air.is_own)


@pytest.mark.parametrize("name", ["collar", "elbow_cop", "arm_harness"])
def test_of_two_now_and_then_none_is_first(name):
    found = pairs(name)
    level = [pair for pair in found if pair.right == (BOTH,)]
    assert 2 <= len(level) <= len(found) / 2
    for pair in level:
        one, other = pair.looks
        lasts = [look.span(goal_rung(look)).likely_min for look in pair.looks]
        ends = [look.start_min + each for look, each in zip(pair.looks, lasts, strict=True)]
        assert abs(ends[0] - ends[1]) <= 0.05 * max(lasts)
        thick = one.case.body.thickness_mm, other.case.body.thickness_mm
        assert thick[0] != thick[1] or one.start_min != other.start_min
        assert first_ready(one, other) is None
    drill = drill_for(source(name), asked(found.index(level[0]), Level.ROW))
    told = judged(source(name), drill, (BOTH,))
    assert told.right
    assert "both are ready at about the same time" in told.sentence
    assert "within 10 % of the longer drying" in drill.given[-1]
    assert not judged(source(name), drill, (drill.choices[0].id,)).right


@pytest.mark.parametrize("name", ["collar", "elbow_cop", "arm_harness"])
def test_of_two_that_differ_in_thickness_it_is_asked_which_is_first(name):
    found = [s for s in pairs(name) if s.right != (BOTH,)]
    assert found
    firsts = set()
    for pair in found:
        one, other = pair.looks
        assert one.case.body.thickness_mm != other.case.body.thickness_mm
        assert one.case.entry == other.case.entry
        assert first_ready(one, other) == first_ready(other, one) == pair.right[0]
        ends = {
            look.case.step.id: look.start_min + look.span(goal_rung(look)).likely_min
            for look in pair.looks
        }
        assert min(ends, key=ends.__getitem__) == pair.right[0]
        thin = min(pair.looks, key=lambda look: look.case.body.thickness_mm)
        firsts.add(thin.case.step.id == pair.right[0])
        drill = drill_for(source(name), asked(0, Level.ROW))
    assert BOTH in {choice.id for choice in drill.choices}
    if name != "elbow_cop":
        assert firsts == {True, False}


@pytest.mark.parametrize("rule", ["damp-window", "dry-between-coats", "clean-before-dye"])
def test_the_rule_that_is_asked_for_is_needed(rule):
    for level in Level:
        assert rule in drill_for(source("collar"), asked(3, level, focus=rule)).rules


def test_a_piece_and_a_part_do_not_give_way():
    derived = derived_sample("arm_harness")
    for level in Level:
        drill = drill_for(source("arm_harness"), asked(2, level, piece="upper_arm"))
        steps = [step for choice in drill.choices for step in choice.steps]
        assert {derived.work.step(step).piece for step in steps} == {"upper_arm"}
    drill = drill_for(source("collar"), asked(2, part="front_plate"))
    assert "front_plate" in drill.parts
    assert drill_for(source("collar"), asked(2, part="no_such_part")) is None


@every_sample
def test_all_that_is_wet_may_be_wet_at_one_time(name):
    derived = derived_sample(name)
    for seed in SEEDS:
        drill = drill_for(source(name), asked(seed, Level.HARNESS))
        wet = {
            step.after or step.id
            for c in drill.choices
            for s in c.steps
            if (step := derived.work.step(s))
        }
        assert wet <= set(drill.done)
        place = [derived.place[step] for step in drill.done]
        assert place == sorted(place)


@pytest.mark.parametrize("name", ["collar", "elbow_cop"])
def test_of_two_neither_was_wet_long_before_the_other_nor_is_its_window_over(name):
    derived = derived_sample(name)
    looked = 0
    for seed in range(31):
        found = set_of(derived, asked(seed, Level.ROW))
        if found.level is not Level.ROW:
            continue
        looked += 1
        goals = [(look, goal_rung(look)) for look in found.looks]
        apart = abs(found.looks[0].start_min - found.looks[1].start_min)
        assert apart <= max(look.case.catalogue_min(rung.stage) for look, rung in goals)
        for look, rung in goals:
            for later in look.case.rungs[look.case.place(rung.id) + 1 :]:
                over = look.span(later).likely_min
                is_late = later.id in ("too-dry", "late-coat")
                assert not is_late or over is None or look.passed_min < over
    assert looked > 20
