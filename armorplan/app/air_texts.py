"""The shop's air as the workshop keeps it: JSON, which says no reading twice.

A logger's month is some 3,000 readings. So a state names a former one that was told in full, and has
only the readings that came since; what stands nowhere else is told in full again.
"""

import json
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from functools import lru_cache
from typing import Any

from armorplan.app.snapshots import UNFIT, json_converter
from armorplan.kernel.errors import WorkshopError
from armorplan.workshop.air import AirReading, Climate, Room

_FEW = 2
"""Only where fewer than one in so many readings differ is it worth to tell the difference."""
_READING = 4
"""An instant, °C, per cent and m/s."""
KeptRow = tuple[int, datetime, str]
"""A number, since when it holds, and its text."""
ByNumber = Callable[[int], str | None]


@dataclass(frozen=True, slots=True, kw_only=True)
class AirTold:
    """One state of the air, as its text has it.

    Attributes:
        room: with the readings that are told here.
        like: the number of the state whose readings it has, too; 0: of none.
        without: the instants of those that it has not.
        instead: it was so all along: the state before was mistyped.
    """

    room: Room
    like: int = 0
    without: tuple[datetime, ...] = ()
    instead: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class AirStates:
    """The air as it was kept: since when each state holds, in order, and how many cannot be read."""

    states: tuple[tuple[datetime, Room], ...] = ()
    unread: int = 0


def room_text(room: Room) -> str:
    """Return a room as text, without what was learned of drying in it."""
    return air_text(AirTold(room=room))


def air_text(told: AirTold) -> str:
    """Return a state of the air as text."""
    plain = json_converter().unstructure(replace(told.room, paces=(), readings=()))
    plain["readings"] = [
        [r.at.isoformat(), r.climate.temperature_c, r.climate.humidity_pct, r.climate.air_m_s]
        for r in told.room.readings
    ]
    if told.like:
        plain |= {"like": told.like, "without": [at.isoformat() for at in told.without]}
    if told.instead:
        plain["instead"] = True
    return json.dumps(plain, ensure_ascii=False, separators=(",", ":"))


@lru_cache(maxsize=64)
def told_from(text: str) -> AirTold:
    """Return a state of the air from its text.

    Raises:
        WorkshopError: the text is damaged or of another form.
    """
    try:
        told: dict[str, Any] = dict(json.loads(text).items())
        readings = tuple(map(_reading, told.pop("readings", ())))
        like, instead = int(told.pop("like", 0)), bool(told.pop("instead", False))
        without = tuple(map(datetime.fromisoformat, told.pop("without", ())))
        room = replace(_like_told(told, Room), readings=readings)
        return AirTold(room=room, like=like, without=without, instead=instead)
    except UNFIT as error:
        raise _unreadable() from error


def _like_told(told: dict[str, Any], kind: type[Any]) -> Any:
    converter = json_converter()
    found = converter.structure(told, kind)
    # What cannot be taken for air would be read as the usual one.
    if {key: converter.unstructure(found)[key] for key in told} != told:
        raise ValueError(told)
    return found


def _reading(told: Any) -> AirReading:
    if isinstance(told, dict):
        found: AirReading = _like_told(told, AirReading)
        return found
    if len(told) != _READING:
        raise ValueError(told)
    at, temperature_c, humidity_pct, air_m_s = told
    return AirReading(
        at=datetime.fromisoformat(at),
        climate=Climate(
            temperature_c=float(temperature_c),
            humidity_pct=float(humidity_pct),
            air_m_s=float(air_m_s),
        ),
    )


def _unreadable() -> WorkshopError:
    return WorkshopError("The air that is kept in the workshop cannot be read. Keep the air anew.")


def room_from(text: str, by_number: ByNumber = lambda _: None) -> Room:
    """Return the room that a text tells.

    Args:
        text: of a state.
        by_number: returns the text of a former state.

    Raises:
        WorkshopError: the text, or the one whose readings it has, is damaged or of another form.
    """
    told = told_from(text)
    if not told.like:
        return told.room
    base = by_number(told.like)
    if base is None:
        raise _unreadable()
    gone = {*told.without, *(reading.at for reading in told.room.readings)}
    kept = (reading for reading in told_from(base).room.readings if reading.at not in gone)
    readings = sorted((*kept, *told.room.readings), key=lambda reading: reading.at)
    return replace(told.room, readings=tuple(readings))


def shortest_text(
    room: Room, last: KeptRow | None, by_number: ByNumber, *, instead: bool = False
) -> str:
    """Return a room as text; of its readings those that the state kept last does not know.

    Args:
        room: to be kept.
        last: the state kept last, if any.
        by_number: returns the text of a former state.
        instead: it was so all along: the state kept last was mistyped.
    """
    told = AirTold(room=room, instead=instead)
    try:
        return air_text(_unlike(told, last, by_number) or told)
    except WorkshopError:
        return air_text(told)


def _unlike(told: AirTold, last: KeptRow | None, by_number: ByNumber) -> AirTold | None:
    if last is None or not told.room.readings:
        return None
    number, _, text = last
    number = told_from(text).like or number
    base = by_number(number)
    known = told_from(base).room.readings if base else ()
    new = tuple(sorted({*told.room.readings} - {*known}, key=lambda reading: reading.at))
    here = {reading.at for reading in told.room.readings}
    gone = tuple(reading.at for reading in known if reading.at not in here)
    if _FEW * (len(new) + len(gone)) > len(told.room.readings):
        return None
    return replace(told, room=replace(told.room, readings=new), like=number, without=gone)


def states_from(rows: Sequence[KeptRow], by_number: ByNumber) -> AirStates:
    """Return the states of the air; former ones that cannot be read are passed over.

    Raises:
        WorkshopError: the last one cannot be read.
    """
    found: list[tuple[datetime, Room | None]] = []
    for number, at, text in rows:
        try:
            room, instead = room_from(text, by_number), told_from(text).instead
        except WorkshopError:
            if number == rows[-1][0]:
                raise
            found.append((at, None))
            continue
        since_at = found.pop()[0] if instead and found else at
        found.append((since_at, room))
    states = tuple((at, room) for at, room in found if room is not None)
    return AirStates(states=states, unread=len(found) - len(states))
