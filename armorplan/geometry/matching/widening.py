"""Holes beside a row that come to lie on each other with it: a gap that is too wide breaks a chain."""

from collections import defaultdict
from collections.abc import Collection, Iterator, Mapping, Sequence
from itertools import pairwise, product

from armorplan.geometry.matching.chains import FURTHEST_MM, LIKE_MM
from armorplan.geometry.matching.laying import Laid, misses
from armorplan.geometry.matching.model import Meeting
from armorplan.geometry.matching.rows import Row, row_through
from armorplan.kernel.stopping import ShouldStop, go_on
from armorplan.pattern.parts import Hole, Part

LEAST = 3
"""Two holes on two others tell too little of where all others come to lie."""
MOST = 60
"""Of a part with more free holes beside its rows none is looked at: it is a pattern of pricking."""
_Pairs = tuple[tuple[str, str], ...]


def widened_sets(
    parts: Sequence[Part],
    rows: Sequence[Row],
    taken: Collection[str],
    found: Sequence[Laid],
    *,
    misfit_mm: float,
    should_stop: ShouldStop,
) -> Iterator[tuple[Row, Row]]:
    """Yield matches that lie flat with the holes beside them that then lie on each other too.

    Raises:
        StoppedError: it was asked to stop.
    """
    beside = _Beside(parts, rows, taken, misfit_mm)
    done: set[_Pairs] = set()
    for each in found:
        go_on(should_stop)
        if each.meeting is not Meeting.FLAT or len(each.pairs) < LEAST:
            continue
        more = max((beside.more(each, over=over) for over in _faces(each)), key=len)
        if len(more) > len(each.pairs) and more not in done:
            done.add(more)
            yield (
                row_through(each.first, parts[each.first], [one for one, _ in more]),
                row_through(each.second, parts[each.second], [other for _, other in more]),
            )


def _faces(each: Laid) -> tuple[bool, ...]:
    """Return the faces to try: where a row cannot tell, both, as drawn first."""
    return (False, True) if each.no_hand else (each.mirrored,)


class _Beside:
    """The free holes of parts, and which of them stand in a row of their own."""

    def __init__(
        self,
        parts: Sequence[Part],
        rows: Sequence[Row],
        taken: Collection[str],
        misfit_mm: float,
    ) -> None:
        self._misfit_mm = misfit_mm
        self._free: list[Mapping[str, Hole]] = [
            {h.id: h for h in part.holes if not h.travel_mm and h.id not in taken}
            for part in parts
        ]
        self._rows: list[dict[str, list[Row]]] = [defaultdict(list) for _ in parts]
        for row in rows:
            if row.apart and len(row.holes) >= LEAST:
                for hole in row.holes:
                    self._rows[row.at][hole].append(row)

    def more(self, each: Laid, *, over: bool) -> _Pairs:
        """Return a match's pairs with all that then lie on each other, none far from the next."""
        pairs = each.pairs
        if pairs[0][0] not in self._free[each.first] or pairs[0][1] not in self._free[each.second]:
            return pairs
        while (wider := self._one_more(each, pairs, over=over)) is not None:
            pairs = wider
        return pairs

    def _one_more(self, each: Laid, pairs: _Pairs, *, over: bool) -> _Pairs | None:
        ones = self._open(each.first, {one for one, _ in pairs})
        others = self._open(each.second, {other for _, other in pairs}) if ones else []
        if not others:
            return None
        here = [_at(self._free[each.first][one]) for one, _ in pairs]
        there = [_at(self._free[each.second][other], over=over) for _, other in pairs]
        turn = misses(here, there).turn
        middle, amid = sum(here) / len(here), sum(there) / len(there)
        for one, other in product(ones, others):
            spot = _at(one)
            laid = middle + turn * (_at(other, over=over) - amid)
            if (
                abs(laid - spot) <= 2 * self._misfit_mm
                and abs(one.diameter_mm - other.diameter_mm) <= LIKE_MM
                and min(abs(spot - held) for held in here) <= FURTHEST_MM
                and misses([*here, spot], [*there, _at(other, over=over)]).most_mm
                <= self._misfit_mm
            ):
                at = _place(spot, here)
                return (*pairs[:at], (one.id, other.id), *pairs[at:])
        return None

    def _open(self, at: int, held: set[str]) -> list[Hole]:
        """Return free holes that stand in no row, or in one that shares a hole with those held."""
        free = self._free[at]
        if len(free) - len(held) > MOST:
            return []
        return [
            hole
            for name, hole in free.items()
            if name not in held and self._is_open(at, name, held)
        ]

    def _is_open(self, at: int, hole: str, held: set[str]) -> bool:
        rows = self._rows[at].get(hole)
        return not rows or any(not held.isdisjoint(row.holes) for row in rows)


def _at(hole: Hole, *, over: bool = False) -> complex:
    x, y = hole.centre
    return complex(x, -y) if over else complex(x, y)


def _place(spot: complex, row: Sequence[complex]) -> int:
    """Return where along a row a spot lengthens its way the least."""
    longer = [
        abs(spot - row[0]),
        *(abs(spot - a) + abs(b - spot) - abs(b - a) for a, b in pairwise(row)),
        abs(spot - row[-1]),
    ]
    return longer.index(min(longer))
