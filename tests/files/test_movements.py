"""Movements as the pattern writes them: read whole, and every fault told with its line and mend."""

import pytest
from files.every_word import TOML, errors, read_leg, warnings, with_words

from armorplan.pattern.moving import Movement

PARTS = 'parts = ["thigh_plate", "upper_lame", "cop"]'
SHARES = "shares_deg = [20, 80]"
ANGLE = "angle_deg = 100"


def test_a_movement_is_read_whole():
    assert read_leg().pattern.movements == (
        Movement(
            id="knee_bend",
            name="the knee bends",
            parts=("thigh_plate", "upper_lame", "cop"),
            angle_deg=100.0,
            shares_deg=(20.0, 80.0),
            notes="Sitting on a low stool.",
            only_with=("look.decorated", "look.plain"),
        ),
    )


def test_without_shares_all_turn_alike():
    (movement,) = with_words((SHARES, "")).pattern.movements
    assert movement.shares_deg == ()
    assert movement.turns_deg == (50.0, 50.0)


@pytest.mark.parametrize(
    ("old", "new", "code", "mend"),
    [
        (PARTS, 'parts = ["thigh_plate", "upper_lam", "cop"]', "unknown-id", "upper_lame"),
        (PARTS, 'parts = ["thigh_plate", "cop", "cop"]', "named-twice", "Name it once"),
        (PARTS, 'parts = ["cop"]', "movement-of-one-part", "from its upper to its lower end"),
        (PARTS, "parts = []", "empty-list", "at least one"),
        (PARTS, "", "missing-key", "Add parts"),
        (SHARES, "shares_deg = [20, 70]", "shares-do-not-sum", "one for each pair"),
        (SHARES, "shares_deg = [100]", "wrong-value", "a list of 2 numbers"),
        (SHARES, "shares_deg = [-20, 120]", "wrong-value", "at least 0"),
        (ANGLE, "angle_deg = 0", "wrong-value", "above 0"),
        (ANGLE, "angle_deg = 361", "wrong-value", "at most 360"),
        (ANGLE, 'angle_deg = "100"', "wrong-value", "a number"),
        (ANGLE, "", "missing-key", "angle_deg"),
        (ANGLE, "angle_deg = 100\nbends_deg = 100", "unknown-key", ""),
    ],
)
def test_every_fault_has_its_line_and_remedy(old, new, code, mend):
    found = with_words((old, new))
    told = [f for f in (*errors(found), *warnings(found)) if f.code == code]
    assert len(told) == 1
    assert mend in told[0].remedy
    table = TOML[: TOML.index("[movements.knee_bend]")].count("\n") + 1
    assert table <= told[0].place.line <= table + 7


def test_all_faults_of_a_movement_are_told_at_once():
    found = with_words(
        (PARTS, 'parts = ["thigh", "upper_lame", "upper_lame"]'),
        (ANGLE, "angle_deg = -1"),
        ('name = "the knee bends"\n', ""),
    )
    codes = {f.code for f in errors(found)}
    assert {"unknown-id", "named-twice", "wrong-value", "missing-key"} <= codes


def test_shares_need_not_rise():
    (movement,) = with_words((SHARES, "shares_deg = [80, 20]")).pattern.movements
    assert movement.shares_deg == (80.0, 20.0)


def test_neighbours_without_a_pivot_are_a_warning_that_names_them():
    found = with_words((PARTS, 'parts = ["upper_lame", "thigh_plate", "cop"]'))
    assert found.pattern is not None
    (told,) = warnings(found)
    assert told.code == "movement-without-pivot"
    assert '"thigh_plate" and "cop"' in told.text
    assert "knee_bend" in told.text
    assert "turning" in told.remedy


def test_a_pivot_that_is_not_drawn_is_told_alone():
    found = with_words(
        ('stack = ["lame_pivot", "cop_pivot"]', 'stack = ["lame_pivo", "cop_pivot"]')
    )
    assert errors(found)
    assert "movement-without-pivot" not in {f.code for f in found.findings}
