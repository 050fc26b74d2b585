"""The air of a room that was told otherwise meanwhile: what dried before did so in the air of then."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from armorplan.app.shop_air import ShopAir, shop_air
from armorplan.drying.days import Readings, usual_days
from armorplan.drying.room import drying_room
from armorplan.drying.track import GRID_MIN, cell_of, start_of
from armorplan.workshop.air import AirReading, Room
from armorplan.workshop.shop import Shop

PAST = timedelta(days=14)
"""What began to dry longer ago is dry, or no longer watched."""
_CELL = timedelta(minutes=GRID_MIN)
_FEW_CELLS = 10
"""Readings stand closer together than the longest gap over which air is drawn straight."""
_BRIEF = timedelta(minutes=1)


def going_over(before: Room, after: Room, at: datetime) -> Room:
    """Return a room that has the air of one until an instant, and of another from then on.

    The air of before stands as readings where the other has none of its own.
    """
    if (before.usual, before.by_hour, before.readings) == (
        after.usual,
        after.by_hour,
        after.readings,
    ):
        return after
    own = Readings(after.readings)
    past = [reading for reading in _as_read(before, at) if own.at(reading.at) is None]
    if own.at(at) is None:
        past.append(AirReading(at=at, climate=drying_room(after).air(at)))
    readings = sorted((*past, *after.readings), key=lambda reading: reading.at)
    return replace(after, by_hour=usual_days(after), readings=tuple(readings))


def _as_read(room: Room, until_at: datetime) -> Iterator[AirReading]:
    """Yield the air of a room up to an instant as readings: where it turns, and in between."""
    first_at = start_of(cell_of(until_at - PAST))
    air = drying_room(room).air_along(first_at, cell_of(until_at) - cell_of(first_at) + 1)
    last = len(air) - 1
    for cell, climate in enumerate(air):
        begins_at = first_at + cell * _CELL
        is_told = cell == 0 or cell % _FEW_CELLS == 0 or climate != air[cell - 1]
        if is_told and begins_at < until_at - _BRIEF:
            yield AirReading(at=begins_at, climate=climate)
        if cell == last or climate != air[cell + 1]:
            yield AirReading(at=min(begins_at + _CELL, until_at) - _BRIEF, climate=climate)


def over_time(told: Sequence[tuple[datetime, Room]], now_at: datetime) -> Room:
    """Return the room told last, with the air of before for what began in it.

    The first that was told holds for the time before it, too: nobody said otherwise.

    Args:
        told: rooms and since when each holds, in order; one at least.
        now_at: the present.
    """
    since_at, (_, room) = now_at - PAST, told[0]
    for at, other in told[1:]:
        room = going_over(room, other, at) if at >= since_at else other
    return room


def air_over_time(
    shop: Shop, told: Sequence[tuple[datetime, Room]], now_at: datetime, *, is_told: bool
) -> ShopAir:
    """Return the air of a shop; what was kept in its workshop counts from when it was kept.

    Args:
        shop: as its file has it, or the usual one.
        told: the rooms that the workshop keeps, and since when each holds, in order.
        now_at: the present.
        is_told: a shop file was given.
    """
    zone, paces = shop.room.zone, shop.room.paces
    rooms = tuple((at, replace(room, zone=zone, paces=paces)) for at, room in told)
    air = shop_air(shop, rooms[-1][1] if rooms else None, is_told=is_told)
    return air if is_told or not rooms else replace(air, room=over_time(rooms, now_at))
