"""Timers as rows: what runs, what is paused, what dries, and by when a window closes."""

from collections.abc import Iterator

from armorplan.app.bench_states import BenchStates
from armorplan.app.derived import Derived
from armorplan.app.rows import BenchState, TimerRow
from armorplan.kernel.clock import Clock
from armorplan.ledger.records import StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.ledger.timers import due_at, read_timer


def dried_unticked(derived: Derived, ledger: LedgerState, clock: Clock) -> tuple[str, ...]:
    """Return the dryings whose time is up though nobody has ticked them."""
    now_at = clock.now()
    found = []
    for record in ledger.records:
        if record.status is not StepStatus.RUNNING or not derived.work.has(record.step):
            continue
        step = derived.work.step(record.step)
        end_at = due_at(record, step.minutes, clock)
        if not step.attended and end_at is not None and end_at <= now_at:
            found.append(step.id)
    return tuple(found)


def timer_rows(
    derived: Derived, states: BenchStates, ledger: LedgerState, clock: Clock
) -> tuple[TimerRow, ...]:
    """Return running and paused timers and closing windows, soonest due first."""
    rows = [*_running(derived, ledger, clock), *_closing(derived, states, clock)]
    return tuple(sorted(rows, key=lambda r: (r.due_at is None, r.due_at or r.as_of, r.step)))


def _running(derived: Derived, ledger: LedgerState, clock: Clock) -> Iterator[TimerRow]:
    now_at = clock.now()
    latest_at = ledger.latest.at if ledger.latest else None
    for record in ledger.records:
        if record.status not in (StepStatus.RUNNING, StepStatus.PAUSED):
            continue
        if not derived.work.has(record.step):
            continue
        step = derived.work.step(record.step)
        reading = read_timer(record, clock, latest_at=latest_at)
        runs = record.status is StepStatus.RUNNING
        doubt = " (is the computer's clock right?)" if reading.doubtful else ""
        yield TimerRow(
            step=step.id,
            title=f"{step.title}{doubt}",
            elapsed_s=reading.elapsed_s,
            as_of=now_at,
            running_since=record.stretches[-1].start.at if runs else None,
            planned_min=step.minutes,
            due_at=due_at(record, step.minutes, clock),
            drying=not step.attended,
        )


def _closing(derived: Derived, states: BenchStates, clock: Clock) -> Iterator[TimerRow]:
    """Yield a timer for each open window whose step has not begun: begin it by then."""
    now_at = clock.now()
    for step_id, window in states.windows.items():
        waiting = states.of(step_id) in (BenchState.READY, BenchState.WAITING)
        step = derived.work.step(step_id)
        if window.by_at is None or not waiting or not step.attended:
            continue
        minutes = round((window.by_at - window.opens_at).total_seconds() / 60)
        yield TimerRow(
            step=step_id,
            title=f"Begin in time: {step.title}",
            elapsed_s=max(0.0, (now_at - window.opens_at).total_seconds()),
            as_of=now_at,
            running_since=window.opens_at,
            planned_min=minutes,
            due_at=window.by_at,
            drying=True,
        )
