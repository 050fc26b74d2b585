"""A number, a kind, a level and a piece make one exercise, whatever it was chosen for."""

from dataclasses import replace

import pytest
from app.drills.drill_sources import source_of

from armorplan.app.drills.numbering import number_of, numbered
from armorplan.app.drills.setting import drill_for
from armorplan.kernel.errors import ArmorplanError
from armorplan.practice.drill import NUMBERED, Asked, DrillKind, Level
from armorplan.practice.reason_names import POST_LENGTH
from armorplan.rules.registry import all_rules

PLAIN = Asked(kind=DrillKind.ORDER, seed=12, level=Level.STRAP, piece="elbow_cop")
CODES = [*sorted(rule.code for rule in all_rules()), POST_LENGTH]


@pytest.fixture(scope="module")
def source():
    return source_of("elbow_cop")


def again(derived, asked):
    """What is asked for by the number alone, with kind, level and piece beside it."""
    like = Asked(kind=asked.kind, seed=1, level=asked.level, piece=asked.piece)
    return numbered(derived, number_of(derived, asked), like)


def test_an_exercise_for_no_reason_is_numbered_by_its_seed(source):
    assert number_of(source.derived, PLAIN) == 12
    assert numbered(source.derived, 12, replace(PLAIN, seed=1, focus="pack-last")) == PLAIN


def test_each_reason_has_numbers_of_its_own(source):
    every = {number_of(source.derived, replace(PLAIN, focus=code)) for code in CODES}
    assert len(every) == len(CODES)
    assert all(number % NUMBERED == PLAIN.seed < NUMBERED < number for number in every)


@pytest.mark.parametrize("code", CODES)
def test_the_number_asks_for_the_same_reason_again(source, code):
    asked = replace(PLAIN, focus=code)
    assert again(source.derived, asked) == asked


def test_the_number_makes_the_very_exercise_that_was_chosen_for_a_reason(source):
    asked = replace(PLAIN, focus="dye-oil-finish", level=Level.ROW)
    chosen = drill_for(source, asked)
    assert drill_for(source, again(source.derived, asked)) == chosen
    # By its seed alone it is another one: what it was chosen for is part of what it is.
    assert drill_for(source, replace(asked, focus="")).choices != chosen.choices


@pytest.mark.parametrize("number", [-1, 99 * NUMBERED, 9_999_999])
def test_a_number_that_no_exercise_has_is_told(source, number):
    with pytest.raises(ArmorplanError, match="There is no exercise"):
        numbered(source.derived, number, PLAIN)
