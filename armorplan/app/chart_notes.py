"""What a drying's bar says: when it is ready, how sure that is, and why it takes so long here."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from math import ceil, isfinite
from zoneinfo import ZoneInfo

from armorplan.app.derived import Derived
from armorplan.app.drying_reasons import NEAR, Reason, told
from armorplan.app.rough_instants import rough
from armorplan.drying.body import Body
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import Span, Stage
from armorplan.drying.stages import stage_minutes
from armorplan.drying.track import GRID_MIN
from armorplan.kernel.units import span_words
from armorplan.steps.model import Drying, Step, StepKind
from armorplan.workshop.air import Climate
from armorplan.workshop.shelf import TreatmentEntry

_DRIES = (StepKind.DRY, StepKind.CURE)
_TELLING = 0.1
"""What makes a tenth of the catalogue's time more or less is worth a word."""
_LEAST_TOLD_MIN = 10
_EVENING_H, _MORNING_H = 20, 8
_COLDER_C = 2.0
_PUT_OFF = timedelta(minutes=3 * GRID_MIN)
"""An end so far from the one reckoned was told by a look."""
_HAIR = 1e-6
_ANY_AT = datetime(2026, 1, 1, tzinfo=UTC)
"""In steady air it takes equally long at all times."""


@dataclass(frozen=True, slots=True, kw_only=True)
class BarNote:
    """What the bar of a drying says beside its title.

    Attributes:
        surely_at: by then nine of ten are ready; ``None``: perhaps never.
        text: in words, for who asks.
    """

    surely_at: datetime | None
    text: str


NO_NOTE = BarNote(surely_at=None, text="")


@dataclass(frozen=True, slots=True, kw_only=True)
class NightLoss:
    """What the nights cost one drying.

    Attributes:
        minutes: so much longer than in the air it begins in.
        coldest: the coldest air on its way.
    """

    minutes: int
    coldest: Climate


def note_of(derived: Derived, step: Step, start_at: datetime, end_at: datetime) -> BarNote:
    """Return what the bar of a step says; nothing for what the air does not dry.

    Args:
        derived: the build.
        step: the step.
        start_at: when it began, or is planned to.
        end_at: when it is ready, as the plan or a look at it says.
    """
    drying = step.drying if step.kind in _DRIES else None
    entry = derived.shelf.treatment(drying.treatment) if drying else None
    if drying is None or entry is None:
        return NO_NOTE
    room = drying_room(derived.shop.room)
    return _note(room, entry, (drying.body, drying.stage), (start_at, end_at))


@lru_cache(maxsize=1024)
def _note(
    room: DryingRoom,
    entry: TreatmentEntry,
    what: tuple[Body, Stage],
    when: tuple[datetime, datetime],
) -> BarNote:
    (body, stage), (start_at, end_at) = what, when
    soonest, likely, latest = room.reached(entry, body, stage, (start_at,))
    span = Span(
        soonest_min=_whole(soonest[0]), likely_min=_whole(likely[0]), latest_min=_whole(latest[0])
    )
    if span.likely_min is None:
        never = "in this air it will not dry; the catalogue's time is shown"
        return BarNote(surely_at=None, text=never)
    zone = ZoneInfo(room.room.zone)
    bits = [
        _ready_words(span, start_at, end_at, zone),
        _why_words(room, entry, what, span, start_at),
    ]
    surely_at = None if span.latest_min is None else start_at + timedelta(minutes=span.latest_min)
    if surely_at is not None:
        surely_at = max(surely_at, end_at)
    return BarNote(surely_at=surely_at, text="; ".join(bit for bit in bits if bit))


def _whole(minutes: float) -> int | None:
    return ceil(minutes - _HAIR) if isfinite(minutes) else None


def _ready_words(span: Span, start_at: datetime, end_at: datetime, zone: ZoneInfo) -> str:
    def at(minutes: int, beside: datetime) -> str:
        known = rough(start_at + timedelta(minutes=minutes), start_at, zone)
        time = known.part or f"{known.at:%H:%M}"
        same_day = known.at.date() == beside.astimezone(zone).date()
        return time if same_day else f"{known.at:%a} {time}"

    likely = f"ready {end_at.astimezone(zone):%a %H:%M}, likely"
    reckoned_at = start_at + timedelta(minutes=span.likely_min or 0)
    if abs(end_at - reckoned_at) > _PUT_OFF:
        return f"{likely}: it was found still damp" if end_at > reckoned_at else likely
    soonest = "" if span.soonest_min is None else at(span.soonest_min, end_at)
    latest = "never" if span.latest_min is None else at(span.latest_min, end_at)
    return f"{likely}; {soonest} to {latest}"


