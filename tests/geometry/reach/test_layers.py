"""Rows that lay plates flat on each other close nothing; rows that draw them round do."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import part, pattern, rivet
from geometry.reach.net_sketches import box_at, two_part_tube
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.lying_flat import Hanging
from armorplan.geometry.reach.net import reach_net
from armorplan.pattern.joining import Seam


def rows_between(plates, rows):
    """Plates with rows by name: (plate, spots, other plate, spots)."""
    holes = {plate: {} for plate in plates}
    joints, seams = [], []
    for name, (one, here, other, there) in rows.items():
        made = []
        for at, (a, b) in enumerate(zip(here, there, strict=True)):
            holes[one][f"{name}{at}_a"] = a
            holes[other][f"{name}{at}_b"] = b
            made.append(rivet(f"{name}{at}", f"{name}{at}_a", f"{name}{at}_b"))
        joints += made
        seams.append(Seam(id=name, name=name, joints=tuple(joint.id for joint in made)))
    parts = [part(plate, outline, holes[plate]) for plate, outline in plates.items()]
    return pattern(*parts, joints=tuple(joints), seams=tuple(seams))


def hanging(sketch):
    (shell,) = reach_net(sketch).shells.values()
    rows = {row.id for row in shell.rows}
    held = Hanging(shell.rows, shell.formed, shell.closures)
    return held.is_shaped(shell.parts, rows), held.is_enclosed(shell.parts, rows)


def overlay(width, height, dx, dy, *, over_turned=False, off_mm=0.0):
    """A plate on a larger one, held along both its long sides."""
    ends = [(10.0, 10.0 + at * (height - 20.0) / 4) for at in range(5)]
    far = [(width - 10.0, y) for _, y in ends]
    over = [[((width - x) if over_turned else x, y) for x, y in side] for side in (ends, far)]
    under = [[(x + dx + off, y + dy) for x, y in side] for side, off in ((ends, 0), (far, off_mm))]
    sketch = rows_between(
        {
            "under": box_at(0.0, 0.0, width + 2 * dx, height + 2 * dy),
            "over": box_at(0.0, 0.0, width, height),
        },
        {"l": ("under", under[0], "over", over[0]), "r": ("under", under[1], "over", over[1])},
    )
    parts = tuple(
        replace(each, drawn_from_inside=over_turned and each.id == "over") for each in sketch.parts
    )
    return replace(sketch, parts=parts)


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
