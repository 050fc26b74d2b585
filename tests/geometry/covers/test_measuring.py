"""Covers as measures: ghosts and zones, open holes, slots, straps' free ends, seam by seam."""

from dataclasses import replace
from math import dist

import pytest
from geometry.covers.test_covering import TAB, _boss, _joined, _plate, _strap_on_the_plate, _told
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.covers.covering import covered_heads
from armorplan.geometry.covers.measuring import cover_measures
from armorplan.geometry.marks import MarkKind
from armorplan.kernel.findings import Severity
from armorplan.pattern.joining import Joint, JointKind, Seam
from armorplan.pattern.parts import PartKind, Slot


def _measures(sketch):
    return {measure.id: measure for measure in cover_measures(sketch, shelf())}


def _corners(mark):
    return sorted(tuple(round(value, 6) for value in spot) for spot in mark.spots)


def test_a_cover_is_shown_where_it_comes_to_lie_on_the_part_beneath():
    """The boss's hole at (10, 10) lies on the plate's at (30, 30): all of it moves by (20, 20)."""
    found = _measures(pattern(_plate(), _boss(), TAB, joints=_joined()))["covers:boss:plate"]
    assert (found.title, found.verdict) == ("boss over plate", "hides 1 head")
    assert "It hides the head of 'tab_rivet' 100 %, which is set before it is fixed." in found.text
    ghost, zone = found.marks
    assert (ghost.kind, ghost.part, ghost.severity) == (MarkKind.GHOST, "plate", None)
    assert _corners(ghost) == sorted(box(60.0, 20.0, (20.0, 20.0)))
    assert (zone.kind, zone.label) == (MarkKind.ZONE, "100 %")
    assert all(dist(spot, (50.0, 30.0)) == pytest.approx(4.5, abs=0.01) for spot in zone.spots)
    assert found.findings == ()
    assert found.about == ("boss", "plate", "tab_rivet")


def test_a_ghost_of_a_turned_boss_lies_where_the_holes_meet():
    spots = {"b1": (310.0, 450.0), "b2": (310.0, 410.0)}
    turned = part("boss", box(20.0, 60.0, (300.0, 400.0)), spots, kind=PartKind.TRIM)
    found = _measures(pattern(_plate(), turned, TAB, joints=_joined()))["covers:boss:plate"]
    assert _corners(found.marks[0]) == sorted(box(60.0, 20.0, (20.0, 20.0)))


def test_a_cover_that_hides_nothing_is_told_as_sound():
    found = _measures(pattern(_plate(), _boss(), joints=_joined()[:2]))["covers:boss:plate"]
    assert found.verdict == "hides 1 open hole"
    plate = part("plate", box(100.0, 100.0), {"p1": (30.0, 30.0), "p2": (70.0, 30.0)})
    (found,) = _measures(pattern(plate, _boss(), joints=_joined()[:2])).values()
    assert (found.verdict, found.severity) == ("hides nothing", None)
    assert found.text.endswith("no open hole that is still to be reached: boss over plate.")


def test_an_open_hole_under_a_cover_is_a_note():
    (found,) = _told(pattern(_plate(), _boss(), joints=_joined()[:2]), "hole-covered")
    assert found.severity is Severity.NOTE
    assert found.text == (
        "Boss hides the open hole 'under' 100 % in plate: once it is fixed, nobody reaches it."
    )
    assert found.about == ("boss", "plate", "under")


@pytest.mark.parametrize("kind", [JointKind.LACE, JointKind.STITCH])
def test_a_hole_that_is_laced_at_the_end_is_an_open_one(kind):
    laced = Joint(id="lace", kind=kind, stack=("under", "far"))
    sketch = pattern(_plate(), _boss(), joints=(*_joined()[:2], laced))
    told = [f.about[-1] for f in _told(sketch, "hole-covered")]
    assert told == (["under"] if kind is JointKind.LACE else [])


def test_what_shows_through_a_hole_or_slot_of_the_cover_is_not_hidden():
    through = _boss({"b1": (10.0, 10.0), "b2": (50.0, 10.0), "over": (30.0, 10.0)})
    assert _told(pattern(_plate(), through, joints=_joined()[:2]), "hole-covered") == []
    slot = Slot(
        id="s", part="boss", outline=box(14.0, 14.0, (23.0, 3.0)), length_mm=14.0, width_mm=14.0
    )
    slotted = replace(_boss(), slots=(slot,))
    assert covered_heads(pattern(_plate(), slotted, TAB, joints=_joined()), shelf()) == ()


