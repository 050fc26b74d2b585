"""A shop over a horizon: the people, places and baths that all builds in hand share."""

from dataclasses import dataclass, replace
from datetime import datetime
from math import ceil, floor
from typing import Self

from armorplan.schedule.calendars import ShopCalendar
from armorplan.schedule.dips import baths_of
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.hanging import rack_resources
from armorplan.schedule.problem import Bath, Problem, Resource, Worker
from armorplan.workshop.shop import Shop


@dataclass(frozen=True, slots=True, kw_only=True)
class Frame:
    """What a plan of this shop stands in.

    Attributes:
        problem: without any activity.
    """

    shop: Shop
    problem: Problem

    @property
    def horizon_min(self) -> int:
        """How far the plan reaches."""
        return self.problem.horizon_min

    def with_baths(self, baths: tuple[Bath, ...]) -> Self:
        """Return the same with baths as they stand now."""
        return replace(self, problem=replace(self.problem, baths=baths))

    def minute_from(self, at: datetime | None) -> int:
        """Return the first whole minute of what begins at an instant; 0 for none, or the past."""
        return 0 if at is None else max(0, ceil(self._minutes(at)))

    def minute_till(self, at: datetime | None) -> int | None:
        """Return the last whole minute of what ends at an instant; below 0 in the past."""
        return None if at is None else floor(self._minutes(at))

    def _minutes(self, at: datetime) -> float:
        return (at - self.problem.origin_at).total_seconds() / 60


def frame_of(shop: Shop, origin_at: datetime, horizon_min: int) -> Frame:
    """Return a shop over a horizon: windows of its people, its wearers and its places."""
    calendar = ShopCalendar(shop, origin_at, horizon_min)
    workers = [Worker(id=p.id, windows=calendar.of_person(p)) for p in shop.people]
    workers += [Worker(id=w.id, windows=calendar.of_wearer(w)) for w in shop.wearers]
    if shop.is_detailed:
        workers.append(Worker(id=NOBODY, windows=()))
    stations = (
        Resource(
            id=s.id,
            capacity=s.count,
            windows=None if s.hours is None else calendar.of_place(s.hours),
        )
        for s in shop.stations
    )
    problem = Problem(
        origin_at=origin_at,
        horizon_min=horizon_min,
        activities=(),
        resources=(*stations, *rack_resources(shop)),
        workers=tuple(workers),
        baths=baths_of(shop),
    )
    return Frame(shop=shop, problem=problem)
