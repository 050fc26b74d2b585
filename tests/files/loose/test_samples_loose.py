"""The samples' own drawings, read as if nothing were written beside them."""

import pytest

from armorplan.files.catalogue import read_shelf
from armorplan.files.loose.reading import read_loose
from armorplan.files.pattern_reader import read_pattern
from armorplan.files.source import read_folder
from armorplan.geometry.brought.model import ShapeKind
from armorplan.geometry.brought.sorting import sorted_out
from armorplan.kernel.shipped import samples_folder


@pytest.mark.parametrize(
    "name",
    [
        "collar",
        "elbow_cop",
        "three_lames",
        pytest.param("arm_harness", marks=pytest.mark.long),
    ],
)
def test_parts_holes_and_slots_are_those_of_the_pattern(name):
    folder = samples_folder() / name
    pattern = read_pattern(read_folder(folder), read_shelf()).pattern
    found = sorted_out(read_loose(folder / f"{name}.svg"), mm_each=1.0)
    inside = {part.id: {"hole": 0, "slot": 0} for part in pattern.parts}
    assert inside.keys() == {s.key for s in found.shapes if s.kind is ShapeKind.PART}
    for shape in found.shapes:
        if shape.kind in {ShapeKind.HOLE, ShapeKind.SLOT}:
            inside[shape.inside][shape.kind.value] += 1
    for part in pattern.parts:
        # A hole in which a rivet slides is drawn as a slot.
        sliding = sum(hole.travel_mm > 0 for hole in part.holes)
        assert inside[part.id] == {
            "hole": len(part.holes) - sliding,
            "slot": len(part.slots) + sliding,
        }
