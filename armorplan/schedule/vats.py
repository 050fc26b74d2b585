"""What a bath does over time while a plan is laid: batches, apart from each other."""

from bisect import bisect_left, bisect_right, insort
from collections.abc import Callable
from dataclasses import dataclass

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.problem import Bath, Placed

_FOREVER = 2**60
_Batch = tuple[int, int, str]
"""From, to, of which family."""


@dataclass(slots=True, kw_only=True)
class PastBatch:
    """A batch of history, and what is known of its dips; another may turn out to be of it too."""

    start_min: int
    end_min: int
    family: str
    who: str | None
    also: tuple[str, ...] = ()
    amount: int = 0
    minutes: int = 0
    set_up_min: int = 0


class Vat:
    """The batches of a bath, ascending and apart; those of history lie where they lie."""

    def __init__(self, bath: Bath) -> None:
        self.capacity = bath.capacity
        self._change_min = bath.change_min
        self._batches: list[_Batch] = [(-_FOREVER, 0, bath.holds)] if bath.holds else []
        self._past: dict[int, PastBatch] = {}
        # Of history those that end, or are changed, only after the next of them began.
        self._late: list[_Batch] = []

    def first_fit(self, start_min: int, ends: Callable[[int], int], family: str) -> int:
        """Return the first start from ``start_min`` of a batch by itself."""
        batches, change = self._batches, self._change_min
        start = start_min
        at = bisect_right(batches, (start, _FOREVER, ""))
        while True:
            if at:
                since, till, held = batches[at - 1]
                start = max(start, since + 1, till + (change if held != family else 0))
                start = self._behind_late(start, family)
            if at == len(batches):
                return start
            since, _, held = batches[at]
            end = ends(start) + (change if held != family else 0)
            if start < since and end <= since:
                return start
            start = max(start, since)
            at += 1

    def _behind_late(self, start: int, family: str) -> int:
        for since, till, held in self._late:
            if since <= start:
                start = max(start, till + (self._change_min if held != family else 0))
        return start

    def take(self, start_min: int, end_min: int, family: str) -> None:
        """Lay a batch."""
        insort(self._batches, (start_min, end_min, family))

    def give_back(self, start_min: int, end_min: int, family: str) -> None:
        """Undo ``take``."""
        del self._batches[bisect_left(self._batches, (start_min, end_min, family))]

    def take_past(self, activity: Activity, way: Mode, placed: Placed) -> None:
        """Lay a dip of history; those of one start are one batch."""
        dip = activity.dip
        if dip is None:
            return
        past = self._past.get(placed.start_min)
        if past is None:
            self._mark_late(placed.start_min, dip.family)
            self.take(placed.start_min, placed.end_min, dip.family)
            past = PastBatch(
                start_min=placed.start_min,
                end_min=placed.end_min,
                family=dip.family,
                who=placed.who,
                also=way.also,
            )
            self._past[placed.start_min] = past
        elif placed.end_min > past.end_min:
            # Two timers of one start: the bath is free after both.
            self.give_back(past.start_min, past.end_min, past.family)
            past.end_min = placed.end_min
            self.take(past.start_min, past.end_min, past.family)
        past.amount += dip.amount
        past.minutes += way.minutes
        past.set_up_min = max(past.set_up_min, dip.set_up_min)

    def _mark_late(self, start_min: int, family: str) -> None:
        """Keep what history begins next from hiding what is in the bath, or changed, meanwhile."""
        for past in self._past.values():
            change_min = self._change_min if past.family != family else 0
            batch = (past.start_min, past.end_min, past.family)
            if past.end_min + change_min > start_min and batch not in self._late:
                self._late.append(batch)

    def joined(self, activity: Activity, way: Mode) -> list[tuple[int, int]]:
        """Return the batches of history that a dip may have been part of: from, to."""
        dip = activity.dip
        if dip is None:
            return []
        return [
            (past.start_min, past.end_min)
            for past in self._past.values()
            if (past.family, past.who, past.also) == (dip.family, way.who, way.also)
            and past.amount + dip.amount <= self.capacity
            and past.end_min - past.start_min
            == max(past.set_up_min, dip.set_up_min) + past.minutes + way.minutes
        ]
