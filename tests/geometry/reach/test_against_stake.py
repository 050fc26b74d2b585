"""What the net tells, held against a rigid stake in three dimensions that knows nothing of it.

Two hundred shapes (tubes, cones, cups and dishes of gores, parts of cylinders, waisted cups): the
least a straight tool needs is never said to be more than it truly is, so that no *cannot* is
contradicted; on shells that curve outwards alone the length along the leather is never less.
"""

from collections import Counter, defaultdict
from dataclasses import dataclass
from math import asin, hypot, inf, pi
from statistics import mean

import numpy as np
import pytest
from geometry.reach.stake3d import mouth_at, straight_mm
from geometry.reach.stake_cuts import gores, staves
from geometry.reach.stake_draws import drawn
from geometry.reach.stake_shapes import Shape

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import ReachNet, Standing, Through, Way
from armorplan.geometry.reach.net import reach_net
from armorplan.workshop.shelf import ToolEntry

NEAR_MM, SHARE = 0.5, 0.005
"""What sampled outlines and chords between holes may miss."""
CORNER_MM = 1.5
"""Where laps end at a mouth a corner of one may look free: so much nearer the mouth then seems."""
LAPPED = 0.03
"""So much less may be told where plates lap, for level lines that miss a little."""
ANY = (8, 9, 2, 3, 4, 13, 6, 7)
"""A shape of each kind that takes a moment; all others come in the long run."""


@dataclass(frozen=True, slots=True)
class Held:
    """One way in, with what a straight rod truly needs by it."""

    shape: str
    joint: str
    way: Way
    true_mm: float
    left_mm: float

    @property
    def least_fits(self) -> bool:
        return self.way.least_mm <= self.true_mm * (1 + SHARE) + NEAR_MM

    @property
    def most_fits(self) -> bool:
        return self.way.along_mm >= self.true_mm * (1 - SHARE) - CORNER_MM


def held(shape: Shape, net: ReachNet, only: str = "") -> list[Held]:
    """Return every way in through a rim, and through a row, with its true length; or one joint's."""
    seats, found = shape.seats(), []
    mouths = shape.wall.mouths()
    for joint, access in sorted(net.access.items()):
        if only not in ("", joint):
            continue
        shell = net.shells[access.shell]
        rims = {rim.id: _mouth(shape, rim.spots) for rim in shell.rims}
        for way in access.ways:
            if way.through is Through.RIM:
                true = straight_mm(shape.wall, mouths[rims[way.name]], seats[joint])
            else:
                places = [seats[way.name]] if way.gap is None else _gap(shape, shell, way)
                true = min(float(np.linalg.norm(place - seats[joint])) for place in places)
            found.append(Held(shape.name, joint, way, true, _left_mm(shell, way)))
    return found


def _gap(shape, shell, way):
    """Return where a place in a gap of a row lies on each plate."""
    gaps = {gap.name: gap for row in shell.rows for gap in row.gaps}
    return [shape.plate_at(part, spot) for part, spot in gaps[way.name].spots]


def _left_mm(shell, way):
    """Return how wide a way stands in the closed shell: 0 at the place of a joint."""
    if way.through is Through.RIM:
        return way.opening_mm or 0.0
    row = next(row for row in shell.rows if row.id == way.row)
    at = dict(zip(row.joints, row.at_mm, strict=True)) | {g.name: g.at_mm for g in row.gaps}
    return 0.35 * min(abs(at[way.name] - at[joint]) for joint in row.joints)


def _mouth(shape, spots):
    return mouth_at(shape.wall, mean(shape.plate_at(part, spot)[2] for part, spot in spots))


REACHES_MM, OPENING_MM = (30.0, 60.0, 120.0, 200.0, 300.0), 30.0
REACHED = frozenset({Standing.CURVED, Standing.INSIDE})


def judged(shape: Shape, net: ReachNet, found: list[Held]) -> Counter[Standing]:
    """Hold standings in the closed shell, tool by tool, against the rod that an opening admits."""
    true_mm: dict[tuple[str, bool], float] = defaultdict(lambda: inf)
    for each in found:
        for squashed in (False, True):
            wide_mm = each.left_mm * (1.3 if squashed else 1.0)
            if wide_mm >= OPENING_MM:
                key = each.joint, squashed
                true_mm[key] = min(true_mm[key], each.true_mm)
    count: Counter[Standing] = Counter()
    for reach_mm in REACHES_MM:
        tool = ToolEntry(
            id="bar",
            name="bar",
            serves=("rivet",),
            source="",
            reach_mm=reach_mm,
            opening_mm=OPENING_MM,
        )
        bench = Bench(tools=dict.fromkeys(net.access, (tool,)))
        for joint in net.access:
            standing = margin(net, joint, frozenset(net.access), bench).standing
            count[standing] += 1
            if standing is Standing.CANNOT:
                assert true_mm[joint, True] >= reach_mm - NEAR_MM, joint
            elif standing in REACHED and shape.convex:
                assert true_mm[joint, False] <= reach_mm + CORNER_MM, joint
    return count


def checked(number: int) -> tuple[list[Held], Counter[Standing]]:
    shape = drawn(number)
    net = reach_net(shape.pattern())
    assert set(net.access) == set(shape.seats())
    found = held(shape, net)
    assert {each.joint for each in found if each.way.through is Through.RIM} == set(net.access)
    assert not [each for each in found if not each.least_fits]
    if shape.convex:
        assert not [each for each in found if not each.most_fits]
    else:
        assert all(shell.hollow for shell in net.shells.values())
    return found, judged(shape, net, found)


