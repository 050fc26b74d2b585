"""Joints are set in the chosen order, piece by piece and side by side; a plan is left always."""

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from armorplan.app.opening import derive_folder
from armorplan.assembly.model import Side
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.shipped import samples_folder
from armorplan.relations.model import Before, Force, Reason
from armorplan.rules.sketch_shelf import sketch_shelf
from armorplan.schedule.bench_history import NOTHING_DONE, History
from armorplan.schedule.building import problem_from
from armorplan.schedule.checker import violations
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.planning import best_plan, first_plan
from armorplan.schedule.problem import Status
from armorplan.schedule.workplace import Workplace
from armorplan.solving.keeper import SolverKeeper
from armorplan.steps.model import SETS_JOINT, Step, StepKind, Work
from armorplan.workshop.shop import Person, Shop, one_maker, usual_hours

MONDAY_9 = datetime(2026, 11, 30, 9, tzinfo=UTC)
WHY = Reason(rule="r", text="Because.", force=Force.CANNOT, source="s")
ROW = ("r1", "r2", "r3", "r4")


def step(name, kind=StepKind.RIVET, minutes=4, **more):
    given = {"piece": "cop", "side": Side.SINGLE, **more}
    return Step(id=name, kind=kind, title=name, tray=name, parts=(), minutes=minutes, **given)


def row_of(*more, **each):
    return Work(steps=(*(step(name, **each) for name in ROW), *more))


def problem_of(work, *relations, order=ROW, history=NOTHING_DONE, shop=None):
    return problem_from(
        work,
        relations,
        Workplace(shop=shop or one_maker("UTC"), shelf=sketch_shelf()),
        origin_at=MONDAY_9,
        order=tuple(order),
        history=history,
    )


def links(problem):
    return {(lag.first, lag.then) for lag in problem.lags}


def starts(problem):
    plan = first_plan(problem)
    assert plan.placed, plan.conflict
    assert violations(problem, plan) == ()
    return {p.id: p.start_min for p in plan.placed}


def test_a_row_is_set_in_the_chosen_order():
    order = ("r3", "r1", "r4", "r2")
    problem = problem_of(row_of(), order=order)
    assert links(problem) == {("r3", "r1"), ("r1", "r4"), ("r4", "r2")}
    found = starts(problem)
    assert sorted(order, key=found.__getitem__) == list(order)


def test_what_waits_holds_back_what_comes_after_it_in_the_order():
    dye, dry = step("dye", StepKind.DYE), step("dry", StepKind.DRY, 90, attended=False)
    waits = [
        Before(first="dye", then="dry", reason=WHY, max_lag_min=0),
        Before(first="dry", then="r2", reason=WHY),
    ]
    problem = problem_of(row_of(dye, dry), *waits, order=("dye", "dry", *ROW))
    found = starts(problem)
    assert found["r1"] < found["dry"] + 90 <= found["r2"] < found["r3"] < found["r4"]


def test_no_order_and_steps_that_set_no_joint_ask_for_nothing():
    assert not problem_of(row_of(), order=()).lags
    assert not problem_of(row_of(kind=StepKind.CUT)).lags


def test_pieces_and_sides_go_each_by_themselves():
    steps = [step(f"{side}{n}", side=side) for n in (1, 2) for side in (Side.LEFT, Side.RIGHT)]
    steps += [step("greave", piece="greave", side=Side.LEFT)]
    order = ("left1", "right1", "greave", "right2", "left2")
    problem = problem_of(Work(steps=tuple(steps)), order=order)
    assert links(problem) == {("left1", "left2"), ("right1", "right2")}


def test_the_next_joint_does_not_wait_for_the_glue_to_dry():
    glue = replace(step("glue"), kind=StepKind.GLUE)
    dry = step("dry", StepKind.DRY, 600, attended=False, after="glue")
    cures = Before(first="glue", then="dry", reason=WHY, max_lag_min=0)
    found = starts(problem_of(row_of(glue, dry), cures, order=("glue", "dry", *ROW)))
    assert found["r4"] < found["dry"] + 600


def test_a_joint_of_several_sittings_is_followed_by_the_next_after_its_last():
    long = step("sew", StepKind.STITCH, 900)
    problem = problem_of(row_of(long), order=("sew", *ROW))
    found = starts(problem)
    sittings = [name for name in found if name.startswith("sew")]
    assert len(sittings) > 1
    assert max(found[name] for name in sittings) < found["r1"]


