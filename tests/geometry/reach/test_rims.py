"""Mouths of small shells in closed form, and that what hangs over is told from a real mouth."""

import pytest
from geometry.leather_sketches import part, pattern, rivet
from geometry.reach.net_sketches import tube

from armorplan.geometry.reach.rims import mouths
from armorplan.geometry.reach.shells import shell_cuts


def box_at(left, top, right, bottom):
    return ((left, top), (right, top), (right, bottom), (left, bottom))


def found(sketch):
    (cut,) = shell_cuts(sketch)
    return mouths(cut)


def lengths(sketch):
    return [mouth.rim.length_mm for mouth in found(sketch)]


def joined(base, over, on_base, on_over):
    one = part("base", base, {f"b{at}": spot for at, spot in enumerate(on_base)})
    other = part("over", over, {f"o{at}": spot for at, spot in enumerate(on_over)})
    joints = tuple(rivet(f"j{at}", f"b{at}", f"o{at}") for at in range(len(on_base)))
    return pattern(one, other, joints=joints)


@pytest.mark.parametrize("lap_mm", [0.0, 6.0, 12.0])
def test_a_tube_has_a_mouth_at_both_ends_laps_or_not(lap_mm):
    assert lengths(tube(180.0, 150.0, lap_mm)) == pytest.approx([180.0, 180.0], rel=0.005)


def test_a_patch_that_lies_wholly_on_a_plate_changes_no_mouth():
    patch = joined(
        box_at(0, 0, 200, 160), box_at(0, 0, 60, 40), [(90, 80), (110, 80)], [(20, 20), (40, 20)]
    )
    assert lengths(patch) == pytest.approx([2 * (200 + 160)])


def test_a_tab_flush_with_the_edge_leaves_the_mouth():
    """Of the base's edge one stretch is left, with its ends joined over the base: all the mouth."""
    tab = joined(
        box_at(0, 0, 200, 160), box_at(0, 0, 40, 40), [(90, 15), (110, 15)], [(10, 15), (30, 15)]
    )
    assert lengths(tab) == pytest.approx([2 * (200 + 160)], rel=0.01)


def test_the_tip_of_a_scale_below_the_base_is_no_mouth():
    scale = joined(
        box_at(0, 0, 200, 160), box_at(0, 0, 30, 60), [(95, 120), (105, 120)], [(10, 10), (20, 10)]
    )
    assert lengths(scale)[0] >= 2 * (200 + 160) - 30
    arcs = {arc.part for arc in found(scale)[0].arcs}
    assert "base" in arcs


def test_a_narrow_notch_that_a_plate_lies_across_stays_a_mouth():
    """Its end under the bar is too narrow to be a stretch of the bar's own edge."""
    notch = (
        (0, 0),
        (98.5, 0),
        (98.5, 60),
        (101.5, 60),
        (101.5, 0),
        (200, 0),
        (200, 160),
        (0, 160),
    )
    barred = joined(
        notch,
        box_at(0, 0, 60, 20),
        [(80, 10), (90, 10), (110, 10), (120, 10)],
        [(10, 10), (20, 10), (40, 10), (50, 10)],
    )
    kept = [round(length) for length in lengths(barred)]
    assert len(kept) == 2
    assert kept[1] == pytest.approx(2 * 40 + 3 + 3, abs=3)
