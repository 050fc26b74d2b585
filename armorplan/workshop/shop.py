"""The shop: who works there and when, and the room where things dry."""

from dataclasses import dataclass
from datetime import time

from armorplan.workshop.air import Room
from armorplan.workshop.learned_hands import HandPace


@dataclass(frozen=True, slots=True, kw_only=True)
class Opening:
    """One stretch of work on a weekday (0 is Monday), in the shop's local time."""

    weekday: int
    start: time
    end: time


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Someone who works at the bench, with weekly hours."""

    id: str
    name: str
    hours: tuple[Opening, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tray:
    """A tray or vat to dip in: its inner sides in mm."""

    id: str
    name: str
    length_mm: float
    width_mm: float
    depth_mm: float


USUAL_TRAY = Tray(
    id="tray", name="Tray, 600 × 400 mm", length_mm=600.0, width_mm=400.0, depth_mm=120.0
)


USUAL_ROOM = Room()


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """One workshop.

    Attributes:
        zone: IANA time zone name.
        hands: what was learned of how long its hands take.
    """

    people: tuple[Person, ...]
    zone: str = "UTC"
    room: Room = USUAL_ROOM
    trays: tuple[Tray, ...] = (USUAL_TRAY,)
    hands: tuple[HandPace, ...] = ()


def usual_hours() -> tuple[Opening, ...]:
    """Return Monday to Saturday, nine to half past twelve and half past one to half past five."""
    return tuple(
        Opening(weekday=day, start=start, end=end)
        for day in range(6)
        for start, end in ((time(9), time(12, 30)), (time(13, 30), time(17, 30)))
    )


def one_maker(zone: str = "UTC") -> Shop:
    """Return a shop with one maker who keeps the usual hours."""
    return Shop(
        people=(Person(id="maker", name="Maker", hours=usual_hours()),),
        zone=zone,
        room=Room(zone=zone),
    )
