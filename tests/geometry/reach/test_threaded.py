"""What closes a keeper's loop sits behind the plate that the keeper goes through."""

from dataclasses import replace

import pytest
from rules.test_reach_on_sides import SHELF, TUBE, barred_steps

from armorplan.app.reach_ways import way_legs
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.marks import way_marks
from armorplan.geometry.reach.measuring import reach_measures
from armorplan.geometry.reach.model import Through
from armorplan.geometry.reach.threaded import threaded_spots
from armorplan.pattern.joining import Thread
from armorplan.pattern.parts import PartKind, Slot
from armorplan.rules.sketches import sketch_part, sketch_rivet

MIDDLE = (150.0, 350.0)


def slot(id_, y):
    x = MIDDLE[0]
    outline = ((x - 12.0, y - 2.0), (x + 12.0, y - 2.0), (x + 12.0, y + 2.0), (x - 12.0, y + 2.0))
    return Slot(id=id_, part="plate", outline=outline, length_mm=24.0, width_mm=4.0)


def with_keeper(pattern=TUBE, **thread):
    """A deep tube with a keeper through two slots in its middle, its ends riveted inside."""
    plate, *others = pattern.parts
    slots = (slot("above", MIDDLE[1] - 20.0), slot("below", MIDDLE[1] + 20.0))
    holes = {"k1": (8.0, 20.0), "k2": (72.0, 20.0)}
    keeper = sketch_part("keeper", kind=PartKind.KEEPER, holes=holes)
    threads = (Thread(id="loop", part="keeper", through=("above", "below"), **thread),)
    return replace(
        pattern,
        parts=(replace(plate, slots=slots), *others, keeper),
        joints=(*pattern.joints, sketch_rivet("ends", "k1", "k2")),
        threads=threads,
    )


@pytest.mark.parametrize("named", [{"closed_by": ("ends",)}, {}])
def test_it_sits_midway_between_the_slots(named):
    assert threaded_spots(with_keeper(**named)) == {"ends": (("plate", MIDDLE),)}


def test_a_tool_has_to_get_there_as_to_a_strap_at_the_same_place():
    pattern = with_keeper()
    reach = reach_of(pattern, SHELF)
    ends, strap = reach.net.access["ends"], reach.net.access["on"]
    assert ends.parts == ("plate",)
    assert [way.along_mm for way in ends.ways] == pytest.approx([w.along_mm for w in strap.ways])
    firsts = barred_steps(pattern)
    assert any(first.endswith("/ends") for first in firsts)
    assert any(first.endswith("/on") for first in firsts)


def test_it_is_told_and_its_way_is_drawn():
    pattern = with_keeper()
    reach = reach_of(pattern, SHELF)
    (shell,) = reach.net.shells.values()
    assert "ends" in {joint for m in reach_measures(pattern, SHELF) for joint in m.about}
    way = next(w for w in reach.net.access["ends"].ways if w.through is Through.ROW)
    assert way_legs(pattern, shell, "ends", way)[-1][2] == MIDDLE
    assert {mark.part for mark in way_marks(pattern, shell, "ends", way, None)} == {"plate"}


def test_what_sits_on_a_plate_itself_or_goes_through_a_keeper_only_is_left_as_it_is():
    pattern = with_keeper(closed_by=("row_3",))
    assert set(threaded_spots(pattern)) == {"ends"}
    (thread,) = with_keeper().threads
    through_keeper = replace(with_keeper(), threads=(replace(thread, through=("keeper",)),))
    assert threaded_spots(through_keeper) == {}
    assert "ends" not in reach_of(through_keeper, SHELF).net.access
