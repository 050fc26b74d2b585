"""What dries in air too cold for it: a finish forms no film, a glue does not bind, the rest freezes."""

from collections.abc import Iterator

from armorplan.drying.body import Body
from armorplan.drying.stages import FREEZES_C
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.units import span_words
from armorplan.steps.usual_air import STARTS, Airing, hours_words
from armorplan.workshop.air import HOURS_A_DAY
from armorplan.workshop.shelf import Carrier, TreatmentEntry, TreatmentKind

LEAST_FINISH_C = 10.0
"""Colder than this most water-borne finishes form no film (common practice, no source)."""
NEAR_FILM_C = 1.0
"""So little above the coldest air of a film is told as just at the limit: thermometers differ by it."""


def too_cold(airing: Airing) -> Iterator[Finding]:
    """Tell what would be spoilt by cold, at which hours, and what comes near it."""
    for entry, body in airing.dried:
        if entry.film_from_c is not None:
            yield from _spoilt(airing, entry, body, entry.film_from_c)
        elif entry.carrier is Carrier.WATER:
            frozen = tuple(_spoilt(airing, entry, body, FREEZES_C))
            yield from frozen
            if entry.kind is TreatmentKind.FINISH and not frozen:
                yield from _maybe_no_film(airing, entry)


def _spoilt(
    airing: Airing, entry: TreatmentEntry, body: Body, least_c: float
) -> Iterator[Finding]:
    """Tell at which hours what is put on would be in air too cold before its film has formed."""
    coldest = {hour: airing.times(entry, body, hour).coldest_c for hour in STARTS}
    spoilt = [hour for hour, cold_c in coldest.items() if cold_c < least_c]
    if not spoilt:
        if entry.film_from_c is not None and min(coldest.values()) < least_c + NEAR_FILM_C:
            yield _at_limit(entry, min(coldest.values()))
        return
    always = len(spoilt) == len(STARTS)
    when = "at any hour" if always else f"begun {hours_words(spoilt, STARTS)}"
    fails, until, end = failing_words(entry)
    yield Finding(
        code=_cold_code(entry),
        severity=Severity.ERROR if always else Severity.WARNING,
        text=f"{entry.name} {fails}, and {when} it has {min(coldest.values()):g} °C "
        f"before {until} at 23 °C): {end}.",
        remedy="Warm the room and the leather first, or bring it inside, and keep it warm until it "
        "is dry; the label rules."
        if always
        else "Begin at other hours, keep the room warm, or bring it inside; the label rules.",
        about=(entry.id,),
    )


def _cold_code(entry: TreatmentEntry) -> str:
    is_finish = entry.kind is TreatmentKind.FINISH
    return "too-cold-for-finish" if is_finish else "too-cold-while-wet"


def failing_words(entry: TreatmentEntry) -> tuple[str, str, str]:
    """Return what cold does to a treatment, until when (in an open bracket), and how that ends."""
    forms = span_words(entry.touch_min if entry.film_min is None else entry.film_min)
    if entry.film_from_c is None:
        dry = f"it is dry ({span_words(entry.handle_min)}"
        return f"freezes below {FREEZES_C:g} °C", dry, "it would be spoilt"
    below = f"below {entry.film_from_c:g} °C"
    if entry.kind is TreatmentKind.GLUE:
        return f"does not bind {below}", f"it holds ({forms}", "the joint would stay weak"
    end = "it stays powdery and would be spoilt"
    return f"forms no film {below}", f"the film has formed ({forms}", end


def _at_limit(entry: TreatmentEntry, coldest_c: float) -> Finding:
    return Finding(
        code=_cold_code(entry),
        severity=Severity.NOTE,
        text=f"{entry.name} may have {coldest_c:g} °C before its film has formed: that is just at "
        f"the limit of {entry.film_from_c:g} °C.",
        remedy="Keep it a little warmer meanwhile; the label rules.",
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
