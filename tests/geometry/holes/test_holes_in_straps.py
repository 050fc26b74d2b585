"""Holes near edges: in straps, where there is no more room inward; and many of them told as one."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet, shelf

from armorplan.geometry.holes.measuring import hole_measures
from armorplan.geometry.widths import width_mm
from armorplan.pattern.parts import PartKind, Slot


def hole_findings(sketch):
    return [found for each in hole_measures(sketch, shelf()) for found in each.findings]


def _strap(spot, *, width_mm=16.0, kind=PartKind.STRAP, diameter_mm=4.0, slots=()):
    """A strap riveted through three layers of 3.2 mm, whose stack asks for 8 mm."""
    outline = box(160.0, width_mm)
    strap = part("strap", outline, {"h": spot}, kind=kind, diameter_mm=diameter_mm, slots=slots)
    plates = [part(p, box(90, 90), {f"{p}1": (45, 45)}, diameter_mm=4.0) for p in ("up", "low")]
    joints = (rivet("j", "h", "up1", "low1"),)
    return pattern(strap, *plates, joints=joints)


@pytest.mark.parametrize("kind", [PartKind.STRAP, PartKind.KEEPER, PartKind.PLATE])
@pytest.mark.parametrize("across_mm", [8.0, 7.1, 8.9])
def test_in_the_middle_of_a_strap_there_is_no_better_place(kind, across_mm):
    """A bare drawing knows only plates: one that is long and narrow is judged as a strap."""
    assert not list(hole_findings(_strap((40.0, across_mm), kind=kind)))


def test_beside_the_middle_it_is_told_how_far_the_middle_is():
    (found,) = hole_findings(_strap((40.0, 4.5), width_mm=14.0))
    assert "lies 4.5 mm from the nearest edge; 7.0 mm is the middle" in found.text
    assert found.remedy == "Move it 2.5 mm to the middle, or widen strap there."


def test_the_end_of_a_strap_asks_for_all_of_it():
    """8–10 mm is usual at a strap's end (common practice, from memory)."""
    assert not list(hole_findings(_strap((8.0, 8.0))))
    (found,) = hole_findings(_strap((6.5, 8.0)))
    assert "lies 6.5 mm from the nearest edge; 8.0 mm is the least" in found.text
    assert found.remedy.startswith("Move it 1.5 mm inward")


def test_nearer_by_less_than_leather_is_marked_is_no_matter():
    """Two diameters of 4 mm are 8 mm; half a millimetre is made up by punch and leather."""
    assert not list(hole_findings(_strap((7.6, 8.0))))
    assert list(hole_findings(_strap((7.4, 8.0))))


@pytest.mark.parametrize(
    ("diameter_mm", "stack_mm", "rule"),
    [
        (4.5, 5.0, "2 × its diameter of 4.5 mm"),
        (3.0, 4.8, "1.5 × the stack of 4.8 mm"),
        (3.0, 7.0, "what a stack of 7.0 mm asks for"),
        (2.5, 3.0, "the least in any leather"),
    ],
)
def test_the_rule_that_asks_is_told_with_its_numbers(diameter_mm, stack_mm, rule):
    layers = [
        part(p, box(90, 90), {f"{p}1": (45, 45)}, diameter_mm=diameter_mm) for p in ("a", "b")
    ]
    near = part("near", box(90, 90), {"h": (4.0, 45)}, diameter_mm=diameter_mm)
    thick = [replace(each, thickness_mm=stack_mm / 3) for each in (near, *layers)]
    found = hole_findings(pattern(*thick, joints=(rivet("j", "h", "a1", "b1"),)))
    (text,) = [each.text for each in found if each.code == "hole-near-edge"]
    assert text.endswith(f"mm is the least: {rule}.")


def test_a_slot_ahead_is_an_end():
    slot = Slot(id="s", part="strap", outline=box(16, 4, (46, 6)), length_mm=16, width_mm=4)
    (found,) = hole_findings(_strap((40.0, 8.0), slots=(slot,)))
    assert "lies 6.0 mm from" in found.text


def test_a_hole_wider_than_half_a_strap_is_told_in_the_middle_too():
    assert not list(hole_findings(_strap((40.0, 4.0), width_mm=8.0)))
    (found,) = hole_findings(_strap((40.0, 3.0), width_mm=6.0))
    assert "lies 3.0 mm from the nearest edge; 4.0 mm" in found.text


@pytest.mark.parametrize("kind", [PartKind.LAME, PartKind.COP, PartKind.TRIM])
def test_other_parts_are_to_be_widened(kind):
    assert list(hole_findings(_strap((40.0, 7.0), width_mm=14.0, kind=kind)))


def test_a_strap_s_width_is_measured_where_it_is_asked_for_along_any_direction():
    taper = ((0, 0), (100, 0), (160, 8), (100, 16), (0, 16))
    strap = part("strap", taper, {}, kind=PartKind.STRAP)
    turned = replace(strap, outline=tuple((y + 300, -x) for x, y in taper))
    for each, spot in ((strap, (130.0, 8.0)), (turned, (308.0, -130.0))):
        assert width_mm(each) == pytest.approx(16.0)
        assert width_mm(each, spot) == pytest.approx(8.0)


def test_all_holes_of_a_part_are_told_at_once_the_worst_first():
    spots = {f"h{n}": (20.0 + 14 * n, 1.0 + 0.5 * n) for n in range(7)}
    (found,) = hole_findings(pattern(part("plate", box(140, 80), spots)))
    assert found.text == (
        "7 holes in plate lie nearer to an edge than is the least for their size and stack, in "
        "brackets: 'h0' 1.0 mm (7.0), 'h1' 1.5 mm (7.0), 'h2' 2.0 mm (7.0), 'h3' 2.5 mm (7.0), "
        "'h4' 3.0 mm (7.0) and 2 more."
    )
    assert found.remedy == "Move them 6.0 mm inward at most, or widen plate there."
    assert found.about == ("plate", *spots)


def test_pairs_too_close_are_told_at_once_and_counted_up_to_a_limit():
    few = {f"h{n}": (20.0 + 9 * n, 40.0) for n in range(3)}
    (found,) = hole_findings(pattern(part("plate", box(140, 80), few)))
    assert found.text == (
        "2 pairs of holes in plate are less than three diameters apart: "
        "'h0' and 'h1' 9.0 mm apart and 'h1' and 'h2' 9.0 mm apart."
    )
    many = {f"h{n}": (20.0 + 0.1 * n, 40.0) for n in range(30)}
    (found,) = hole_findings(pattern(part("plate", box(140, 80), many)))
    assert found.text.startswith("More than 50 pairs of holes in plate")
