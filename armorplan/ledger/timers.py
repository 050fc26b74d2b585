"""Timers: read from the instants of the ledger, so they survive a crash, a restart, a suspend."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from armorplan.kernel.clock import Clock
from armorplan.ledger.records import Moment, StepRecord, StepStatus, moment_now


@dataclass(frozen=True, slots=True, kw_only=True)
class TimerReading:
    """Seconds worked so far.

    ``doubtful``: the machine restarted in between and its wall clock stands behind something
    already recorded, so ask whether the clock is right; the seconds are then at least 0 and
    perhaps too few.
    """

    elapsed_s: float
    doubtful: bool


def read_timer(
    record: StepRecord, clock: Clock, *, latest_at: datetime | None = None
) -> TimerReading:
    """Read a step's timer; it counts from when the step was last begun anew.

    Within one run of the machine the boot clock counts, which a suspend does not stop and a
    change of the wall clock does not move. Across a restart only the wall clock is left.

    Args:
        record: how the step stands.
        clock: the present by both clocks.
        latest_at: the instant of the build's newest entry (``LedgerState.latest``); a wall clock
            behind it is doubted also where it is ahead of this step's start.
    """
    now = moment_now(clock)
    total_s, doubtful = 0.0, False
    for stretch in record.counted:
        elapsed_s, backwards = _span(stretch.start, stretch.end or now)
        total_s += elapsed_s
        doubtful |= backwards
        by_wall = stretch.end is None and stretch.start.boot_id != now.boot_id
        doubtful |= by_wall and latest_at is not None and now.at < latest_at
    return TimerReading(elapsed_s=total_s, doubtful=doubtful)


def elapsed_s(record: StepRecord, clock: Clock) -> float:
    """Return the seconds worked so far; ``read_timer`` also tells whether to doubt them."""
    return read_timer(record, clock).elapsed_s


def due_at(record: StepRecord, planned_min: float, clock: Clock) -> datetime | None:
    """Return when a running step's planned minutes are up, by the wall clock of now.

    The instant lies in the past for a step that runs over. ``None`` unless it runs. Where the clock
    lost time while the machine was off, a start may seem yet to come: its minutes count from there,
    so that what is due stays where it is until the clock is put right.
    """
    if record.status is not StepStatus.RUNNING:
        return None
    now = moment_now(clock)
    *before, runs = record.counted
    worked_s = sum(_span(each.start, each.end or now)[0] for each in before)
    return present_at(runs.start, now) + timedelta(minutes=planned_min, seconds=-worked_s)


def present_at(moment: Moment, now: Moment) -> datetime:
    """Return a recorded instant as the wall clock of now would have told it.

    Within one run of the machine a wall clock that was set meanwhile does not count.
    """
    if moment.boot_id != now.boot_id:
        return moment.at
    return now.at - timedelta(seconds=now.boot_s - moment.boot_s)


def _span(start: Moment, end: Moment) -> tuple[float, bool]:
    """Return the seconds from start to end, and whether the clock ran backwards over them."""
    if start.boot_id == end.boot_id:
        seconds = end.boot_s - start.boot_s
    else:
        seconds = (end.at - start.at).total_seconds()
    return max(0.0, seconds), seconds < 0
