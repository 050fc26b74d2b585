"""A way back beyond the search's reach: a model for the solver, with its bound.

What is taken back goes first, each thing at a place of its own; what is done comes after, each step
in one of its ways. A bar is kept by a witness: a step of it that does not stand yet. No literal
says that of two the one comes first where their places are equal.
"""

from collections.abc import Iterable, Iterator

from armorplan.orders.effort_solver import Solve
from armorplan.orders.recovery.bits import BitBar, BitDoing, BitTake, RecoveryBits, each
from armorplan.orders.recovery.model import Move
from armorplan.solving.model import (
    AtLeastOne,
    Constraint,
    Effort,
    Least,
    Linear,
    Model,
    Number,
    Range,
    at_least,
    at_most,
    opposite,
)

MOST_SECONDS = 1.0
"""How long the solver may look for one part."""

_NONE: tuple[Range, ...] = ((0, 0),)


def by_solver(
    bits: RecoveryBits, solve: Solve, *, seconds: float = MOST_SECONDS
) -> tuple[tuple[Move, ...] | None, int]:
    """Return the way back the solver found, ``None`` without one, and a bound in hundredths."""
    laid = _Laid(bits)
    answer = solve(laid.model(seconds))
    moves = laid.moves(dict(answer.values)) if answer.values else None
    return moves, answer.bound or 0


def can_be_bounded(bits: RecoveryBits) -> bool:
    """Tell whether no way back needs to take back what it has done: else the bound is not one.

    It might where moves clear the same step, or one that does not stand at first, or where a step
    may be done in spite of a bar after it was taken back behind it.
    """
    cleared = 0
    for take in bits.takes:
        if take.clears & (cleared | ~bits.done):
            return False
        cleared |= take.clears
    spited = 0
    for ways in bits.doings.values():
        for way in ways:
            spited |= way.spite
    return not any(
        bar.first & cleared
        and not bar.bar.bars_opening
        and (bar.own & spited or not bar.first & bits.goal)
        for bar in bits.bars
    )


