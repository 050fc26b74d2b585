"""What an exercise of a level is about: a strap, a row, a piece, all of it."""

import pytest
from app.drills.drill_sources import asked, source_of

from armorplan.practice.drill import MOST_STEPS, DrillKind, Level
from armorplan.practice.levels import (
    FEWEST_STEPS,
    SIZES,
    chance_of,
    mixed_topics,
    topics,
)


def found(name, level, **also):
    derived = source_of(name).derived
    return topics(derived.assembly, derived.work, asked(DrillKind.ORDER, 1, level, **also))


def test_sizes_grow_with_the_level_up_to_the_most_steps():
    bounds = [size for level in Level for size in SIZES[level]]
    assert bounds == sorted(bounds)
    assert bounds[0] == FEWEST_STEPS
    assert bounds[-1] == MOST_STEPS


def test_the_elbow_cop_has_its_straps_rows_and_itself():
    assert {one.title for one in found("elbow_cop", Level.STRAP)} == {
        "closing strap",
        "buckle strap",
        "keeper",
        "boss",
        "lace tab",
    }
    assert {one.title for one in found("elbow_cop", Level.ROW)} == {"left row", "right row"}
    (piece,) = found("elbow_cop", Level.PIECE)
    (whole,) = found("elbow_cop", Level.HARNESS)
    assert set(piece.steps) == set(whole.steps) == set(source_of("elbow_cop").derived.order)


@pytest.mark.parametrize("level", Level)
def test_what_is_its_own_is_among_its_steps(level):
    derived = source_of("three_lames").derived
    for topic in found("three_lames", level):
        assert topic.own <= set(topic.steps) <= set(derived.order)
        assert topic.own
        touched = {part for step in topic.steps for part in derived.work.step(step).parts}
        assert set(topic.parts) <= touched


def test_a_row_owns_what_sets_its_joints():
    (row,) = [one for one in found("elbow_cop", Level.ROW) if one.title == "left row"]
    joints = {j for step in row.own for j in source_of("elbow_cop").derived.work.step(step).joints}
    assert joints == {f"left_row_{n}" for n in range(1, 8)}


def test_a_part_is_meant_with_its_side_or_on_both():
    assert [one.id for one in found("arm_harness", Level.ROW, part="boss.left")] == ["boss.left"]
    both = found("arm_harness", Level.PIECE, part="boss")
    assert {one.id for one in both} == {"boss.left", "boss.right"}
    assert found("arm_harness", Level.ROW, part="nothing") == ()


def test_a_piece_is_kept_to_at_every_level():
    derived = source_of("arm_harness").derived
    for level in Level:
        for topic in found("arm_harness", level, piece="elbow"):
            assert {derived.assembly.part(part).part.piece for part in topic.parts} >= {"elbow"}
    assert {one.id for one in found("arm_harness", Level.ROW, piece="arm")}
    assert found("arm_harness", Level.ROW, piece="nothing") == ()


def test_chance_is_the_same_for_the_same_asked():
    one, same, other = (asked(DrillKind.ORDER, seed, Level.ROW) for seed in (1, 1, 2))
    assert chance_of(one).random() == chance_of(same).random() != chance_of(other).random()
    derived = source_of("elbow_cop").derived
    mixed = mixed_topics(derived.assembly, derived.work, one, chance_of(one))
    assert set(mixed) == set(topics(derived.assembly, derived.work, one))
