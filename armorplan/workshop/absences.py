"""Who is away beside what the shop's file says: said at the bench, for hours or days."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from datetime import datetime

from armorplan.workshop.calendar import Stretch
from armorplan.workshop.shop import Person, Shop

SAID = "said at the bench"
"""What the stretch of such an absence is called; it tells it from those of the shop's file."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Absence:
    """Somebody is away from one instant (aware, UTC) to another; of an empty stretch: is not."""

    person: str
    from_at: datetime
    until_at: datetime


def with_absences(shop: Shop, absences: Iterable[Absence]) -> Shop:
    """Return a shop in which these people are away then, and nobody for what was said before.

    Of people who are not in the shop nothing is said.
    """
    away = {a.person: a for a in absences if a.from_at < a.until_at}
    people = tuple(_with(person, away.get(person.id)) for person in shop.people)
    return shop if people == shop.people else replace(shop, people=people)


def absence_of(person: Person, now_at: datetime) -> Stretch | None:
    """Return the absence said at the bench that is not over; ``None``: there is none."""
    return next((s for s in person.away if s.why == SAID and s.end_at > now_at), None)


def _with(person: Person, absence: Absence | None) -> Person:
    stays = tuple(stretch for stretch in person.away if stretch.why != SAID)
    said = (
        ()
        if absence is None
        else (Stretch(start_at=absence.from_at, end_at=absence.until_at, why=SAID),)
    )
    return replace(person, away=(*stays, *said))
