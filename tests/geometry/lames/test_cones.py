"""Plates that taper: a piece of a cone, measured along the arc that its pivots lie on.

Checked against a cone cut open: what lies at one height on it lies on an arc about its tip in the
flat, and half round it is half of its girth there.
"""

from dataclasses import replace
from math import cos, pi, sin

import pytest
from geometry.lame_sketches import (
    THICK_MM,
    bending,
    bent,
    chain,
    codes,
    figure,
    lame,
    measures,
    pivots,
)

from armorplan.geometry.lames.cones import Cone
from armorplan.pattern.parts import Hole, Part, PartKind

RADIUS_MM, TAPER = 50.0, 0.15
"""Of the cone at the pivots, and by how much it widens for each mm upward along its side."""
SLANT_MM = RADIUS_MM / TAPER


def on_cone(up_mm, share):
    """Return a spot so far up the cone and so far round it, from -1 at one pivot to 1."""
    slant, turn = SLANT_MM + up_mm, share * (pi / 2) * RADIUS_MM / SLANT_MM
    return slant * sin(turn), SLANT_MM - slant * cos(turn)


def tapering():
    """A plate half round a cone, and 17 % more, its pivots 10 mm above its lower edge."""
    shares = [1.17 * (n / 10 - 1) for n in range(21)]
    outline = [on_cone(-10.0, s) for s in shares] + [on_cone(90.0, s) for s in reversed(shares)]
    holes = tuple(
        Hole(id=f"plate_out_{side}", part="plate", centre=on_cone(0.0, s), diameter_mm=5.5)
        for side, s in (("near", -1), ("far", 1))
    )
    return Part(
        id="plate", name="plate", piece="piece", kind=PartKind.PLATE, outline=tuple(outline),
        material="hide", thickness_mm=THICK_MM, holes=holes,
    )  # fmt: skip


def on_a_plate(plate):
    under = lame("over", 1, high_mm=50.0, low_mm=40.0, inward=0.0, at=(0.0, 300.0))
    movement = bending("plate", "over", angle_deg=40.0)
    joints = pivots("over", "plate")
    return chain(plate, under, joints=joints, movement=movement, forms=bent("plate", "over"))


def test_what_lies_at_one_height_is_measured_at_one_height():
    told = measures(on_a_plate(tapering()))
    pair = told["lames:bend:plate-over"]
    # The plate reaches 10 mm below its pivots all round, the lame 50 mm above them.
    assert figure(pair, "overlap at rest") == pytest.approx(60.0, abs=0.3)
    assert figure(pair, "lever at the back") == pytest.approx(RADIUS_MM, abs=0.2)


def test_its_girth_is_that_of_the_arc():
    nest = measures(on_a_plate(tapering()))["lames:nest:over-plate"]
    assert figure(nest, "it is longer by") == pytest.approx(pi * THICK_MM, abs=0.5)
    assert codes(on_a_plate(tapering())) == []


def test_taken_for_a_tube_it_would_be_out_by_the_rise_of_the_arc():
    lames = replace(tapering(), kind=PartKind.LAME)
    pair = measures(on_a_plate(lames))["lames:bend:plate-over"]
    rise_mm = SLANT_MM * (1 - cos(pi / 2 * RADIUS_MM / SLANT_MM))
    assert rise_mm == pytest.approx(9.2, abs=0.1)
    assert figure(pair, "overlap at rest") == pytest.approx(60.0 - rise_mm, abs=0.1)


def test_a_cone_rises_away_from_its_tip():
    below, above = Cone(-300.0, 160.0), Cone(300.0, 160.0)
    assert below.rise_mm(0.0) == pytest.approx(-above.rise_mm(0.0))
    assert below.rise_mm(0.0) > 0
    assert below.rise_mm(80.0) == pytest.approx(0.0, abs=1e-9)
    assert below.girth_mm > 160.0


def test_straight_sides_make_no_cone():
    plate = tapering()
    straight = replace(
        plate,
        outline=((-100.0, 10.0), (100.0, 10.0), (100.0, -90.0), (-100.0, -90.0)),
    )
    told = measures(on_a_plate(straight))["lames:nest:over-plate"]
    flat = 2 * plate.holes[1].centre[0]
    span = pi * (50 + THICK_MM)
    assert figure(told, "it is longer by") == pytest.approx(span - flat, abs=1e-6)
