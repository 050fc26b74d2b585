"""Several builds in hand: one plan for all, rows of the open build from its part, orders, promises."""

import threading
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from itertools import pairwise

import pytest
from app.conftest import SHOP
from clocks import FakeClock

from armorplan.app import kin_builds
from armorplan.app.opening import open_build
from armorplan.app.rows import Grouping
from armorplan.app.session import Session
from armorplan.files.catalogue import read_shelf
from armorplan.kernel.errors import WorkshopError
from armorplan.kernel.shipped import samples_folder
from armorplan.ledger.build_orders import BuildOrder
from armorplan.schedule.checker import CheckedPlan
from armorplan.schedule.planning import first_plan
from armorplan.steps.model import StepKind
from armorplan.store.workshop_file import WorkshopFile

ELBOW, COLLAR = "elbow_cop-1", "collar-1"
DUE_AT = datetime(2027, 3, 12, 16, 0, tzinfo=UTC)


@pytest.fixture(scope="module")
def collar(tmp_path_factory, begun):
    """The sample collar, derived once."""
    path = tmp_path_factory.mktemp("collar") / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    opened = open_build(
        samples_folder() / "collar", workshop, read_shelf(), SHOP, clock=FakeClock()
    )
    workshop.close()
    return opened


@pytest.fixture
def two(bench, collar):
    """The bench on the elbow, with the collar in hand beside it."""
    bench.workshop.add_build(collar.build, order=BuildOrder(build=COLLAR))
    assert bench.session.read_along()
    return bench


def of(placed, build):
    return [one for one in placed if one.id.startswith(f"{build}/")]


def test_a_build_beside_is_planned_together_with_the_open_one(two):
    mark = two.session.problem_mark()
    two.plan()
    week = two.session.week()
    assert two.session.problem_mark() is mark
    assert {job.id for job in week.problem.jobs} == {ELBOW, COLLAR}
    assert of(week.shown.plan.placed, ELBOW)
    assert of(week.shown.plan.placed, COLLAR)
    busy = sorted(
        (one.start_min, one.end_min) for one in week.shown.plan.placed if one.who is not None
    )
    assert all(one[1] <= other[0] for one, other in pairwise(busy))


def test_rows_of_the_open_build_use_its_part_only(two, collar):
    two.plan()
    chart = two.session.chart()
    assert chart.bars
    assert all(bar.step.startswith(f"{ELBOW}/") for bar in chart.bars)
    assert two.session.checklist(Grouping.DAY)
    beside = Session(collar.build, collar.derived, two.workshop, two.clock, two.new_id)
    week = two.session.week().shown
    ends = [
        max(week.span(one)[1] for one in of(week.plan.placed, build)) for build in (ELBOW, COLLAR)
    ]
    assert [two.session.plan_face().finish_at, beside.plan_face().finish_at] == ends
    assert min(ends) < max(ends) == week.finish_at


def test_other_builds_are_derived_in_the_thread_that_makes_the_problem(two, monkeypatch):
    seen = []
    real = kin_builds.resume_build

    def told(*args, **kept):
        seen.append(threading.current_thread().name)
        return real(*args, **kept)

    monkeypatch.setattr(kin_builds, "resume_build", told)
    asking = two.session.asking()
    assert seen == []
    thread = threading.Thread(target=asking, name="planner")
    thread.start()
    thread.join()
    two.session.plan_from_now()
    two.session.problem()
    assert seen == ["planner"]


def test_what_is_done_at_another_build_moves_the_plan_here(two, collar):
    two.plan()
    first = collar.derived.order[0]
    before = {a.id: a for a in two.session.problem().activities}
    assert before[first].fixed_start_min is None
    other_file = WorkshopFile.open(two.path, two.clock)
    other = Session(collar.build, collar.derived, other_file, two.clock, two.new_id)
    mark = two.session.problem_mark()
    two.clock.advance(3600)
    other.done((first,))
    other_file.close()
    assert two.session.read_along()
    assert two.session.problem_mark() is not mark
    after = {a.id: a for a in two.session.problem().activities}
    assert after[first].fixed_start_min is not None


