"""When a drying gets to each of its stages, also after a look that found it still damp."""

from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from armorplan.app.drying_choices import DryingChoice
from armorplan.drying.curve import Curve
from armorplan.drying.damp import curve_after, minutes_after, stages_after
from armorplan.drying.instants import Instants
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import DryTimes, Span, Stage
from armorplan.drying.stages import verdict_of, whole_minutes

_MINUTE = timedelta(minutes=1)


@dataclass(frozen=True, slots=True, kw_only=True)
class DryReach:
    """One drying's stages.

    Attributes:
        times: in minutes from its start, rounded up where a look put them off.
        at: by stage, the instants that timers and plan go by too.
    """

    times: DryTimes
    at: dict[Stage, Instants]


def reach_of(choice: DryingChoice, room: DryingRoom) -> DryReach:
    """Return when a drying gets to its stages; from the last look on where that found it damp."""
    times = room.times(choice.entry, choice.body, choice.start_at)
    at = {stage: _instants(choice.start_at, span) for stage, span in times.spans.items()}
    late = _put_off(choice, room)
    at |= late
    spans = dict(times.spans) | {
        stage: _from_start(choice.start_at, instants) for stage, instants in late.items()
    }
    if late:
        verdict = verdict_of(choice.entry, spans[Stage.HANDLE].likely_min, times.coldest_c)
        minutes, usual_min = spans[Stage.HANDLE].likely_min, choice.entry.handle_min
        share = round(100 * minutes / usual_min) if minutes and usual_min else 0
        times = replace(times, spans=spans, verdict=verdict, pct_of_usual=share)
    return DryReach(times=times, at=at)


def reach_curve(choice: DryingChoice, room: DryingRoom, until_at: datetime) -> Curve:
    """Return how far a drying is, by what is known of it."""
    if choice.damp is None:
        return room.curve(choice.entry, choice.body, choice.start_at, until_at)
    span = (choice.start_at, until_at)
    return curve_after(room, choice.entry, choice.body, choice.damp, span)


def _put_off(choice: DryingChoice, room: DryingRoom) -> dict[Stage, Instants]:
    damp = choice.damp
    if damp is None:
        return {}
    # A timer counts from its start, with that one's part of a second.
    looked_at = damp.at + timedelta(microseconds=choice.start_at.microsecond)
    found = {}
    for stage in stages_after(room, choice.entry, choice.body, damp):
        band = minutes_after(room, choice.entry, choice.body, stage, damp)
        soonest, likely, latest = (whole_minutes(minutes, stage) for minutes in band)
        span = Span(soonest_min=soonest, likely_min=likely, latest_min=latest)
        found[stage] = _instants(looked_at, span)
    return found


def _instants(from_at: datetime, span: Span) -> Instants:
    def after(minutes: int | None) -> datetime | None:
        return None if minutes is None else from_at + timedelta(minutes=minutes)

    return Instants(
        soonest_at=after(span.soonest_min),
        likely_at=after(span.likely_min),
        latest_at=after(span.latest_min),
    )


def _from_start(start_at: datetime, at: Instants) -> Span:
    def minutes(instant: datetime | None) -> int | None:
        return None if instant is None else -((start_at - instant) // _MINUTE)

    return Span(
        soonest_min=minutes(at.soonest_at),
        likely_min=minutes(at.likely_at),
        latest_min=minutes(at.latest_at),
    )
