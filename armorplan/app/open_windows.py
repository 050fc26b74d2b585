"""Windows that steps have to begin in, from what has ended or is about to end by itself."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import lru_cache

from armorplan.app.derived import Derived
from armorplan.app.step_ends import step_end
from armorplan.drying.body import Body
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import Stage
from armorplan.ledger.records import Moment, StepRecord, StepStatus
from armorplan.ledger.state import LedgerState
from armorplan.relations.model import Before
from armorplan.steps.model import Step
from armorplan.steps.windows import window_of
from armorplan.workshop.shelf import TreatmentEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class OpenWindow:
    """A window that one step has to begin in after another.

    Attributes:
        relation: what asks for it.
        begun: the moment that names its run.
        end_at: when the first step ended, or will by itself.
        opens_at: when the other may begin.
        by_at: when it has to begin at the latest; ``None``: at any time after.
    """

    relation: Before
    begun: Moment
    end_at: datetime
    opens_at: datetime
    by_at: datetime | None


def open_windows(derived: Derived, ledger: LedgerState) -> Iterator[OpenWindow]:
    """Yield the windows of steps that nobody has begun."""
    for relation in derived.waits:
        then = derived.work.step(relation.then)
        if not then.attended or ledger.record(then.id).status is not StepStatus.UNTOUCHED:
            continue
        first = derived.work.step(relation.first)
        ended = _ended(derived, first, ledger.record(first.id))
        if ended is not None:
            yield window_after(derived, relation, *ended)


def _ended(derived: Derived, first: Step, record: StepRecord) -> tuple[Moment, datetime] | None:
    """Return the moment that names a step's run and when it ended, or will by itself."""
    if record.done_moment is not None:
        return record.done_moment, record.done_moment.at
    if first.attended or record.status is not StepStatus.RUNNING:
        return None
    minutes = step_end(derived, first, record).minutes
    if minutes is None:
        return None
    begun = record.counted[0].start
    return begun, begun.at + timedelta(minutes=minutes)


def window_after(
    derived: Derived, relation: Before, begun: Moment, end_at: datetime
) -> OpenWindow:
    """Return the window that a relation leaves after a step that ended, or will, at an instant."""
    opens_min: int | None = relation.lag_min
    closes_min = relation.max_lag_min
    window = window_of(derived.work, derived.shelf, relation.first, relation.then)
    entry = derived.shelf.treatment(window.treatment) if window else None
    if window is not None and entry is not None:
        room = drying_room(derived.shop.room)
        from_at = end_at.replace(microsecond=0)
        if window.opens is not None:
            opens_min = _minutes(room, entry, window.body_at(window.opens), window.opens, from_at)
        if window.closes is not None:
            closes_min = _minutes(
                room, entry, window.body_at(window.closes), window.closes, from_at
            )
    opens_at = end_at + timedelta(minutes=relation.lag_min if opens_min is None else opens_min)
    by_at = None if closes_min is None else end_at + timedelta(minutes=closes_min)
    return OpenWindow(
        relation=relation, begun=begun, end_at=end_at, opens_at=opens_at, by_at=by_at
    )


@lru_cache(maxsize=2048)
def _minutes(
    room: DryingRoom, entry: TreatmentEntry, body: Body, stage: Stage, start_at: datetime
) -> int | None:
    return room.minutes(entry, body, stage, start_at)