@pytest.mark.parametrize(("said", "who"), [("APPRENTICE", "mate"), ("A stranger", "maker")])
def test_work_under_way_keeps_the_hands_busy_that_the_ledger_names(bench, begun, said, who):
    maker = SHOP.people[0]
    mate = replace(maker, id="mate", name="Apprentice")
    build, derived = begun[1].build, begun[1].derived
    derived = replace(derived, shop=replace(SHOP, people=(maker, mate)))
    session = Session(build, derived, bench.workshop, bench.clock, bench.new_id, who=said)
    first = session.ready_steps()[0]
    session.start((first,))
    problem = session.problem()
    plan = first_plan(problem)
    assert session.take_plan(CheckedPlan(problem=problem, plan=plan))
    lies = {one.id: one for one in plan.placed}
    assert lies[first].who == who
    mine = [one for one in plan.placed if one.who == who and one.id != first]
    assert all(one.start_min >= lies[first].end_min for one in mine)
    bar = next(bar for bar in session.chart().bars if bar.step == first)
    assert bar.lane == {"mate": "Apprentice", "maker": "Maker"}[who]


def test_a_build_laid_aside_is_planned_no_more(two):
    said = two.session.set_order(COLLAR, None, None, 1, in_hand=False)
    assert "laid aside" in said
    two.plan()
    assert not of(two.session.week().shown.plan.placed, COLLAR)
    rows = {row.build: row for row in two.session.in_hand()}
    assert not rows[COLLAR].in_hand
    assert rows[ELBOW].is_open


def test_a_due_date_reaches_the_problem_and_other_windows(two):
    other = two.reopened()
    heard = []
    two.session.subscribe(lambda: heard.append(True))
    said = two.session.set_order(COLLAR, DUE_AT, None, 3)
    assert said.endswith(" is in hand, due Fri 12 Mar 2027 16:00, its lateness counts 3 times.")
    assert heard
    problem = two.session.problem()
    job = next(job for job in problem.jobs if job.id == COLLAR)
    assert problem.origin_at + timedelta(minutes=job.due_min) == DUE_AT
    assert job.weight == 3
    assert other.read_along()
    row = next(row for row in other.in_hand() if row.build == COLLAR)
    assert (row.due_at, row.weight, row.in_hand) == (DUE_AT, 3, True)


def test_two_windows_that_agree_on_different_things_lose_neither(two):
    other = two.reopened()
    two.session.set_order(COLLAR, DUE_AT, None, 3)
    # The other window still shows it without a date, and changes only its weight.
    other.set_order(COLLAR, None, None, 5)
    row = next(row for row in other.in_hand() if row.build == COLLAR)
    assert (row.due_at, row.weight) == (DUE_AT, 5)


def test_a_build_that_is_late_is_named_in_the_window(two):
    two.session.set_order(COLLAR, two.clock.now() + timedelta(hours=1), None)
    two.plan()
    name = next(row.title for row in two.session.in_hand() if row.build == COLLAR)
    assert f"“{name}” ends " in two.session.plan_face().sentence
    assert f"“{name}” ends " in two.session.tabling_week()().sentence


def test_what_the_shop_does_to_the_plan_is_among_the_findings_with_its_line(two, tmp_path):
    def told():
        two.session.problem()
        return {f.code: f for f in two.session.findings if f.about == (COLLAR,)}

    assert not told()
    file = tmp_path / "shop.toml"
    text = """zone = "UTC"
[people.maker]
name = "Maker"
hours = [{ day = "mon", from = "08:00", to = "18:00" }]
[builds.collar]
pattern = "collar"
"""
    file.write_text(text, encoding="utf-8")
    two.workshop.orders.keep(BuildOrder(build=ELBOW, source=str(file)))
    two.session.read_along()
    two.session.set_order(COLLAR, two.clock.now() - timedelta(days=2), None)
    found = told()["due-before-start"]
    assert (found.place.file, found.place.line) == ("shop.toml", 5)
    file.unlink()
    two.session.plan_from_now()
    assert told()["due-before-start"].place is None
    two.session.set_order(COLLAR, DUE_AT, None)
    assert not told()


@pytest.mark.parametrize(
    ("given", "said"),
    [
        ((COLLAR, DUE_AT, DUE_AT + timedelta(days=1), 1), "due before it can be begun"),
        ((COLLAR, DUE_AT, None, 0), "whole number from 1"),
        (("nobody-1", DUE_AT, None, 1), "no build 'nobody-1'"),
    ],
)
def test_what_cannot_be_agreed_is_said_and_not_kept(two, given, said):
    told = two.session.set_order(*given)
    assert told.startswith("Not recorded.")
    assert said in told
    assert two.workshop.orders.all() == (BuildOrder(build=COLLAR),)


def test_an_unreadable_build_is_told_and_the_others_are_planned(two, collar):
    broken = replace(
        collar.build, id="collar-2", name="Broken collar", pattern_files=(("pattern.toml", "["),)
    )
    two.workshop.add_build(broken, order=BuildOrder(build="collar-2"))
    two.session.read_along()
    two.plan()
    week = two.session.week()
    assert {job.id for job in week.problem.jobs} == {ELBOW, COLLAR}
    row = next(row for row in two.session.in_hand() if row.build == "collar-2")
    assert "cannot be read" in row.trouble
    assert "Broken collar: It cannot be read" in two.session.plan_face().details


