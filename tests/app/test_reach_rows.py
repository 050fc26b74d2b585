"""Reach along a build's order: what is lost where, how rows gape, on which side."""

import gc
from collections.abc import Iterator
from contextlib import contextmanager
from functools import cache
from itertools import pairwise

import pytest

from armorplan.app import closing_order
from armorplan.app.closing_order import FRAMES_KEPT, Barring, ClosingOrder, Reckoning
from armorplan.app.derived import Derived
from armorplan.app.opening import derive_folder
from armorplan.app.reach_rows import JointReach, Opening, RowReach, RowState
from armorplan.app.reach_track import reach_track
from armorplan.assembly.model import Side
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.model import (
    Access,
    Margin,
    ReachNet,
    Rim,
    Row,
    Shell,
    Standing,
    Through,
    Way,
)
from armorplan.geometry.reach.standings import told_of
from armorplan.kernel.shipped import samples_folder
from armorplan.workshop.shop import one_maker

GAPE = 0.5
LEFT = tuple(f"left_row_{n}" for n in range(1, 8))
RIGHT = tuple(f"right_row_{n}" for n in range(1, 8))


@cache
def sample(name: str) -> Derived:
    return derive_folder(samples_folder() / name, read_shelf(), one_maker("UTC"))


@pytest.fixture(scope="module")
def cop() -> Derived:
    return sample("elbow_cop")


def boss_of(cop: Derived) -> str:
    """Return a joint of the cop that is in neither row."""
    return next(j.joint.id for j in cop.assembly.joints if "boss" in j.joint.id)


def hand_made(cop: Derived) -> ClosingOrder:
    """Return the order of the cop where only its boss is ever barred, by both rows together."""
    boss = boss_of(cop)
    way = Way(through=Through.RIM, name="rim-1", along_mm=80.0, least_mm=60.0, opening_mm=50.0)
    rows = tuple(
        Row(
            id=name,
            name=name.replace("_", " "),
            joints=joints,
            at_mm=tuple(10.0 * place for place in range(7)),
            parts=("middle", side),
        )
        for name, joints, side in (("left_row", LEFT, "left"), ("right_row", RIGHT, "right"))
    )
    outline = next(p for p in cop.pattern.parts if p.id == cop.pattern.hole(hole_of(cop)).part)
    spot = outline.outline[0]
    rim = Rim(id="rim-1", length_mm=157.0, spots=((outline.id, spot),))
    shell = Shell(
        id="middle",
        parts=("middle",),
        rims=(rim,),
        rows=rows,
        seats=(*LEFT, *RIGHT, boss),
        girth_mm={"rim-1": 170.0},
        formed=frozenset(),
    )
    inside = {"shell": shell.id, "ways": (way,)}
    access = {joint: Access(joint=joint, **inside) for joint in shell.seats}

    def margin_of(joint: str, made: frozenset[str]) -> Margin:
        barred = joint == boss and made.issuperset((*LEFT, *RIGHT))
        standing = Standing.CANNOT if barred else Standing.CURVED
        return Margin(standing=standing, tool="horn", way=way, opening_mm=50.0, reach_mm=55.0)

    known = Reckoning(
        net=ReachNet(shells={"middle": shell}, access=access),
        margin_of=margin_of,
        barred={
            boss: (Barring(rows=frozenset(("left_row", "right_row")), after=Standing.CANNOT),)
        },
        tool_names={"horn": "horn anvil"},
        row_gape=GAPE,
    )
    return ClosingOrder(cop.assembly, cop.work, cop.order, known)


def hole_of(cop: Derived) -> str:
    return cop.pattern.joint(boss_of(cop)).stack[-1]


def row(gapes: tuple[float | None, ...]) -> RowReach:
    is_set = tuple(gape == 0.0 for gape in gapes)
    return RowReach(
        id="r", name="row", joints=tuple("abc"[: len(gapes)]), is_set=is_set, gapes_mm=gapes
    )


@pytest.mark.parametrize(
    ("gapes", "state", "gape_mm"),
    [
        ((None, None, None), RowState.OPEN, None),
        ((0.0, 5.0, 10.0), RowState.HALF, 10.0),
        ((0.0, 0.0, 0.0), RowState.SHUT, 0.0),
    ],
)
def test_a_row_is_open_half_closed_or_closed(gapes, state, gape_mm):
    assert (row(gapes).state, row(gapes).gape_mm) == (state, gape_mm)


def test_every_joint_is_set_at_one_stop_of_the_order(cop):
    stops = hand_made(cop).stops
    joints = [joint for stop in stops for joint in stop.joints]
    assert sorted(joints) == sorted(joint.id for joint in cop.assembly.joints)
    places = [cop.place[stop.step] for stop in stops]
    assert places == sorted(places)


def test_rows_gape_by_the_distance_to_the_nearest_joint_that_is_set(cop):
    order = hand_made(cop)
    first = next(at for at, stop in enumerate(order.stops) if stop.joints[0] in LEFT)
    before, after = order.frame(first), order.frame(first + 1)
    assert before.rows[0].state is RowState.OPEN
    place = LEFT.index(order.stops[first].joints[0])
    assert after.rows[0].gapes_mm == tuple(GAPE * 10.0 * abs(n - place) for n in range(7))
    assert before.coming == order.stops[first].joints


