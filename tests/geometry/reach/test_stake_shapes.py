"""The shapes of the rigid-stake check are sound: what is riveted meets, and nothing is stretched."""

from collections import defaultdict

import numpy as np
import pytest
from geometry.reach.stake_draws import KINDS, drawn
from shapely import Point as Spot
from shapely import Polygon


@pytest.mark.parametrize("number", range(3 * len(KINDS)))
def test_holes_meet_and_plates_are_not_stretched(number):
    shape = drawn(number)
    holes = {h: plate.placed(spot) for plate in shape.plates for h, spot in plate.holes.items()}
    for pairs in shape.rows.values():
        for one, other in pairs:
            assert holes[one] == pytest.approx(holes[other], abs=0.05)
    for plate in shape.plates:
        for spot in plate.holes.values():
            here = plate.placed(spot)
            for way in (np.array([0.02, 0]), np.array([0, -0.02])):
                there = plate.placed(tuple(np.array(spot) + way))
                assert np.linalg.norm(there - here) == pytest.approx(0.02, rel=0.03)


@pytest.mark.parametrize("number", range(3 * len(KINDS)))
def test_outlines_are_simple_and_hold_their_holes(number):
    shape = drawn(number)
    pattern = shape.pattern()
    for part in pattern.parts:
        outline = Polygon(part.outline)
        assert outline.is_valid, part.id
        for hole in part.holes:
            assert outline.contains(Spot(hole.centre)), hole.id
    spots = defaultdict(list)
    for part in pattern.parts:
        for hole in part.holes:
            spots[part.id].append(hole.centre)
    assert all(len(set(each)) == len(each) for each in spots.values())
    assert set(shape.seats()) == {joint.id for joint in pattern.joints}
