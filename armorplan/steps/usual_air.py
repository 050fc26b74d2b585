"""The air of a usual day in a room, and what a build dries in it."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from functools import cached_property

from armorplan.drying.body import Body, multiples
from armorplan.drying.days import usual_days
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import DryTimes
from armorplan.steps.model import StepKind, Work
from armorplan.workshop.air import HOURS_A_DAY, Climate, Room, mean_air
from armorplan.workshop.shelf import Shelf, TreatmentEntry

STARTS = range(8, 19)
"""Hours of the day at which a maker may begin."""
_DAY = range(9, 18)
_MIDNIGHT = datetime(2026, 1, 15, tzinfo=UTC)


@dataclass(frozen=True)
class Airing:
    """The usual day of a room, and what a build dries in it.

    Attributes:
        work: the steps.
        shelf: the treatments.
        room: as the shop tells it.
    """

    work: Work
    shelf: Shelf
    room: Room

    @cached_property
    def hours(self) -> tuple[Climate, ...]:
        """The air of each hour of a usual day, from midnight."""
        return usual_days(self.room)

    @cached_property
    def is_steady(self) -> bool:
        """Whether all hours are alike."""
        return len(set(self.hours)) == 1

    @cached_property
    def usual(self) -> DryingRoom:
        """The room on usual days, told in the hours of UTC: any day will do."""
        steady = replace(self.room, usual=self.hours[0], by_hour=(), readings=(), zone="UTC")
        return drying_room(steady if self.is_steady else replace(steady, by_hour=self.hours))

    @cached_property
    def by_day(self) -> DryingRoom:
        """The room if its nights were as its days."""
        day = mean_air(self.hours[hour] for hour in _DAY)
        return drying_room(replace(self.room, usual=day, by_hour=(), readings=(), zone="UTC"))

    @cached_property
    def dried(self) -> tuple[tuple[TreatmentEntry, Body], ...]:
        """Each treatment that dries in a build, with what takes longest of it."""
        slowest: dict[str, tuple[TreatmentEntry, Body]] = {}
        for step in self.work.of_kind(StepKind.DRY):
            entry = self.shelf.treatment(step.drying.treatment) if step.drying else None
            if entry is None or step.drying is None:
                continue
            here = slowest.get(entry.id)
            body = step.drying.body
            if here is None or multiples(entry, body) > multiples(entry, here[1]):
                slowest[entry.id] = (entry, body)
        return tuple(slowest[name] for name in sorted(slowest))

    def times(self, entry: TreatmentEntry, body: Body, hour: int) -> DryTimes:
        """Return the windows of what is begun at an hour of a usual day."""
        return self.usual.times(entry, body, _MIDNIGHT + timedelta(hours=hour))


def hours_words(hours: list[int], among: range) -> str:
    """Return hours as one says them: ``from 22:00 to 6:00``, ``before 10:00``, ``after 16:00``.

    Of a whole day hours go round midnight.
    """
    whole = len(among) == HOURS_A_DAY
    inside = set(hours)
    if whole and len(inside) == HOURS_A_DAY:
        return "all day"
    starts = [h for h in hours if (h - 1) % HOURS_A_DAY not in inside]
    spans = []
    for start in starts:
        end = start
        while end % HOURS_A_DAY in inside:
            end += 1
        spans.append(_span_words(start, end, among, whole=whole))
    return " and ".join(spans)


def _span_words(start: int, end: int, among: range, *, whole: bool) -> str:
    if not whole and start == among[0]:
        return f"before {end % HOURS_A_DAY}:00"
    if not whole and end == among[-1] + 1:
        return f"from {start}:00 on"
    return f"from {start}:00 to {end % HOURS_A_DAY}:00"
