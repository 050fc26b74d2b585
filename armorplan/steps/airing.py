"""What the air of the room does to the work, through its days and nights: told before it happens."""

from collections.abc import Iterator

from armorplan.drying.spans import Stage, Verdict
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.units import both_words
from armorplan.steps.cold_air import too_cold
from armorplan.steps.model import Drying, StepKind, Work
from armorplan.steps.usual_air import Airing, hours_words
from armorplan.steps.watch_air import dry_before_turned
from armorplan.steps.windows import SHORT_MIN, leaves_time
from armorplan.workshop.air import HOURS_A_DAY, Room, mean_air
from armorplan.workshop.shelf import Shelf, TreatmentEntry

MOULD_PCT = 75.0
"""Damper than this leather moulds; it is stored at 45–55 % (conservation practice for leather)."""
TELLING = 1.2
"""Nights that make a drying longer by less are not worth a note."""
_NIGHT_FALLS_C = 3.0


def air_findings(work: Work, shelf: Shelf, room: Room) -> tuple[Finding, ...]:
    """Return what this air does to the work on usual days and nights.

    Treatments that will not dry, a finish that would spoil and at which hours, nights that make
    dryings longer, windows too short to shape in, and mould.
    """
    airing = Airing(work, shelf, room)
    return (
        *_never(airing),
        *too_cold(airing),
        *_nights(airing),
        *_short_windows(airing),
        *dry_before_turned(airing),
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
            longer[entry.id] = f"{entry.name} {' instead of '.join(both_words(here, warm))}"
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
        words = _mixed_words(case.drying, entry) or _short_words(airing, case.drying, entry)
        if words:
            finding = Finding(
                code="window-too-short",
                severity=Severity.NOTE,
                text=f"'{case.title}': {words[0]}",
                remedy=words[1],
                about=case.parts,
            )
            told.setdefault(case.tray, finding)
    yield from told.values()


def _mixed_words(drying: Drying, entry: TreatmentEntry) -> tuple[str, str] | None:
    """Say that the thin is too dry before the thick is ready, and what to do; ``None``: it is not."""
    if drying.thin is None or leaves_time(entry, drying):
        return None
    thin, thick = (f"{body.thickness_mm:.3g} mm leather" for body in (drying.thin, drying.body))
    return (
        f"{thin} is too dry to shape by the time {thick} is ready, or soon after.",
        "Keep the thin parts wrapped, and sponge them again as you begin.",
    )


def _short_words(airing: Airing, drying: Drying, entry: TreatmentEntry) -> tuple[str, str] | None:
    last = drying.thin or drying.body
    opens = airing.usual.usual(entry, drying.body).likely_min(Stage.OPENS)
    closes = airing.usual.usual(entry, last).likely_min(Stage.CLOSES)
    if opens is None or closes is None or closes - opens >= SHORT_MIN:
        return None
    text = (
        f"{last.thickness_mm:.3g} mm leather is right to shape for only {closes - opens} min on a "
        "usual day in this room."
    )
    return (
        text,
        "Wrap it until you begin, and sponge it again as you work.",
    )


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
