"""Timers of one build as rows: what runs, what is paused, what dries, which windows are open.

Each comes with all its bells; ``settled_timers`` says which of them is its moment at an instant.
"""

from collections.abc import Iterable, Iterator
from datetime import datetime, timedelta

from armorplan.app.bell_making import Latest, Ringer
from armorplan.app.bells import Bell
from armorplan.app.derived import Derived
from armorplan.app.open_windows import OpenWindow, open_windows
from armorplan.app.rows import TimerRow
from armorplan.app.start_windows import remedy_of
from armorplan.app.step_ends import step_end
from armorplan.app.timer_words import (
    FREE_DUE,
    NEVER_DRY,
    TOO_COLD,
    closes_words,
    due_words,
    missed_words,
    opens_words,
)
from armorplan.kernel.clock import Clock
from armorplan.ledger.free_timers import FreeTimer
from armorplan.ledger.records import Moment, StepRecord, StepStatus, moment_now
from armorplan.ledger.state import LedgerState
from armorplan.ledger.timers import due_at, read_timer
from armorplan.steps.model import Step

AFTER = "after:"
"""In the id of a window's timer, before the step it counts from."""
DOUBT = " (is the computer's clock right?)"


def dried_unticked(derived: Derived, ledger: LedgerState, clock: Clock) -> tuple[str, ...]:
    """Return what time alone does whose time is up though nobody has ticked it."""
    now_at = clock.now()
    found = []
    for record in ledger.records:
        if record.status is not StepStatus.RUNNING or not derived.work.has(record.step):
            continue
        step = derived.work.step(record.step)
        if step.attended:
            continue
        minutes = step_end(derived, step, record).minutes
        end_at = None if minutes is None else due_at(record, minutes, clock)
        if end_at is not None and end_at <= now_at:
            found.append(step.id)
    return tuple(found)


def timer_rows(derived: Derived, ledger: LedgerState, clock: Clock) -> tuple[TimerRow, ...]:
    """Return running and paused timers and windows of a build, in the order of their ids."""
    now = moment_now(clock)
    rows = [
        *_steps(derived, ledger, clock),
        *(_window_row(derived, window, now) for window in open_windows(derived, ledger)),
    ]
    return tuple(sorted(rows, key=lambda row: row.id))


def free_rows(timers: Iterable[FreeTimer], clock: Clock) -> Iterator[TimerRow]:
    """Yield timers set by hand."""
    now_at = clock.now()
    for timer in timers:
        end_at = due_at(timer.record, timer.minutes, clock)
        reading = read_timer(timer.record, clock)
        ringer = Ringer(timer=timer.id, step="", title=timer.title)
        bells = () if end_at is None else ringer.due(end_at, FREE_DUE, number=timer.added)
        yield TimerRow(
            step="",
            title=f"{timer.title}{DOUBT if reading.doubtful else ''}",
            elapsed_s=reading.elapsed_s,
            as_of=now_at,
            running_since=None if end_at is None else timer.record.stretches[-1].start.at,
            planned_min=timer.minutes,
            due_at=end_at,
            id=timer.id,
            free=True,
            bells=bells,
        )


def run_name(step: str, what: str, begun: Moment) -> str:
    """Return the id of one run of a timer: no clock that is set, and no restart, changes it."""
    return f"{step}|{what}|{begun.run}"


def _steps(derived: Derived, ledger: LedgerState, clock: Clock) -> Iterator[TimerRow]:
    for record in ledger.records:
        if record.status not in (StepStatus.RUNNING, StepStatus.PAUSED):
            continue
        if derived.work.has(record.step):
            yield _step_row(derived, ledger, record, clock)


