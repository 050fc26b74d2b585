"""Work that takes longer than planned, said while somebody is at it: a quarter of an hour a press."""

from math import ceil

from armorplan.app.moment import BenchMoment
from armorplan.app.rows import TimerRow
from armorplan.kernel.units import span_words
from armorplan.ledger import acting
from armorplan.ledger.acting import Press
from armorplan.ledger.events import Event
from armorplan.ledger.records import StepStatus

MORE_MIN = 15
_BEGUN = (StepStatus.RUNNING, StepStatus.PAUSED)
NOTHING_BEGUN = "Nothing by hand is under way there: start it first."


def longer(
    moment: BenchMoment, steps: tuple[str, ...], press: Press
) -> tuple[tuple[Event, ...], str]:
    """Return what says of steps under way that they take longer, and the sentence for it.

    A quarter of an hour is added to what was planned, or to the minutes they took already where
    these are more.
    """
    work = moment.derived.work
    rows = {row.step: row for row in moment.timers}
    totals = {
        step: max(ceil(rows[step].planned_min), ceil(_worked_min(rows[step], press))) + MORE_MIN
        for step in dict.fromkeys(steps)
        if work.has(step) and work.step(step).attended and step in rows
        if moment.ledger.record(step).status in _BEGUN
    }
    if not totals:
        return (), NOTHING_BEGUN
    first, total = next(iter(totals.items()))
    left = max(0, total - int(_worked_min(rows[first], press)))
    more = f" (and {len(totals) - 1} more)" if len(totals) > 1 else ""
    said = f"Takes longer: {work.step(first).title}{more}, {span_words(left)} to go."
    return acting.longer(totals, press), said


def _worked_min(row: TimerRow, press: Press) -> float:
    """Return the minutes worked by now: a row says them as of when it was made."""
    since_s = (press.moment.at - row.as_of).total_seconds() if row.running_since else 0.0
    return (row.elapsed_s + max(0.0, since_s)) / 60
