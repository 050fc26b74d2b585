"""Around tonight: what runs is history, tomorrow is laid anew, the rest stays where it is."""

from dataclasses import replace

from schedule.hand_shops import HOUR, racks

from armorplan.schedule.checker import violations
from armorplan.schedule.comparing import moved_steps
from armorplan.schedule.planning import first_plan
from armorplan.schedule.rearranging import around_now


def later_by(bench, plan, over_min, now_min=9 * HOUR):
    """The shop at five on Monday: the first piece hangs, and dries so much longer than planned."""
    lies = {p.id: p for p in plan.placed}

    def as_it_stands(activity):
        placed = lies[activity.id]
        if placed.start_min >= now_min:
            return activity
        end = placed.end_min + (over_min if activity.id == "dry0" else 0)
        return replace(
            activity,
            fixed_start_min=placed.start_min - now_min,
            fixed_end_min=end - now_min,
            fixed_who=placed.who,
        )

    def hours(windows):
        moved = ((max(0, a - now_min), b - now_min) for a, b in windows)
        return tuple(w for w in moved if w[0] < w[1])

    return replace(
        bench,
        activities=tuple(as_it_stands(a) for a in bench.activities),
        workers=tuple(replace(w, windows=hours(w.windows)) for w in bench.workers),
        jobs=tuple(replace(j, due_min=j.due_min - now_min) for j in bench.jobs),
        horizon_min=bench.horizon_min - now_min,
    )


def test_nothing_moves_where_all_went_as_planned():
    bench = racks()
    plan = first_plan(bench)
    now = later_by(bench, plan, 0)
    found = around_now(now, plan, first_plan, shift_min=-9 * HOUR)
    assert found.moved == ()
    assert found.kept == sum(a.fixed_start_min is None for a in now.activities)
    assert violations(now, found.plan) == ()


def test_a_longer_drying_moves_what_waits_for_it_and_little_else():
    """Dry at twenty past nine on Tuesday, not on Monday evening: its buffing waits."""
    bench = racks(capacity=2)
    plan = first_plan(bench)
    now = later_by(bench, plan, 15 * HOUR)
    found = around_now(now, plan, first_plan, shift_min=-9 * HOUR)
    assert violations(now, found.plan) == ()
    assert "buff0" in found.moved
    anew = first_plan(now)
    free = {a.id for a in now.activities if a.fixed_start_min is None}
    moved_anew = [i for i in moved_steps(plan, anew, shift_min=-9 * HOUR) if i in free]
    assert len(found.moved) <= len(moved_anew)
    assert found.kept + len(found.moved) == len(free)


def test_what_is_kept_costs_no_build_a_later_end():
    bench = racks()
    plan = first_plan(bench)
    now = later_by(bench, plan, 3 * HOUR)
    found = around_now(now, plan, first_plan, shift_min=-9 * HOUR)
    assert violations(now, found.plan) == ()
    assert found.plan.finish_min <= max(plan.finish_min - 9 * HOUR, first_plan(now).finish_min)


def test_a_stop_gives_a_plan_still():
    bench = racks()
    plan = first_plan(bench)
    now = later_by(bench, plan, 3 * HOUR)
    found = around_now(now, plan, first_plan, shift_min=-9 * HOUR, should_stop=lambda: True)
    assert violations(now, found.plan) == ()


def test_where_nothing_is_possible_it_says_why():
    bench = replace(racks(), resources=racks(capacity=0).resources)
    found = around_now(bench, first_plan(racks()), first_plan)
    assert not found.plan.placed
    assert "takes 1 of rack, which holds 0" in found.plan.conflict