def _why_words(
    room: DryingRoom,
    entry: TreatmentEntry,
    what: tuple[Body, Stage],
    span: Span,
    start_at: datetime,
) -> str:
    """Return how much longer or shorter it takes than the catalogue says, and what makes it so."""
    _, stage = what
    usual, likely = stage_minutes(entry)[stage], span.likely_min or 0
    over = likely - usual
    if abs(over) <= NEAR * usual:
        return f"about the catalogue's {span_words(usual)}"
    more = "longer" if over > 0 else "shorter"
    because = told(_reasons(room, entry, what, (start_at, likely)), longer=over > 0)
    return f"{span_words(abs(over))} {more} than the catalogue's {span_words(usual)}{because}"


def _reasons(
    room: DryingRoom,
    entry: TreatmentEntry,
    what: tuple[Body, Stage],
    when: tuple[datetime, int],
) -> list[Reason]:
    """Return what the air, the leather and what was learned make of it, each with the way it pulls."""
    (body, stage), (start_at, likely) = what, when
    usual, pace = stage_minutes(entry)[stage], room.room.pace(entry.id)
    doses = room.doses(entry, body, stage)
    here = usual if doses is None else doses[1]
    leather = here / pace.factor if pace is not None else here
    parts = (
        (likely - here, _air_words(room, start_at, likely, longer=likely > here)),
        (leather - usual, _body_words(body, entry)),
        (here - leather, "so it was seen to dry here"),
    )
    least = min(_TELLING * usual, max(abs(minutes) for minutes, _ in parts))
    return [
        Reason(words=words, longer=minutes > 0)
        for minutes, words in parts
        if abs(minutes) >= least and words
    ]


def _air_words(room: DryingRoom, start_at: datetime, minutes: int, *, longer: bool) -> str:
    air = room.air_along(start_at, max(1, minutes // GRID_MIN))
    pick = min if longer else max
    at = pick(range(len(air)), key=lambda cell: (air[cell].temperature_c, cell))
    there = f"{round(air[at].temperature_c, 1):g} °C and {air[at].humidity_pct:.0f} %"
    warmth = [climate.temperature_c for climate in air]
    if max(warmth) - min(warmth) < _COLDER_C:
        return f"the air is {there}"
    local = (start_at + timedelta(minutes=at * GRID_MIN)).astimezone(ZoneInfo(room.room.zone))
    if not _MORNING_H <= local.hour < _EVENING_H:
        return f"at night the air is {there}"
    return f"the air is {'down' if longer else 'up'} to {there}"


def _body_words(body: Body, entry: TreatmentEntry) -> str:
    if body.thickness_mm and entry.reference_mm and body.thickness_mm != entry.reference_mm:
        return f"the leather is {body.thickness_mm:.3g} mm thick"
    return "it was dipped" if body.dipped else ""


def night_loss(derived: Derived, step: Step, start_at: datetime) -> NightLoss | None:
    """Return what colder air on its way costs a drying; ``None`` where that is next to nothing."""
    drying = step.drying if step.kind in _DRIES else None
    entry = derived.shelf.treatment(drying.treatment) if drying else None
    room = drying_room(derived.shop.room)
    if drying is None or entry is None or room.is_steady:
        return None
    likely = room.minutes(entry, drying.body, drying.stage, start_at)
    begun = room.air(start_at)
    in_its_air = _minutes_in(room, begun, entry, drying)
    if likely is None or in_its_air is None or likely - in_its_air < _LEAST_TOLD_MIN:
        return None
    air = room.air_along(start_at, max(1, likely // GRID_MIN))
    coldest = min(air, key=lambda climate: climate.temperature_c)
    if begun.temperature_c - coldest.temperature_c < _COLDER_C:
        return None
    return NightLoss(minutes=likely - in_its_air, coldest=coldest)


@lru_cache(maxsize=1024)
def _minutes_in(
    room: DryingRoom, air: Climate, entry: TreatmentEntry, drying: Drying
) -> int | None:
    """Return the likely minutes in air that stays as it is."""
    alike = drying_room(replace(room.room, usual=air, by_hour=(), readings=()))
    return alike.minutes(entry, drying.body, drying.stage, _ANY_AT)


def nights_words(
    derived: Derived, spans: Mapping[str, tuple[datetime, datetime, str | None]]
) -> str:
    """Return what the nights cost a plan's dryings, in a sentence; empty where they cost nothing.

    The longest is told and no sum: most of them lie side by side, and the plan is not so much longer.
    """
    losses = {
        step: loss
        for step, (start_at, _, _) in spans.items()
        if derived.work.has(step)
        and (loss := night_loss(derived, derived.work.step(step), start_at)) is not None
    }
    if not losses:
        return ""
    worst = max(losses, key=lambda step: (losses[step].minutes, step))
    coldest = sorted({round(loss.coldest.temperature_c, 1) for loss in losses.values()})
    nights = f"at {coldest[0]:g} °C" if len(coldest) == 1 else f"down to {coldest[0]:g} °C"
    many = f"{len(losses)} dryings" if len(losses) > 1 else "1 drying"
    return (
        f"Nights {nights} slow {many}. The longest: {derived.work.step(worst).title}, "
        f"{span_words(losses[worst].minutes)} longer than in the air it begins in."
    )
