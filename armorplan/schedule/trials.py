"""One way to do an activity, or several dips as one batch, tried against what is still free."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import NamedTuple

from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.free_time import FreeTime
from armorplan.schedule.levels import Level
from armorplan.schedule.monotone import first_holding
from armorplan.schedule.problem import Placed
from armorplan.schedule.vats import Vat

Part = Callable[[int], int | None]
"""Returns the first start from the given one on that something by itself allows."""

Later = Callable[[int, int, int], int]
"""From a start that ends too early, its end and the end aimed at: a later start worth a try."""


class Tail(NamedTuple):
    """A place to be held after the end, until then."""

    level: Level
    amount: int
    till_min: int


@dataclass(slots=True, kw_only=True)
class Trial:
    """What a way, or a batch of dips, takes and asks for.

    Attributes:
        members: the activities with their ways; several for a batch.
        ends: the end by the start.
        later: a start after one that ends too early.
        parts: what each person, place and bath allows.
        hands: whose hands it takes.
        levels: what it takes of which resource.
        vat: the bath it goes into, with the family.
        shut: within none of these it ends.
    """

    members: tuple[tuple[Activity, Mode], ...]
    ends: Callable[[int], int]
    later: Later
    parts: tuple[Part, ...]
    hands: tuple[FreeTime, ...]
    levels: tuple[tuple[Level, int], ...]
    vat: tuple[Vat, str] | None = None
    shut: tuple[Window, ...] = ()

    def fit(
        self, floor_min: int, end_floor_min: int, horizon_min: int, tails: Iterable[Tail] = ()
    ) -> "Fit | None":
        """Return where it lies first: from the floor on, ended no sooner than the other says."""
        start = floor_min
        while start <= horizon_min:
            tried = start
            for part in self.parts:
                found = part(start)
                if found is None:
                    return None
                start = found
            if start != tried and len(self.parts) > 1:
                continue
            end = self.ends(start)
            if end > horizon_min:
                return None
            wanted = self._end_from(end, end_floor_min, tails)
            if wanted == end:
                return Fit(start, end, self)
            start = self.later(start, end, wanted)
        return None

    def may_end(self, end_min: int, end_floor_min: int, tails: Iterable[Tail]) -> bool:
        """Tell whether nothing speaks against this end."""
        return self._end_from(end_min, end_floor_min, tails) == end_min

    def _end_from(self, end: int, end_floor_min: int, tails: Iterable[Tail]) -> int:
        """Return this end where nothing speaks against it, else the first that might do."""
        if end < end_floor_min:
            return end_floor_min
        for shut_from, shut_till in self.shut:
            if shut_from <= end < shut_till:
                return shut_till
        for level, amount, till in tails:
            free_from = level.full_till(end, till, amount) if end < till else end
            if free_from > end:
                return free_from
        return end

    def take(self, start_min: int, end_min: int) -> None:
        """Take hands, places and the bath."""
        for free in self.hands:
            free.take(start_min, end_min)
        for level, amount in self.levels:
            level.take(start_min, end_min, amount)
        if self.vat is not None:
            vat, family = self.vat
            vat.take(start_min, end_min, family)

    def give_back(self, start_min: int, end_min: int) -> None:
        """Undo ``take``."""
        for free in self.hands:
            free.give_back(start_min, end_min)
        for level, amount in self.levels:
            level.give_back(start_min, end_min, amount)
        if self.vat is not None:
            vat, family = self.vat
            vat.give_back(start_min, end_min, family)


class Fit(NamedTuple):
    """Where a trial lies."""

    start_min: int
    end_min: int
    trial: Trial

    def placed(self) -> list[Placed]:
        """Return where each of its activities lies."""
        return [
            Placed(
                id=activity.id,
                start_min=self.start_min,
                end_min=self.end_min,
                who=way.who,
                mode=way.name,
            )
            for activity, way in self.trial.members
        ]


def later_by_shift(start_min: int, end_min: int, target_min: int) -> int:
    """Return the start of what always takes as long, so that it ends at the target."""
    return start_min + target_min - end_min


def later_by(ends: Callable[[int], int]) -> Later:
    """Return how to find the first start from one on that ends at a target or after."""

    def later(start_min: int, _end_min: int, target_min: int) -> int:
        return first_holding(
            lambda start: ends(start) >= target_min, start_min, max(start_min, target_min)
        )

    return later
