"""When the time of a running step is up: of what dries, as the room says, from its real start."""

from dataclasses import dataclass
from datetime import datetime
from functools import lru_cache

from armorplan.app.derived import Derived
from armorplan.drying.damp import Damp, minutes_after
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import Verdict
from armorplan.drying.stages import whole_minutes
from armorplan.ledger.records import StepRecord
from armorplan.steps.model import Drying, Step
from armorplan.workshop.shelf import TreatmentEntry


@dataclass(frozen=True, slots=True, kw_only=True)
class StepEnd:
    """Minutes from a step's start to its end.

    Attributes:
        minutes: likely; ``None``: never in this air.
        surely_min: by when nine of ten are; ``None`` where that is not known, or never.
        spoils: the air is colder than its film forms in.
    """

    minutes: float | None
    surely_min: float | None = None
    spoils: bool = False


def step_end(derived: Derived, step: Step, record: StepRecord) -> StepEnd:
    """Return when the time of a step is up that has begun.

    A look that found it still damp puts its end off; so does who says that it takes longer.
    """
    entry = derived.shelf.treatment(step.drying.treatment) if step.drying else None
    if step.attended and record.told_min is not None:
        return StepEnd(minutes=record.told_min)
    if step.drying is None or entry is None or step.attended or not record.counted:
        return StepEnd(minutes=step.minutes)
    start_at = record.counted[0].start.at.replace(microsecond=0)
    asked = drying_room(derived.shop.room), entry, step.drying
    damp = damp_of(record, step.drying)
    if damp is None:
        return _dry_end(*asked, start_at)
    dried_min = (damp.at - start_at).total_seconds() / 60
    more = _damp_end(*asked, damp)
    return StepEnd(
        minutes=None if more.minutes is None else dried_min + more.minutes,
        surely_min=None if more.surely_min is None else dried_min + more.surely_min,
    )


def damp_of(record: StepRecord, drying: Drying) -> Damp | None:
    """Return the last look that found a drying still damp; ``None``: there was none."""
    if record.damp is None:
        return None
    look = record.damp.look
    return Damp(
        at=record.damp.moment.at.replace(microsecond=0),
        stage=drying.stage,
        factor=look.factor,
        foretold=look.foretold,
        expected=look.expected,
    )


@lru_cache(maxsize=2048)
def _dry_end(
    room: DryingRoom, entry: TreatmentEntry, drying: Drying, start_at: datetime
) -> StepEnd:
    times = room.times(entry, drying.body, start_at)
    span = times.spans[drying.stage]
    return StepEnd(
        minutes=span.likely_min,
        surely_min=span.latest_min,
        spoils=times.verdict is Verdict.WOULD_SPOIL,
    )


@lru_cache(maxsize=2048)
def _damp_end(room: DryingRoom, entry: TreatmentEntry, drying: Drying, damp: Damp) -> StepEnd:
    _, likely, latest = minutes_after(room, entry, drying.body, drying.stage, damp)
    return StepEnd(
        minutes=whole_minutes(likely, drying.stage),
        surely_min=whole_minutes(latest, drying.stage),
    )
