"""Doing a step again: it dries again, and nothing that came after it was early by that."""

from datetime import timedelta

import pytest

from armorplan.app.rows import BenchState
from armorplan.steps.model import StepKind


@pytest.fixture
def dyed(bench):
    """A bench where the first coat of dye has just been put on, and its two coats."""
    bench.do_until(StepKind.DYE)
    first, second = bench.steps(StepKind.DYE)
    bench.session.done((first.id,))
    return first, second


def again(bench, step):
    bench.session.start((step.id,))
    bench.clock.advance(60)
    return bench.session.done((step.id,))


def timer_of(bench, step):
    return next(row for row in bench.session.timers() if row.step == step.id)


def test_a_coat_put_on_again_while_it_dries_dries_from_then_on(bench, dyed):
    first, second = dyed
    dry = bench.session.derived.work.drying_of(first.id)
    bench.clock.advance(60 * (dry.minutes - 1))
    again(bench, first)
    row = timer_of(bench, dry)
    assert row.due_at == bench.clock.now() + timedelta(minutes=dry.minutes)
    assert row.running_since == bench.clock.now()
    bench.clock.advance(60 * (dry.minutes - 1))
    bench.session.read_along()
    assert bench.state(second.id) is BenchState.WAITING
    bench.clock.advance(60)
    bench.session.read_along()
    assert bench.state(second.id) is BenchState.READY


def test_a_coat_put_on_again_after_it_dried_dries_again(bench, dyed):
    first, second = dyed
    dry = bench.session.derived.work.drying_of(first.id)
    bench.clock.advance(60 * dry.minutes)
    bench.session.read_along()
    bench.session.done((second.id,))
    assert bench.state(dry.id) is BenchState.DONE
    again(bench, first)
    assert bench.state(dry.id) is BenchState.DRYING
    assert timer_of(bench, dry).due_at == bench.clock.now() + timedelta(minutes=dry.minutes)


def test_rework_makes_nothing_after_it_early(bench, dyed):
    first, second = dyed
    dry = bench.session.derived.work.drying_of(first.id)
    bench.clock.advance(60 * dry.minutes)
    bench.session.read_along()
    bench.session.done((second.id,))
    assert "early" not in again(bench, first)
    bench.clock.advance(60 * dry.minutes)
    bench.session.done((dry.id,))
    (cut, *_) = bench.steps(StepKind.CUT)
    again(bench, cut)
    for step in (first, second, cut, dry):
        assert bench.state(step.id) is BenchState.DONE
    early = [s for s in bench.session.derived.order if bench.state(s) is BenchState.EARLY]
    assert early == []


def test_taking_back_the_second_coat_of_rework_leaves_the_first_drying(bench, dyed):
    first, _ = dyed
    dry = bench.session.derived.work.drying_of(first.id)
    due_at = timer_of(bench, dry).due_at
    bench.clock.advance(600)
    again(bench, first)
    bench.session.undo()
    bench.session.undo()
    assert timer_of(bench, dry).due_at == due_at


def test_undo_names_what_was_pressed_and_not_the_drying_ticked_on_the_way(bench, dyed):
    first, second = dyed
    assert first.title in bench.session.can_undo()
    dry = bench.session.derived.work.drying_of(first.id)
    bench.clock.advance(60 * dry.minutes)
    bench.session.read_along()
    bench.session.start((second.id,))
    assert bench.session.can_undo() == f"start of {second.title}"
    bench.session.undo()
    bench.session.done((second.id,))
    assert bench.session.can_undo() == f"done of {second.title}"
    bench.clock.advance(60 * dry.minutes)
    last = bench.session.derived.work.drying_of(second.id)
    bench.session.done((last.id,))
    assert bench.session.can_undo() == f"done of {last.title}"


def test_what_dries_cannot_be_paused(bench, dyed):
    dry = bench.session.derived.work.drying_of(dyed[0].id)
    said = bench.session.pause((dry.id,))
    assert said == "Drying goes on by itself and cannot be paused."
    assert bench.state(dry.id) is BenchState.DRYING


def test_a_drying_ends_when_its_time_is_up_however_late_somebody_looks(bench, dyed):
    first, second = dyed
    dry = bench.session.derived.work.drying_of(first.id)
    dry_at = bench.clock.now() + timedelta(minutes=dry.minutes)
    bench.clock.advance(60 * (dry.minutes + 300))
    bench.session.read_along()

    def bar():
        return next(b for b in bench.session.chart().bars if b.step == dry.id)

    def planned_end_min():
        problem = bench.session.problem()
        fixed = next(a for a in problem.activities if a.id == dry.id)
        return problem.origin_at + timedelta(minutes=fixed.fixed_end_min)

    assert bar().end_at == dry_at
    assert planned_end_min() == dry_at
    bench.session.done((second.id,))
    assert bar().end_at == dry_at
    assert planned_end_min() == dry_at


def test_going_on_before_rework_is_dry_is_early_for_good(bench, dyed):
    first, second = dyed
    dry = bench.session.derived.work.drying_of(first.id)
    bench.clock.advance(60 * dry.minutes)
    bench.session.done((dry.id,))
    again(bench, first)
    assert "early" in bench.session.done((second.id,))
    assert bench.state(second.id) is BenchState.EARLY
    bench.clock.advance(60 * dry.minutes)
    bench.session.done((dry.id,))
    assert bench.state(second.id) is BenchState.EARLY
