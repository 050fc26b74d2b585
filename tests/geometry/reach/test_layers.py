"""Rows that lay plates flat on each other close nothing; rows that draw them round do."""

import pytest
from geometry.reach.net_sketches import box_at, overlay, pouch, rows_between, two_part_tube
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.net import reach_net
from armorplan.geometry.reach.rims import mouths
from armorplan.geometry.reach.shells import shell_cuts


def hanging(sketch):
    shell = next(iter(reach_net(sketch).shells.values()))
    rows = {row.id for row in shell.rows}
    held = Hanging(shell.rows, shell.formed, shell.closures)
    return held.is_shaped(shell.parts, rows), held.is_enclosed(shell.parts, rows)


@given(st.floats(60, 300), st.floats(60, 400), st.floats(0, 50), st.floats(0, 50), st.booleans())
@settings(max_examples=25, deadline=None)
def test_an_overlay_lies_flat_however_large_and_from_whichever_face_it_is_drawn(
    w, h, dx, dy, turn
):
    assert hanging(overlay(w, h, dx, dy, over_turned=turn)) == (False, False)


@given(st.floats(2, 30))
@settings(max_examples=10, deadline=None)
def test_an_overlay_too_narrow_for_its_plate_bulges(off):
    assert hanging(overlay(200.0, 200.0, 40.0, 20.0, off_mm=off)) == (True, True)


def test_two_staves_that_close_a_tube_are_a_ring():
    assert hanging(two_part_tube()) == (True, True)


def four_round_a_corner(short_mm):
    """Four plates of 100 mm on each other by 20 mm; at one row the holes are drawn too near."""
    plate = box_at(0.0, 0.0, 100.0, 100.0)
    along = [(90.0, 20.0), (90.0, 40.0), (90.0, 60.0)]
    start = [(10.0, y) for _, y in along]
    low, high = [(y, 90.0) for _, y in along], [(y, 10.0) for _, y in along]
    near = [(x - short_mm * at, y) for at, (x, y) in enumerate(along)]
    return rows_between(
        dict.fromkeys(("nw", "ne", "sw", "se"), plate),
        {
            "n": ("nw", along, "ne", start),
            "s": ("sw", near, "se", start),
            "w": ("nw", low, "sw", high),
            "e": ("ne", low, "se", high),
        },
    )


@pytest.mark.parametrize(("short_mm", "bent"), [(0.0, False), (10.0, True)])
def test_four_plates_round_a_corner_lie_flat_unless_a_row_is_drawn_too_near(short_mm, bent):
    assert hanging(four_round_a_corner(short_mm)) == (bent, bent)


@pytest.mark.parametrize("turned", [False, True])
@pytest.mark.parametrize("width", [150.0, 200.0, 400.0])
def test_plates_on_one_side_of_their_rows_leave_the_edges_of_both_open(width, turned):
    """Two like plates held along both long sides: neither edge is covered, so both are ways in."""
    (cut,) = shell_cuts(pouch(width, 420.0, 60.0, sides=2, turned=turned))
    edges = [mouth.rim.length_mm for mouth in mouths(cut)]
    assert edges == pytest.approx([2 * (width + 420.0)] * 2, rel=0.01)
