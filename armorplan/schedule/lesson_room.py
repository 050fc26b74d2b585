"""Hands and places in a plan while more and more of it is learned."""

from bisect import bisect_left, insort
from collections.abc import Iterator, Mapping, Sequence

from armorplan.schedule.activity import Activity, Demand
from armorplan.schedule.company import everybody
from armorplan.schedule.problem import Hold, Placed, Problem

_Stretch = tuple[int, int, str]
"""From, to, at which step."""
_Taken = tuple[int, int, int]
"""From, to, how much."""


class LessonRoom:
    """Whose hands are free and what places have room in a plan, lessons taken so far in it.

    Attributes:
        lies: where everything lies by now.
    """

    def __init__(self, problem: Problem, lies: Mapping[str, Placed]) -> None:
        self.lies = dict(lies)
        self._by_id = {a.id: a for a in problem.activities}
        self._resources = {r.id: r for r in problem.resources}
        self._busy: dict[str, list[_Stretch]] = {}
        self._longest = 0
        self._at: dict[str, list[tuple[str, int]]] = {}
        self._held: dict[str, list[Hold]] = {}
        for hold in problem.holds:
            if hold.first in lies and all(name in lies for name in hold.until):
                self._held.setdefault(hold.resource, []).append(hold)
        for name, placed in self.lies.items():
            if name in self._by_id and placed.start_min < placed.end_min:
                self._enter(self._by_id[name], placed)
        for stretches in self._busy.values():
            stretches.sort()

    def next_of(self, who: str | None, placed: Placed) -> Placed | None:
        """Return what somebody does next from the end of a step on."""
        stretches = self._busy.get(who or "", [])
        at = bisect_left(stretches, (placed.end_min, 0, ""))
        return self.lies[stretches[at][2]] if at < len(stretches) else None

    def take(self, news: Sequence[Placed]) -> bool:
        """Have steps done so instead of as they were, if all is free for it; tell whether it is."""
        before = [self.lies[p.id] for p in news]
        self._put(news)
        if all(self._are_free(p) and self._have_room(p) for p in news):
            return True
        self._put(before)
        return False

    def _put(self, news: Sequence[Placed]) -> None:
        for placed in news:
            activity, before = self._by_id[placed.id], self.lies[placed.id]
            for who in everybody(activity, before):
                self._busy[who].remove((before.start_min, before.end_min, placed.id))
            for who in everybody(activity, placed):
                stretch = (placed.start_min, placed.end_min, placed.id)
                insort(self._busy.setdefault(who, []), stretch)
            self.lies[placed.id] = placed
            self._longest = max(self._longest, placed.end_min - placed.start_min)

    def _enter(self, activity: Activity, placed: Placed) -> None:
        for who in everybody(activity, placed):
            stretch = (placed.start_min, placed.end_min, placed.id)
            self._busy.setdefault(who, []).append(stretch)
            self._longest = max(self._longest, placed.end_min - placed.start_min)
        for demand in self._demands(placed):
            self._at.setdefault(demand.resource, []).append((activity.id, demand.amount))

    def _are_free(self, placed: Placed) -> bool:
        return all(self._is_free(who, placed) for who in everybody(self._by_id[placed.id], placed))

    def _is_free(self, who: str, placed: Placed) -> bool:
        stretches = self._busy[who]
        first = bisect_left(stretches, (placed.start_min - self._longest, 0, ""))
        until = bisect_left(stretches, (placed.end_min, 0, ""))
        return not any(
            end > placed.start_min and name != placed.id for _, end, name in stretches[first:until]
        )

    def _demands(self, placed: Placed) -> tuple[Demand, ...]:
        activity = self._by_id[placed.id]
        way = activity.way(placed.who, placed.mode)
        return (*activity.demands, *(way.demands if way else ()))

    def _have_room(self, placed: Placed) -> bool:
        return all(self._has_room(demand.resource, placed) for demand in self._demands(placed))

    def _has_room(self, name: str, placed: Placed) -> bool:
        """Tell whether a place is open and has room for all that is there while a step is done."""
        place = self._resources.get(name)
        start, end = placed.start_min, placed.end_min
        if place is None:
            return False
        if place.windows is not None and not any(
            a <= start and end <= b for a, b in place.windows
        ):
            return False
        taken = [*self._demanded(name, start, end), *self._kept(name, start, end)]
        moments = {start, *(begin for begin, _, _ in taken if begin > start)}
        return all(
            sum(amount for begin, till, amount in taken if begin <= moment < till)
            <= place.capacity
            for moment in moments
        )

    def _demanded(self, resource: str, start: int, end: int) -> list[_Taken]:
        """Return from when to when how much of a place is taken by what is done there meanwhile."""
        lies = self.lies
        return [
            (p.start_min, p.end_min, amount)
            for name, amount in self._at.get(resource, ())
            if (p := lies[name]).start_min < end and start < p.end_min
        ]

    def _kept(self, resource: str, start: int, end: int) -> Iterator[_Taken]:
        """Yield the same of what hangs or lies there until it is taken away."""
        for hold in self._held.get(resource, ()):
            begin = self.lies[hold.first].end_min
            till = max((self.lies[i].start_min for i in hold.until), default=begin)
            if begin < end and start < till:
                yield begin, till, hold.amount
