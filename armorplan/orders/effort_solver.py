"""The order of least effort beyond the subsets' reach: a model for the solver, with its bound.

Each atom has a place. A rise counts unless the atom comes before one of what it follows; the
solver pays for those that count. Where two places are equal either may come first: no literal of
the model says that one comes before the other.
"""

from collections.abc import Callable, Iterator, Sequence

from armorplan.orders.effort_bits import EffortBits, each_bit
from armorplan.solving.model import (
    Answer,
    AtLeastOne,
    Constraint,
    Effort,
    Least,
    Linear,
    Model,
    Number,
    Term,
    at_least,
)

MOST_SECONDS = 5.0
"""How long the solver may look for one group of atoms."""

Solve = Callable[[Model], Answer]
"""Asks the solver, in its own process: never from the window's own thread."""


def by_solver(
    bits: EffortBits, start: Sequence[int], solve: Solve, *, seconds: float = MOST_SECONDS
) -> tuple[tuple[int, ...], int]:
    """Return the better of ``start`` and what the solver found, and a bound in hundredths."""
    answer = solve(_Laid(bits, start).model(seconds))
    bound = max(bits.bound(), answer.bound or 0)
    if not answer.values:
        return tuple(start), bound
    place = dict(answer.values)
    found = tuple(sorted(range(len(bits.ids)), key=lambda at: (place[_place(at)], at)))
    return min(tuple(start), found, key=lambda order: sum(bits.extras(order))), bound


def _place(at: int) -> str:
    return f"place {at}"


class _Laid:
    """A problem in the solver's language."""

    def __init__(self, bits: EffortBits, start: Sequence[int]) -> None:
        self._bits = bits
        self._start = start
        self._earlier: dict[tuple[int, int], str] = {}
        self._booleans: list[str] = []
        self._paid: dict[str, int] = {}

    def model(self, seconds: float) -> Model:
        """Return the model: places, hard relations, and what the rises that count cost."""
        constraints = [*self._kept(), *self._priced()]
        constraints += [
            self._comes_before(first, then, only_if=(literal,))
            for (first, then), literal in self._earlier.items()
        ]
        most = len(self._bits.ids)
        numbers = [Number(name=_place(at), ranges=((1, most),)) for at in range(most)]
        numbers += [Number(name=n, ranges=((0, dear),)) for n, dear in self._paid.items()]
        return Model(
            effort=Effort(seconds=seconds, work=seconds),
            numbers=tuple(numbers),
            booleans=(*self._earlier.values(), *self._booleans),
            constraints=tuple(constraints),
            objective=Least(terms=tuple((name, 1) for name in self._paid)),
            hints=tuple(self._hints()),
        )

    def _hints(self) -> Iterator[Term]:
        place = {at: number for number, at in enumerate(self._start, start=1)}
        for at, number in place.items():
            yield _place(at), number
        for (first, then), literal in self._earlier.items():
            yield literal, int(place[first] < place[then])

    def _kept(self) -> Iterator[Constraint]:
        for first, followers in enumerate(self._bits.followers):
            for then in each_bit(followers):
                yield self._comes_before(first, then, only_if=())
            for of in self._bits.all_of[first]:
                yield AtLeastOne(literals=tuple(self._one_later(first, of)))

    def _priced(self) -> Iterator[Constraint]:
        for atom in range(len(self._bits.ids)):
            for at, group in enumerate(self._bits.levels(atom)):
                paid = f"paid {atom} {at}"
                self._paid[paid] = max((level[1] for level in group), default=0)
                for number, (of, ticks, _) in enumerate(group):
                    counts = f"{paid} {number}"
                    self._booleans.append(counts)
                    yield AtLeastOne(literals=(counts, *self._one_later(atom, of)))
                    yield Linear(terms=((paid, 1),), ranges=at_least(ticks), only_if=(counts,))

    def _one_later(self, first: int, of: int) -> Iterator[str]:
        for then in each_bit(of):
            yield self._earlier.setdefault((first, then), f"{first} before {then}")

    def _comes_before(self, first: int, then: int, *, only_if: tuple[str, ...]) -> Linear:
        terms = ((_place(then), 1), (_place(first), -1))
        return Linear(terms=terms, ranges=at_least(1), only_if=only_if)
