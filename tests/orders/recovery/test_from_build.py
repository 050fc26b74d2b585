"""From a build to its problem: what is stuck, what opens, what the checker says of what is found."""

from dataclasses import replace

import pytest
from orders.recovery.build_scenes import named, row, sample_scene

from armorplan.orders.recovery.alternatives import alternatives
from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.from_build import stated
from armorplan.orders.recovery.mistakes import Mistake, MistakeKind
from armorplan.orders.recovery.model import Doing, Means, TakeBack
from armorplan.orders.recovery.opened_for import opened_for
from armorplan.orders.recovery.search import cheapest
from armorplan.relations.model import Before
from armorplan.steps.model import StepKind

COP = "elbow_cop"


def closed_cop():
    """The boss is on before the tab under it, the keeper is shut before it is threaded."""
    left = named(COP, "rivet/tab_top", "thread/keeper_loop")
    done = named(COP, "rivet/boss_left", "rivet/boss_right", "rivet/keeper_ends")
    return sample_scene(COP).standing(done, left=left)


def test_the_cheapest_way_out_of_a_closed_cop_drills_one_rivet_of_the_boss_and_that_of_the_keeper():
    state = stated(sample_scene(COP), closed_cop())
    found = cheapest(state.problem)
    opened = {move.id.rpartition("/")[2] for move in found.moves if isinstance(move, TakeBack)}
    assert opened in ({"boss_left", "keeper_ends"}, {"boss_right", "keeper_ends"})
    assert found.proved
    assert 3 <= min(m.cost.minutes for m in found.moves if isinstance(m, TakeBack)) <= 5


def test_every_way_of_a_closed_cop_holds_and_its_stuck_steps_have_reasons():
    state = stated(sample_scene(COP), closed_cop())
    late = {one.step.rpartition("/")[2] for one in state.stuck if not one.harder}
    assert late == {"keeper_loop", "tab_top", "tab_bottom"}
    assert all(bar.why.endswith(".") for one in state.stuck for bar in one.bars)
    ways = alternatives(state.problem)
    assert all(not faults_of(state.problem, way.moves) for way in ways)
    assert {Means.AS_IS, Means.DRILL} <= {means for way in ways for means in way.means}


def test_what_a_step_cannot_be_without_is_taken_as_done_and_a_dye_is_not():
    scene = sample_scene(COP)
    stands = scene.standing(named(COP, "rivet/left_row_1"))
    kinds = {scene.step(one).kind for one in stands}
    assert {StepKind.CUT, StepKind.PUNCH, StepKind.LAY_OUT} <= kinds
    assert not kinds & {StepKind.DYE, StepKind.DRY_FIT, StepKind.FINISH}


def test_as_usual_all_that_comes_before_is_taken_as_done_but_what_is_left_out():
    scene = sample_scene(COP)
    left = named(COP, "dye/colour.coat-2")
    stands = scene.standing(named(COP, "rivet/left_row_1"), left=left)
    tails = {one.split("/", 3)[3] for one in stands}
    assert {"dye/colour.coat-1", "finish/seal.coat-2", "dry-fit/elbow_cop"} <= tails
    assert not {"dye/colour.coat-2", "dry/colour.coat-2.dye"} & tails


def test_nothing_irreversible_is_ever_taken_back_by_itself():
    for_good = {StepKind.CUT, StepKind.PUNCH, StepKind.DYE, StepKind.HARDEN, StepKind.TOOL}
    scene = sample_scene(COP)
    stands = scene.standing(row(COP, "left_row"))
    problem = stated(scene, stands).problem
    cleared = {s for m in problem.moves if isinstance(m, TakeBack) for s in m.clears}
    assert cleared
    assert not {scene.step(one).kind for one in cleared} & for_good


def test_what_lies_under_a_cover_is_opened_with_the_cover():
    scene = sample_scene(COP)
    stands = frozenset(scene.place)
    opened, surely = opened_for(scene, named(COP, "rivet/tab_top"), stands)
    assert surely
    tails = [one.split("/", 3)[3] for one in opened]
    assert sum(tail.startswith("rivet/boss_") for tail in tails) == 1
    assert {"fit/elbow_cop", "inspect/elbow_cop", "pack/elbow_cop"} <= set(tails)
    assert tails.index("rivet/tab_top") < min(
        tails.index(tail) for tail in tails if tail.startswith("rivet/boss_")
    )


@pytest.mark.parametrize(
    ("name", "part"), [(COP, "petal_middle"), ("collar", "back_lame"), ("arm_harness", "cop.left")]
)
def test_a_part_cut_anew_out_of_a_finished_piece_leaves_all_standing_as_before(name, part):
    scene = sample_scene(name)
    stands = frozenset(scene.place)
    state = stated(scene, stands, (Mistake(kind=MistakeKind.SPOILT, about=(part,)),))
    whole = next(m for m in state.problem.moves if m.means is Means.REMAKE)
    told = state.inner[whole.id]
    held, opened = set(stands), set[str]()
    for move, note in told:
        if isinstance(move, TakeBack):
            covers = (b for step in note.clears for b in scene.bars_of(step) if b.bars_opening)
            assert all(not bar.of <= held - {bar.first} for bar in covers), move.title
            held -= set(note.clears)
            opened |= set(note.clears)
        elif note.step:
            held.add(note.step)
    assert held == stands
    through = {step.id for step in scene.joint_steps_of(part)}
    assert through <= opened
    assert whole.cost.minutes > 60
    assert whole.cost.wait_min > 24 * 60


def test_what_is_opened_for_a_salvage_is_done_again_in_the_order_of_the_build():
    scene = sample_scene(COP)
    stands = frozenset(scene.place)
    mistake = Mistake(kind=MistakeKind.WRONG_HOLE, about=("tab_top",), mm=2.0)
    state = stated(scene, stands, (mistake,))
    plugged = next(m for m in state.problem.moves if m.id.endswith(":oval_hole"))
    again = [n.step for m, n in state.inner[plugged.id] if isinstance(m, Doing) and n.step]
    assert again == sorted(again, key=scene.place.__getitem__)
    assert named(COP, "rivet/tab_top") < set(again)


def test_a_relation_set_aside_bars_nothing():
    scene = sample_scene(COP)
    left = tuple(
        replace(r, reason=replace(r.reason, overruled=True, note="n"))
        if isinstance(r, Before) and r.reason.rule == "thread-before-closed"
        else r
        for r in scene.relations
    )
    free = replace(scene, relations=left)
    tails = {one.step.rpartition("/")[2] for one in stated(free, closed_cop()).stuck}
    assert "keeper_loop" not in tails


def test_all_rivets_set_on_raw_leather_is_answered_too():
    scene = sample_scene("arm_harness")
    rivets = [one for one in scene.place if "/elbow/left/rivet/" in one]
    state = stated(scene, rivets)
    assert len(state.stuck) > 10
    found = cheapest(state.problem, most_states=200)
    assert found is not None
    assert not faults_of(state.problem, found.moves)
