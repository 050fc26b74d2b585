"""A recovery problem in bit masks: steps, bars and moves numbered, a state is one whole number."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from armorplan.orders.recovery.model import Bar, Doing, Move, RecoveryProblem, TakeBack


@dataclass(frozen=True, slots=True, kw_only=True)
class BitBar:
    """A bar: one bit for the step it is about, the others' bits, its own bit among the bars."""

    bar: Bar
    own: int
    first: int
    rest: int

    def is_shut(self, state: int) -> bool:
        """Tell whether all that bars the step stands."""
        return not self.rest & ~state


@dataclass(frozen=True, slots=True, kw_only=True)
class BitTake:
    """A move that opens steps.

    Attributes:
        heeds: bars that may keep it from being possible: those that bar opening what it clears.
    """

    move: TakeBack
    clears: int
    needs_open: int
    ticks: int
    heeds: tuple[BitBar, ...]

    def blockers(self, state: int) -> Iterator[int]:
        """Yield sets of steps, as bits, of which one has to go before it is possible.

        Nothing where no standing step is in its way.
        """
        yield from each(self.needs_open & state)
        after = state & ~self.clears
        for bar in self.heeds:
            if bar.is_shut(after):
                yield bar.rest


@dataclass(frozen=True, slots=True, kw_only=True)
class BitDoing:
    """A move that does a step; ``spite`` are the bits of the bars it does not heed."""

    move: Doing
    does: int
    needs_open: int
    ticks: int
    spite: int


class RecoveryBits:
    """A problem in masks, with what is looked up often at hand.

    Attributes:
        doings: by the bit of a step the ways to do it, the cheapest first.
        by_first: by the bit of a step the bars that are about it.
        by_member: by the bit of a step the bars that it shuts with others.
        listed: the bits of steps in the order in which moves that do them are listed.
    """

    def __init__(self, problem: RecoveryProblem) -> None:
        self.problem = problem
        self.bit = {step: 1 << at for at, step in enumerate(_named(problem))}
        self.done, self.goal = self.mask(problem.done), self.mask(problem.goal)
        self.by_first: dict[int, list[BitBar]] = {bit: [] for bit in self.bit.values()}
        self.by_member: dict[int, list[BitBar]] = {bit: [] for bit in self.bit.values()}
        self.bars = tuple(self._barred())
        self.takes = tuple(self._take(m) for m in problem.moves if isinstance(m, TakeBack))
        self.doings: dict[int, list[BitDoing]] = {bit: [] for bit in self.bit.values()}
        for move in problem.moves:
            if isinstance(move, Doing):
                self.doings[self.bit[move.does]].append(self._doing(move))
        for ways in self.doings.values():
            ways.sort(key=lambda way: way.ticks)
        listed = (self.bit[m.does] for m in problem.moves if isinstance(m, Doing))
        self.listed = tuple(dict.fromkeys(listed))

    def mask(self, steps: Iterable[str]) -> int:
        """Return the bits of steps."""
        mask = 0
        for step in steps:
            mask |= self.bit[step]
        return mask

    def _barred(self) -> Iterator[BitBar]:
        bars = [bar for bar in self.problem.bars if bar.of - {bar.first}]
        for at, bar in enumerate(bars):
            first = self.bit[bar.first]
            rest = self.mask(bar.of) & ~first
            told = BitBar(bar=bar, own=1 << at, first=first, rest=rest)
            self.by_first[first].append(told)
            for member in each(rest):
                self.by_member[member].append(told)
            yield told

    def _take(self, move: TakeBack) -> BitTake:
        clears = self.mask(move.clears)
        heeds = (bar for first in each(clears) for bar in self.by_first[first])
        return BitTake(
            move=move,
            clears=clears,
            needs_open=self.mask(move.needs_open),
            ticks=self.problem.rates.ticks(move.cost),
            heeds=tuple(bar for bar in heeds if bar.bar.bars_opening),
        )

    def _doing(self, move: Doing) -> BitDoing:
        spite = 0
        for bar in self.bars:
            if bar.bar.id in move.in_spite_of:
                spite |= bar.own
        return BitDoing(
            move=move,
            does=self.bit[move.does],
            needs_open=self.mask(move.needs_open),
            ticks=self.problem.rates.ticks(move.cost),
            spite=spite,
        )


def each(mask: int) -> Iterator[int]:
    """Yield the bits of a mask one by one, the lowest first."""
    while mask:
        low = mask & -mask
        yield low
        mask ^= low


def _named(problem: RecoveryProblem) -> list[str]:
    """Return all steps that a problem speaks of, by name."""
    named = set(problem.done | problem.goal)
    for bar in problem.bars:
        named |= bar.of | {bar.first}
    for move in problem.moves:
        named |= steps_of(move)
    return sorted(named)


def steps_of(move: Move) -> frozenset[str]:
    """Return the steps that a move speaks of."""
    own = move.clears if isinstance(move, TakeBack) else frozenset({move.does})
    return own | move.needs_open
