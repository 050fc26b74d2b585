"""How parts lie on a bed: grain side up, the backbone along it, lines where the kerf asks for them."""

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from needs.cutting.cutting_sketches import plate, scene
from shapely import Polygon

from armorplan.needs.cutting.blanks import (
    Blank,
    blanks_of,
    cut_shape,
    is_mirrored,
    laid,
    openings,
)
from armorplan.pattern.parts import Hole, PartKind, Slot, heading

CORNER = ((0.0, 0.0), (120.0, 0.0), (120.0, 40.0), (50.0, 40.0), (50.0, 90.0), (0.0, 90.0))
"""An angle, which no turn makes of its mirror image."""


def one_blank(cut, side: int = 0) -> tuple:
    sided = cut.scene.assembly.parts[side]
    return sided, next(blanks_of(sided))


def shape_of(cut, side: int = 0, kerf_mm: float = 0.0, *, quarter: bool = False):
    sided, blank = one_blank(cut, side)
    return cut_shape(cut, laid(sided, blank, (10.0, 20.0), quarter=quarter), kerf_mm)


@pytest.mark.parametrize(
    ("grain_out", "from_inside", "mirrored"),
    [(True, False, False), (False, False, True), (True, True, True), (False, True, False)],
)
def test_every_part_lies_grain_side_up(grain_out, from_inside, mirrored):
    made = replace(plate(), grain_out=grain_out, drawn_from_inside=from_inside)
    left, right = scene(made, mirrored=True).scene.assembly.parts
    assert is_mirrored(left) == mirrored
    assert is_mirrored(right) != mirrored


def test_what_is_copied_on_the_right_lies_as_the_left():
    left, right = scene(replace(plate(), copied=True), mirrored=True).scene.assembly.parts
    assert is_mirrored(left) == is_mirrored(right)


def _turns(ring) -> float:
    """Return twice the signed area: its sign tells a shape from its mirror image."""
    return sum(
        x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(ring, ring[1:] + ring[:1], strict=True)
    )


def test_the_right_of_a_pair_is_the_mirror_image():
    cut = scene(replace(plate(), outline=CORNER), mirrored=True)
    left, right = shape_of(cut, 0).outline, shape_of(cut, 1).outline
    assert _turns(left) == pytest.approx(-_turns(right))
    assert abs(_turns(left)) == pytest.approx(abs(_turns(CORNER)))


@settings(max_examples=25)
@given(deg=st.floats(min_value=0.0, max_value=359.0), mirrored=st.booleans())
def test_the_backbone_lies_along_the_bed(deg, mirrored):
    # A thin part drawn along its backbone comes to lie along the bed, and so does its mirror image.
    (dx, dy), (ax, ay) = heading(deg), heading(deg + 90)
    ring = (
        (0.0, 0.0),
        (100 * dx, 100 * dy),
        (100 * dx + 9 * ax, 100 * dy + 9 * ay),
        (9 * ax, 9 * ay),
    )
    cut = scene(replace(plate(), outline=ring, holes=(), backbone_deg=deg), mirrored=mirrored)
    for side in range(1 + mirrored):
        _, blank = one_blank(cut, side)
        assert blank.fixed
        assert blank.size_mm == pytest.approx((100.0, 9.0), abs=1e-6)


def test_a_strap_lies_along_the_backbone_unless_it_says_otherwise():
    strap = replace(plate(wide=20.0, high=300.0), kind=PartKind.STRAP)
    _, blank = one_blank(scene(strap))
    assert blank.fixed
    assert blank.size_mm == pytest.approx((300.0, 20.0))
    _, across = one_blank(scene(replace(strap, backbone_deg=0.0)))
    assert across.size_mm == pytest.approx((20.0, 300.0))


def test_other_parts_may_lie_any_way_in_their_smallest_box():
    ring = ((0.0, 0.0), (30.0, 40.0), (-210.0, 220.0), (-240.0, 180.0))
    _, blank = one_blank(scene(replace(plate(), outline=ring, holes=())))
    assert not blank.fixed
    assert blank.size_mm == pytest.approx((300.0, 50.0))


