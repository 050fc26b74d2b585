"""Each joint takes the minutes of its state in the order, and all that tells minutes tells these."""

from dataclasses import replace
from datetime import UTC, datetime
from math import floor, inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from armorplan.app.derived import derive_build
from armorplan.app.effort_judged import order_cost
from armorplan.app.effort_report import effort_report, effort_words
from armorplan.app.effort_times import JointTime, joint_times, longer_words, whole_minutes
from armorplan.app.opening import derive_folder
from armorplan.assembly.expand import assemble
from armorplan.files.catalogue import read_shelf
from armorplan.geometry.reach.gathered import reach_of
from armorplan.geometry.reach.margins import margin
from armorplan.geometry.reach.model import Margin, Standing
from armorplan.kernel.shipped import samples_folder
from armorplan.kernel.units import about_words
from armorplan.needs.hours import hours_needs
from armorplan.rules.reach_sketches import sketch_tube
from armorplan.rules.registry import derive_all
from armorplan.schedule.building import problem_from
from armorplan.schedule.workplace import Workplace
from armorplan.steps.deriving import derive_steps
from armorplan.steps.model import SETS_JOINT, StepKind
from armorplan.workshop.shop import one_maker

SAMPLES = ("elbow_cop", "collar", "three_lames", "arm_harness")
SHELF, SHOP = read_shelf(), one_maker("UTC")


@pytest.fixture(scope="module", params=SAMPLES)
def derived(request):
    return sample(request.param)


def sample(name):
    return derive_folder(samples_folder() / name, SHELF, SHOP)


def one_side(derived):
    """Return what sets joints, of each pair the left side only."""
    mine = {step.id for step in derived.effort.steps.values()}
    return [step for step in derived.work.steps if step.id in mine]


def test_the_steps_add_up_to_what_the_foot_tells(derived):
    report = effort_report(derived.effort, derived.order)
    spent = sum(step.minutes for step in one_side(derived))
    assert spent == report.steps_min
    assert f"takes {about_words(spent)} in this order" in effort_words(report)
    assert abs(spent - report.work_min) <= 0.5
    assert report.work_min == pytest.approx(derived.effort.spent_in(derived.order).work_min)


def test_both_sides_of_a_pair_take_the_same(derived):
    by_joint = {}
    for step in derived.work.of_kind(*SETS_JOINT):
        plain = derived.assembly.joint(step.joints[0]).joint.id
        by_joint.setdefault(plain, set()).add((step.minutes, step.detail))
    assert all(len(said) == 1 for said in by_joint.values())


def test_the_plan_and_the_hours_count_the_same_minutes(derived):
    at = datetime(2026, 6, 1, 7, tzinfo=UTC)
    problem = problem_from(
        derived.work,
        derived.relations,
        Workplace(shop=SHOP, shelf=SHELF),
        origin_at=at,
        order=derived.order,
    )
    planned = {a.id: a.minutes for a in problem.activities}
    setting = derived.work.of_kind(*SETS_JOINT)
    assert all(planned[step.id] == step.minutes for step in setting)
    flat, now = (
        sum(row.hands_on_min for row in hours_needs(work))
        for work in (derived.flat_work, derived.work)
    )
    more = sum(s.minutes - derived.flat_work.step(s.id).minutes for s in setting)
    assert now - flat == more


def test_relations_are_reckoned_from_the_flat_bench(derived):
    assembly = assemble(derived.pattern, derived.shelf, build=derived.pattern.slug)
    fresh = derive_steps(assembly, derived.shelf, SHOP.room)
    assert derived.flat_work == fresh
    assert derived.facts.work is derived.flat_work
    again = derive_all(assembly, fresh, derived.shelf, SHOP.room)
    assert again.relations == derived.relations


def test_a_rivet_inside_a_closed_cop_takes_longer_and_says_why():
    derived = sample("elbow_cop")
    step = derived.work.setting("left_row_4.single") or derived.work.setting("left_row_4")
    reach = reach_of(derived.pattern, derived.shelf)
    made = {joint.id for joint in derived.pattern.joints} - {"left_row_4"}
    deep = margin(reach.net, "left_row_4", frozenset(made), reach.bench)
    time = derived.times["left_row_4"]
    assert time.margin == deep
    saved = 1 - derived.shelf.constants.load_row.value / 100
    flat = derived.flat_work.step(step.id).minutes
    assert time.loaded
    assert time.minutes == pytest.approx(flat * deep.effort * saved, abs=0.01)
    assert f"{round(deep.effort * 20) / 20:g} times the flat bench" in step.detail
    assert f"{deep.way.along_mm:.0f} of its {deep.reach_mm:.0f} mm in" in step.detail
    assert "the row is loaded first" in step.detail