def test_the_free_end_of_a_strap_beneath_is_drawn_out_from_under_its_cover():
    """Two rivets at one end hold a strap under a plate; its tongue holes lie beyond them."""
    holes = {"s1": (10.0, 10.0), "s2": (30.0, 10.0), "tongue": (80.0, 10.0), "near": (20.0, 10.0)}
    strap = part("strap", box(120.0, 20.0), holes, kind=PartKind.STRAP)
    plate = part("plate", box(200.0, 100.0), {"p1": (20.0, 50.0), "p2": (40.0, 50.0)})
    joints = (rivet("one", "p1", "s1"), rivet("two", "p2", "s2"))
    (found,) = _told(pattern(strap, plate, joints=joints), "hole-covered")
    assert found.about == ("plate", "strap", "near")
    as_plate = replace(strap, kind=PartKind.TRIM)
    (both,) = _told(pattern(as_plate, plate, joints=joints), "hole-covered")
    assert both.about == ("plate", "strap", "tongue", "near")


def _ring_of_two(*seams):
    """A plate 60 mm apart in its two rows, on one whose rows lie 100 mm apart: a ring of two.

    No one place fits both rows (they miss by 10 mm each way), but each row fits by itself.
    """
    rows = {f"{side}{n}": (x, 20.0 * n) for side, x in (("l", 10.0), ("r", 70.0)) for n in (1, 2)}
    outer = part("outer", box(80.0, 60.0), rows)
    wide = {
        f"w{side}{n}": (x, 20.0 * n) for side, x in (("l", 10.0), ("r", 110.0)) for n in (1, 2)
    }
    inner = part("inner", box(120.0, 60.0), {**wide, "hid": (104.0, 30.0), "free": (60.0, 30.0)})
    tab = part("tab", box(60.0, 20.0), {"t": (10.0, 10.0)})
    joints = (
        *(rivet(f"{side}{n}", f"{side}{n}", f"w{side}{n}") for side in "lr" for n in (1, 2)),
        rivet("tab_rivet", "hid", "t"),
    )
    named = tuple(Seam(id=s, name=s, joints=(f"{s}1", f"{s}2")) for s in seams)
    return pattern(outer, inner, tab, joints=joints, seams=named)


def test_each_seam_of_a_ring_places_what_lies_nearest_to_it():
    """By its own row the outer plate's edge reaches 10 mm beyond the row and 70 mm inward."""
    by_seams = covered_heads(_ring_of_two("l", "r"), shelf())
    assert by_seams == (("outer", "tab_rivet", 100.0),)
    assert covered_heads(_ring_of_two(), shelf()) == (), "one place for all misses by 20 mm"


def test_rows_that_one_place_fits_are_not_taken_apart():
    boss = _boss({"b1": (10.0, 10.0), "b2": (50.0, 10.0)})
    plain = pattern(_plate(), boss, TAB, joints=_joined())
    seams = tuple(Seam(id=j.id, name=j.id, joints=(j.id,)) for j in plain.joints)
    assert covered_heads(replace(plain, seams=seams), shelf()) == covered_heads(plain, shelf())


def test_holes_in_one_spot_place_nothing():
    spots = {"b1": (10.0, 10.0), "b2": (10.0, 10.0)}
    assert covered_heads(pattern(_plate(), _boss(spots), TAB, joints=_joined()), shelf()) == ()


def test_the_question_which_lies_outside_is_shown_on_the_part_beneath():
    found = _measures(_strap_on_the_plate())["covers:boss+strap"]
    assert (found.title, found.verdict) == ("boss and strap on plate", "which lies outside?")
    assert {mark.part for mark in found.marks} == {"plate"}
    assert [mark.kind for mark in found.marks] == [MarkKind.GHOST, MarkKind.ZONE]
    assert found.figures[0].value == 100.0


def test_what_a_part_hides_by_word_alone_is_told_as_that():
    tab = replace(TAB, hides=("boss_left",))
    boss = replace(_boss(), hides=("tab_rivet",))
    found = _measures(pattern(_plate(), boss, tab, joints=_joined()))
    assert "covers:boss" not in found, "its outline shows it"
    assert found["covers:tab"].verdict == "hides 1 head"
    assert found["covers:tab"].text == (
        "Tab hides the head of 'boss_left' because the pattern says so (hides); the shapes do not "
        "show it."
    )
