"""Whether a plate still lies flat with all that hangs together with it, or is shut round."""

from collections import Counter, defaultdict
from collections.abc import Collection, Iterable, Iterator, Mapping
from functools import cached_property
from itertools import pairwise

from armorplan.geometry.reach.model import FLAT_LINK, Link, Row

Draws = frozenset[tuple[str, int]]
"""What rows draw a plate into, as seen from where one began: how many times each, less back."""


def _drawn_round(row: Row) -> Iterator[Link]:
    """Yield what a row is between where that is not told: each plate and the next, drawn round."""
    parts = tuple(dict.fromkeys(row.parts))
    ends = pairwise(parts) if len(parts) > 1 else ((part, part) for part in parts)
    return (Link(one, other, f"{row.id}:{one}:{other}") for one, other in ends)


def _over(drawn: Draws, draws: str, times: int) -> Draws:
    count = Counter(dict(drawn))
    if draws != FLAT_LINK:
        count[draws] += times
    return frozenset((each, many) for each, many in count.items() if many)


def _carried(links: Iterable[Link], drawn: dict[str, Draws]) -> list[str] | None:
    """Follow a row from plates that are reached to the rest; ``None`` where it closes a ring."""
    fresh, left = [], list(links)
    while left:
        link = next((each for each in left if each.one in drawn or each.other in drawn), None)
        if link is None:
            break
        left.remove(link)
        if link.one == link.other:
            return None
        if link.one not in drawn:
            drawn[link.one] = _over(drawn[link.other], link.draws, -1)
            fresh.append(link.one)
            continue
        there = _over(drawn[link.one], link.draws, 1)
        if drawn.setdefault(link.other, there) != there:
            return None
        fresh.append(link.other)
    return fresh


def _layers(links: Mapping[str, tuple[Link, ...]]) -> dict[str, str]:
    """Return by plate the first of those that only lie on each other under several rows."""
    between: dict[tuple[str, str], list[str]] = defaultdict(list)
    first: dict[str, str] = {}
    for held in links.values():
        for link in held:
            between[link.one, link.other].append(link.draws)
            first.update({link.one: link.one, link.other: link.other})
    for (one, other), draws in sorted(between.items()):
        if one != other and len(draws) > 1 and len(set(draws)) == 1:
            kept, gone = first[one], first[other]
            first = {part: kept if root == gone else root for part, root in first.items()}
    return first


def _peeled(held: list[set[str]], fixed: set[str]) -> set[str]:
    """Return the plates that stay when those held by one row only are taken off, again and again."""
    left = set().union(*held)
    while True:
        count = Counter(part for plates in held if len(plates) > 1 for part in plates)
        off = {part for part in left - fixed if count[part] <= 1}
        if not off:
            return left
        left -= off
        for plates in held:
            plates.difference_update(off)


def _together(part: str, held: Iterable[tuple[str, ...]]) -> set[str]:
    """Return the plates that hang together with one."""
    on: dict[str, set[str]] = defaultdict(set)
    for plates in held:
        for each in plates:
            on[each].update(plates)
    seen, left = {part}, [part]
    while left:
        fresh = on[left.pop()] - seen
        seen |= fresh
        left += sorted(fresh)
    return seen


class Hanging:
    """Plates of a shell and the rows that hold them together.

    Plates hang together through rows of which a joint is made. They no longer lie flat once one of
    them holds a form, or the rows close a ring: plates joined round to the first, or a plate joined
    to itself. Once all joints of such rows are made, or of the rows that draw plates into a shape,
    the plates are shut round: work goes on inside. Plates that lie flat on each other under several
    rows, or four round one corner, are no ring: what each row draws its plates into tells.
    """

    def __init__(
        self,
        rows: Iterable[Row],
        formed: frozenset[str],
        closures: Iterable[frozenset[str]] = (),
    ) -> None:
        rows = tuple(rows)
        self._formed, self._rows = formed, rows
        self._holds = {row.id: tuple(dict.fromkeys(row.parts)) for row in rows}
        self._rows_on: dict[str, list[str]] = defaultdict(list)
        for row, parts in self._holds.items():
            for part in parts:
                self._rows_on[part].append(row)
        self._links = {row.id: row.links or tuple(_drawn_round(row)) for row in rows}
        self._layer = _layers(self._links)
        self._drawn = [
            (draws, frozenset(part for row in draws for part in self._holds[row]))
            for draws in closures
        ]
        self._rings: dict[frozenset[str], frozenset[str]] = {}

    def is_shaped(self, parts: Iterable[str], begun: Collection[str]) -> bool:
        """Tell whether plates no longer lie flat once these rows are begun."""
        return any(self._holds_shape(part, begun) for part in parts)

    def _holds_shape(self, part: str, begun: Collection[str]) -> bool:
        """Tell whether a form hangs on a plate, or a ring of rows that do not lie flat together.

        Along the rows each plate is reckoned what they draw it into; a ring lies flat if it leads
        back to the same.
        """
        drawn: dict[str, Draws] = {part: frozenset()}
        rows, left = set(), [part]
        while left:
            here = left.pop()
            if here in self._formed:
                return True
            for row in self._rows_on.get(here, ()):
                if row in rows or row not in begun:
                    continue
                rows.add(row)
                fresh = _carried(self._links[row], drawn)
                if fresh is None:
                    return True
                left += fresh
        return False

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
        """Return the plates that stay when all that hangs by one row only is taken off.

        Plates that only lie on each other move as one, and what lies flat as a whole is no ring.
        """
        if rows not in self._rings:
            held = {row: {self._layer[part] for part in self._holds[row]} for row in rows}
            fixed = {
                self._layer[link.one]
                for row in rows
                for link in self._links[row]
                if link.one == link.other
            }
            left = _peeled(list(held.values()), fixed)
            bent = self._bent(rows) if left else ()
            self._rings[rows] = frozenset(part for part in bent if self._layer[part] in left)
        return self._rings[rows]

    def _bent(self, rows: frozenset[str]) -> set[str]:
        """Return the plates that hang together, by some rows, with a ring of them."""
        bent, seen = set[str](), set[str]()
        for part in self._rows_on:
            if part not in seen:
                together = _together(part, [self._holds[row] for row in rows])
                seen |= together
                if self._unformed.is_shaped((part,), rows):
                    bent |= together
        return bent

    @cached_property
    def _unformed(self) -> "Hanging":
        """The same plates and rows, none of the plates formed."""
        return Hanging(self._rows, frozenset())

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
