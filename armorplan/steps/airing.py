"""What the air of the room does to the work, through its days and nights: told before it happens."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import cached_property

from armorplan.drying.body import Body, multiples
from armorplan.drying.days import usual_days
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import DryTimes, Stage, Verdict
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.units import span_words
from armorplan.steps.model import StepKind, Work
from armorplan.workshop.air import HOURS_A_DAY, Climate, Room
from armorplan.workshop.shelf import Carrier, Shelf, TreatmentEntry, TreatmentKind

LEAST_FINISH_C = 10.0
"""Colder than this most water-borne finishes form no film (common practice, no source)."""
MOULD_PCT = 75.0
"""Damper than this leather moulds; it is stored at 45–55 % (conservation practice for leather)."""
SHORT_MIN = 8
"""A window shorter than that is told: a part is hardly tied on its form in it."""
TELLING = 1.2
"""Nights that make a drying longer by less are not worth a note."""
_NIGHT_FALLS_C = 3.0
_STARTS = range(8, 19)
"""Hours of the day at which a maker may begin."""
_DAY = range(9, 18)
_MIDNIGHT = datetime(2026, 1, 15, tzinfo=UTC)


@dataclass(frozen=True)
class Airing:
    """The usual day of a room, and what a build dries in it.

    Attributes:
        work: the steps.
        shelf: the treatments.
        room: as the shop tells it.
    """

    work: Work
    shelf: Shelf
    room: Room

    @cached_property
    def hours(self) -> tuple[Climate, ...]:
        """The air of each hour of a usual day, from midnight."""
        return usual_days(self.room)

    @cached_property
    def is_steady(self) -> bool:
        """Whether all hours are alike."""
        return len(set(self.hours)) == 1

    @cached_property
    def usual(self) -> DryingRoom:
        """The room on usual days, told in the hours of UTC: any day will do."""
        steady = replace(self.room, usual=self.hours[0], by_hour=(), readings=(), zone="UTC")
        return drying_room(steady if self.is_steady else replace(steady, by_hour=self.hours))

    @cached_property
    def by_day(self) -> DryingRoom:
        """The room if its nights were as its days."""
        day = mean_air(self.hours[hour] for hour in _DAY)
        return drying_room(replace(self.room, usual=day, by_hour=(), readings=(), zone="UTC"))

    @cached_property
    def dried(self) -> tuple[tuple[TreatmentEntry, Body], ...]:
        """Each treatment that dries in a build, with what takes longest of it."""
        slowest: dict[str, tuple[TreatmentEntry, Body]] = {}
        for step in self.work.of_kind(StepKind.DRY):
            entry = self.shelf.treatment(step.drying.treatment) if step.drying else None
            if entry is None or step.drying is None:
                continue
            here = slowest.get(entry.id)
            body = step.drying.body
            if here is None or multiples(entry, body) > multiples(entry, here[1]):
                slowest[entry.id] = (entry, body)
        return tuple(slowest[name] for name in sorted(slowest))

    def times(self, entry: TreatmentEntry, body: Body, hour: int) -> DryTimes:
        """Return the windows of what is begun at an hour of a usual day."""
        return self.usual.times(entry, body, _MIDNIGHT + timedelta(hours=hour))


def mean_air(climates: Iterable[Climate]) -> Climate:
    """Return the mean of some air, each counted alike."""
    found = list(climates)
    count = len(found)
    return Climate(
        temperature_c=round(sum(c.temperature_c for c in found) / count, 1),
        humidity_pct=round(sum(c.humidity_pct for c in found) / count, 1),
        air_m_s=round(sum(c.air_m_s for c in found) / count, 2),
    )


def air_findings(work: Work, shelf: Shelf, room: Room) -> tuple[Finding, ...]:
    """Return what this air does to the work on usual days and nights.

    Treatments that will not dry, a finish that would spoil and at which hours, nights that make
    dryings longer, windows too short to shape in, and mould.
    """
    airing = Airing(work, shelf, room)
    return (
        *_never(airing),
        *_too_cold(airing),
        *_nights(airing),
        *_short_windows(airing),
        *_mould(airing),
    )


def _air_words(airing: Airing) -> str:
    mean = mean_air(airing.hours)
    head = "at" if airing.is_steady else "in this room, which has on average"
    return f"{head} {mean.temperature_c:g} °C and {mean.humidity_pct:g} % humidity"


def _never(airing: Airing) -> Iterator[Finding]:
    for entry, body in airing.dried:
        if airing.usual.usual(entry, body).verdict is Verdict.WILL_NOT_DRY:
            yield Finding(
                code="will-not-dry",
                severity=Severity.ERROR,
                text=f"{entry.name} will not dry {_air_words(airing)}.",
                remedy="Warm or dry the room; the plan shows the catalogue's time meanwhile.",
                about=(entry.id,),
            )


def _too_cold(airing: Airing) -> Iterator[Finding]:
    for entry, body in airing.dried:
        if entry.film_from_c is not None:
            yield from _no_film(airing, entry, body, entry.film_from_c)
        elif entry.kind is TreatmentKind.FINISH and entry.carrier is Carrier.WATER:
            yield from _maybe_no_film(airing, entry)


def _no_film(
    airing: Airing, entry: TreatmentEntry, body: Body, least_c: float
) -> Iterator[Finding]:
    """Tell at which hours a finish put on would be in air too cold before its film has formed."""
    found = {hour: airing.times(entry, body, hour) for hour in _STARTS}
    spoilt = [hour for hour, times in found.items() if times.coldest_c < least_c]
    if not spoilt:
        return
    coldest_c = min(found[hour].coldest_c for hour in spoilt)
    always = len(spoilt) == len(_STARTS)
    when = "at any hour" if always else f"begun {hours_words(spoilt, _STARTS)}"
    forms = span_words(entry.touch_min if entry.film_min is None else entry.film_min)
    yield Finding(
        code="too-cold-for-finish",
        severity=Severity.ERROR if always else Severity.WARNING,
        text=f"{entry.name} forms no film below {least_c:g} °C, and {when} it has {coldest_c:g} °C "
        f"before the film has formed ({forms} at 23 °C): it stays powdery and would be spoilt.",
        remedy="Warm the room and the leather first, and keep them warm until it is dry; the label "
        "on the bottle rules."
        if always
        else "Put it on at other hours, or keep the room warm; the label on the bottle rules.",
        about=(entry.id,),
    )


def _maybe_no_film(airing: Airing, entry: TreatmentEntry) -> Iterator[Finding]:
    """Tell of cold where the catalogue does not say from how many °C on a film forms."""
    coldest_c = min(climate.temperature_c for climate in airing.hours)
    if coldest_c < LEAST_FINISH_C:
        yield Finding(
            code="too-cold-for-finish",
            severity=Severity.NOTE,
            text=f"The room has {coldest_c:g} °C{_at_night(airing)}; below {LEAST_FINISH_C:g} °C "
            f"{entry.name} may stay cloudy, soft or streaked.",
            remedy="Warm the room and the leather first; the label on the bottle rules.",
            about=(entry.id,),
        )


def _at_night(airing: Airing) -> str:
    if airing.is_steady:
        return ""
    cold = [h for h, c in enumerate(airing.hours) if c.temperature_c < LEAST_FINISH_C]
    return f" {hours_words(cold, range(HOURS_A_DAY))}"


def _nights(airing: Airing) -> Iterator[Finding]:
    """Tell what colder nights make of what dries over one."""
    coldest_c = min(climate.temperature_c for climate in airing.hours)
    day_c = airing.by_day.room.usual.temperature_c
    if airing.is_steady or day_c - coldest_c < _NIGHT_FALLS_C:
        return
    longer = {}
    for entry, body in airing.dried:
        here = airing.usual.usual(entry, body).likely_min(Stage.HANDLE)
        warm = airing.by_day.usual(entry, body).likely_min(Stage.HANDLE)
        if here and warm and here >= TELLING * warm:
            longer[entry.id] = f"{entry.name} {span_words(here)} instead of {span_words(warm)}"
    if longer:
        yield Finding(
            code="cold-nights",
            severity=Severity.NOTE,
            text=f"Nights at {coldest_c:g} °C make dryings longer than days at {day_c:g} °C would: "
            f"{'; '.join(longer.values())}.",
            remedy="Keep what dries in a warmer room over night; the plan reckons with the nights.",
            about=tuple(longer),
        )


def _short_windows(airing: Airing) -> Iterator[Finding]:
    """Tell of parts that are hardly damp enough to shape before they are too dry."""
    told: dict[str, Finding] = {}
    for case in airing.work.of_kind(StepKind.CASE):
        entry = airing.shelf.treatment(case.drying.treatment) if case.drying else None
        if entry is None or case.drying is None:
            continue
        times = airing.usual.usual(entry, case.drying.body)
        opens, closes = times.likely_min(Stage.OPENS), times.likely_min(Stage.CLOSES)
        if opens is not None and closes is not None and closes - opens < SHORT_MIN:
            told.setdefault(
                case.tray,
                Finding(
                    code="window-too-short",
                    severity=Severity.NOTE,
                    text=f"'{case.title}': {case.drying.body.thickness_mm:g} mm leather is right to "
                    f"shape for only {closes - opens} min on a usual day in this room.",
                    remedy="Wrap it until you begin, and sponge it again as you work.",
                    about=case.parts,
                ),
            )
    yield from told.values()


def _mould(airing: Airing) -> Iterator[Finding]:
    mean_pct = mean_air(airing.hours).humidity_pct
    if mean_pct <= MOULD_PCT:
        return
    damp = [h for h, c in enumerate(airing.hours) if c.humidity_pct > MOULD_PCT]
    on_average = "" if airing.is_steady else f" on average, above {MOULD_PCT:g} % "
    hours = "" if airing.is_steady else hours_words(damp, range(HOURS_A_DAY))
    yield Finding(
        code="damp-air-moulds",
        severity=Severity.NOTE,
        text=f"The air has {mean_pct:g} % humidity{on_average}{hours}; above {MOULD_PCT:g} % leather "
        "moulds while it dries and in store.",
        remedy="Move the air or dry the room: leather keeps best at 45 to 55 %.",
    )


def hours_words(hours: list[int], among: range) -> str:
    """Return hours as one says them: ``from 22:00 to 6:00``, ``before 10:00``, ``after 16:00``.

    Of a whole day hours go round midnight.
    """
    whole = len(among) == HOURS_A_DAY
    inside = set(hours)
    if whole and len(inside) == HOURS_A_DAY:
        return "all day"
    starts = [h for h in hours if (h - 1) % HOURS_A_DAY not in inside]
    spans = []
    for start in starts:
        end = start
        while end % HOURS_A_DAY in inside:
            end += 1
        spans.append(_span_words(start, end, among, whole=whole))
    return " and ".join(spans)


def _span_words(start: int, end: int, among: range, *, whole: bool) -> str:
    if not whole and start == among[0]:
        return f"before {end % HOURS_A_DAY}:00"
    if not whole and end == among[-1] + 1:
        return f"from {start}:00 on"
    return f"from {start}:00 to {end % HOURS_A_DAY}:00"
