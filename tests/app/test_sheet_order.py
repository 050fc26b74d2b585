"""A dated bench sheet follows the clock, keeps what the order keeps, and gathers work alike."""

from datetime import timedelta
from itertools import groupby
from random import Random

import pytest
from clocks import FakeClock

from armorplan.app.sheet_order import sheet_order
from armorplan.app.sheet_pairs import Numbered, pairs_of
from armorplan.app.sheet_times import times_of
from armorplan.app.trays import tray_title
from armorplan.relations.checking import breaks
from armorplan.relations.model import Before
from armorplan.sheets.week_table import BuildLine, PlanLine, WeekTable
from armorplan.steps.model import SETS_JOINT, StepKind

CLOCK = FakeClock()
DAY_MIN, AT_BENCH_MIN = 24 * 60, 8 * 60


def planned(derived, seed):
    """Return a plan that takes now this step and now that, as any of 'before' allows.

    What is formed or tooled has a window in it.
    """
    draw = Random(seed)  # noqa: S311
    firsts = {}
    for relation in derived.relations:
        if isinstance(relation, Before):
            firsts.setdefault(relation.then, set()).add(relation.first)
    waiting, done, lines, at_min = list(derived.order), set(), [], 0
    while waiting:
        ready = [step for step in waiting if done.issuperset(firsts.get(step, ()))]
        step = derived.work.step(draw.choice(ready[:6]))
        waiting.remove(step.id)
        done.add(step.id)
        lines.append(_line(step, at_min))
        at_min += step.minutes if step.attended else 0
        if at_min % DAY_MIN > AT_BENCH_MIN:
            at_min += DAY_MIN - at_min % DAY_MIN
    build = BuildLine(id="cop", title="Cop")
    return WeekTable(title="", zone="UTC", sentence="", builds=(build,), lines=tuple(lines))


def _line(step, at_min):
    start = CLOCK.now() + timedelta(minutes=at_min)
    by = start + timedelta(minutes=5) if step.kind in (StepKind.FORM, StepKind.TOOL) else None
    own = f"cop/{step.id.partition('/')[2]}"
    return PlanLine(
        id=own,
        step=own,
        title=step.title,
        build="cop",
        build_title="Cop",
        start_at=start,
        end_at=start + timedelta(minutes=step.minutes),
        who="Maker",
        begin_by_at=by,
    )


def told(derived, seed):
    times = times_of(planned(derived, seed), "cop", "UTC")
    begun = {step.id: times.of(step)[0].start_at for step in derived.work.steps}
    by_clock = sorted(derived.order, key=lambda step: (begun[step], derived.place[step]))
    return sheet_order(derived, times), begun, by_clock


def runs(derived, steps):
    return [list(run) for _, run in groupby(steps, key=lambda s: tray_title(derived, (s,)))]


@pytest.mark.parametrize("seed", range(4))
def test_no_run_begins_before_the_one_above_it_and_each_step_stands_once(pairs, seed):
    steps, begun, _ = told(pairs, seed)
    assert sorted(step.id for step in steps) == sorted(pairs.order)
    starts = [begun[run[0].id] for run in runs(pairs, steps)]
    assert starts == sorted(starts)


@pytest.mark.parametrize("seed", range(4))
def test_it_breaks_nothing_that_the_clock_keeps(pairs, seed):
    steps, _, by_clock = told(pairs, seed)
    kept_by_clock = {found.relation for found in breaks(by_clock, pairs.relations)}
    found = breaks([step.id for step in steps], pairs.relations)
    assert {one.relation for one in found} <= kept_by_clock


@pytest.mark.parametrize("seed", range(4))
def test_nothing_moves_across_a_window_or_a_joint(pairs, seed):
    steps, begun, by_clock = told(pairs, seed)
    place = {step: at for at, step in enumerate(by_clock)}
    bound = (StepKind.FORM, StepKind.TOOL, *SETS_JOINT)
    for at, step in enumerate(steps):
        if step.kind in bound:
            assert at == place[step.id]
            assert all(begun[other.id] <= begun[step.id] for other in steps[:at])


def test_work_alike_of_a_day_is_gathered(pairs):
    steps, _, by_clock = told(pairs, 1)
    clock_runs = runs(pairs, map(pairs.work.step, by_clock))
    assert len(runs(pairs, steps)) < len(clock_runs)


def test_without_dates_it_is_the_order_of_the_pattern(pairs):
    found = sheet_order(pairs, times_of(None, "cop", "UTC"))
    assert tuple(step.id for step in found) == pairs.order


def test_what_the_plan_does_not_hold_stands_first_or_behind_what_it_needs(pairs):
    table = planned(pairs, 2)
    cut = {f"cop/{s.id.partition('/')[2]}" for s in pairs.work.of_kind(StepKind.MEASURE)}
    last = {f"cop/{s.id.partition('/')[2]}" for s in pairs.work.of_kind(StepKind.PACK)}
    lines = tuple(line for line in table.lines if line.step not in cut | last)
    build = table.builds
    some = WeekTable(title="", zone="UTC", sentence="", builds=build, lines=lines)
    found = [step.kind for step in sheet_order(pairs, times_of(some, "cop", "UTC"))]
    count = len(pairs.work.of_kind(StepKind.MEASURE))
    assert set(found[:count]) == {StepKind.MEASURE}
    assert found.index(StepKind.PACK) > found.index(StepKind.INSPECT)


def test_by_the_clock_left_and_right_share_a_line_only_side_by_side(pairs):
    forms = pairs.work.of_kind(StepKind.FORM)
    left = next(step for step in forms if step.side.value == "left")
    right = next(step for step in forms if step.title == left.title.replace("(left)", "(right)"))
    other = next(step for step in forms if step not in (left, right))

    def lines(*steps):
        run = [Numbered(number=at, step=s, report=None) for at, s in enumerate(steps, start=1)]
        found = pairs_of(run, lambda step: step.detail, is_timed=lambda _step: True)
        return [len(pair) for pair in found]

    assert lines(left, right, other) == [2, 1]
    assert lines(left, other, right) == [1, 1, 1]
