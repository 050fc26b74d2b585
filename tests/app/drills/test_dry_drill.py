"""'Dry yet?': what is right is sure, the catalogue alone would mislead, and the reason adds up."""

import re
from dataclasses import replace
from itertools import combinations

import pytest
from app.drills.dry_sets import DAMP, DRY, SEEDS, asked, every_sample, sets, source, steady
from orders.recovery.build_scenes import SAMPLES, derived_sample

from armorplan.app.derived import derive_build
from armorplan.app.drills.dry_airs import clock_words
from armorplan.app.drills.dry_cases import cases_of
from armorplan.app.drills.dry_race import goal_rung
from armorplan.app.drills.dry_words import hint_words
from armorplan.app.drills.setting import drill_for, judged, solved
from armorplan.app.drills.source import DrillSource
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import AnswerForm, Level
from armorplan.rules.sketches import sketch, sketch_part, sketch_treatment
from armorplan.workshop.shop import one_maker


@every_sample
@pytest.mark.parametrize("level", Level, ids=lambda level: level.name.lower())
def test_every_sample_holds_exercises_of_every_level(name, level):
    forms = set()
    for seed in SEEDS:
        drill = drill_for(source(name), asked(seed, level))
        assert drill is not None
        assert (
            len({choice.id for choice in drill.choices}) == len(drill.choices) >= 3 - (level > 2)
        )
        assert drill.cautions
        assert drill.hint
        assert drill.rules
        forms.add(drill.form)
    assert forms <= ({AnswerForm.ONE} if level < Level.PIECE else set(AnswerForm))


@every_sample
@pytest.mark.parametrize("level", Level, ids=lambda level: level.name.lower())
def test_just_one_answer_is_right(name, level):
    for seed in SEEDS[::2]:
        drill = drill_for(source(name), asked(seed, level))
        right = set(solved(source(name), drill).answer)
        ids = [choice.id for choice in drill.choices]
        sizes = (1,) if drill.form is AnswerForm.ONE else range(len(ids) + 1)
        for answer in (a for size in sizes for a in combinations(ids, size)):
            worth = judged(source(name), drill, answer)
            assert worth.right == (set(answer) == right)
            assert worth.nearest == solved(source(name), drill).answer
            if drill.form is AnswerForm.SOME:
                assert worth.distance == len(right ^ set(answer)) == len(worth.moved)
                assert worth.credit == pytest.approx(1 - worth.distance / len(ids))
            assert all(met.kept for met in worth.met) == worth.right


def test_the_hint_lets_one_reckon_when_it_is_ready():
    """The catalogue's time, times and divided by what the hint says, is the likely time."""
    seen = 0
    for name in SAMPLES:
        for found in sets(name):
            drill = drill_for(source(name), asked(0, Level.ROW))
            assert "Rule of thumb" in drill.hint
            factors = [hint_words(replace(found, looks=(look,))) for look in found.looks]
            for look, words in zip(found.looks, factors, strict=True):
                leather, air = re.findall(r"times ([\d.]+), divided by ([\d.]+)\.", words)[-1]
                goal = goal_rung(look)
                reckoned = look.case.catalogue_min(goal.stage) * float(leather) / float(air)
                assert reckoned == pytest.approx(look.span(goal).likely_min, rel=0.12, abs=1.1)
                seen += 1
    assert seen > 60


def test_the_same_answer_is_wrong_in_another_shop():
    """The shop's air counts in an exercise of its own air, and in those turned from it."""
    differ = 0
    for seed in SEEDS:
        here, there = (source("collar", steady(air)) for air in (DAMP, DRY))
        one, other = (drill_for(shop, asked(seed)) for shop in (here, there))
        assert one.given != other.given
        answers = [solved(here, one).answer, solved(there, other).answer]
        same = {c.id for c in one.choices} == {c.id for c in other.choices}
        differ += same and answers[0] != answers[1]
    assert differ


def test_oil_and_wax_are_not_asked_about():
    assert {c.entry.carrier.value for c in cases_of(derived_sample("collar"))} == {
        "water",
        "alcohol",
    }
    pattern = sketch(sketch_part("plate"), treatments=(sketch_treatment("light_oil", "plate"),))
    derived = derive_build(pattern, read_shelf(), one_maker("UTC"), build="p")
    assert all(drill_for(DrillSource(derived=derived), asked(1, lv)) is None for lv in Level)


@every_sample
def test_the_same_asked_makes_the_same_exercise(name):
    for level in Level:
        assert drill_for(source(name), asked(4, level)) == drill_for(source(name), asked(4, level))
    assert len({drill_for(source(name), asked(seed)).given for seed in SEEDS}) > 2


def test_the_hint_names_no_answer():
    for seed in SEEDS:
        drill = drill_for(source("collar"), asked(seed))
        assert not any(choice.title in drill.hint for choice in drill.choices)
        assert drill.hint.startswith(("Slower", "Faster", "Air and leather"))


@pytest.mark.parametrize(
    ("answer", "said"),
    [(("handle-with-care",), "is none of the choices"), ((), "Choose just one")],
    ids=["unknown", "none"],
)
def test_what_is_no_answer_is_refused_in_words(answer, said):
    drill = drill_for(source("collar"), asked(1))
    with pytest.raises(ArmorplanError, match=said):
        judged(source("collar"), drill, answer)


def test_an_exercise_of_other_air_is_not_judged():
    drill = drill_for(source("collar"), asked(1))
    with pytest.raises(ArmorplanError, match="Ask for another"):
        judged(source("collar", steady(DAMP)), drill, ("nothing",))


@pytest.mark.parametrize(
    ("minute", "now", "said"),
    [
        (545, 700, "09:05"),
        (545, 1440 + 60, "09:05 the day before"),
        (545, 2 * 1440, "09:05, 2 days before"),
        (1440 + 60, 545, "01:00 the next day"),
        (3 * 1440, 545, "00:00, 3 days later"),
    ],
    ids=["today", "yesterday", "two before", "tomorrow", "three later"],
)
def test_times_are_told_from_now(minute, now, said):
    assert clock_words(minute, now) == said
