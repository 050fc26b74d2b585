"""The state of a build told by the wall clock of now, where that was set since."""

from dataclasses import replace
from datetime import timedelta

from armorplan.ledger.records import Moment, StepRecord
from armorplan.ledger.state import LedgerState
from armorplan.ledger.timers import present_at

LEAST_JUMP = timedelta(seconds=2)
"""Two clocks read one after the other differ by less; a wall clock that is set moves by more."""


def in_present_wall(ledger: LedgerState, now: Moment) -> LedgerState:
    """Return the state with the instants of this run of the machine as the wall clock has them now.

    A wall clock set forward by an hour would else end each drying an hour early. What an earlier
    run recorded stays: of that only the wall clock is left.
    """
    records = tuple(_record(record, now) for record in ledger.records)
    return ledger if records == ledger.records else replace(ledger, records=records)


def moment_in_present_wall(moment: Moment, now: Moment) -> Moment:
    """Return a moment whose instant is as the wall clock of now has it; itself within seconds."""
    at = present_at(moment, now)
    return moment if abs(at - moment.at) < LEAST_JUMP else replace(moment, at=at)


def _record(record: StepRecord, now: Moment) -> StepRecord:
    stretches = tuple(
        replace(
            stretch,
            start=moment_in_present_wall(stretch.start, now),
            end=stretch.end and moment_in_present_wall(stretch.end, now),
        )
        for stretch in record.stretches
    )
    done = record.done_moment and moment_in_present_wall(record.done_moment, now)
    damp = record.damp and replace(
        record.damp, moment=moment_in_present_wall(record.damp.moment, now)
    )
    if (stretches, done, damp) == (record.stretches, record.done_moment, record.damp):
        return record
    return replace(record, stretches=stretches, done_moment=done, damp=damp)
