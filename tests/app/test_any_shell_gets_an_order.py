"""Whatever is drawn and closed gets an order that its own reach allows, or a finding that says why not."""

from dataclasses import replace
from itertools import pairwise

import pytest
from app.shell_draws import assembly_of
from app.strip_draws import strips_of
from ending import ends_within

from armorplan.app.derived import derive_build
from armorplan.app.reach_track import reach_track
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.model import Standing
from armorplan.geometry.reach.sealing import sealings
from armorplan.relations.conflict import find_conflict
from armorplan.relations.model import BeforeAll, Force
from armorplan.relations.weighing import binding
from armorplan.workshop.shop import one_maker

SHELF, SHOP = read_shelf(), one_maker("UTC")
SHORT = replace(
    SHELF,
    tools=tuple(
        replace(tool, reach_mm=tool.reach_mm and 0.2 * tool.reach_mm) for tool in SHELF.tools
    ),
)
TOLD = {"reach-nothing-gets-there", "reach-no-opening"}
DEARER = {"easier-while-open", "deep-end-easier"}
BY_REACH = {"reach-before-closed", "row-from-deep-end"}
MOST_S = 30.0
STRIPS = (*range(1, 7), *range(8, 19), 22, 25)
QUICK, LONG = (*range(7), *range(8, 12), 17, 18, 19, 21, 22, 23, 29), range(1000, 1400)


def checked(seed, drawing=assembly_of):
    """Check one drawing; return what it is, and what forbids.

    That is how many joints can be put out of reach, and how many relations of reach tell of it.
    """
    name, pattern = drawing(seed)
    with ends_within(MOST_S, (seed, name)):
        return found_of(seed, name, pattern)


def found_of(seed, name, pattern):
    build = derive_build(pattern, SHELF if seed % 2 else SHORT, SHOP, build="b")
    codes = {each.code for each in build.findings}
    reach = reach_of(build.pattern, build.shelf)
    sealed = sealings(reach.net, reach.bench)
    if not build.order:
        assert codes >= {"no-order-possible"}, (seed, name, sorted(codes))
        assert is_at_odds_without_reach(build), (seed, name)
        return name, len(sealed), 0
    track = reach_track(build)
    frames = [track.frame(at) for at in range(len(track.stops) + 1)]
    for one, other in pairwise(frames):
        coming = {each.id: each for each in one.joints if each.id in one.coming}
        out = [id_ for id_, each in coming.items() if is_out(each)]
        out = [id_ for id_ in out if not costs_undoing(build, id_)]
        assert not out or codes & TOLD, (seed, name, one.at, out)
        for before, after in zip(one.joints, other.joints, strict=True):
            if before.standing is not None:
                assert after.standing >= before.standing, (seed, name, before, after)
    told = [relation.reason for relation in build.relations if relation.reason.rule in BY_REACH]
    return name, len(sealed), sum(reason.force is Force.CANNOT for reason in told)


def is_at_odds_without_reach(build):
    """Tell whether other rules leave no order: reach by itself always leaves one."""
    steps = tuple(step.id for step in build.work.steps)
    others = [each for each in build.relations if each.reason.rule not in BY_REACH]
    return find_conflict(steps, binding(others)) != ()


def is_out(joint):
    return joint.standing is Standing.CANNOT


def costs_undoing(build, joint):
    """Tell whether it is told what it costs to open rows again for a joint, and that it is not kept."""
    step = build.work.setting(joint).id
    return any(
        relation.first == step and relation.reason.rule in DEARER
        for relation in build.not_kept
        if isinstance(relation, BeforeAll)
    )


def test_what_is_drawn_by_chance_gets_an_order_its_reach_allows():
    found = [checked(seed) for seed in QUICK]
    assert len({name for name, _, _ in found}) > 6
    assert 3 * sum(sealed > 0 for _, sealed, _ in found) >= len(found)
    assert sum(told > 0 for _, _, told in found) > 3


@pytest.mark.long
@pytest.mark.parametrize("seed", LONG)
def test_hundreds_of_drawings_get_an_order_their_reach_allows(seed):
    checked(seed)


def test_strips_in_rows_and_one_seam_over_many_rows_leave_an_order_that_reach_allows():
    found = [checked(seed, strips_of) for seed in STRIPS]
    assert len({name for name, _, _ in found}) > 9
    assert sum(sealed > 0 for _, sealed, _ in found) > 3


@pytest.mark.long
@pytest.mark.parametrize("seed", LONG)
def test_hundreds_of_drawings_with_strips_and_long_seams_get_an_order(seed):
    checked(seed, strips_of)


def forever():
    while True:
        pass


def test_what_would_never_end_fails_its_test():
    with pytest.raises(AssertionError, match="seven does not end within"):  # noqa: SIM117
        with ends_within(0.1, "seven"):
            forever()