def test_what_both_rows_bar_is_lost_where_the_last_of_them_is_closed(cop):
    order = hand_made(cop)
    boss = boss_of(cop)
    closed = max(at for at, stop in enumerate(order.stops) if stop.joints[0] in (*LEFT, *RIGHT))
    assert order.lost(lambda: False) == {closed + 1: (boss,)}
    assert [at for at in range(len(order.stops) + 1) if order.frame(at).lost] == [closed + 1]
    assert order.frame(closed + 1).joint(boss).worse
    assert not order.frame(closed).joint(boss).worse


def test_nothing_more_is_sought_once_it_is_told_to_stop(cop):
    assert hand_made(cop).lost(lambda: True) == {}


def test_the_way_in_has_its_legs_on_the_part_and_names_what_bars_it(cop):
    order = hand_made(cop)
    way = order.way_in(boss_of(cop), 0)
    assert way.opening == Opening(words="from the edge")
    assert way.tool == "horn anvil"
    end = order.way_in(boss_of(cop), len(order.stops)).opening
    assert end == Opening(words="by the mouth", wide_mm=50.0)
    hole = cop.pattern.hole(hole_of(cop))
    part = cop.pattern.part(hole.part)
    assert way.legs == ((part.outline[0], hole.centre),)
    assert [bar.names for bar in way.barred_by] == [("left row", "right row")]
    assert order.way_in("no such joint", 0) is None


def test_what_sits_in_no_shell_has_no_standing(cop):
    order = hand_made(cop)
    known = {*LEFT, *RIGHT, boss_of(cop)}
    away = [joint for joint in order.frame(0).joints if joint.id not in known]
    assert away
    assert all(joint.standing is None for joint in away)


@pytest.mark.parametrize("name", ["elbow_cop", "arm_harness"])
def test_along_the_order_of_a_sample_no_joint_comes_back_into_reach(name):
    derived = sample(name)
    track = reach_track(derived)
    frames = [track.frame(at) for at in range(len(track.stops) + 1)]
    for before, after in pairwise(frames):
        for one, other in zip(before.joints, after.joints, strict=True):
            if one.standing is not None and one.is_set == other.is_set:
                assert other.standing >= one.standing, (one, other)
    assert all(row.state is RowState.SHUT for row in frames[-1].rows)


@pytest.mark.parametrize("name", ["elbow_cop", "arm_harness", "collar"])
def test_the_diagram_tells_of_each_joint_what_the_measures_tell_at_first_and_at_last(name):
    derived = sample(name)
    reach, track = reach_of(derived.pattern, derived.shelf), reach_track(derived)
    first, last = track.frame(0), track.frame(len(track.stops))
    for joint in derived.assembly.joints:
        shell = reach.net.shell_of(joint.joint.id)
        if shell is None:
            continue
        told = told_of(reach, shell, joint.joint.id)
        assert first.joint(joint.id).margin == told.first
        assert last.joint(joint.id).margin == told.last


@pytest.mark.parametrize("name", ["elbow_cop", "arm_harness", "collar"])
def test_before_anything_is_set_no_joint_of_a_sample_is_reached_by_a_mouth(name):
    derived = sample(name)
    track = reach_track(derived)
    ways = [track.way_in(joint.id, 0) for joint in derived.assembly.joints]
    openings = [way.opening for way in ways if way.opening]
    assert openings
    assert all(one.row or one == Opening(words="from the edge") for one in openings)


def test_each_side_of_a_pair_closes_by_itself():
    derived = sample("arm_harness")
    track = reach_track(derived)
    left = next(at for at, stop in enumerate(track.stops) if stop.joints[0].endswith(".left"))
    joint = track.stops[left].joints[0]
    frame = track.frame(left + 1)
    assert frame.joint(joint).is_set
    assert not frame.joint(joint.replace(".left", ".right")).is_set


def test_only_the_latest_moments_are_kept_however_far_the_order_is_followed():
    derived = sample("arm_harness")
    track = reach_track(derived)
    joints = len(derived.assembly.joints)
    assert len(track.stops) > 2 * FRAMES_KEPT
    with only_what_is_new():
        for at in (*range(len(track.stops) + 1), *range(len(track.stops), -1, -1)):
            track.frame(at)
        kept = sum(isinstance(each, JointReach) for each in gc.get_objects())
    assert 0 < kept <= joints * FRAMES_KEPT < joints * len(track.stops)
    assert track.frame(0) is track.frame(0)


@contextmanager
def only_what_is_new() -> Iterator[None]:
    """Let the collector count only what is made from now on: all of a long run takes seconds."""
    gc.collect()
    gc.freeze()
    try:
        yield
    finally:
        gc.unfreeze()


def test_margins_are_kept_for_the_latest_moments_only(cop, monkeypatch):
    monkeypatch.setattr(closing_order, "FRAMES_KEPT", 2)

    def horns():
        gc.collect()
        every = (each for each in gc.get_objects() if isinstance(each, Margin))
        return sum(each.tool == "horn" for each in every)

    with only_what_is_new():
        order = hand_made(cop)
        for at in range(len(order.stops) + 1):
            order.frame(at)
        states, inside = 2 * 2 + len(Side), len((*LEFT, *RIGHT, boss_of(cop)))
        assert 2 * inside <= horns() <= states * inside < len(order.stops) * inside
        del order
        assert horns() == 0
