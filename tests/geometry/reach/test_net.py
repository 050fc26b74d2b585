"""Lengths over closed shells against closed forms: developable surfaces, unrolled (geometry)."""

from math import dist, pi, radians, sin

import pytest
from geometry.lames.test_samples import sample
from geometry.reach.net_sketches import sector, tube, two_part_tube

from armorplan.geometry.reach.model import Through
from armorplan.geometry.reach.net import reach_net

CLOSE = 0.005


def only(net):
    (shell,) = net.shells.values()
    return shell


def rim_way(net, joint, rim="rim-1"):
    return next(way for way in net.access[joint].ways if way.name == rim)


def row_way(net, joint, other):
    return next(way for way in net.access[joint].ways if way.name == other)


@pytest.mark.parametrize("lap_mm", [0.0, 5.0, 10.0])
def test_a_tube_is_half_its_height_deep_and_as_wide_as_its_girth_tells(lap_mm):
    net = reach_net(tube(240.0, 200.0, lap_mm))
    shell = only(net)
    assert [rim.length_mm for rim in shell.rims] == pytest.approx([240.0, 240.0], rel=CLOSE)
    for way in net.access["row_5"].ways:
        if way.through is Through.RIM:
            assert way.along_mm == pytest.approx(100.0, rel=CLOSE)
            assert way.opening_mm == pytest.approx(240.0 / pi, rel=CLOSE)
            exact = 100.0 - 240.0 / (2 * pi)
            assert 0.97 * exact <= way.least_mm <= exact + 0.5
    assert not shell.hollow


def test_the_shortest_way_round_a_tube_crosses_its_row():
    net = reach_net(tube(240.0, 200.0, extra={"seat": (30.0, 100.0)}))
    assert row_way(net, "seat", "row_5").along_mm == pytest.approx(30.0, rel=CLOSE)
    far = reach_net(tube(240.0, 200.0, extra={"seat": (210.0, 60.0)}))
    across = dist((0.0, 60.0), (30.0, 100.0))
    assert row_way(far, "seat", "row_5").along_mm == pytest.approx(across, rel=CLOSE)


@pytest.mark.parametrize("angle", [90.0, 150.0, 240.0])
def test_a_cone_from_a_sector(angle):
    net = reach_net(sector(0.0, 160.0, radians(angle)))
    shell = only(net)
    assert [rim.length_mm for rim in shell.rims] == pytest.approx([160.0 * radians(angle)], CLOSE)
    deepest = rim_way(net, "row_0")
    assert deepest.along_mm == pytest.approx(160.0 - 160.0 / 9, rel=CLOSE)
    assert not shell.hollow


@pytest.mark.parametrize("angle", [100.0, 200.0])
def test_a_frustum(angle):
    turn = radians(angle)
    net = reach_net(sector(80.0, 200.0, turn, extra={"seat": (140.0, 0.5)}))
    lengths = [rim.length_mm for rim in only(net).rims]
    assert lengths == pytest.approx([200.0 * turn, 80.0 * turn], rel=CLOSE)
    assert rim_way(net, "row_4").along_mm == pytest.approx(60.0, rel=CLOSE)
    assert rim_way(net, "row_4", "rim-2").along_mm == pytest.approx(60.0, rel=CLOSE)


def test_a_seat_across_a_cone_is_reached_over_the_row():
    turn = radians(200.0)
    spot = (120.0 * 0.5, 120.0 * 0.75**0.5)  # 60 degrees round at radius 120
    net = reach_net(sector(0.0, 160.0, turn, extra={"seat": spot}))
    last = 160.0 * 8 / 9
    want = (120.0**2 + last**2 - 2 * 120.0 * last * 0.5) ** 0.5
    assert row_way(net, "seat", "row_7").along_mm == pytest.approx(want, rel=CLOSE)


def test_two_sheets_make_one_tube():
    net = reach_net(two_part_tube(120.0, 200.0))
    shell = only(net)
    assert shell.parts == ("front", "back")
    assert [rim.length_mm for rim in shell.rims] == pytest.approx([240.0, 240.0], rel=CLOSE)
    assert rim_way(net, "far_5").along_mm == pytest.approx(100.0, rel=CLOSE)
    assert row_way(net, "far_5", "near_5").along_mm == pytest.approx(120.0, rel=CLOSE)
    assert [row.at_mm[-1] for row in shell.rows] == pytest.approx([200.0, 200.0])
    assert not shell.hollow


def test_a_sector_of_more_than_half_a_turn_goes_round_its_tip():
    turn = radians(300.0)
    net = reach_net(sector(0.0, 160.0, turn, extra={"seat": (-100.0, 0.0)}))
    want = 2 * 100.0 * sin(radians(60.0))  # 120 degrees apart over the row, 180 over the leather
    at_100 = dist((100.0, 0.0), (100.0 * -0.5, 100.0 * 0.75**0.5))
    assert want == pytest.approx(at_100)
    ways = [w.along_mm for w in net.access["seat"].ways if w.through is Through.ROW]
    assert min(ways) <= want * (1 + CLOSE)


@pytest.mark.parametrize("name", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_every_joint_of_a_sample_has_its_ways_in(name):
    net = reach_net(sample(name))
    assert net.access
    for joint, access in net.access.items():
        assert access.ways, joint
        lengths = [way.along_mm for way in access.ways]
        assert lengths == sorted(lengths)
        for way in access.ways:
            assert 0 <= way.least_mm <= way.along_mm
            assert way.name != joint


def test_the_cop_of_the_sample_is_one_cup_with_one_mouth():
    net = reach_net(sample("elbow_cop"))
    shell = net.shells["petal_left"]
    assert [row.id for row in shell.rows] == ["left_row", "right_row"]
    assert len(shell.rims) == 1
    assert not shell.hollow
