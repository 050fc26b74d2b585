"""Why a drying takes as long as it takes: its catalogue's time, and what makes this one differ."""

from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from armorplan.drying.air import REFERENCE
from armorplan.drying.body import Body, multiples
from armorplan.drying.room import drying_room
from armorplan.drying.spans import DryTimes, Stage, Verdict
from armorplan.drying.wind import wind_gains
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import Carrier, TreatmentEntry

TELLING = 0.1
"""What makes a tenth more or less of the time is worth a word."""
TELLING_C, TELLING_PCT = 2.0, 8.0
NIGHT_FALLS_C = 3.0
_NIGHT_H = (22, 5)


def hours_words(minutes: float) -> str:
    """Say a duration as coarsely as it is known: ``40 min``, ``3.5 h``, ``36 h``, ``5 days``."""
    hour, few_h, many_h = 60, 10, 72
    if minutes < 2 * hour:
        return f"{max(5 * round(minutes / 5), 1)} min"
    hours = minutes / hour
    if hours < few_h:
        return f"{round(2 * hours) / 2:g} h"
    return f"{round(hours)} h" if hours <= many_h else f"{round(hours / 24)} days"


def why_words(
    entry: TreatmentEntry, body: Body, room: Room, start_at: datetime, times: DryTimes
) -> str:
    """Return why it takes so long, as one sentence; empty where it takes the catalogue's time."""
    reasons = [*_air_reasons(entry, room, start_at, times), *_body_reasons(entry, body)]
    pace = room.pace(entry.id)
    if pace is not None and abs(pace.factor - 1) >= TELLING:
        reasons.append(f"in this shop it was seen to take {pace.factor:.2g} times as long")
    minutes = times.likely_min(Stage.HANDLE)
    because = "; ".join(reasons)
    if minutes is None:
        return f"It never gets dry: {because}." if because else ""
    if abs(minutes / entry.handle_min - 1) < TELLING:
        return ""
    both = f"{hours_words(minutes)} instead of {hours_words(entry.handle_min)}"
    return f"{both}: {because}." if because else f"{both}."


def _air_reasons(
    entry: TreatmentEntry, room: Room, start_at: datetime, times: DryTimes
) -> list[str]:
    if entry.carrier is Carrier.OIL:
        return []
    minutes = times.likely_min(Stage.HANDLE) or 24 * 60
    air = drying_room(room).air_along(start_at, max(1, minutes // 15))
    reasons = [_warmth(room, start_at, air)]
    if entry.carrier is Carrier.WATER or entry.water_share:
        reasons.append(_damp(air))
    gain = wind_gains(sum(c.air_m_s for c in air) / len(air))[1]
    if abs(gain - 1) >= TELLING:
        reasons.append("the air moves" if gain > 1 else "the air stands")
    return [reason for reason in reasons if reason]


def _warmth(room: Room, start_at: datetime, air: list[Climate]) -> str:
    warm = [c.temperature_c for c in air]
    mean = sum(warm) / len(warm)
    nights = _night(room, start_at, air)
    if nights and max(warm) - min(nights) >= NIGHT_FALLS_C:
        return f"the nights are {round(min(nights))} °C"
    if abs(mean - REFERENCE.temperature_c) >= TELLING_C:
        return f"the air is {'only ' if mean < REFERENCE.temperature_c else ''}{round(mean)} °C"
    return ""


def _night(room: Room, start_at: datetime, air: list[Climate]) -> list[float]:
    zone, (from_h, until_h) = ZoneInfo(room.zone), _NIGHT_H
    hours = (
        (start_at + timedelta(minutes=15 * at)).astimezone(zone).hour for at in range(len(air))
    )
    return [
        c.temperature_c
        for c, hour in zip(air, hours, strict=True)
        if hour >= from_h or hour < until_h
    ]


def _damp(air: list[Climate]) -> str:
    mean = sum(c.humidity_pct for c in air) / len(air)
    if abs(mean - REFERENCE.humidity_pct) < TELLING_PCT:
        return ""
    return f"the air is {'damp' if mean > REFERENCE.humidity_pct else 'dry'}, {round(mean)} %"


def _body_reasons(entry: TreatmentEntry, body: Body) -> list[str]:
    both = multiples(entry, body)[1]
    wiped = multiples(entry, Body(thickness_mm=body.thickness_mm, faces=body.faces))[1]
    reasons = []
    if abs(wiped - 1) >= TELLING and entry.reference_mm:
        thick = body.thickness_mm or entry.reference_mm
        one = body.faces == 1 and entry.faces != 1
        faces = ", open to the air on one face" if one else ""
        reasons.append(f"the leather is {thick:g} mm thick{faces}")
    if both / wiped - 1 >= TELLING:
        reasons.append("dipped it took up more than wiped")
    return reasons


def verdict_words(entry: TreatmentEntry, room: Room, times: DryTimes) -> tuple[str, str]:
    """Return what is wrong with drying this here and what to do about it; both empty where it dries."""
    if times.verdict is Verdict.WILL_NOT_DRY:
        air = drying_room(room).air(times.start_at)
        trouble = (
            f"{entry.name} will not dry in this air ({air.temperature_c:g} °C, relative humidity "
            f"{air.humidity_pct:g} %): not within four weeks."
        )
        return trouble, "Warm the room gently, let drier air in, or dry it elsewhere."
    if times.verdict is Verdict.WOULD_SPOIL and entry.film_from_c is not None:
        least_c, film = f"{entry.film_from_c:g} °C", hours_words(entry.film_min or entry.touch_min)
        trouble = (
            f"{entry.name} would spoil: it forms no sound film below {least_c}, and the air falls "
            f"to {times.coldest_c:g} °C while it forms."
        )
        remedy = (
            f"Keep the room above {least_c} for about the first {film}, or put it on when the room "
            "stays warm. The label rules."
        )
        return trouble, remedy
    return "", ""
