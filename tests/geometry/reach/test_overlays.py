"""A plate that only lies on another, held flat to it, is no wall and opens nothing."""

from dataclasses import replace
from math import cos, pi, sin

import pytest
from geometry.leather_sketches import part, pattern, rivet
from geometry.reach.net_sketches import box_at, sector, tube, two_part_tube
from hypothesis import given, settings
from hypothesis import strategies as st

from armorplan.geometry.reach.net import reach_net

BASES = {
    "tube": lambda: tube(240.0, 300.0, 10.0, extra={"seat": (120.0, 150.0)}),
    "cone": lambda: sector(0.0, 260.0, 2.0, extra={"seat": (150.0, 60.0)}),
    "two staves": lambda: two_part_tube(160.0, 300.0),
}


def laid_on(base, middle, size, *, holes, turn=0.0, turned=False):
    """Return a pattern with a badge on its first plate: round a spot of it, turned by an angle."""
    on = base.parts[0]

    def there(spot):
        x, y = spot
        x = -x if turned else x
        return middle[0] + x * cos(turn) - y * sin(turn), middle[1] + x * sin(turn) + y * cos(turn)

    width, height = size
    spots = {f"badge_{at}": spot for at, spot in enumerate(holes)}
    outline = box_at(-width / 2, -height / 2, width / 2, height / 2)
    badge = replace(part("badge", outline, spots), drawn_from_inside=turned)
    under = {f"under_{at}": there(spot) for at, spot in enumerate(holes)}
    marked = part(on.id, on.outline, {h.id: h.centre for h in on.holes} | under)
    joints = [rivet(f"on_{at}", f"badge_{at}", f"under_{at}") for at in range(len(holes))]
    return replace(base, parts=(marked, *base.parts[1:], badge), joints=(*base.joints, *joints))


def told(net, joints):
    """Return all that a net says of shells, and of some joints."""
    return {joint: net.access[joint] for joint in joints}


@given(
    st.sampled_from(sorted(BASES)),
    st.tuples(st.floats(25, 50), st.floats(25, 60)),
    st.floats(0, 2 * pi),
    st.integers(1, 4),
    st.booleans(),
)
@settings(max_examples=10, deadline=None)
def test_an_overlay_changes_no_way_girth_or_mouth_of_the_rest(name, size, turn, count, turned):
    base = BASES[name]()
    x, y = base.hole(base.joint("seat").stack[0]).centre if name != "two staves" else (80.0, 150.0)
    half, high = size[0] / 2 - 6, size[1] / 2 - 6
    holes = [(-half, -high), (half, high), (half, -high), (-half, high)][:count]
    more = laid_on(base, (x, y), size, turn=turn, holes=holes, turned=turned)
    bare, net = reach_net(base), reach_net(more)
    assert len(net.shells) == len(bare.shells)
    for id_, shell in bare.shells.items():
        other = net.shells[id_]
        assert set(other.seats) - set(shell.seats) == {f"on_{at}" for at in range(count)}
        assert replace(other, seats=shell.seats) == shell
    for joint, access in bare.access.items():
        assert net.access[joint].parts == access.parts
        got = {(way.through, way.name): way for way in net.access[joint].ways}
        assert len(got) == len(access.ways)
        for way in access.ways:
            other = got[way.through, way.name]
            assert other.along_mm == pytest.approx(way.along_mm, abs=1e-6, rel=1e-3)


@pytest.mark.long
@given(
    st.sampled_from(sorted(BASES)),
    st.tuples(st.floats(25, 50), st.floats(25, 60)),
    st.floats(0, 2 * pi),
    st.integers(1, 4),
    st.booleans(),
)
@settings(max_examples=90, deadline=None)
def test_an_overlay_changes_no_way_girth_or_mouth_of_the_rest_in_many_drawings(
    name, size, turn, count, turned
):
    test_an_overlay_changes_no_way_girth_or_mouth_of_the_rest.hypothesis.inner_test(
        name, size, turn, count, turned
    )


def test_its_rivets_sit_on_the_plate_beneath():
    base = tube(240.0, 300.0, 10.0, extra={"seat": (120.0, 150.0)})
    more = laid_on(base, (120.0, 150.0), (90.0, 40.0), holes=[(-35, 0), (35, 0)])
    access = reach_net(more).access["on_0"]
    rims = [way.along_mm for way in access.ways if way.name.startswith("rim")]
    assert access.parts == ("sheet",)
    assert rims == pytest.approx([150.0, 150.0], rel=0.005)


def test_a_badge_on_a_badge_on_a_tube_leaves_one_shell():
    base = tube(240.0, 300.0, 10.0, extra={"seat": (120.0, 150.0)})
    more = laid_on(base, (120.0, 150.0), (120.0, 80.0), holes=[(-50, 0), (50, 0)])
    small = part("star", box_at(-20.0, -20.0, 20.0, 20.0), {"s0": (-10.0, 0.0), "s1": (10.0, 0.0)})
    badge = more.parts[-1]
    holes = {h.id: h.centre for h in badge.holes} | {"u0": (-10.0, 20.0), "u1": (10.0, 20.0)}
    parts = (*more.parts[:-1], part("badge", badge.outline, holes), small)
    joints = (*more.joints, rivet("star_0", "s0", "u0"), rivet("star_1", "s1", "u1"))
    net = reach_net(replace(more, parts=parts, joints=joints))
    assert net.shells["sheet"].rims == reach_net(base).shells["sheet"].rims
    assert net.shells["sheet"].parts == ("sheet",)
    assert {net.access[each].shell for each in ("star_0", "star_1")} == {"badge"}


@pytest.mark.parametrize(
    ("size", "middle", "bent_mm", "why"),
    [
        ((60.0, 40.0), (120.0, 150.0), 4.0, "its holes miss: it bulges over a pocket"),
        ((60.0, 200.0), (120.0, 280.0), 0.0, "it hangs over the edge: it makes the wall longer"),
        ((60.0, 40.0), (120.0, 400.0), 0.0, "it lies beside the plate: its holes are misdrawn"),
        ((240.0, 290.0), (120.0, 150.0), 0.0, "it is as large as the plate: a doubled wall"),
    ],
)
def test_what_does_not_just_lie_on_a_plate_is_a_wall(size, middle, bent_mm, why):
    base = tube(240.0, 300.0, 10.0, extra={"seat": (120.0, 150.0)})
    holes = [(-20.0, -12.0), (20.0, -12.0), (20.0, 12.0)]
    more = laid_on(base, middle, size, holes=holes)
    plate = more.parts[0]
    moved = tuple(
        replace(hole, centre=(hole.centre[0] + bent_mm, hole.centre[1]))
        if hole.id == "under_0"
        else hole
        for hole in plate.holes
    )
    more = replace(more, parts=(replace(plate, holes=moved), *more.parts[1:]))
    assert reach_net(more).shells["sheet"].parts == ("sheet", "badge"), why


def test_two_halves_joined_by_one_straight_row_are_both_walls():
    left = part(
        "left", box_at(0.0, 0.0, 220.0, 500.0), {f"l{n}": (212.0, 20.0 + 57 * n) for n in range(9)}
    )
    right = part(
        "right", box_at(0.0, 0.0, 150.0, 500.0), {f"r{n}": (8.0, 20.0 + 57 * n) for n in range(9)}
    )
    joints = tuple(rivet(f"j{n}", f"l{n}", f"r{n}") for n in range(9))
    assert reach_net(pattern(left, right, joints=joints)).shells["left"].parts == ("left", "right")
