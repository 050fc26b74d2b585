"""The shop's own air: what is kept of it in the workshop, what rules over it, and how it is told."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from enum import StrEnum
from itertools import groupby
from zoneinfo import ZoneInfo

from armorplan.drying.track import cell_of
from armorplan.workshop.air import (
    DAY_FROM_H,
    NIGHT_FROM_H,
    AirReading,
    Climate,
    Room,
    by_night,
    mean_air,
)
from armorplan.workshop.shop import Shop

FANS = (
    ("still air", 0.1),
    ("a fan on low", 0.5),
    ("a fan on strong", 1.5),
)
"""How fast the air moves over the leather, in m/s, by what one does (common practice, no source)."""
FAN_SOURCE = "common practice, no source"
MOST_READINGS = 3000
"""The latest so many are kept: a month of quarters of an hour."""


class AirRule(StrEnum):
    """Which air the plan reckons with."""

    SHOP_FILE = "the shop file"
    KEPT = "the workshop"
    USUAL = "nobody told it"


@dataclass(frozen=True, slots=True, kw_only=True)
class ShopAir:
    """The air that things dry in, and who told it.

    Attributes:
        rule: who told it.
        room: the room as the plan reckons with it.
        kept: the room as it is kept in the workshop, also where a shop file rules over it.
        kept_at: since when that holds.
        unread: how many former states of it cannot be read and do not count.
    """

    rule: AirRule
    room: Room
    kept: Room | None
    kept_at: datetime | None = None
    unread: int = 0

    @property
    def told(self) -> Room:
        """The room as it was told, without the air of before that the plan reckons with, too."""
        is_kept = self.rule is AirRule.KEPT and self.kept is not None
        return self.kept if is_kept and self.kept else self.room


def shop_air(shop: Shop, kept: Room | None, *, is_told: bool) -> ShopAir:
    """Return the air of a shop: as its file tells it, else as it is kept, else the usual one.

    A volume that the file leaves out is the one that is kept: no file takes a wall away.

    Args:
        shop: as its file has it, or the usual one.
        kept: the room that the workshop keeps, if any.
        is_told: a shop file was given.
    """
    here = shop.room
    if kept is None:
        rule = AirRule.SHOP_FILE if is_told else AirRule.USUAL
        return ShopAir(rule=rule, room=here, kept=None)
    if is_told:
        volume_m3 = here.volume_m3 if here.volume_m3 is not None else kept.volume_m3
        room = replace(here, volume_m3=volume_m3)
        return ShopAir(rule=AirRule.SHOP_FILE, room=room, kept=kept)
    room = replace(kept, zone=here.zone, paces=here.paces)
    return ShopAir(rule=AirRule.KEPT, room=room, kept=kept)


def with_air(shop: Shop, air: ShopAir) -> Shop:
    """Return a shop whose things dry in this air."""
    return replace(shop, room=air.room)


@dataclass(frozen=True, slots=True, kw_only=True)
class DayNight:
    """Air by day and by night; the hours (0 to 23) at which each begins."""

    day: Climate
    night: Climate
    day_from_h: int = DAY_FROM_H
    night_from_h: int = NIGHT_FROM_H

    def hours(self) -> tuple[Climate, ...]:
        """Return the air of each hour from midnight."""
        return by_night(self.day, self.night, begins=self.night_from_h, ends=self.day_from_h)


def day_night(room: Room) -> DayNight | None:
    """Return a room's day and night; ``None`` where its hours are not two stretches of each."""
    hours = room.by_hour
    borders = [at for at in range(len(hours)) if hours[at] != hours[at - 1]]
    if len(borders) != 2:  # noqa: PLR2004 - a day has two borders: it begins, and it ends
        return None
    one, other = borders
    warm_first = hours[one].temperature_c >= hours[other].temperature_c
    day, night = (one, other) if warm_first else (other, one)
    return DayNight(day=hours[day], night=hours[night], day_from_h=day, night_from_h=night)


def with_reading(room: Room, reading: AirReading) -> Room:
    """Return a room with one more reading."""
    return with_readings(room, (reading,))


def with_readings(room: Room, readings: Sequence[AirReading]) -> Room:
    """Return a room with these readings among its own; at the same time the new ones count."""
    at_once = {reading.at: reading for reading in (*room.readings, *readings)}
    ordered = [at_once[at] for at in sorted(at_once)]
    return replace(room, readings=tuple(_thinned(ordered))[-MOST_READINGS:])


def _thinned(readings: Sequence[AirReading]) -> list[AirReading]:
    """Return the mean of the readings of each cell that drying is reckoned by, at the time of the last."""
    cells = groupby(readings, key=lambda reading: cell_of(reading.at))
    return [_mean(list(close)) for _, close in cells]


def _mean(close: list[AirReading]) -> AirReading:
    if len(close) == 1:
        return close[0]
    return AirReading(at=close[-1].at, climate=mean_air([reading.climate for reading in close]))


def climate_words(climate: Climate) -> str:
    """Return air in words: ``19 °C, 55 %, still air``."""
    names = {speed: name for name, speed in FANS}
    moves = names.get(climate.air_m_s, f"air at {climate.air_m_s:g} m/s")
    return f"{climate.temperature_c:g} °C, {climate.humidity_pct:g} %, {moves}"


def room_words(room: Room) -> str:
    """Return the air of a room in a sentence."""
    parts = []
    if room.readings:
        first, last = (when_words(room.readings[at].at, room.zone) for at in (0, -1))
        count = len(room.readings)
        span = f"on {first}" if count == 1 else f"from {first} to {last}"
        parts.append(f"As read {count} {'time' if count == 1 else 'times'} {span}")
        parts.append(f"else {_usual_words(room)}" if room.by_hour else "else their average day")
    else:
        words = _usual_words(room)
        parts.append(words[0].upper() + words[1:])
    return "; ".join(parts) + "."


def _usual_words(room: Room) -> str:
    two = day_night(room)
    if two is not None:
        return (
            f"from {two.day_from_h:02d}:00 {climate_words(two.day)}; "
            f"from {two.night_from_h:02d}:00 {climate_words(two.night)}"
        )
    if len(set(room.by_hour)) > 1:
        cold, warm = (pick(c.temperature_c for c in room.by_hour) for pick in (min, max))
        return f"by the hour, {cold:g} to {warm:g} °C"
    return f"{climate_words(room.by_hour[0] if room.by_hour else room.usual)}, day and night alike"


def when_words(at: datetime, zone: str) -> str:
    """Return an instant in local time: ``29 Nov 18:00``."""
    local = at.astimezone(ZoneInfo(zone))
    return f"{local.day} {local:%b %H:%M}"


def rule_words(air: ShopAir) -> str:
    """Return which air the plan reckons with, and what that means for the one that is kept."""
    if air.rule is AirRule.SHOP_FILE:
        over = ", and rules over the air that is kept in the workshop" if air.kept else ""
        return f"The shop file tells the air{over}."
    if air.rule is AirRule.KEPT:
        lost = (
            " Some that was kept before cannot be read, and does not count." if air.unread else ""
        )
        return f"The air of the shop is kept in the workshop.{lost}"
    return "Nobody has told the air of this shop: it is taken as 23 °C and 50 %, without a fan."


def air_words(air: ShopAir) -> str:
    """Return which air the plan reckons with, and what it is."""
    told = rule_words(air)
    if air.rule is AirRule.USUAL:
        return told
    return f"{told} {room_words(air.told)}"
