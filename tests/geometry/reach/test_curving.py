"""Which shells curve inwards: saddles and tips of gores do; tubes, cones, cups and lids do not."""

from math import cos, pi, sin
from random import Random

import pytest
from geometry.leather_sketches import part, pattern, rivet
from geometry.reach.net_sketches import sector, tube, two_part_tube
from geometry.reach.stake_cuts import gores, staves

from armorplan.geometry.reach.net import reach_net
from armorplan.pattern.joining import Seam


def chance():
    return Random(3)  # noqa: S311 - the same shapes every time


def seam_of(name, pairs):
    made = [rivet(f"{name}_{at}", *pair) for at, pair in enumerate(pairs)]
    return made, Seam(id=name, name=name, joints=tuple(joint.id for joint in made))


def arcs(sag):
    """Two half plates 120 wide along one row; ``sag`` above 0 bulges both into the leather."""
    xs = [20.0 * at for at in range(7)]
    low = [(x, 100.0 - sag * sin(pi * x / 120)) for x in xs]
    high = [(x, sag * sin(pi * x / 120)) for x in xs]
    up = part("up", ((0.0, 0.0), (120.0, 0.0), *reversed(low)), _holes("up", low))
    down = part("down", ((*high, (120.0, 100.0), (0.0, 100.0))), _holes("down", high))
    made, seam = seam_of("row", [(f"up_{at}", f"down_{at}") for at in range(7)])
    return pattern(up, down, joints=tuple(made), seams=(seam,))


def _holes(name, spots):
    return {f"{name}_{at}": spot for at, spot in enumerate(spots)}


def one_row_round_a_lid(sides=3, wide_mm=120.0, deep_mm=100.0, flare_mm=0.0):
    """A prism of plates with a flat lid, held by a single row that passes one plate after another.

    ``flare_mm`` widens each plate to the lid at both sides, so that its corners there are sharp.
    """
    radius = wide_mm / 2 / sin(pi / sides)
    tops = [
        (radius * cos(2 * pi * k / sides), radius * sin(2 * pi * k / sides)) for k in range(sides)
    ]
    lid_holes, parts, joints, seams, round_lid = {}, [], [], [], []
    shares = (0.1, 0.3, 0.5, 0.7, 0.9)
    for k in range(sides):
        (x0, y0), (x1, y1) = tops[k], tops[(k + 1) % sides]
        outline = (
            (0.0, 0.0),
            (wide_mm, 0.0),
            (wide_mm + flare_mm, deep_mm),
            (-flare_mm, deep_mm),
        )
        downs = [deep_mm * at / 6 for at in range(1, 7)]
        holes = {f"p{k}_left_{at}": (-flare_mm * y / deep_mm, y) for at, y in enumerate(downs)}
        holes |= {
            f"p{k}_right_{at}": (wide_mm + flare_mm * y / deep_mm, y) for at, y in enumerate(downs)
        }
        for at, share in enumerate(shares):
            holes[f"p{k}_lid_{at}"] = (share * wide_mm, 0.0)
            lid_holes[f"lid_{k}_{at}"] = (x0 + share * (x1 - x0), y0 + share * (y1 - y0))
            round_lid.append((f"p{k}_lid_{at}", f"lid_{k}_{at}"))
        parts.append(part(f"p{k}", outline, holes))
        made, seam = seam_of(
            f"side{k}", [(f"p{k}_right_{at}", f"p{(k + 1) % sides}_left_{at}") for at in range(6)]
        )
        joints += made
        seams.append(seam)
    made, seam = seam_of("lid", round_lid)
    lid = part("lid", tuple(tops), lid_holes)
    return pattern(*parts, lid, joints=(*joints, *made), seams=(*seams, seam))


OUTWARDS = {
    "tube": lambda: tube(240.0, 200.0),
    "lapped tube": lambda: tube(240.0, 200.0, 9.0),
    "two sheets": two_part_tube,
    "cone": lambda: sector(0.0, 160.0, 2.4),
    "tube with a lid": lambda: staves(
        chance(), mouth_mm=50, end_mm=50, slant_mm=200, count=3, lid=True
    ).pattern(),
    "cone with a lid": lambda: staves(
        chance(), mouth_mm=90, end_mm=16, slant_mm=148, count=2, lid=True
    ).pattern(),
    "cup": lambda: gores(
        chance(), [(80 * cos(t / 50), 80 * sin(t / 50)) for t in range(65)], count=6, lid=True
    ).pattern(),
    "plates that bulge": lambda: arcs(-12.0),
    "one row round a lid": one_row_round_a_lid,
    "one row round a small lid": lambda: one_row_round_a_lid(flare_mm=30.0),
}
INWARDS = {
    "saddle": lambda: arcs(12.0),
    "waist": lambda: gores(
        chance(), [(60 + 20 * cos(pi * z / 90), float(z)) for z in range(181)], count=6, lid=True
    ).pattern(),
    "a row round a lid too wide for its corners": lambda: one_row_round_a_lid(
        sides=9, flare_mm=45.0
    ),
}


@pytest.mark.parametrize("name", sorted(OUTWARDS))
def test_a_shell_that_curves_outwards_is_not_hollow(name):
    assert not [shell.id for shell in reach_net(OUTWARDS[name]()).shells.values() if shell.hollow]


@pytest.mark.parametrize("name", sorted(INWARDS))
def test_a_shell_that_curves_inwards_is_hollow(name):
    assert all(shell.hollow for shell in reach_net(INWARDS[name]()).shells.values())


def test_the_tip_of_a_gore_is_a_saddle():
    """A wedge let into a slit of a sheet adds leather round its tip: more than a full turn."""
    slit = [(-20.0, 0.0), (-10.0, 50.0), (0.0, 100.0), (10.0, 50.0), (20.0, 0.0)]
    sheet = ((-150.0, 0.0), *slit, (150.0, 0.0), (150.0, 200.0), (-150.0, 200.0))
    wedge = ((10.0, 100.0), (70.0, 0.0), (-50.0, 0.0))
    holes = {f"s_l_{at}": (-4.0 * at, 100.0 - 20 * at) for at in range(1, 6)}
    holes |= {f"s_r_{at}": (4.0 * at, 100.0 - 20 * at) for at in range(1, 6)}
    long = 5
    wedge_holes = {f"w_l_{at}": (10.0 - 60 * at / long, 100.0 - 20 * at) for at in range(1, 6)}
    wedge_holes |= {f"w_r_{at}": (10.0 + 60 * at / long, 100.0 - 20 * at) for at in range(1, 6)}
    left, row_l = seam_of("left", [(f"s_l_{at}", f"w_l_{at}") for at in range(1, 6)])
    right, row_r = seam_of("right", [(f"s_r_{at}", f"w_r_{at}") for at in range(1, 6)])
    sketch = pattern(
        part("sheet", sheet, holes),
        part("wedge", wedge, wedge_holes),
        joints=(*left, *right),
        seams=(row_l, row_r),
    )
    assert all(shell.hollow for shell in reach_net(sketch).shells.values())
