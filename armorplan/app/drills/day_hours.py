"""Whose day is planned, and which: a weekday on which the shop works, the same in every year."""

import random
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.activity import Window
from armorplan.schedule.calendars import weekly_windows
from armorplan.steps.model import Step, StepKind
from armorplan.workshop.shop import Person, Shop

_MONDAY = datetime(2026, 1, 12)  # noqa: DTZ001 - of no zone: a Monday in each
"""Stands for any Monday; no clock changes in its week."""
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
LEAST_DAY_MIN = 180
ON_THE_WEARER = frozenset((StepKind.MEASURE, StepKind.MARK, StepKind.FIT))
"""Somebody else has to be there for these: they are on no day of one person."""


@dataclass(frozen=True, slots=True, kw_only=True)
class WorkDay:
    """A person's hours on one weekday.

    Attributes:
        midnight_at: where its minutes count from; aware, in the shop's zone.
        windows: when the person works, ascending and apart.
    """

    person: Person
    weekday: int
    midnight_at: datetime
    windows: tuple[Window, ...]

    @property
    def closed(self) -> tuple[Window, ...]:
        """When it is closed between two stretches of work."""
        return tuple((one[1], other[0]) for one, other in pairwise(self.windows))

    def at(self, minute: int) -> datetime:
        """Return an instant of the day."""
        return (self.midnight_at.astimezone(UTC) + timedelta(minutes=minute)).astimezone(
            self.midnight_at.tzinfo
        )

    def begun_at(self, minute: int) -> tuple[Window, ...]:
        """Return the hours that are left from a minute on."""
        return tuple((max(a, minute), b) for a, b in self.windows if minute < b)


def work_days(shop: Shop, steps: Sequence[Step], chance: random.Random) -> tuple[WorkDay, ...]:
    """Return the days on which one person can do these steps, those with a closed noon first.

    The first person of the shop who does all of them alone; weekly hours alone count, since a day off is
    a date and an exercise has none.
    """
    person = next((p for p in shop.people if all(p.does(step.kind) for step in steps)), None)
    if person is None:
        return ()
    days = [_day(shop, person, weekday) for weekday in range(len(WEEKDAYS))]
    worked = [day for day in days if sum(b - a for a, b in day.windows) >= LEAST_DAY_MIN]
    chance.shuffle(worked)
    return tuple(sorted(worked, key=lambda day: not day.closed))


def _day(shop: Shop, person: Person, weekday: int) -> WorkDay:
    local = (_MONDAY + timedelta(days=weekday)).replace(tzinfo=ZoneInfo(shop.zone))
    windows = weekly_windows(person.hours, shop.zone, local.astimezone(UTC), DAY_MIN)
    return WorkDay(person=person, weekday=weekday, midnight_at=local, windows=windows)
