"""Why a drying takes as long as it takes, and what is wrong where it does not dry, in words."""

from datetime import datetime

from armorplan.app.drying_reasons import NEAR, Reason, reasons_of, told
from armorplan.app.rough_instants import rough_span
from armorplan.drying.body import Body
from armorplan.drying.room import drying_room
from armorplan.drying.spans import DryTimes, Stage, Verdict
from armorplan.drying.stages import FREEZES_C, freezes
from armorplan.kernel.units import both_words
from armorplan.steps.cold_air import NEAR_FILM_C
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Carrier, TreatmentEntry, TreatmentKind

COOL_C = 18.0
"""Colder than this oil and wax are known to be slower (common practice, no source)."""


def why_words(
    entry: TreatmentEntry, body: Body, room: Room, start_at: datetime, times: DryTimes
) -> str:
    """Return why it takes so long, in sentences; empty where it takes about the catalogue's time."""
    minutes = times.likely_min(Stage.HANDLE)
    reasons = reasons_of(entry, body, room, start_at, minutes)
    if minutes is None:
        never = told([each for each in reasons if each.longer], longer=True)
        return f"It never gets dry{never}." if never else ""
    found = (
        _share_words(entry, minutes, reasons),
        _at_limit(entry, times),
        _unreckoned(entry, room, start_at),
    )
    return " ".join(each for each in found if each)


def _share_words(entry: TreatmentEntry, minutes: int, reasons: list[Reason]) -> str:
    if abs(minutes / entry.handle_min - 1) <= NEAR:
        return ""
    here, usual = both_words(minutes, entry.handle_min)
    if here == usual:
        return ""
    return f"{here} instead of {usual}{told(reasons, longer=minutes > entry.handle_min)}."


def _at_limit(entry: TreatmentEntry, times: DryTimes) -> str:
    least_c = entry.film_from_c
    if least_c is None or not least_c <= times.coldest_c < least_c + NEAR_FILM_C:
        return ""
    return f"{times.coldest_c:g} °C is just at its limit of {least_c:g} °C; the label rules."


def _unreckoned(entry: TreatmentEntry, room: Room, start_at: datetime) -> str:
    """Say that the air counts for nothing with oil and wax, where it is colder than usual."""
    air = drying_room(room).air(start_at)
    if entry.carrier is not Carrier.OIL or air.temperature_c >= COOL_C:
        return ""
    return "Air is not reckoned for oil and wax: cold makes it slower."


def verdict_words(entry: TreatmentEntry, room: Room, times: DryTimes) -> tuple[str, str]:
    """Return what is wrong with drying this here and what to do about it; both empty where it dries."""
    if freezes(entry, times.coldest_c):
        return _frozen_words(entry, times)
    if times.verdict is Verdict.WILL_NOT_DRY:
        air = drying_room(room).air(times.start_at)
        trouble = (
            f"{entry.name} will not dry in this air ({air.temperature_c:g} °C, relative humidity "
            f"{air.humidity_pct:g} %): not within four weeks."
        )
        return trouble, "Warm the room gently, let drier air in, or dry it elsewhere."
    if times.verdict is Verdict.WOULD_SPOIL and entry.film_from_c is not None:
        least_c, film = f"{entry.film_from_c:g} °C", rough_span(entry.film_min or entry.touch_min)
        fails = (
            "it does not bind" if entry.kind is TreatmentKind.GLUE else "it forms no sound film"
        )
        trouble = (
            f"{entry.name} would spoil: {fails} below {least_c}, and the air falls "
            f"to {times.coldest_c:g} °C meanwhile."
        )
        remedy = (
            f"Keep the room above {least_c} for about the first {film}, or put it on when the room "
            "stays warm. The label rules."
        )
        return trouble, remedy
    return "", ""


def _frozen_words(entry: TreatmentEntry, times: DryTimes) -> tuple[str, str]:
    wet = entry.kind in (TreatmentKind.CASING, TreatmentKind.HARDENER, TreatmentKind.DYE)
    what = "wet leather freezes" if wet else "it freezes before it is dry"
    trouble = (
        f"{entry.name} would spoil: the air falls to {times.coldest_c:g} °C, and below "
        f"{FREEZES_C:g} °C {what}."
    )
    rules = "" if entry.kind is TreatmentKind.CASING else " The label rules."
    return trouble, f"Bring it inside, and work where it stays warm until it is dry.{rules}"