def _step_row(derived: Derived, ledger: LedgerState, record: StepRecord, clock: Clock) -> TimerRow:
    step = derived.work.step(record.step)
    reading = read_timer(record, clock, latest_at=ledger.latest.at if ledger.latest else None)
    end = step_end(derived, step, record)
    now_at, from_at = clock.now(), due_at(record, 0, clock)
    end_at, surely_at = _after(from_at, end.minutes), _after(from_at, end.surely_min)
    ringer = Ringer(
        timer=run_name(step.id, "time", record.counted[0].start), step=step.id, title=step.title
    )
    words = due_words(derived, ledger, step, has_band=surely_at is not None)
    if end.spoils:
        words = f"{words} {TOO_COLD}"
    bells: tuple[Bell, ...] = ()
    if from_at is not None:
        bells = _step_bells(ringer, (step, record, words), (from_at, end_at), now_at)
    return TimerRow(
        step=step.id,
        title=f"{step.title}{DOUBT if reading.doubtful else ''}",
        elapsed_s=reading.elapsed_s,
        as_of=now_at,
        running_since=record.stretches[-1].start.at if from_at else None,
        planned_min=round(step.minutes if end.minutes is None else end.minutes),
        due_at=end_at,
        drying=not step.attended,
        id=ringer.timer,
        surely_at=surely_at,
        meaning="" if end.minutes is not None else NEVER_DRY,
        every_min=step.every_min,
        bells=bells,
        boot_id=record.stretches[-1].start.boot_id,
    )


def _after(from_at: datetime | None, minutes: float | None) -> datetime | None:
    return None if from_at is None or minutes is None else from_at + timedelta(minutes=minutes)


def _step_bells(
    ringer: Ringer,
    run: tuple[Step, StepRecord, str],
    span: tuple[datetime, datetime | None],
    now_at: datetime,
) -> tuple[Bell, ...]:
    """Return the bells of a running step; those before it was last begun were answered by that.

    Args:
        ringer: of its timer.
        run: the step, how it stands, and what it means that its time is up.
        span: the instant its minutes count from, and the one they are up at.
        now_at: the present.
    """
    (step, record, words), (from_at, end_at) = run, span
    bells: list[Bell] = []
    if step.every_min:
        bells += ringer.turns(from_at, step.every_min, step.minutes)
    if end_at is not None:
        # Each look that found it damp makes it another moment.
        damp_factor = record.damp.look.factor if record.damp else 0.0
        bells += ringer.due(end_at, words, number=round(1e6 * damp_factor))
    # Where the clock lost time while the machine was off, the start seems yet to come.
    begun_at = min(record.stretches[-1].start.at, now_at)
    answered = {bell.id for bell in bells if bell.at < begun_at}
    kept = (b for b in bells if b.id not in answered and b.instead_of not in answered)
    return tuple(sorted(kept, key=lambda bell: bell.at))


def _window_row(derived: Derived, window: OpenWindow, now: Moment) -> TimerRow:
    """Return the timer of a window whose step has not begun: begin it in time."""
    then = derived.work.step(window.relation.then)
    opens_at, by_at = window.opens_at, window.by_at
    ringer = Ringer(
        timer=run_name(then.id, f"{AFTER}{window.relation.first}", window.begun),
        step=then.id,
        title=f"Begin in time: {then.title}" if by_at else f"May begin: {then.title}",
    )
    latest = by_at and Latest(
        at=by_at,
        since_at=opens_at,
        ahead=closes_words(then),
        missed=missed_words(derived, window.relation),
        remedy=remedy_of(derived, window.relation),
    )
    waits = opens_at > window.end_at
    opens = (opens_at, opens_words(then, closes=by_at is not None)) if waits else None
    return TimerRow(
        step=then.id,
        title=ringer.title,
        elapsed_s=max(0.0, (now.at - opens_at).total_seconds()),
        as_of=now.at,
        running_since=opens_at,
        planned_min=round(((by_at or opens_at) - opens_at).total_seconds() / 60),
        due_at=by_at or opens_at,
        drying=True,
        id=ringer.timer,
        bells=ringer.window(opens, latest or None),
        boot_id=window.begun.boot_id,
    )
