"""Whatever is drawn and closed gets an order that its own reach allows, or a finding that says why not."""

from itertools import pairwise
from time import process_time

import pytest
from app.shell_draws import assembly_of

from armorplan.app.derived import derive_build
from armorplan.app.reach_track import reach_track
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Standing
from armorplan.relations.conflict import find_conflict
from armorplan.relations.model import Force
from armorplan.relations.weighing import binding
from armorplan.workshop.shop import one_maker

SHELF, SHOP = read_shelf(), one_maker("UTC")
TOLD = {"reach-nothing-gets-there", "reach-no-opening"}
BY_REACH = {"reach-before-closed", "row-from-deep-end"}
MOST_S = 30.0
QUICK, LONG = (*range(12), *range(17, 24)), range(1000, 1400)


def checked(seed):
    """Check one drawing; return what it is, and how many relations of reach forbid in it."""
    name, pattern = assembly_of(seed)
    started = process_time()
    build = derive_build(pattern, SHELF, SHOP, build="b")
    codes = {each.code for each in build.findings}
    if not build.order:
        assert codes >= {"no-order-possible"}, (seed, name, sorted(codes))
        assert is_at_odds_without_reach(build), (seed, name)
        return name, 0
    track = reach_track(build)
    frames = [track.frame(at) for at in range(len(track.stops) + 1)]
    for one, other in pairwise(frames):
        coming = {each.id: each for each in one.joints if each.id in one.coming}
        out = [id_ for id_, each in coming.items() if is_out(each) and not opens(build, one, id_)]
        assert not out or codes & TOLD, (seed, name, one.at, out)
        for before, after in zip(one.joints, other.joints, strict=True):
            if before.standing is not None:
                assert after.standing >= before.standing, (seed, name, before, after)
    took_s = process_time() - started
    assert took_s <= MOST_S, (seed, name, took_s)
    told = [relation.reason for relation in build.relations if relation.reason.rule in BY_REACH]
    return name, sum(reason.force is Force.CANNOT for reason in told)


def is_at_odds_without_reach(build):
    """Tell whether other rules leave no order: reach by itself always leaves one."""
    steps = tuple(step.id for step in build.work.steps)
    others = [each for each in build.relations if each.reason.rule not in BY_REACH]
    return find_conflict(steps, binding(others)) != ()


def is_out(joint):
    return joint.standing is Standing.CANNOT


def opens(build, frame, joint):
    """Tell whether a tool gets there once all laces and screws are undone: a row of them only costs."""
    made, plain = (
        {each.id for each in frame.joints if each.is_set},
        build.assembly.joint(joint).joint,
    )
    side = build.assembly.joint(joint).side
    held = {
        each.joint.id
        for each in build.assembly.joints
        if each.id in made and each.joint.kind.is_permanent and each.side is side
    }
    reach = reach_of(build.pattern, SHELF)
    return margin(reach.net, plain.id, frozenset(held), reach.bench).standing < Standing.CANNOT


def test_what_is_drawn_by_chance_gets_an_order_its_reach_allows():
    found = [checked(seed) for seed in QUICK]
    assert len({name for name, _ in found}) > 4
    assert sum(forbidden > 0 for _, forbidden in found) > 1


@pytest.mark.long
@pytest.mark.parametrize("seed", LONG)
def test_hundreds_of_drawings_get_an_order_their_reach_allows(seed):
    checked(seed)
