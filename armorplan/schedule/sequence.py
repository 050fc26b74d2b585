"""In which order the serial plan lays activities: no one before what it has to wait for."""

from collections.abc import Container, Iterable, Mapping
from heapq import heappop, heappush

from armorplan.schedule.lag_spans import least_wait
from armorplan.schedule.problem import EndsBeforeLast, Problem
from armorplan.schedule.spans import least_minutes

Rank = tuple[int, ...]
"""Smaller is laid sooner, where there is a choice."""


class Laying:
    """Who waits for whom among the activities that are not fixed, whatever their rank.

    What must follow within a maximum lag is laid right after, and what else it waits for is laid
    before the pair, so that the person is not given away in between; not so for what is only wished
    for, which may have to wait for days. The order holds every 'ends
    before the last of' where it can be held; where demands run in a ring it goes by rank.
    """

    def __init__(self, problem: Problem) -> None:
        self._free = {a.id for a in problem.activities if a.fixed_start_min is None}
        self._before: dict[str, set[str]] = {i: set() for i in self._free}
        self._after: dict[str, set[str]] = {i: set() for i in self._free}
        minutes = {a.id: least_minutes(a) for a in problem.activities}
        free_lags = [g for g in problem.lags if {g.first, g.then} <= self._free]
        for lag in free_lags:
            if least_wait(lag) + minutes[lag.first] >= 0:
                self._put_before(lag.first, lag.then)
        self._urgent: dict[str, list[str]] = {}
        for lag in free_lags:
            if lag.is_window and not lag.wish:
                self._urgent.setdefault(lag.first, []).append(lag.then)
        pairs = [(first, then) for first, thens in self._urgent.items() for then in thens]
        while any(self._gathers_before(*pair) for pair in pairs):
            continue  # What a chain's last member waits for is laid before its first.
        self._locks = [lock for r in problem.before_last if (lock := self._lock(r)) is not None]

    def order(self, rank: Mapping[str, Rank]) -> tuple[str, ...]:
        """Return the activities, each after those it waits for; by rank where there is a choice."""
        waits = {i: len(before) for i, before in self._before.items()}
        ready = [(rank[i], i) for i in sorted(self._free) if not waits[i]]
        ready.sort()
        held: list[tuple[Rank, str]] = []
        left = set(self._free)
        order: list[str] = []
        urgent: set[str] = set()
        while left:
            entry = self._next(ready, held, left)
            node = entry[1] if entry else min((rank[i], i) for i in left)[1]
            if node not in left:
                continue
            left.discard(node)
            order.append(node)
            urgent.update(self._urgent.get(node, ()))
            for then in sorted(self._after[node]):
                waits[then] -= 1
                if not waits[then]:
                    heappush(ready, ((-1,) if then in urgent else rank[then], then))
            for entry in held:
                heappush(ready, entry)
            held.clear()
        return tuple(order)

    def waited_for(self, name: str) -> set[str]:
        """Return what is laid before an activity whatever the ranks."""
        return self._before[name]

    def behind(self, names: Iterable[str], placed: Container[str]) -> set[str]:
        """Return these and all they wait for, as far as it is not placed."""
        todo = [name for name in names if name in self._free and name not in placed]
        seen = set(todo)
        while todo:
            for other in self._before[todo.pop()]:
                if other not in seen and other not in placed:
                    seen.add(other)
                    todo.append(other)
        return seen

    def soon_after(self, name: str) -> list[str]:
        """Return what has to follow an activity within a maximum lag, and what has to follow that."""
        if name not in self._urgent:
            return []
        found = list(self._urgent[name])
        for other in found:  # It grows as more has to follow.
            found += [then for then in self._urgent.get(other, ()) if then not in found]
        return found

    def _next(
        self, ready: list[tuple[Rank, str]], held: list[tuple[Rank, str]], left: set[str]
    ) -> tuple[Rank, str] | None:
        while ready:
            entry = heappop(ready)
            if entry[1] in left and self._is_locked(entry[1], left):
                held.append(entry)
            else:
                return entry
        return None

    def _put_before(self, first: str, then: str) -> None:
        self._before[then].add(first)
        self._after[first].add(then)

    def _gathers_before(self, first: str, then: str) -> bool:
        """Put what ``then`` also waits for before ``first``; tell whether anything was new."""
        waited_for = self._before[then] - self._before[first] - {first}
        if not waited_for:
            return False
        # What is put before ``first`` does not come behind it, so nothing new is reached from it.
        new = sorted(waited_for - self._reached(first, self._after))
        for other in new:
            self._put_before(other, first)
        return bool(new)

    def _lock(self, rule: EndsBeforeLast) -> tuple[str, frozenset[str]] | None:
        """Return who waits for whom: the last laid of these waits for ``first``."""
        if rule.first not in self._free:
            return None
        behind_it = self._reached(rule.first, self._before)
        able = frozenset(i for i in rule.of if i in self._free and i not in behind_it)
        return (rule.first, able) if able else None

    def _is_locked(self, node: str, left: set[str]) -> bool:
        return any(
            node in able and first in left and not able & left - {node}
            for first, able in self._locks
        )

    def _reached(self, start: str, neighbours: Mapping[str, set[str]]) -> set[str]:
        seen, todo = {start}, [start]
        while todo:
            for other in neighbours[todo.pop()] - seen:
                seen.add(other)
                todo.append(other)
        return seen
