"""The longest level line of a shell in closed form, and what a straight tool needs at least."""

from math import pi

import pytest
from geometry.reach.net_sketches import sector, tube

from armorplan.geometry.reach.girth import MORE, least_mm
from armorplan.geometry.reach.laps import once
from armorplan.geometry.reach.net import reach_net
from armorplan.geometry.reach.shells import shell_cuts


def girth_of(sketch, rim="rim-1"):
    (shell,) = reach_net(sketch).shells.values()
    return shell.girth_mm[rim]


@pytest.mark.parametrize("lap_mm", [0.0, 5.0, 9.0, 20.0])
def test_a_tube_is_as_long_round_as_between_its_rows(lap_mm):
    assert 240.0 <= girth_of(tube(240.0, 200.0, lap_mm)) <= 240.0 * MORE * 1.01


@pytest.mark.parametrize("lap_mm", [0.0, 9.0, 20.0])
def test_laps_are_left_out_of_the_surface(lap_mm):
    (cut,) = shell_cuts(tube(240.0, 200.0, lap_mm))
    assert once(cut)["sheet"].area == pytest.approx(240.0 * 200.0, rel=0.005)


def test_a_cone_is_widest_at_its_mouth():
    assert 160.0 * 2.0 * 0.995 <= girth_of(sector(0.0, 160.0, 2.0)) <= 160.0 * 2.0 * MORE


def test_a_tool_needs_at_least_the_depth_of_a_tube_with_a_lid():
    """Radius r, depth h: h + r along the leather to the middle of the lid, h straight."""
    assert least_mm(240.0 + 50.0, 100 * pi, 100 * pi) == pytest.approx(240.0)
    assert least_mm(100.0, 100 * pi) == pytest.approx(0.0)
    assert least_mm(150.0, 100 * pi) == pytest.approx(50.0)
    assert least_mm(150.0, 100 * pi, 500 * pi) == pytest.approx(100.0), (
        "a mouth counts to the girth"
    )