def test_what_was_set_out_of_order_is_history():
    at = MONDAY_9 - timedelta(minutes=30)
    history = History(
        done={"r3": (at, at + timedelta(minutes=4))}, running={"r2": MONDAY_9}, worked_min={}
    )
    problem = problem_of(row_of(), history=history)
    assert links(problem) == {("r1", "r4")}
    assert starts(problem)["r1"] < starts(problem)["r4"]


def test_a_link_that_leaves_no_plan_is_let_go_and_the_others_stay():
    """Glue opened 20 minutes ago has to be pressed within 10; the joint before it takes an hour."""
    slow = step("slow", StepKind.STITCH, 60)
    glue = replace(step("glue"), kind=StepKind.GLUE)
    open_ = step("open", StepKind.ROUGHEN)
    work = row_of(open_, slow, glue)
    pressed = Before(first="open", then="glue", reason=WHY, max_lag_min=30)
    history = History(
        done={"open": (MONDAY_9 - timedelta(minutes=21), MONDAY_9 - timedelta(minutes=20))},
        running={},
        worked_min={},
    )
    problem = problem_of(work, pressed, order=("open", "slow", "glue", *ROW), history=history)
    found = starts(problem)
    assert found["glue"] <= 10
    assert {("glue", "r1"), ("r1", "r2"), ("r2", "r3"), ("r3", "r4")} <= links(problem)
    assert ("slow", "glue") not in links(problem)


def test_a_chain_against_what_binds_is_let_go():
    backwards = Before(first="r4", then="r1", reason=WHY)
    problem = problem_of(row_of(), backwards)
    found = starts(problem)
    assert found["r4"] < found["r1"]


@pytest.mark.parametrize("seed", range(12))
def test_any_ticks_of_a_sample_leave_a_plan(seed):
    chance = random.Random(seed)  # noqa: S311 - the same case on every run
    derived = derive_folder(samples_folder() / "elbow_cop", read_shelf(), one_maker("UTC"))
    ticked = chance.sample(derived.order, chance.randint(1, len(derived.order) - 1))
    done = {
        name: (MONDAY_9 - timedelta(minutes=ago + 5), MONDAY_9 - timedelta(minutes=ago))
        for name in ticked
        for ago in (chance.randint(0, 3000),)
    }
    problem = problem_of(
        derived.work,
        *derived.relations,
        order=derived.order,
        history=History(done=done, running={}, worked_min={}),
    )
    starts(problem)


def test_the_best_plan_of_two_makers_keeps_the_row():
    people = tuple(Person(id=name, name=name, hours=usual_hours()) for name in ("ada", "ben"))
    work = row_of(step("wide", StepKind.CUT, 50), minutes=30)
    problem = problem_of(work, order=(*ROW, "wide"), shop=Shop(people=people))
    with SolverKeeper() as keeper:
        plan = best_plan(problem, keeper, seconds=20)
    assert plan.status is Status.BEST
    assert plan.finish_min == 4 * 30  # one after another, though there are two of them
    found = {p.id: p.start_min for p in plan.placed}
    assert sorted(ROW, key=found.__getitem__) == list(ROW)


@pytest.mark.parametrize("sample", ["elbow_cop", "collar", "three_lames", "arm_harness"])
def test_the_joints_of_every_sample_are_planned_as_they_are_ordered(sample):
    derived = derive_folder(samples_folder() / sample, read_shelf(), one_maker("UTC"))
    problem = problem_of(derived.work, *derived.relations, order=derived.order)
    found = starts(problem)
    groups = {(s.piece, s.side) for s in derived.work.of_kind(*SETS_JOINT)}
    for group in groups:
        row = [
            name
            for name in derived.order
            for s in (derived.work.step(name),)
            if s.kind in SETS_JOINT and (s.piece, s.side) == group
        ]
        assert sorted(row, key=found.__getitem__) == row


def test_of_many_wishes_only_the_one_that_does_not_hold_is_dropped():
    assert kept_groups(range(16), lambda tried: 11 not in tried) == [
        n for n in range(16) if n != 11
    ]
    assert kept_groups([1], lambda _: False) == []