@pytest.mark.parametrize("quarter", [False, True])
def test_the_lines_lie_in_the_box_where_the_blank_lies(quarter):
    cut = scene(replace(plate(), outline=CORNER))
    sided, blank = one_blank(cut)
    placed = laid(sided, blank, (10.0, 20.0), quarter=quarter)
    bounds = Polygon(cut_shape(cut, placed).outline).bounds
    wide, high = placed.size_mm
    assert bounds == pytest.approx((10.0, 20.0, 10.0 + wide, 20.0 + high))
    assert placed.size_mm == pytest.approx(blank.size_mm[::-1] if quarter else blank.size_mm)


def test_a_hole_stays_where_it_is_in_the_part():
    shape = shape_of(scene(plate()))
    ((x, y), diameter) = shape.holes[0]
    near = min(
        Polygon(shape.outline).exterior.coords, key=lambda c: (c[0] - x) ** 2 + (c[1] - y) ** 2
    )
    assert ((near[0] - x) ** 2 + (near[1] - y) ** 2) ** 0.5 == pytest.approx(200**0.5)
    assert diameter == 4.0


def test_a_kerf_runs_outside_the_outline_and_inside_what_is_cut_out():
    slot = Slot(
        id="s",
        part="plate",
        outline=((50, 50), (70, 50), (70, 54), (50, 54)),
        length_mm=20,
        width_mm=4,
    )
    shape = shape_of(scene(replace(plate(), slots=(slot,))), kerf_mm=0.2)
    # Half the kerf on each of two sides: 200.2 × 100.2 outside, 19.8 × 3.8 and 3.8 across inside.
    assert Polygon(shape.outline).area == pytest.approx(200.2 * 100.2)
    assert Polygon(shape.slots[0]).area == pytest.approx(19.8 * 3.8)
    assert shape.holes[0][1] == pytest.approx(3.8)


def test_what_a_kerf_swallows_is_left_out():
    shape = shape_of(scene(plate()), kerf_mm=4.0)
    assert shape.holes == ()


def test_a_slot_a_fastener_slides_in_is_cut_as_a_slot():
    slide = Hole(
        id="plate_hole", part="plate", centre=(60.0, 50.0), diameter_mm=4.0, travel_mm=10.0
    )
    shape = shape_of(scene(replace(plate(), holes=(slide,))))
    assert shape.holes == ()
    # A box of 10 × 4 with a half circle at each end (circle geometry), in chords.
    assert Polygon(shape.slots[0]).area == pytest.approx(10 * 4 + pi * 4, rel=2e-3)


def test_holes_of_what_is_shaped_first_are_not_cut_with_it():
    cut = scene(plate(), shaped=frozenset({"plate"}))
    inside = openings(cut, cut.scene.assembly.parts[0])
    assert (inside.holes, inside.after_shaping, inside.punched) == ((), 1, 1)
    assert shape_of(cut).holes == ()


def test_a_part_cut_three_times_has_three_blanks():
    cut = scene(replace(plate(), count=3))
    blanks = list(blanks_of(cut.scene.assembly.parts[0]))
    assert [blank.copy for blank in blanks] == [1, 2, 3]
    assert all(isinstance(blank, Blank) for blank in blanks)


def test_which_way_is_up_is_drawn_on_the_part_and_turns_with_it():
    plain, turned = shape_of(scene(plate())), shape_of(scene(plate()), quarter=True)

    def way(shape):
        (x1, y1), (x2, y2) = shape.guides[-1]
        return x2 - x1, y2 - y1

    across, up = way(plain)
    assert (across, up < 0) == (pytest.approx(0.0, abs=1e-9), True)
    # Its head is at the upper end: two strokes back from there.
    tip = plain.guides[-1][1]
    assert [begin for begin, _ in plain.guides[-3:-1]] == [tip, tip]
    assert all(end[1] > tip[1] for _, end in plain.guides[-3:-1])
    # A quarter against the clock: what was up points left.
    left, down = way(turned)
    assert left == pytest.approx(up)
    assert down == pytest.approx(0.0, abs=1e-9)
