"""The air of a room that was told otherwise meanwhile: what dried before did so in the air of then."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from datetime import datetime, timedelta

from armorplan.app.air_texts import AirStates
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


def over_time(told: Sequence[tuple[datetime, Room]], now_at: datetime) -> Room:
    """Return the room told last, with the air of before for what began in it.

    The first that was told holds for the time before it, too: nobody said otherwise. The air of
    before stands as readings where the last room has none of its own.

    Args:
        told: rooms and since when each holds, in the order they were told; one at least. One that
            a clock standing ahead gave a later instant than the next was never in force.
        now_at: the present.
    """
    *former, (last_at, last) = _apart(told)
    past = [*_former(former, now_at - PAST, last_at)]
    if not past:
        return last
    own = Readings(last.readings)
    past.append(AirReading(at=last_at, climate=drying_room(last).air(last_at)))
    lasting = (reading for reading in past if own.at(reading.at) is None)
    readings = sorted((*lasting, *last.readings), key=lambda reading: reading.at)
    return replace(last, by_hour=usual_days(last), readings=tuple(readings))


def going_over(before: Room, after: Room, at: datetime) -> Room:
    """Return a room that has the air of one until an instant, and of another from then on."""
    return over_time(((at, before), (at, after)), at)


def _former(
    told: Sequence[tuple[datetime, Room]], since_at: datetime, until_at: datetime
) -> Iterator[AirReading]:
    """Yield the air of rooms while each was in force, from the last of them back."""
    for place, (at, room) in reversed([*enumerate(told)]):
        from_at = max(since_at, at) if place else since_at
        if from_at < until_at:
            yield from _as_read(room, from_at, until_at)
        until_at = min(until_at, at)


def _apart(told: Sequence[tuple[datetime, Room]]) -> list[tuple[datetime, Room]]:
    """Return the rooms without those that only say again what the one before them says."""
    found: list[tuple[datetime, Room]] = []
    for at, room in told:
        is_same = found and _air(found[-1][1]) == _air(room)
        found.append((found.pop()[0] if is_same else at, room))
    return found


def _air(room: Room) -> tuple[object, ...]:
    return room.usual, room.by_hour, room.readings


def _as_read(room: Room, from_at: datetime, until_at: datetime) -> Iterator[AirReading]:
    """Yield the air of a room between two instants as readings: where it turns, and in between."""
    first_at = start_of(cell_of(from_at))
    cells = cell_of(until_at - _BRIEF) - cell_of(first_at) + 1
    air = drying_room(room).air_along(first_at, max(1, cells))
    for cell, climate in enumerate(air):
        begins_at = max(from_at, first_at + cell * _CELL)
        is_told = cell == 0 or cell % _FEW_CELLS == 0 or climate != air[cell - 1]
        if is_told and begins_at < until_at - _BRIEF / 2:
            yield AirReading(at=begins_at, climate=climate)
        ends_at = min(first_at + (cell + 1) * _CELL, until_at) - _BRIEF
        is_last = cell + 1 == len(air) or climate != air[cell + 1]
        if is_last and begins_at < ends_at:
            yield AirReading(at=ends_at, climate=climate)


def air_over_time(shop: Shop, kept: AirStates, now_at: datetime, *, is_told: bool) -> ShopAir:
    """Return the air of a shop; what was kept in its workshop counts from when it was kept.

    Args:
        shop: as its file has it, or the usual one.
        kept: the states that the workshop keeps.
        now_at: the present.
        is_told: a shop file was given.
    """
    zone, paces = shop.room.zone, shop.room.paces
    rooms = tuple((at, replace(room, zone=zone, paces=paces)) for at, room in kept.states)
    if not rooms:
        return shop_air(shop, None, is_told=is_told)
    kept_at, room = rooms[-1]
    air = shop_air(shop, room, is_told=is_told)
    return replace(
        air,
        room=air.room if is_told else over_time(rooms, now_at),
        kept_at=kept_at,
        unread=kept.unread,
    )
