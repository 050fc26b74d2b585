"""Ways back found by the program, chosen at the bench and followed to the end."""

import pytest
from app.way_scene import finish, follow, step_of, work_through

from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.model import Means
from armorplan.steps.model import StepKind

FORGOTTEN = ("tab_top", "tab_bottom")


@pytest.fixture
def closed(bench):
    """The elbow cop with its boss on, and the tab under it forgotten."""
    forgotten = [step_of(bench, one) for one in FORGOTTEN]
    boss = step_of(bench, "boss_right")
    order = bench.session.derived.order
    before = order[: order.index(boss) + 1]
    work_through(bench, [step for step in before if step not in forgotten])
    return bench


def test_a_closed_cop_is_opened_by_one_rivet_and_made_to_the_end(closed):
    session = closed.session
    found = session.way_back.asking()()
    assert {one.title for one in found.stuck} == {one.title for one in session.way_back.stuck()}
    best = found.ways[0]
    assert best.title == "Drill out 1 rivet, and set it anew"
    session.way_back.choose(best)
    (chosen,) = session.way_back.chosen()
    ticked = finish(closed)
    assert [step for step in ticked if step in chosen.steps] == list(chosen.steps)
    assert chosen.steps[1:3] == tuple(step_of(closed, one) for one in FORGOTTEN)
    assert session.way_back.chosen() == ()


@pytest.mark.parametrize("means", [Means.OVAL, Means.REMAKE])
def test_a_wrong_hole_is_mended_or_its_part_cut_anew(closed, means):
    session = closed.session
    session.way_back.tell(Mistake(kind=MistakeKind.WRONG_HOLE, about=("boss_left",), mm=2.0))
    found = session.way_back.asking()()
    way = next(way for way in found.ways if way.means == means)
    session.way_back.choose(way)
    follow(closed)
    assert session.way_back.mistakes() == ()
    kinds = [session.derived.work.step(step).kind for step in session.derived.order]
    assert StepKind.MEND in kinds


def test_a_drying_that_comes_late_still_follows_its_coat_and_no_way_is_faster_than_none(bench):
    """Rivets stand before anything is dyed: they are drilled, all is done in time, and set again."""
    session = bench.session
    seams = {joint for seam in session.derived.assembly.seams for joint in seam.joints}
    rivets = session.derived.work.of_kind(StepKind.RIVET)
    outside = tuple(step.id for step in rivets if not seams & set(step.joints))
    session.way_back.tell(Mistake(kind=MistakeKind.CLOSED, about=outside))
    found = session.way_back.asking()()
    *_, dated = session.way_back.dating(found).told()
    assert all(way.finish for way in dated.ways)
    assert not any("earlier" in way.finish for way in dated.ways)
    way = next(way for way in found.ways if way.means == Means.DRILL)
    assert any(move.step.endswith("dry/seal.coat-2.finish") for move in way.moves)
    session.way_back.choose(way)
    held = {
        (relation.first, relation.then)
        for relation in session.derived.index.relations
        if relation.reason.rule == "drying-starts-at-once" and relation.reason.binds
    }
    work = session.derived.work
    for step in work.of_kind(StepKind.DRY):
        if step.after and "/mend/" not in step.after:
            assert (step.after, step.id) in held, step.title
