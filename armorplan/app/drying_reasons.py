"""What makes a drying longer or shorter than its catalogue's time, each with the way it pulls."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime

from armorplan.app.drying_nights import night_hours
from armorplan.drying.air import REFERENCE
from armorplan.drying.body import Body, multiples
from armorplan.drying.days import hours_of
from armorplan.drying.room import drying_room
from armorplan.drying.track import GRID_MIN, cell_of
from armorplan.drying.wind import wind_gains
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import Carrier, TreatmentEntry

TELLING = 0.1
"""What makes a tenth more or less of the time is worth a word."""
NEAR = 0.15
"""Within this share a time is about the catalogue's."""
TELLING_C, TELLING_PCT = 2.0, 8.0
DAMP_PCT, DRY_PCT = 70.0, 40.0
"""From here on, and up to here, a maker calls air damp, or dry (common practice, no source)."""
NIGHT_FALLS_C = 3.0
_UNKNOWN_MIN = 24 * 60
"""So far it is looked at the air of what never dries."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """One reason in words, and whether it makes a drying longer; else it makes it shorter."""

    words: str
    longer: bool


def told(reasons: Sequence[Reason], *, longer: bool) -> str:
    """Return what pulls that way behind a colon, and what pulls against it behind 'although'."""
    along = "; ".join(each.words for each in reasons if each.longer is longer)
    against = " and ".join(each.words for each in reasons if each.longer is not longer)
    because = f": {along}" if along else ""
    return f"{because}, although {against}" if along and against else because


def reasons_of(
    entry: TreatmentEntry, body: Body, room: Room, start_at: datetime, minutes: int | None
) -> list[Reason]:
    """Return what makes a drying longer or shorter.

    Args:
        entry: the treatment.
        body: what dries.
        room: where.
        start_at: since when.
        minutes: how long it takes, likely; ``None`` for never.
    """
    cells = max(1, (minutes or _UNKNOWN_MIN) // GRID_MIN)
    air = drying_room(room).air_along(start_at, cells)
    found = [*_air_reasons(entry, room, start_at, air), *_body_reasons(entry, body)]
    pace = room.pace(entry.id)
    if pace is not None and abs(pace.factor - 1) >= TELLING:
        words = f"in this shop it was seen to take {pace.factor:.2g} times as long"
        found.append(Reason(words=words, longer=pace.factor > 1))
    return found


def _air_reasons(
    entry: TreatmentEntry, room: Room, start_at: datetime, air: list[Climate]
) -> Iterator[Reason]:
    if entry.carrier is Carrier.OIL:
        return
    yield from _warmth(room, start_at, air)
    if entry.carrier is Carrier.WATER or entry.water_share:
        yield from _damp(air)
    gain = wind_gains(sum(c.air_m_s for c in air) / len(air))[1]
    if abs(gain - 1) >= TELLING:
        yield Reason(words="the air moves" if gain > 1 else "the air stands", longer=gain < 1)


def _warmth(room: Room, start_at: datetime, air: list[Climate]) -> Iterator[Reason]:
    warm, usual_c = [c.temperature_c for c in air], REFERENCE.temperature_c
    mean_c = sum(warm) / len(warm)
    nights = _night(room, start_at, air)
    if nights and max(warm) - min(nights) >= NIGHT_FALLS_C and mean_c < usual_c:
        yield Reason(words=f"the nights are {min(nights):.4g} °C", longer=True)
    elif abs(mean_c - usual_c) >= TELLING_C:
        only = "only " if mean_c < usual_c else ""
        yield Reason(words=f"the air is {only}{round(mean_c, 1):g} °C", longer=mean_c < usual_c)


def _night(room: Room, start_at: datetime, air: list[Climate]) -> list[float]:
    night, hours = night_hours(room), hours_of(room.zone, cell_of(start_at), len(air))
    return [c.temperature_c for c, hour in zip(air, hours, strict=True) if hour in night]


def _damp(air: list[Climate]) -> Iterator[Reason]:
    mean = sum(c.humidity_pct for c in air) / len(air)
    if abs(mean - REFERENCE.humidity_pct) < TELLING_PCT:
        return
    words = f"the air has a humidity of {mean:.0f} %"
    if mean >= DAMP_PCT or mean <= DRY_PCT:
        words = f"the air is {'damp' if mean >= DAMP_PCT else 'dry'}, {mean:.0f} %"
    yield Reason(words=words, longer=mean > REFERENCE.humidity_pct)


def _body_reasons(entry: TreatmentEntry, body: Body) -> Iterator[Reason]:
    both = multiples(entry, body)[1]
    wiped = multiples(entry, Body(thickness_mm=body.thickness_mm, faces=body.faces))[1]
    if abs(wiped - 1) >= TELLING and entry.reference_mm:
        thick = body.thickness_mm or entry.reference_mm
        one = body.faces == 1 and entry.faces != 1
        faces = ", open to the air on one face" if one else ""
        yield Reason(words=f"the leather is {thick:.3g} mm thick{faces}", longer=wiped > 1)
    if both / wiped - 1 >= TELLING:
        yield Reason(words="dipped it took up more than wiped", longer=True)
