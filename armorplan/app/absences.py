"""Who is away, said at the bench: it counts in every plan from then on, in every window."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

from armorplan.app.absence_shelf import AbsenceShelf
from armorplan.app.derived import Derived
from armorplan.app.entries import NOT_RECORDED
from armorplan.kernel.clock import Clock
from armorplan.kernel.errors import WorkshopError
from armorplan.workshop.absences import Absence, absence_of, with_absences


@dataclass(frozen=True, slots=True, kw_only=True)
class AwayRow:
    """Somebody who works here; ``until_at``: away now or soon, until then."""

    person: str
    name: str
    from_at: datetime | None
    until_at: datetime | None


class Absences:
    """Says who is away of those who work in the shop of the build at the bench.

    Args:
        derived: the build as it stands.
        go_on_in: lets it go on in a shop whose people are there at other times.
        change: shows everything anew.
        shelf: keeps what is said.
        clock: tells what is over.
    """

    def __init__(
        self,
        derived: Callable[[], Derived],
        go_on_in: Callable[[Derived], None],
        change: Callable[[], None],
        shelf: AbsenceShelf,
        clock: Clock,
    ) -> None:
        self._derived = derived
        self._go_on_in = go_on_in
        self._change = change
        self._shelf = shelf
        self._clock = clock
        self._number = 0

    def rows(self) -> tuple[AwayRow, ...]:
        """Return everybody who works here, in the shop's order."""
        now_at = self._clock.now()
        found = [(p, absence_of(p, now_at)) for p in self._derived().shop.people]
        return tuple(
            AwayRow(
                person=person.id,
                name=person.name,
                from_at=said.start_at if said else None,
                until_at=said.end_at if said else None,
            )
            for person, said in found
        )

    def away(self, person: str, from_at: datetime | None, until_at: datetime) -> str:
        """Say that somebody is away until an instant; return it in a sentence.

        Args:
            person: their id.
            from_at: from then on; ``None``: from now on.
            until_at: until then; at or before its start it says that they are there.
        """
        named = {row.person: row.name for row in self.rows()}
        if person not in named:
            return f"{NOT_RECORDED} Nobody called '{person}' works in this shop."
        start_at = from_at or self._clock.now()
        absence = Absence(person=person, from_at=start_at, until_at=max(start_at, until_at))
        try:
            self._shelf.keep(absence)
            if self.read_new():
                self._change()
        except WorkshopError as error:
            return f"{NOT_RECORDED} {error}"
        if until_at <= start_at:
            return f"{named[person]} is there again."
        zone = ZoneInfo(self._derived().shop.zone)
        since = "" if from_at is None else f" from {from_at.astimezone(zone):%A %d %b %H:%M}"
        until = f"{until_at.astimezone(zone):%A %d %b %H:%M}"
        return f"{named[person]} is away{since} until {until}. The plan keeps what it can."

    def back(self, person: str) -> str:
        """Say that somebody is there again."""
        return self.away(person, None, self._clock.now())

    def read_new(self) -> bool:
        """Take in what was said, in whichever window; tell whether the shop is another one for it.

        Raises:
            WorkshopError: the file cannot be read.
        """
        number = self._shelf.number()
        if number == self._number:
            return False
        self._number = number
        derived = self._derived()
        shop = with_absences(derived.shop, self._shelf.latest())
        if shop is derived.shop:
            return False
        self._go_on_in(replace(derived, shop=shop))
        return True
