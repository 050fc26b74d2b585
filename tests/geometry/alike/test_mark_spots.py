"""Look-alikes are marked where another part covers the mark."""

from math import dist

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from shapely import Point, Polygon

from armorplan.geometry.alike.mark_spots import CLEAR_MM, mark_spot

UNDER = {"u1": (10.0, 90.0), "u2": (90.0, 90.0)}
OVER = {"o1": (210.0, 10.0), "o2": (290.0, 10.0)}


def two(overlap_mm):
    """A plate over another one, which it overlaps by so much at its lower edge."""
    down = 100.0 - 90.0
    over = ((200.0, 0.0), (300.0, 0.0), (300.0, 100.0), (200.0, 100.0))
    shifted = {h: (x, overlap_mm - down) for h, (x, _) in OVER.items()}
    return pattern(
        part("under", box(100.0, 100.0), UNDER),
        part("over", over, shifted),
        joints=(rivet("j1", "o1", "u1"), rivet("j2", "o2", "u2")),
    )


def test_the_spot_lies_under_the_cover_and_clear_of_holes_and_edges():
    spot = mark_spot(two(30.0), "under")
    assert spot.cover == "over"
    covered = Polygon([(0, 70), (100, 70), (100, 100), (0, 100)])
    assert covered.buffer(-CLEAR_MM).contains(Point(spot.at))
    for hole, far_mm in spot.near:
        assert far_mm >= CLEAR_MM + 3.5 / 2
        assert far_mm == pytest.approx(dist(spot.at, UNDER[hole]), abs=0.1)
    assert spot.edge_mm == pytest.approx(100 - spot.at[1], abs=0.1)


def test_a_narrow_overlap_has_no_room_for_a_mark():
    assert mark_spot(two(13.0), "under") is None


def test_what_lies_outermost_is_covered_by_nothing():
    assert mark_spot(two(30.0), "over") is None


def test_the_spot_has_as_much_room_as_the_overlap_is_wide():
    """No circle in a strip 30 mm wide has more than 15 mm of room."""
    assert mark_spot(two(30.0), "under").room_mm == pytest.approx(15.0, abs=0.5)