def test_what_lies_flat_takes_the_minutes_of_the_flat_bench():
    derived = sample("elbow_cop")
    time = derived.times["buckle_fold"]
    step = derived.effort.steps["buckle_fold"]
    assert time.margin.standing is Standing.FLAT
    assert time.minutes == step.minutes
    assert longer_words(derived.shelf, time) == ""
    assert derived.work.step(step.id).detail == derived.flat_work.step(step.id).detail


def test_another_order_takes_other_minutes():
    """A tab set after both rows lies inside the cop: it takes longer, the rows do not."""
    derived = sample("elbow_cop")
    tab = derived.effort.steps["tab_bottom"].id
    late = (*(step for step in derived.order if step != tab), tab)
    one, both = (
        joint_times(derived.effort, order)
        for order in (
            (*derived.order,),
            (*(s for s in late if "tab_top" not in s), *(s for s in late if "tab_top" in s)),
        )
    )
    assert both["tab_bottom"].minutes > one["tab_bottom"].minutes + 0.5
    assert both["left_row_4"].minutes == pytest.approx(one["left_row_4"].minutes)
    report = effort_report(derived.effort, late)
    assert report.steps_min == sum(t.whole_min for t in joint_times(derived.effort, late).values())


@given(st.lists(st.floats(min_value=1, max_value=30), min_size=1, max_size=60))
def test_whole_minutes_add_up_to_the_rounded_sum(minutes):
    whole = whole_minutes(minutes)
    assert sum(whole) in {floor(sum(minutes) + 0.499), floor(sum(minutes) + 0.501)}
    assert min(whole) >= 1
    assert all(abs(one - exact) <= 1 for one, exact in zip(whole, minutes, strict=True))


@given(st.lists(st.floats(min_value=0.01, max_value=2), min_size=1, max_size=60))
def test_no_step_is_below_a_minute_and_later_ones_make_up_for_it(minutes):
    whole = whole_minutes(minutes)
    assert min(whole) >= 1
    assert sum(whole) >= floor(sum(minutes) + 0.499)
    # From some place on each takes its least minute; up to there they add up to the rounded sum.
    count = len(minutes)
    most = max(sum(minutes[:at]) + 0.5 + (count - at) for at in range(count + 1))
    assert sum(whole) <= most + 1e-6


def test_whole_minutes_stay_as_they_are():
    assert whole_minutes([3.0] * 9) == [3] * 9
    assert whole_minutes([3.4, 3.0, 3.4, 3.0]) == [3, 3, 4, 3]


def test_what_cannot_be_reached_and_what_is_in_the_way_are_told():
    time = JointTime(
        minutes=9.0,
        whole_min=9,
        else_min=0.0,
        margin=Margin(standing=Standing.CANNOT, effort=inf),
        loaded=False,
    )
    assert "No way to set it is known here" in longer_words(SHELF, time)
    covered = replace(time, margin=Margin(standing=Standing.FLAT), else_min=1.5)
    assert longer_words(SHELF, covered).startswith("About 1.5 minutes more")


def _tube(reach_mm):
    tools = tuple(replace(t, reach_mm=reach_mm) if t.reach_mm else t for t in SHELF.tools)
    spots = tuple(12.0 + 25.0 * at for at in range(12))
    pattern = sketch_tube(long_mm=300.0, spots_mm=spots, strap_mm=150.0)
    return derive_build(pattern, replace(SHELF, tools=tools), SHOP, build="tube")


def test_a_row_that_cannot_be_set_once_loaded_is_not_loaded():
    """With 50 mm of reach its middle is out of reach with all the others put in: 63 mm at least."""
    long, short = _tube(250.0), _tube(50.0)
    assert [row.minutes.is_loaded for row in long.effort.rows.values()] == [True]
    assert [row.minutes.is_loaded for row in short.effort.rows.values()] == [False]
    for derived, loaded in ((long, True), (short, False)):
        row = [derived.times[joint] for joint in next(iter(derived.effort.rows.values())).joints]
        assert {time.loaded for time in row} == {loaded}
        assert all(time.margin.standing is not Standing.CANNOT for time in row)
    least = order_cost(short, short.order)
    assert not any(each.loaded_less_min for each in least.dearest)


def test_an_own_order_along_the_row_takes_the_minutes_of_that_order():
    """Turned round the row is not loaded any better; one by one from the wrong end it takes longer."""
    derived = _tube(250.0)
    row = [step for step in derived.order if derived.work.step(step).kind is StepKind.RIVET]
    turned = iter(reversed(row))
    order = [next(turned) if step in row else step for step in derived.order]
    now, then = (joint_times(derived.effort, each) for each in (derived.order, order))
    assert list(now) == list(reversed(then))
    # The strap comes after the row then: it lies deep in the tube.
    deep = [j for j in now if then[j].margin.effort > now[j].margin.effort]
    assert deep
    assert all(then[j].minutes > now[j].minutes for j in deep)
