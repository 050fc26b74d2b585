"""The orders of least effort in which a row grows from one joint, or closes from its ends."""

from collections.abc import Iterable

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.margins import Gauge, Offer, best_of
from armorplan.geometry.reach.model import Row
from armorplan.geometry.reach.openings import gape_mm, made_at

_STUCK = 1e6
"""What a joint that cannot be set counts, so that of bad orders the least bad is found."""
_Table = dict[tuple[int, int], tuple[float, tuple[int, ...]]]


class Stretches:
    """What each joint of a row costs by the stretch of it that is made, the other rows as they are.

    Beside a joint the row lies open up to its end, up to the next joint made, or not at all.
    """

    __slots__ = (
        "_bench",
        "_beside",
        "_enclosed",
        "_gaps",
        "_gauge",
        "_others",
        "_row",
        "_shaped",
        "_steady",
    )

    def __init__(self, gauge: Gauge, row: Row, bench: Bench, before: frozenset[str]) -> None:
        self._gauge, self._row, self._bench = gauge, row, bench
        self._others = {**made_at(gauge.places, before), row.id: [*row.at_mm]}
        self._enclosed = gauge.is_enclosed(row.joints[0], self._others)
        self._shaped = self._enclosed or gauge.hanging.is_shaped(row.parts, self._others)
        self._steady = [self._effort_by_others(joint) for joint in row.joints]
        index = {joint: at for at, joint in enumerate(row.joints)}
        own = [[way for way in gauge.ways(joint) if way.row == row.id] for joint in row.joints]
        self._beside = [[(index[way.name], way) for way in ways if not way.gap] for ways in own]
        self._gaps = [
            [(_beside(way.gap, len(row.joints)), way) for way in ways if way.gap] for ways in own
        ]

    def outward(self) -> tuple[str, ...]:
        """Return the best order that begins with some joint and grows on both sides of it."""
        last = len(self._row.joints) - 1
        table: _Table = {(at, at): (self._cost(at, (0, last)), (at,)) for at in range(last + 1)}
        for size in range(1, last + 1):
            for low in range(last + 1 - size):
                high = low + size
                below, above = table[low + 1, high], table[low, high - 1]
                table[low, high] = min(
                    (below[0] + self._cost(low, (0, last), (low + 1, high)), (*below[1], low)),
                    (above[0] + self._cost(high, (0, last), (low, high - 1)), (*above[1], high)),
                )
        return self._named(table[0, last][1])

    def inward(self) -> tuple[str, ...]:
        """Return the best order that takes joints at either end of what is left."""
        last = len(self._row.joints) - 1
        table: _Table = {}
        for size in range(last + 1):
            for low in range(last + 1 - size):
                table[low, low + size] = self._closing(table, low, low + size)
        return self._named(table[0, last][1])

    def _closing(self, table: _Table, low: int, high: int) -> tuple[float, tuple[int, ...]]:
        if low == high:
            return self._cost(low, (low, low)), (low,)
        bounds = low, high
        first, second = table[low + 1, high], table[low, high - 1]
        return min(
            (self._cost(low, bounds) + first[0], (low, *first[1])),
            (self._cost(high, bounds) + second[0], (high, *second[1])),
        )

    def _cost(
        self, at: int, bounds: tuple[int, int], made: tuple[int, int] | None = None
    ) -> float:
        """Return the effort of a joint with all out of bounds made, and a stretch within."""
        if not self._shaped:
            return 1.0
        low, high = bounds
        edges = [at, *(made or ()), *((low - 1,) if low else ())]
        if high + 1 < len(self._row.joints):
            edges.append(high + 1)
        places = self._row.at_mm
        near = [places[edge] for edge in edges]
        held = range(made[0], made[1] + 1) if made else ()
        gape = self._bench.row_gape
        offers = [
            (way, gape_mm(places[there], near, gape))
            for there, way in self._beside[at]
            if low <= there <= high and there not in held
        ]
        for next_to, way in self._gaps[at]:
            set_ = [places[one] for one in next_to if not low <= one <= high or one in held]
            offers.append((way, gape_mm(self._gauge.places[way.name][1], near + set_, gape)))
        return min(self._steady[at], self._effort(self._row.joints[at], offers))

    def _effort_by_others(self, joint: str) -> float:
        ways = (way for way in self._gauge.ways(joint) if way.row != self._row.id)
        offers = ((way, self._gauge.opening_mm(way, self._others)) for way in ways)
        return self._effort(joint, offers)

    def _effort(self, joint: str, offers: Iterable[Offer]) -> float:
        hollow, enclosed = self._gauge.shell.hollow, self._enclosed
        found = best_of(offers, joint, self._bench, hollow=hollow, enclosed=enclosed)
        return min(found.effort, _STUCK)

    def _named(self, order: tuple[int, ...]) -> tuple[str, ...]:
        return tuple(self._row.joints[at] for at in order)


def _beside(gap: tuple[int, int], last: int) -> tuple[int, ...]:
    """Return the places in their row of the joints next to a gap, of as many as the row has."""
    return tuple(number - 1 for number in gap if 1 <= number <= last)
