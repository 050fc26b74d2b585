"""Lengths over a shell, spot to spot, in closed form; in a large shell they are as good."""

from math import dist

import pytest
from geometry.reach.net_sketches import tube

from armorplan.geometry.reach import distances
from armorplan.geometry.reach.distances import from_spots, graph, shell_net
from armorplan.geometry.reach.shells import shell_cuts


def lengths(sketch, start):
    """Return the lengths from one joint of a row to all joints of the shell."""
    (cut,) = shell_cuts(sketch)
    net = shell_net(cut)
    far = from_spots(net, graph(net), [net.joints[start]], float("inf"))
    return dict(zip((*net.joints, *net.seats), far[0].tolist(), strict=True))


def test_a_seat_is_reached_round_the_nearer_side():
    seats = {"near": (40.0, 100.0), "far": (200.0, 100.0), "slant": (215.0, 40.0)}
    found = lengths(tube(240.0, 200.0, extra=seats), "row_5")
    assert found["near"] == pytest.approx(40.0)
    assert found["far"] == pytest.approx(40.0)
    assert found["slant"] == pytest.approx(dist((0, 100), (25, 40)), rel=0.005)


def test_along_a_row_lengths_add_up():
    found = lengths(tube(240.0, 200.0), "row_0")
    assert [found[f"row_{at}"] for at in range(11)] == pytest.approx(
        [20.0 * at for at in range(11)]
    )


def test_a_large_shell_has_fewer_spots_and_the_same_lengths(monkeypatch):
    across = tube(240.0, 200.0, extra={"on": (60.0, 37.0), "over": (190.0, 171.0)})
    fine = lengths(across, "row_2")
    (cut,) = shell_cuts(across)
    size = shell_net(cut).size
    monkeypatch.setattr(distances, "MOST_JOINTS", 5)
    assert shell_net(cut).size < size
    assert lengths(across, "row_2") == pytest.approx(fine, rel=0.005)


def test_beyond_the_limit_nothing_is_told():
    (cut,) = shell_cuts(tube(240.0, 200.0))
    net = shell_net(cut)
    far = from_spots(net, graph(net), [net.joints["row_0"]], 50.0)[0].tolist()
    assert [length < float("inf") for length in far] == [True] * 3 + [False] * 8
