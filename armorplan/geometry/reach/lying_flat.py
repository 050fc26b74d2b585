"""Whether a plate still lies flat with all that hangs together with it, or is shut round."""

from collections import defaultdict
from collections.abc import Collection, Iterable
from functools import cached_property

from armorplan.geometry.reach.model import Row


class Hanging:
    """Plates of a shell and the rows that hold them together.

    Plates hang together through rows of which a joint is made. They no longer lie flat once one of
    them holds a form, or the rows close a ring: plates joined round to the first, or a plate joined
    to itself. Once all joints of such rows are made, or of the rows that draw plates into a shape,
    the plates are shut round: work goes on inside. Plates that lie on each other under two rows, or
    four round one corner, count as a ring although they stay flat: rows alone do not tell.
    """

    def __init__(
        self,
        rows: Iterable[Row],
        formed: frozenset[str],
        closures: Iterable[frozenset[str]] = (),
    ) -> None:
        self._formed = formed
        self._holds = {row.id: tuple(dict.fromkeys(row.parts)) for row in rows}
        self._rows_on: dict[str, list[str]] = defaultdict(list)
        for row, parts in self._holds.items():
            for part in parts:
                self._rows_on[part].append(row)
        self._drawn = [
            (draws, frozenset(part for row in draws for part in self._holds[row]))
            for draws in closures
        ]
        self._rings: dict[frozenset[str], frozenset[str]] = {}

    def is_shaped(self, parts: Iterable[str], begun: Collection[str]) -> bool:
        """Tell whether plates no longer lie flat once these rows are begun."""
        return any(self._holds_shape(part, begun) for part in parts)

    def _holds_shape(self, part: str, begun: Collection[str]) -> bool:
        seen, rows, links, left = {part}, set(), 0, [part]
        while left:
            here = left.pop()
            if here in self._formed:
                return True
            for row in self._rows_on.get(here, ()):
                if row in rows or row not in begun:
                    continue
                rows.add(row)
                held = self._holds[row]
                if len(held) == 1:
                    return True
                links += len(held) - 1
                fresh = [each for each in held if each not in seen]
                seen.update(fresh)
                left += fresh
        return links >= len(seen)

    def is_enclosed(self, parts: Iterable[str], complete: Collection[str]) -> bool:
        """Tell whether plates are shut round once all joints of these rows are made."""
        here = frozenset(parts)
        if any(draws.issubset(complete) and here & held for draws, held in self._drawn):
            return True
        done = self._ring_rows.intersection(complete)
        return bool(done) and not here.isdisjoint(self._ringed(done))

    def enclosing(self, parts: Iterable[str], own: str) -> list[str]:
        """Return the rows but its own that may shut plates round, the nearest first."""
        here = frozenset(parts)
        near = [row for row in self.nearest_first(here) if row in self._ring_rows]
        drawing = (row for draws, held in self._drawn if here & held for row in sorted(draws))
        return [row for row in dict.fromkeys((*near, *drawing)) if row != own]

    @cached_property
    def _ring_rows(self) -> frozenset[str]:
        """All rows that are part of a ring, or lead from one to another."""
        parts = self._ringed(frozenset(self._holds))
        return frozenset(row for row, held in self._holds.items() if not parts.isdisjoint(held))

    def _ringed(self, rows: frozenset[str]) -> frozenset[str]:
        """Return the plates that stay when all that hangs by one row only is taken off."""
        if rows not in self._rings:
            held = {row: set(self._holds[row]) for row in rows}
            fixed = {part for plates in held.values() if len(plates) == 1 for part in plates}
            left = set().union(*held.values())
            while True:
                off = {part for part in left - fixed if self._links(part, held) <= 1}
                if not off:
                    break
                left -= off
                for plates in held.values():
                    plates.difference_update(off)
            self._rings[rows] = frozenset(left)
        return self._rings[rows]

    def _links(self, part: str, held: dict[str, set[str]]) -> int:
        return sum(part in held.get(row, ()) and len(held[row]) > 1 for row in self._rows_on[part])

    def nearest_first(self, parts: Iterable[str]) -> list[str]:
        """Return the rows that can give plates a shape, the nearest first.

        What leads to no form and into no ring is left out.
        """
        layer, seen = sorted(set(parts)), set(parts)
        useful = self._holds.keys() - self._idle(seen)
        found: dict[str, None] = {}
        while layer:
            rows = sorted(
                {r for part in layer for r in self._rows_on.get(part, ()) if r in useful}
            )
            fresh = [row for row in rows if row not in found]
            found.update(dict.fromkeys(fresh))
            layer = sorted({p for row in fresh for p in self._holds[row] if p not in seen})
            seen.update(layer)
        return list(found)

    def _idle(self, parts: Iterable[str]) -> set[str]:
        """Return the rows beyond which, seen from some plates, lies neither a form nor a ring."""
        held = {row: set(plates) for row, plates in self._holds.items() if len(plates) > 1}
        count = {part: len(rows) for part, rows in self._rows_on.items()}
        kept = self._formed.union(parts)
        ends = [part for part, rows in count.items() if rows == 1 and part not in kept]
        idle: set[str] = set()
        while ends:
            end = ends.pop()
            for row in self._rows_on[end]:
                if row in idle or row not in held:
                    continue
                held[row].discard(end)
                if len(held[row]) == 1:
                    idle.add(row)
                    (last,) = held[row]
                    count[last] -= 1
                    if count[last] == 1 and last not in kept:
                        ends.append(last)
        return idle