def test_a_promise_is_kept_for_every_window(two):
    assert "no plan yet" in two.session.keep_promise()
    two.plan()
    other = two.reopened()
    assert two.session.week().promised is None
    assert "kept as promised" in two.session.keep_promise()
    promised = two.session.week().promised
    assert promised == two.session.week().shown
    two.do_until(StepKind.CUT)
    two.plan()
    assert two.session.week().promised == promised != two.session.week().shown
    other.read_along()
    other.take_plan(CheckedPlan(problem=other.problem(), plan=first_plan(other.problem())))
    assert other.week().promised == promised


def test_a_full_disk_refuses_a_promise_and_an_order(two, monkeypatch):
    def refuse(*_):
        raise WorkshopError("The disk is full.")

    two.plan()
    monkeypatch.setattr(two.workshop.orders, "promise", refuse)
    monkeypatch.setattr(two.workshop.orders, "keep", refuse)
    assert two.session.keep_promise() == "Not recorded. The disk is full."
    assert two.session.set_order(COLLAR, DUE_AT, None) == "Not recorded. The disk is full."
    assert two.session.week().promised is None


def test_another_build_opened_next_shows_the_same_week_at_once(two, collar):
    two.plan()
    other = Session(collar.build, collar.derived, two.workshop, two.clock, two.new_id)
    spans = {bar.step: bar.start_at for bar in other.chart().bars}
    week = two.session.week().shown
    planned = {one.id: week.span(one)[0] for one in of(week.plan.placed, COLLAR)}
    assert spans == planned


def test_a_step_of_another_build_that_was_not_begun_asks_for_a_new_plan(two):
    two.do_until()
    two.plan()
    two.session.read_along()
    mark = two.session.problem_mark()
    two.clock.advance(3 * 24 * 3600)
    two.session.read_along()
    assert two.session.problem_mark() is not mark
    assert not of(two.session.week().shown.plan.placed, ELBOW) or two.session.ready_steps() == ()


def test_the_week_shown_is_told_as_a_table_of_all_builds(two):
    assert two.session.tabling_week() is None
    two.plan()
    week = two.session.week()
    table = two.session.tabling_week()()
    assert {build.id for build in table.builds} == {ELBOW, COLLAR}
    assert len(table.lines) == len(week.shown.plan.placed)
    assert {line.start_at for line in table.lines} == {
        week.shown.span(one)[0] for one in week.shown.plan.placed
    }
    told = [line for line in table.lines if line.note and not line.who]
    assert {line.build for line in told} == {ELBOW, COLLAR}
    assert any("Most solvent at a time" in note for note in table.notes)


def test_steps_of_the_week_shown_are_named_as_no_other_shops(two, collar):
    two.workshop.orders.keep(BuildOrder(build=ELBOW, source="/harbour/shop.toml", key="cop"))
    two.session.read_along()
    two.plan()
    table = two.session.tabling_week()()
    named = {line.build: line.known_as for line in table.lines}
    assert named[ELBOW].startswith("/harbour/shop.toml cop/")
    begun = f"{collar.build.pattern_uuid} {COLLAR} {collar.build.created_at.isoformat()}/"
    assert named[COLLAR].startswith(begun)


def test_sessions_of_one_window_share_what_follows_from_their_builds(two, collar, monkeypatch):
    kin = kin_builds.KinBuilds()
    two.session.share(kin)
    two.session.problem()
    beside = Session(collar.build, collar.derived, two.workshop, two.clock, two.new_id)
    beside.share(kin)
    two.workshop.orders.keep(BuildOrder(build=ELBOW))
    beside.read_along()

    def never(*_args, **_kept):
        raise AssertionError("nothing is read or derived a second time")

    monkeypatch.setattr(kin_builds, "resume_build", never)
    monkeypatch.setattr(two.workshop, "build", never)
    assert {job.id for job in beside.problem().jobs} == {ELBOW, COLLAR}


def test_a_snapshot_that_cannot_be_read_now_is_told_where_the_plan_is_made(two, monkeypatch):
    def refuse(_build):
        raise WorkshopError("The disk is gone.")

    monkeypatch.setattr(two.workshop, "build", refuse)
    asking = two.session.asking()
    with pytest.raises(WorkshopError, match="The disk is gone"):
        asking()
    monkeypatch.undo()
    assert {job.id for job in two.session.problem().jobs} == {ELBOW, COLLAR}
