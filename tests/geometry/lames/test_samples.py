"""The samples' chains of lames: sound as they are, and every fault planted in them named once."""

from dataclasses import replace

import pytest
from geometry.lame_sketches import moved

from armorplan.files.catalogue import read_shelf
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.lames.measuring import lame_measures
from armorplan.kernel.shipped import samples_folder
from armorplan.pattern.choosing import settled

SHELF = read_shelf()


def sample(name):
    return settled(read_pattern(read_folder(samples_folder() / name), SHELF).pattern)


ARM, THREE = sample("arm_harness"), sample("three_lames")


def told(pattern):
    return [f for measure in lame_measures(pattern, SHELF) for f in measure.findings]


def in_each_others_places(pattern, one, other):
    """Return a pattern in which two lames have each other's outline and holes."""

    def takes(mine, theirs):
        spots = {hole.id.removeprefix(theirs.id): hole.centre for hole in theirs.holes}
        holes = (replace(h, centre=spots[h.id.removeprefix(mine.id)]) for h in mine.holes)
        return replace(mine, outline=theirs.outline, holes=tuple(holes))

    a, b = pattern.part(one), pattern.part(other)
    new = {one: takes(a, b), other: takes(b, a)}
    return replace(pattern, parts=tuple(new.get(part.id, part) for part in pattern.parts))


@pytest.mark.parametrize("pattern", [ARM, THREE], ids=["arm harness", "three lames"])
def test_they_are_sound(pattern):
    assert [str(finding) for finding in told(pattern)] == []


@pytest.mark.parametrize(
    "pair",
    [("second_lame", "third_lame"), ("top_lame", "second_lame"), ("top_lame", "third_lame")],
)
def test_two_lames_of_the_arm_swapped_are_named_and_nothing_else(pair):
    (found,) = told(in_each_others_places(ARM, *pair))
    assert found.code == "lames-swapped"
    assert set(found.about) == set(pair)


@pytest.mark.parametrize("by_mm", [4.0, -4.0])
@pytest.mark.parametrize(
    ("pattern", "hole"),
    [
        (ARM, "second_lame_out_near"),
        (ARM, "third_lame_in_far"),
        (ARM, "lower_pivot_far"),
        (THREE, "top_pivot_near"),
        (THREE, "cop_lower_far"),
        (THREE, "middle_top_far"),
    ],
)
def test_a_pivot_4_mm_off_is_named_alone(pattern, hole, by_mm):
    (found,) = told(moved(pattern, **{hole: (0.0, by_mm)}))
    assert found.code == "pivot-off-axis"
    assert f"The pivot '{hole}'" in found.text
    assert f"Move '{hole}' 4.0 mm" in found.remedy


def test_a_shallow_cop_opens_and_says_by_how_much():
    cop = THREE.part("cop")
    middle = sum(y for _, y in cop.outline) / len(cop.outline)
    low = middle - 37.0
    flat = tuple((x, max(y, low)) for x, y in cop.outline)
    parts = tuple(replace(p, outline=flat) if p.id == "cop" else p for p in THREE.parts)
    found = told(replace(THREE, parts=parts))
    assert [f.code for f in found] == ["lame-gap-opens"]
    assert "cop" in found[0].text


def test_bent_further_than_it_was_drawn_for_a_harness_says_what_stops_it():
    (movement,) = ARM.movements
    further = replace(ARM, movements=(replace(movement, angle_deg=movement.angle_deg + 60),))
    codes = {finding.code for finding in told(further)}
    assert codes >= {"slot-too-short", "inner-leather-too-short"}
