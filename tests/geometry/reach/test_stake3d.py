"""The rigid-stake check itself, against plain geometry: nothing of the net is used here."""

from math import cos, hypot, pi, sin

import numpy as np
import pytest
from geometry.reach.stake3d import Rolled, Turned, straight_mm


def turned(*rows, **more):
    """Make a wall from (distance, depth) pairs, straight between them."""
    far, z = (np.array(column, dtype=float) for column in zip(*rows, strict=True))
    s = np.concatenate([[0.0], np.cumsum(np.hypot(np.diff(far), np.diff(z)))])
    return Turned(s_mm=s, far_mm=far, z_mm=z, **more)


def needed(wall, spot, mouth="mouth", clear_mm=0.0):
    return straight_mm(wall, wall.mouths()[mouth], np.array(spot, dtype=float), clear_mm)


@pytest.mark.parametrize("sides", [0, 3, 6])
def test_a_tube_needs_its_depth(sides):
    tube = turned((40, 0), (40, 200), sides=sides)
    assert needed(tube, (40, 0, 130)) == pytest.approx(130, rel=1e-4)
    assert needed(tube, (40, 0, 130), "far") == pytest.approx(70, rel=1e-4)


def test_a_cone_needs_its_height_to_the_tip():
    cone = turned((60, 0), (0.01, 90), shut=True)
    assert needed(cone, (0, 0, 90)) == pytest.approx(90, rel=1e-4)


def test_a_flared_tube_needs_the_way_out_to_the_narrow_mouth():
    flared = turned((20, 0), (60, 90))
    assert needed(flared, (60, 0, 90)) == pytest.approx(hypot(40, 90), rel=1e-3)
    assert needed(flared, (20, 0, 0)) == pytest.approx(0, abs=0.05)


def test_a_half_ball_needs_its_radius_to_the_pole():
    turns = np.linspace(0, pi / 2, 200)
    ball = turned(*((72 * cos(t) + 1e-9, 72 * sin(t)) for t in turns), shut=True)
    assert needed(ball, (0, 0, 72)) == pytest.approx(72, rel=1e-3)
    assert needed(ball, (72 * cos(0.5), 0, 72 * sin(0.5))) == pytest.approx(
        72 * sin(0.5), rel=1e-3
    )


def test_a_bulging_jar_is_entered_askew():
    jar = turned((30, 0), (80, 60), (30, 120), shut=True)
    assert needed(jar, (80, 0, 60)) == pytest.approx(hypot(50, 60), rel=1e-3)


def test_no_straight_rod_gets_round_the_neck_of_a_bottle():
    bottle = turned((10, 0), (10, 100), (80, 100.1), (80, 160), shut=True)
    assert needed(bottle, (80, 0, 110)) == float("inf")
    assert needed(bottle, (0, 0, 160)) == pytest.approx(160, rel=1e-3)


def test_a_waisted_tube_takes_the_rod_past_its_waist_only():
    waisted = turned((60, 0), (20, 80), (60, 160), shut=True)
    assert needed(waisted, (40, 0, 120)) == pytest.approx(120 * hypot(1, 0.5), rel=0.02), (
        "past the lip of the waist on its own side, 20 mm further in on 40 mm"
    )


def test_a_part_cylinder_is_entered_from_its_open_side_or_an_end():
    half = Rolled(radius_mm=50, angle=pi, long_mm=300)
    assert needed(half, (50, 0, 150)) == pytest.approx(50, rel=1e-4)
    assert needed(half, (50, 0, 20)) == pytest.approx(20, rel=1e-4)
    slit = Rolled(radius_mm=50, angle=1.9 * pi, long_mm=300)
    across = 50 + 50 * cos(0.05 * pi)
    assert needed(slit, (50, 0, 150)) == pytest.approx(across, rel=1e-3)


def test_a_thick_rod_needs_no_less_than_a_thin_one():
    jar = turned((30, 0), (60, 60), (30, 150), shut=True)
    spot = (jar.far_at(100), 0, jar.depth_at(100))
    thin, thick = needed(jar, spot), needed(jar, spot, clear_mm=3)
    assert thin <= thick < 2 * thin
