"""How far an answer is from a right one, and what it is worth by that.

Of an order: the fewest steps taken out and put elsewhere. A step that is missing is put in, one
that is none of the exercise or stands there once more is taken out, and each counts as much. Of the
right orders that are as near the one is taken that turns the fewest pairs round (Kendall's
distance). Both are exact, up to the most steps of an exercise. Of a choice of all that are right:
how many stand on the wrong side.
"""

from collections import Counter
from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from armorplan.practice.few_orders import FewOrders
from armorplan.practice.settled_order import Bits

_MOVE = 1_000
"""What a move weighs against a pair turned round: more than all pairs of an exercise together."""
_NOWHERE = -1


@dataclass(frozen=True, slots=True, kw_only=True)
class Distance:
    """How far an order is from the nearest right one.

    Attributes:
        nearest: that right order; empty where no order is right.
        moved: steps taken out and put elsewhere, as they stood.
        added: steps that were missing; ``removed``: what was one too many, each as often as it was.
        kendall: pairs that stand the other way round in ``nearest``.
    """

    nearest: tuple[str, ...]
    moved: tuple[str, ...] = ()
    added: tuple[str, ...] = ()
    removed: tuple[str, ...] = ()
    kendall: int = 0

    @property
    def moves(self) -> int:
        """Moves, additions and removals in all."""
        return len(self.moved) + len(self.added) + len(self.removed)


def distance(answer: Sequence[str], few: FewOrders) -> Distance:
    """Return how far an answer is from the nearest right order, exact for any answer."""
    place: dict[str, int] = {}
    for step in answer:
        if step in few.number:
            place.setdefault(step, len(place))
    extra = Counter(answer) - Counter(place.keys())
    removed = tuple(step for step in dict.fromkeys(answer) for _ in range(extra[step]))
    added = tuple(step for step in few.steps if step not in place)
    if not few.count:
        return Distance(nearest=(), removed=removed, added=added)
    search = _Search(few, place)
    nearest, kept, kendall = search.nearest()
    moved = tuple(step for step in place if step not in kept)
    return Distance(nearest=nearest, moved=moved, added=added, removed=removed, kendall=kendall)


@dataclass(frozen=True, slots=True)
class _Way:
    """How a set of steps was reached: at what cost, and from where."""

    cost: int
    before: "_Way | None" = None
    step: int = _NOWHERE
    stays: bool = False


class _Search:
    """The cheapest way through the sets of steps.

    A state is a set that is done and the place, in the answer, of the last step that stayed. A
    step may stay where its place lies behind that. What is turned round by a step depends on the
    set alone, so that cheapest ways are made of cheapest ways.
    """

    def __init__(self, few: FewOrders, place: dict[str, int]) -> None:
        self._few = few
        self._place = [place.get(step, _NOWHERE) for step in few.steps]
        here = [at for at, spot in enumerate(self._place) if spot != _NOWHERE]
        self._behind: list[Bits] = [
            sum(1 << one for one in here if self._place[one] > self._place[at] != _NOWHERE)
            for at in range(len(few.steps))
        ]
        self._by_place = sorted(range(len(few.steps)), key=lambda at: (self._place[at], at))

    def nearest(self) -> tuple[tuple[str, ...], frozenset[str], int]:
        """Return the nearest right order, the steps that stay, and the pairs it turns round."""
        states: dict[Bits, dict[int, _Way]] = {0: {_NOWHERE: _Way(0)}}
        for _ in self._few.steps:
            states = self._onward(states)
        way = min(states[self._few.whole].values(), key=lambda one: one.cost)
        taken = [one for one in _back(way) if one.step != _NOWHERE][::-1]
        steps = self._few.steps
        kept = frozenset(steps[one.step] for one in taken if one.stays)
        return tuple(steps[one.step] for one in taken), kept, way.cost % _MOVE

    def _onward(self, states: dict[Bits, dict[int, _Way]]) -> dict[Bits, dict[int, _Way]]:
        found: dict[Bits, dict[int, _Way]] = {}
        for done, ways in states.items():
            nexts = frozenset(self._few.onward(done))
            undominated = tuple(_undominated(ways))
            for at in (one for one in self._by_place if one in nexts):
                into = found.setdefault(done | 1 << at, {})
                self._take(at, done, undominated, into)
        return found

    def _take(
        self, at: int, done: Bits, ways: Sequence[tuple[int, _Way]], into: dict[int, _Way]
    ) -> None:
        place = self._place[at]
        turned = (done & self._behind[at]).bit_count()
        moves = _MOVE if place != _NOWHERE else 0
        for last, way in ways:
            cost = way.cost + turned
            if place > last:
                _offer(into, place, _Way(cost, way, at, stays=True))
            _offer(into, last, _Way(cost + moves, way, at))


def _offer(into: dict[int, _Way], last: int, way: _Way) -> None:
    known = into.get(last)
    if known is None or way.cost < known.cost:
        into[last] = way


def _undominated(ways: dict[int, _Way]) -> Iterator[tuple[int, _Way]]:
    """Yield ways than which none that is as cheap leaves as much room behind its last place."""
    least: int | None = None
    for last in sorted(ways):
        if least is None or ways[last].cost < least:
            least = ways[last].cost
            yield last, ways[last]


def _back(way: _Way) -> Iterator[_Way]:
    one: _Way | None = way
    while one is not None:
        yield one
        one = one.before


def choice_distance(answer: Collection[str], right: Collection[str]) -> int:
    """Return how many choices stand on the wrong side: chosen and wrong, or right and left out.

    The worst answer has all of them wrong: as many as there are choices.
    """
    return len(frozenset(answer) ^ frozenset(right))


def credit_of(moves: int, most: int) -> float:
    """Return what an answer is worth: 1 where right, 0 as far off as can be or beyond."""
    return 1.0 if not moves else max(0.0, 1.0 - moves / max(most, 1))
