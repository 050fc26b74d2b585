"""A strap folded round a bar lies on itself: the holes on both sides of the buckle's slot meet."""

from geometry.leather_sketches import box, part

from armorplan.geometry.matching.model import Meeting
from armorplan.geometry.matching.suggesting import suggested
from armorplan.pattern.parts import Slot


def slot(x):
    ring = ((x - 10, 7.5), (x + 10, 7.5), (x + 10, 12.5), (x - 10, 12.5))
    return Slot(id="tongue", part="tab", outline=ring, length_mm=20.0, width_mm=5.0)


def holes(*xs):
    return {f"h{at}": (x, 10.0) for at, x in enumerate(xs)}


def folds(*parts, taken=()):
    found = suggested(parts, taken=taken)
    return [(m.first, m.second, m.pairs) for m in found if m.meeting is Meeting.HOLE]


def test_the_holes_beside_a_buckle_s_slot_meet():
    tab = part("tab", box(116.0, 20.0), holes(10.0, 34.0, 56.0, 104.0), slots=(slot(80.0),))
    assert folds(tab) == [("tab", "tab", (("h2", "h3"),))]
    (why,) = (m.why for m in suggested([tab]) if m.meeting is Meeting.HOLE)
    assert "once the strap is folded back on itself" in why
    assert folds(tab, taken={"h3"}) == []


def test_a_slot_out_of_the_middle_folds_nothing():
    tab = part("tab", box(116.0, 20.0), holes(10.0, 34.0, 56.0, 104.0), slots=(slot(70.0),))
    assert folds(tab) == []


def test_a_keeper_s_ends_meet():
    keeper = part("tab", box(98.0, 14.0), {"a": (9.0, 7.0), "b": (89.0, 7.0)})
    assert folds(keeper) == [("tab", "tab", (("a", "b"),))]


def test_a_plate_is_no_keeper():
    assert folds(part("plate", box(98.0, 60.0), {"a": (9.0, 30.0), "b": (89.0, 30.0)})) == []
