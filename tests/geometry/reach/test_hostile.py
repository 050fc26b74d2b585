"""Drawings that are at fault still give a net: what can be told is told, and nothing is raised."""

from dataclasses import replace

import pytest
from geometry.leather_sketches import box, part, pattern, rivet
from geometry.reach.net_sketches import closed, tube, two_part_tube, without_outline

from armorplan.geometry.reach.net import reach_net
from armorplan.pattern.joining import Joint, JointKind, Motion, Seam

NAN = float("nan")


def moved(sketch, spots):
    """A sketch with every hole of its first part at another place."""
    first, *others = sketch.parts
    holes = tuple(
        replace(hole, centre=spot) for hole, spot in zip(first.holes, spots, strict=False)
    )
    kept = first.holes[len(holes) :]
    return replace(sketch, parts=(replace(first, holes=holes + kept), *others))


def with_outline(sketch, outline):
    first, *others = sketch.parts
    return replace(sketch, parts=(replace(first, outline=outline), *others))


SINGLE = pattern(
    part("a", box(90.0, 60.0), {"a_1": (80.0, 30.0)}),
    part("b", box(90.0, 60.0), {"b_1": (10.0, 30.0)}),
    joints=(rivet("only", "a_1", "b_1"),),
)
CROSSED = closed(
    "sheet",
    box(240.0, 200.0),
    [(0.0, y) for y in (0.0, 100.0, 50.0, 200.0, 150.0)],
    [(240.0, y) for y in (0.0, 100.0, 50.0, 200.0, 150.0)],
)
THREE = pattern(
    part("a", box(90.0, 60.0), {f"a_{at}": (80.0, 10.0 + 10 * at) for at in range(4)}),
    part("b", box(90.0, 60.0), {f"b_{at}": (10.0, 10.0 + 10 * at) for at in range(4)}),
    part("c", box(90.0, 60.0), {f"c_{at}": (10.0, 10.0 + 10 * at) for at in range(4)}),
    joints=(
        *(rivet(f"j{at}", f"a_{at}", f"b_{at}") for at in range(2)),
        *(rivet(f"j{at}", f"a_{at}", f"c_{at}") for at in range(2, 4)),
    ),
    seams=(Seam(id="row", name="row", joints=("j0", "j1", "j2", "j3")),),
)
GLUED = pattern(
    part("a", box(90.0, 60.0), {}),
    part("b", box(90.0, 60.0), {}),
    joints=(Joint(id="glue", kind=JointKind.GLUE, layers=("a", "b")),),
)
SHEET = tube(240.0, 200.0, 5.0)
HOSTILE = {
    "empty": pattern(),
    "no outline": without_outline(SHEET),
    "no outline of two": without_outline(two_part_tube()),
    "line": with_outline(SHEET, ((0.0, 0.0), (100.0, 0.0), (50.0, 0.0))),
    "one spot": with_outline(SHEET, ((1.0, 1.0),) * 4),
    "bow tie": with_outline(SHEET, ((0.0, 0.0), (240.0, 200.0), (240.0, 0.0), (0.0, 200.0))),
    "not numbers": with_outline(SHEET, ((NAN, 0.0), (240.0, NAN), (240.0, 200.0), (0.0, 200.0))),
    "holes outside": moved(SHEET, [(-500.0, 20.0 * at) for at in range(22)]),
    "coincident holes": moved(SHEET, [(120.0, 100.0)] * 22),
    "crossing seam": CROSSED,
    "single": SINGLE,
    "three edges in a seam": THREE,
    "glue without holes": GLUED,
    "turning only": replace(
        SINGLE, joints=tuple(replace(each, motion=Motion.TURNING) for each in SINGLE.joints)
    ),
}


@pytest.mark.parametrize("name", sorted(HOSTILE))
def test_a_drawing_at_fault_still_gives_a_net(name):
    sketch = HOSTILE[name]
    net = reach_net(sketch)
    assert {p for shell in net.shells.values() for p in shell.parts} == {
        each.id for each in sketch.parts
    }
    for access in net.access.values():
        for way in access.ways:
            assert 0 <= way.least_mm <= way.along_mm < float("inf")


def test_a_ring_without_an_opening_has_no_rim():
    square = box(60.0, 60.0)
    ring = [(0.0, 0.0), (60.0, 0.0), (60.0, 60.0), (0.0, 60.0)]
    spots = [
        (a[0] + (b[0] - a[0]) * at / 6, a[1] + (b[1] - a[1]) * at / 6)
        for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
        for at in range(6)
    ]
    parts = [
        part(name, square, {f"{name}_{at}": spot for at, spot in enumerate(spots)})
        for name in ("front", "back")
    ]
    mirrored = {f"back_{at}": (60.0 - x, y) for at, (x, y) in enumerate(spots)}
    parts[1] = replace(
        parts[1],
        holes=tuple(replace(hole, centre=mirrored[hole.id]) for hole in parts[1].holes),
    )
    joints = tuple(rivet(f"j{at}", f"front_{at}", f"back_{at}") for at in range(len(spots)))
    seam = Seam(id="round", name="round", joints=tuple(joint.id for joint in joints))
    net = reach_net(pattern(*parts, joints=joints, seams=(seam,)))
    (shell,) = net.shells.values()
    assert shell.rims == ()
    assert all(way.row == "round" for access in net.access.values() for way in access.ways)


def test_two_plates_on_one_rivet_may_lie_anyhow():
    (shell,) = reach_net(SINGLE).shells.values()
    assert shell.hollow


def test_plates_that_only_turn_are_shells_of_their_own():
    net = reach_net(HOSTILE["turning only"])
    assert sorted(net.shells) == ["a", "b"]
    assert net.access["only"].shell in {"a", "b"}


def test_a_seam_that_changes_its_plates_is_read_in_runs():
    (shell,) = reach_net(THREE).shells.values()
    assert [joint for row in shell.rows for joint in row.joints] == ["j0", "j1", "j2", "j3"]
