"""The shop: who works there and when, and the room where things dry."""

from dataclasses import dataclass
from datetime import time

from armorplan.workshop.air import Room
from armorplan.workshop.calendar import Holidays, Stretch
from armorplan.workshop.hours import Opening
from armorplan.workshop.learned_hands import HandPace
from armorplan.workshop.places import DipBath, Rack, Station
from armorplan.workshop.skill_how import SkillHow

COMES_FOR = ("mark on the wearer", "fit")
"""Kinds of step that are done on the wearer."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Someone who works at the bench, with weekly hours.

    For each kind of step the first of these that speaks of it counts: ``signed_off``, ``beside``,
    ``cannot``, ``can``.

    Attributes:
        can: the kinds of step they do; empty: all, but for what they ``cannot``.
        beside: kinds they do only while somebody who does them alone is there as well. They
            need not stand in ``can``, which then names what is done alone.
        signed_off: what was said at the bench, by kind, each once.
        pace: how long they take, as a multiple of what is reckoned; ``paces`` by kind goes over it.
        away: when they are not there, whatever the hours say.
        extra: when they are there beside their weekly hours, on closing days too.
    """

    id: str
    name: str
    hours: tuple[Opening, ...]
    can: tuple[str, ...] = ()
    cannot: tuple[str, ...] = ()
    beside: tuple[str, ...] = ()
    signed_off: tuple[tuple[str, SkillHow], ...] = ()
    pace: float = 1.0
    paces: tuple[tuple[str, float], ...] = ()
    away: tuple[Stretch, ...] = ()
    extra: tuple[Stretch, ...] = ()

    def does(self, kind: str) -> bool:
        """Tell whether they do a kind of step alone."""
        return self.how(kind) == SkillHow.ALONE

    def does_beside(self, kind: str) -> bool:
        """Tell whether they do a kind of step, but only with somebody beside who does it alone."""
        return self.how(kind) == SkillHow.BESIDE

    def how(self, kind: str) -> SkillHow:
        """Return how they do a kind of step."""
        said = next((how for name, how in self.signed_off if name == kind), None)
        return self.how_filed(kind) if said is None else said

    def is_said(self, kind: str) -> bool:
        """Tell whether what was said at the bench counts of a kind of step, not the shop's file."""
        return any(name == kind for name, _ in self.signed_off)

    def how_filed(self, kind: str) -> SkillHow:
        """Return how they do a kind of step by the shop's file alone."""
        if kind in self.beside:
            return SkillHow.BESIDE
        is_theirs = (not self.can or kind in self.can) and kind not in self.cannot
        return SkillHow.ALONE if is_theirs else SkillHow.NOT_YET

    @property
    def is_detailed(self) -> bool:
        """Tell whether more is told of them than when they work."""
        skills = (self.can, self.cannot, self.beside, self.signed_off)
        return any(skills) or bool(self.paces) or self.pace != 1

    def pace_at(self, kind: str) -> float:
        """Return the multiple for a kind of step."""
        return next((factor for name, factor in self.paces if name == kind), self.pace)


@dataclass(frozen=True, slots=True, kw_only=True)
class Wearer:
    """Who a build is fitted on, and when they come.

    Attributes:
        appointments: when they come.
        hours: when they come every week.
        comes_for: kinds of step that are done on them.
    """

    id: str
    name: str
    appointments: tuple[Stretch, ...] = ()
    hours: tuple[Opening, ...] = ()
    comes_for: tuple[str, ...] = COMES_FOR


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
        closed: when nobody works but in extra hours.
        holidays: public holidays, closed too.
    """

    people: tuple[Person, ...]
    zone: str = "UTC"
    room: Room = USUAL_ROOM
    trays: tuple[Tray, ...] = (USUAL_TRAY,)
    hands: tuple[HandPace, ...] = ()
    wearers: tuple[Wearer, ...] = ()
    baths: tuple[DipBath, ...] = ()
    racks: tuple[Rack, ...] = ()
    stations: tuple[Station, ...] = ()
    closed: tuple[Stretch, ...] = ()
    holidays: Holidays | None = None

    @property
    def is_detailed(self) -> bool:
        """Tell whether more is told of it than who works when: the plan then goes by that."""
        told = (self.wearers, self.baths, self.racks, self.stations)
        return any(told) or any(p.is_detailed for p in self.people)

    def called(self, name: str) -> Person | None:
        """Return who is called so, by name or id, capitals or not; ``None`` where nobody is."""
        said = name.strip().casefold()
        return next((p for p in self.people if said in (p.id.casefold(), p.name.casefold())), None)


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