@pytest.mark.parametrize("number", ANY)
def test_a_shape_of_each_kind(number):
    found, standings = checked(number)
    assert found
    assert standings[Standing.CANNOT] + standings[Standing.END] > 0, "some are out of reach"


@pytest.mark.long
def test_two_hundred_shapes(capsys):
    kinds, standings = defaultdict(list), Counter()
    for number in range(200):
        found, count = checked(number)
        standings += count
        for each in found:
            if each.way.through is Through.RIM and 20 < each.true_mm < inf:
                kinds[each.shape.split(":")[1].split(",")[0].strip()].append(each)
    with capsys.disabled():
        print(f"\n{dict(sorted(standings.items()))}")  # noqa: T201 - the table that is asked for
        for kind, found in sorted(kinds.items()):
            low = [each.way.least_mm / each.true_mm for each in found]
            high = [each.way.along_mm / each.true_mm for each in found]
            print(  # noqa: T201 - the table that is asked for
                f"{kind:9} {len(found):6} ways: least {min(low):.2f} {mean(low):.2f} {max(low):.3f} "
                f"and along {min(high):.3f} {mean(high):.2f} {max(high):.2f} times the true length"
            )
    assert len(kinds) == 7
    assert standings[Standing.CANNOT] > 1000, "it is said often enough to be held"


def _deepest(shape: Shape):
    """Return the way in to the seat in the middle of the lid, and what it truly needs."""
    return min(
        held(shape, reach_net(shape.pattern()), "seat_lid_tab_0"),
        key=lambda each: (each.way.through is Through.ROW, each.way.along_mm),
    )


def lower_mm(along_mm: float, girth_mm: float, mouth_mm: float) -> float:
    """Return the design's lower bound with the true girth: laps may only make it smaller."""
    return max(0.0, along_mm - (2 * girth_mm - mouth_mm) / (2 * pi))


def test_an_open_tube_needs_all_of_its_depth(chance):
    tube = staves(chance, mouth_mm=50, end_mm=50, slant_mm=300, count=1)
    ways = held(tube, reach_net(tube.pattern()))
    seats = [w for w in ways if "seat" in w.joint and w.way.through is Through.RIM]
    assert len(seats) == 4
    for each in seats:
        assert each.way.along_mm == pytest.approx(each.true_mm, rel=SHARE)
        exact = lower_mm(each.true_mm, 100 * pi, 100 * pi)
        assert exact - LAPPED * each.true_mm <= each.way.least_mm <= exact + NEAR_MM


@pytest.mark.parametrize("count", [1, 3])
def test_a_tube_with_a_lid_needs_all_of_its_depth(chance, count):
    tube = staves(chance, mouth_mm=50, end_mm=50, slant_mm=240, count=count, lid=True)
    lid = _deepest(tube)
    assert lid.true_mm == pytest.approx(240, rel=1e-3)
    assert lid.way.along_mm == pytest.approx(240 + 50, rel=SHARE)
    exact = lower_mm(290, 100 * pi, 100 * pi)
    assert exact == pytest.approx(240)
    assert exact * (1 - LAPPED) <= lid.way.least_mm <= exact + NEAR_MM


def test_a_cone_needs_its_height_to_the_tip(chance):
    cone = staves(chance, mouth_mm=90, end_mm=16, slant_mm=148, count=2, lid=True)
    lid, height = _deepest(cone), (148**2 - 74**2) ** 0.5
    assert lid.true_mm == pytest.approx(height, rel=1e-3)
    assert lid.way.along_mm == pytest.approx(148 + 16, rel=SHARE)
    assert lid.way.least_mm <= lower_mm(164, 180 * pi, 180 * pi) + NEAR_MM < lid.true_mm


def test_a_half_ball_needs_its_radius_and_a_quarter_round_is_along_it(chance):
    ball = _cap(chance, radius_mm=80, below_mm=0.0)
    pole, cut_mm = _deepest(ball), 80 * asin(18 / 80) - 18
    assert pole.true_mm == pytest.approx((80**2 - 18**2) ** 0.5, rel=2e-3)
    assert pole.way.along_mm == pytest.approx(80 * pi / 2 - cut_mm, rel=SHARE)
    exact = 80 * (pi / 2 - 1)
    assert 0.75 * exact <= pole.way.least_mm <= exact + NEAR_MM < pole.true_mm


def test_a_shallow_dish_needs_next_to_nothing(chance):
    dish = _cap(chance, radius_mm=150, below_mm=120)
    pole = _deepest(dish)
    assert pole.true_mm == pytest.approx(30, abs=1.5)
    assert pole.way.along_mm == pytest.approx(150 * asin(90 / 150), rel=0.01)
    assert pole.way.least_mm <= 150 * asin(0.6) - 90 + NEAR_MM


def _cap(chance, *, radius_mm: float, below_mm: float) -> Shape:
    turns = np.linspace(asin(below_mm / radius_mm), np.arccos(18 / radius_mm), 400)
    meridian = [
        (radius_mm * float(np.cos(t)), radius_mm * float(np.sin(t)) - below_mm) for t in turns
    ]
    assert hypot(meridian[0][0], below_mm) == pytest.approx(radius_mm)
    return gores(chance, meridian, count=12, lid=True)


@pytest.fixture
def chance():
    from random import Random

    return Random(3)  # noqa: S311 - the same shapes every time
