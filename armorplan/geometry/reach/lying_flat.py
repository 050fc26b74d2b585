"""Whether a plate still lies flat with all that hangs together with it, or is shut round."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping
from functools import cached_property

from armorplan.geometry.reach.model import Link, Row
from armorplan.geometry.reach.rings import (
    carried,
    digits,
    drawn_round,
    ring_from,
    ring_plates,
    way_to_shape,
)

_KEPT = 256
_Spot = tuple[str, int]
"""A row, and the how-manieth of its links."""


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


def _peeled(held: Iterable[set[str]], fixed: set[str]) -> set[str]:
    """Return the plates that stay when those held by one row only are taken off, again and again."""
    rows_on: dict[str, list[set[str]]] = defaultdict(list)
    for plates in held:
        for part in plates:
            rows_on[part].append(plates)
    count = {part: sum(len(each) > 1 for each in rows) for part, rows in rows_on.items()}
    gone = {part for part, rows in count.items() if rows <= 1 and part not in fixed}
    left = sorted(gone)
    while left:
        part = left.pop()
        for plates in rows_on[part]:
            plates.discard(part)
            if len(plates) != 1:
                continue
            (last,) = plates
            count[last] -= 1
            if count[last] <= 1 and last not in fixed and last not in gone:
                gone.add(last)
                left.append(last)
    return rows_on.keys() - gone


class Hanging:
    """Plates of a shell and the rows that hold them together.

    Plates hang together through rows of which a joint is made that passes both. They no longer lie flat once one of
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
        self._formed = formed
        self._holds = {row.id: tuple(dict.fromkeys(row.parts)) for row in rows}
        self._rows_on: dict[str, list[str]] = defaultdict(list)
        for row, parts in self._holds.items():
            for part in parts:
                self._rows_on[part].append(row)
        links = {row.id: row.links or tuple(drawn_round(row)) for row in rows}
        self._layer = _layers(links)
        self._links = digits(links)
        self._rounds = {row: on for row, held in self._links.items() if (on := ring_plates(held))}
        self._spans = {row.id: tuple(map(frozenset, row.spans)) for row in rows if row.spans}
        self._drawn = [
            (draws, frozenset(part for row in draws for part in self._holds[row]))
            for draws in closures
        ]
        self._rings: dict[frozenset[str], frozenset[str]] = {}

    def is_shaped(self, parts: Iterable[str], begun: Collection[str]) -> bool:
        """Tell whether plates no longer lie flat once these rows are begun.

        Args:
            parts: the plates.
            begun: the rows; as a mapping, where along each joints are made. Else a row over several
                plates counts as begun between all of them.
        """
        return any(self._holds_shape(part, begun) for part in parts)

    def _holds_shape(self, part: str, begun: Collection[str]) -> bool:
        """Tell whether a form hangs on a plate, or a ring of rows that do not lie flat together.

        Along the rows each plate is reckoned what they draw it into; a ring lies flat if it leads
        back to the same.
        """
        drawn = {part: 0}
        rows, spans, left = set(), set[_Spot](), [part]
        while left:
            here = left.pop()
            if here in self._formed:
                return True
            for row in self._rows_on.get(here, ()):
                if row in rows or row not in begun:
                    continue
                if row in self._spans and isinstance(begun, Mapping):
                    fresh, closes = self._span_by_span(row, here, begun[row], (drawn, spans))
                else:
                    rows.add(row)
                    fresh, closes = carried(self._links[row], drawn)
                if closes:
                    return True
                left += fresh
        return False

    def _span_by_span(
        self, row: str, here: str, made: Iterable[float], known: tuple[dict[str, int], set[_Spot]]
    ) -> tuple[list[str], bool]:
        """Follow a row over several plates from one of them, between such as a joint made passes."""
        drawn, seen = known
        places = frozenset(made)
        found = [
            (at, link)
            for at, (link, span) in enumerate(zip(self._links[row], self._spans[row], strict=True))
            if here in link[:2] and not span.isdisjoint(places) and (row, at) not in seen
        ]
        seen.update((row, at) for at, _ in found)
        return carried(tuple(link for _, link in found), drawn)

    def _hung(self, part: str, rows: Collection[str]) -> tuple[Collection[str], bool]:
        """Return the plates that hang together with one, and whether rows draw them round."""
        drawn, seen, left, bent = {part: 0}, set[str](), [part], False
        while left:
            for row in self._rows_on[left.pop()]:
                if row not in seen and row in rows:
                    seen.add(row)
                    fresh, closes = carried(self._links[row], drawn)
                    bent = bent or closes
                    left += fresh
        return drawn, bent

    def is_enclosed(self, parts: Iterable[str], complete: Collection[str]) -> bool:
        """Tell whether plates are shut round once all joints of these rows are made."""
        here = frozenset(parts)
        if any(draws.issubset(complete) and here & held for draws, held in self._drawn):
            return True
        done = self._ring_rows.intersection(complete)
        return bool(done) and not here.isdisjoint(self._ringed(done))

    def shaping(self, parts: Iterable[str], begun: Collection[str]) -> Collection[str]:
        """Return a few of some rows that do to give plates a shape: a near ring, the way to a form."""
        for part in sorted(parts):
            found = way_to_shape(part, self._rows_on, self._links, (begun, self._formed))
            if found is not None:
                return found
        return begun

    def shutting(self, parts: Iterable[str], complete: Collection[str]) -> Collection[str]:
        """Return a few of some rows that do to shut plates round, where a near ring is known."""
        for part in sorted(parts):
            found = ring_from(part, self._rows_on, self._links, complete)
            if found is not None and self.is_enclosed((part,), found):
                return found
        return complete

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
            if len(self._rings) >= _KEPT:
                self._rings.clear()
            bent = self._bent(rows)
            left = self._held_twice(rows) if bent else ()
            self._rings[rows] = frozenset(part for part in bent if self._layer[part] in left)
        return self._rings[rows]

    def _held_twice(self, rows: frozenset[str]) -> set[str]:
        """Return the layers that stay when what hangs by one row only is taken off."""
        fixed = {self._layer[part] for row in rows for part in self._rounds.get(row, ())}
        return _peeled(({self._layer[part] for part in self._holds[row]} for row in rows), fixed)

    def _bent(self, rows: frozenset[str]) -> set[str]:
        """Return the plates that hang together, by some rows, with a ring of them."""
        bent, seen = set[str](), set[str]()
        for row in rows:
            part = self._holds[row][0]
            if part not in seen:
                together, is_bent = self._hung(part, rows)
                seen.update(together)
                if is_bent:
                    bent.update(together)
        return bent

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
        """Return the rows beyond which, seen from some plates, lies neither a form nor a ring.

        A row that closes a ring by itself is none of them, whatever hangs on it.
        """
        held = {row: set(plates) for row, plates in self._holds.items() if row not in self._rounds}
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