class _Laid:
    """A problem in the solver's language."""

    def __init__(self, bits: RecoveryBits) -> None:
        self._bits = bits
        self._ways = {step: ways for step, ways in bits.doings.items() if ways}
        self._earlier: dict[tuple[str, str], str] = {}
        self._late: dict[tuple[int, int], str] = {}
        self._stands: dict[tuple[int, int], str] = {}
        self._openers: dict[int, list[int]] = {step: [] for step in bits.doings}
        for at, take in enumerate(bits.takes):
            for step in each(take.clears):
                self._openers[step].append(at)

    def model(self, seconds: float) -> Model:
        """Return the model: what is taken back, what is done and how, where, and at what price."""
        constraints = [*self._opened(), *self._done_once()]
        for at, take in enumerate(self._bits.takes):
            constraints += self._taken(at, take)
        for ways in self._ways.values():
            for at, way in enumerate(ways):
                constraints += self._possible(_way(way.does, at), way)
        constraints += self._meant()
        takes = [(_take(at), take.ticks) for at, take in enumerate(self._bits.takes)]
        doings = [
            (_way(s, at), w.ticks) for s, ways in self._ways.items() for at, w in enumerate(ways)
        ]
        most = len(self._ways) + len(self._bits.takes) + 1
        places = [_place(name) for name, _ in takes] + [_place(_step(s)) for s in self._openers]
        booleans = [name for name, _ in (*takes, *doings)]
        booleans += [_open(step) for step, by in self._openers.items() if by]
        booleans += [*self._earlier.values(), *self._late.values(), *self._stands.values()]
        return Model(
            effort=Effort(seconds=seconds, work=seconds),
            numbers=tuple(Number(name=name, ranges=((1, most),)) for name in places),
            booleans=tuple(booleans),
            constraints=tuple(constraints),
            objective=Least(terms=(*takes, *doings)),
        )

    def moves(self, values: dict[str, int]) -> tuple[Move, ...]:
        """Return the moves that values stand for, in order."""
        takes = [at for at in range(len(self._bits.takes)) if values[_take(at)]]
        takes.sort(key=lambda at: (values[_place(_take(at))], at))
        ways = [
            (values[_place(_step(step))], step, way)
            for step, found in self._ways.items()
            for at, way in enumerate(found)
            if values[_way(step, at)]
        ]
        ways.sort(key=lambda told: told[:2])
        opened: tuple[Move, ...] = tuple(self._bits.takes[at].move for at in takes)
        return opened + tuple(way.move for _, _, way in ways)

    def _opened(self) -> Iterator[Constraint]:
        """A step is opened by one move at most, and open where one opens it."""
        for step, by in self._openers.items():
            if by:
                terms = tuple((_take(at), 1) for at in by)
                yield Linear(terms=(*terms, (_open(step), -1)), ranges=_NONE)

    def _done_once(self) -> Iterator[Constraint]:
        """What is asked for is done once where it does not stand, all else at most once."""
        bits = self._bits
        for step, by in self._openers.items():
            ways = tuple((_way(step, at), 1) for at in range(len(bits.doings[step])))
            if step & bits.done:
                terms = (*ways, *(((_open(step), -1),) if by else ()))
                if terms:
                    yield Linear(terms=terms, ranges=_NONE if step & bits.goal else at_most(0))
            elif step & bits.goal:
                yield Linear(terms=ways, ranges=((1, 1),))
            elif ways:
                yield Linear(terms=ways, ranges=at_most(1))

    def _taken(self, at: int, take: BitTake) -> Iterator[Constraint]:
        """What is taken back can be got at: what is in the way was opened before."""
        bits = self._bits
        for step in each(take.needs_open & bits.done):
            yield _one_of(_take(at), self._opened_before(at, step))
        for bar in take.heeds:
            if not bar.rest & take.clears and bar.is_shut(bits.done):
                yield _one_of(_take(at), self._opened_before(at, bar.rest))
        if take.clears & ~bits.done:
            yield Linear(terms=((_take(at), 1),), ranges=_NONE)

    def _opened_before(self, at: int, steps: int) -> Iterator[str]:
        found = {other for step in each(steps) for other in self._openers[step]}
        for other in sorted(found - {at}):
            yield self._before(_take(other), _take(at))

    def _possible(self, way: str, doing: BitDoing) -> Iterator[Constraint]:
        """A way to do a step is open to it when it is done."""
        bits, step = self._bits, doing.does
        for other in each(doing.needs_open & ~step):
            if other & bits.done or self._ways.get(other):
                yield _one_of(way, self._is_late(step, other))
        for bar in bits.by_first[step]:
            if not bar.own & doing.spite and self._can_shut(bar):
                yield _one_of(way, self._any_late(step, bar))
        for bar in bits.by_member[step]:
            if not bar.own & doing.spite and self._can_shut(bar):
                ways_out = [*self._any_late(step, bar), *self._is_standing(bar.first, step)]
                yield _one_of(way, ways_out)

    def _can_shut(self, bar: BitBar) -> bool:
        """Tell whether all of a bar can ever stand."""
        return all(step & self._bits.done or step in self._ways for step in each(bar.rest))

    def _any_late(self, step: int, bar: BitBar) -> Iterator[str]:
        for other in each(bar.rest & ~step):
            yield from self._is_late(step, other)

    def _is_late(self, step: int, other: int) -> Iterator[str]:
        """Yield the literal that one step does not stand when another is done; none: it always does."""
        if other & self._bits.done and not self._openers[other]:
            return
        yield self._late.setdefault((step, other), f"{_step(other)} open at {_step(step)}")

    def _is_standing(self, step: int, at: int) -> Iterator[str]:
        """Yield literals of which one is true where a step stands when another is done."""
        if step & self._bits.done:
            if not self._openers[step]:
                # It stands for good: the bar is never in the way.
                yield self._stands.setdefault((step, 0), f"{_step(step)} stands")
                return
            yield opposite(_open(step))
        if step in self._ways:
            yield self._stands.setdefault((step, at), f"{_step(step)} stands at {_step(at)}")

    def _meant(self) -> Iterator[Constraint]:
        """What the literals of places mean."""
        for (step, other), literal in self._late.items():
            yield _in_order(_step(step), _step(other), literal)
            if other & self._bits.done:
                yield AtLeastOne(literals=(opposite(literal), _open(other)))
        for (step, at), literal in self._stands.items():
            if at:
                yield _in_order(_step(step), _step(at), literal)
                ways = tuple(_way(step, number) for number in range(len(self._ways[step])))
                yield AtLeastOne(literals=(opposite(literal), *ways))
        for (first, then), literal in self._earlier.items():
            yield _in_order(first, then, literal)
            yield AtLeastOne(literals=(opposite(literal), first))

    def _before(self, first: str, then: str) -> str:
        return self._earlier.setdefault((first, then), f"{first} before {then}")


def _one_of(only_if: str, literals: Iterable[str]) -> Constraint:
    return AtLeastOne(literals=(opposite(only_if), *literals))


def _in_order(first: str, then: str, literal: str) -> Linear:
    terms = ((_place(then), 1), (_place(first), -1))
    return Linear(terms=terms, ranges=at_least(1), only_if=(literal,))


def _take(at: int) -> str:
    return f"take {at}"


def _step(step: int) -> str:
    return f"step {step.bit_length()}"


def _way(step: int, at: int) -> str:
    return f"{_step(step)} way {at}"


def _open(step: int) -> str:
    return f"{_step(step)} opened"


def _place(name: str) -> str:
    return f"place of {name}"
