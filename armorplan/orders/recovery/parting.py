"""A recovery problem made small: what no mistake touches goes its usual way, the rest falls into parts.

What may have to be taken back is followed from what is in the way: the moves that open it, what is
in the way of those, and what must be done anew after them. Of what is still to do only that
belongs to it which has to come before such a step; all the rest can be done afterwards, in the
order in which it could be done before.
"""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import networkx as nx

from armorplan.orders.recovery.bits import BitBar, BitDoing, BitTake, RecoveryBits, each, steps_of
from armorplan.orders.recovery.finishing import FromBack, choice
from armorplan.orders.recovery.model import Bar, Move, RecoveryProblem


@dataclass(frozen=True, slots=True, kw_only=True)
class Parted:
    """Parts that have nothing to do with each other, and what is done as usual after all of them."""

    parts: tuple[RecoveryProblem, ...]
    after: tuple[Move, ...]


def parted(problem: RecoveryProblem) -> Parted:
    """Return the parts of a problem; their ways back, one after the other, make one of the whole."""
    touched = _Touched(RecoveryBits(problem))
    after = touched.grow()
    return Parted(
        parts=tuple(touched.part(group) for group in touched.groups()),
        after=tuple(doing.move for doing in after),
    )


class _Touched:
    """The steps that mistakes touch, as bits, with the moves that may take something back."""

    def __init__(self, bits: RecoveryBits) -> None:
        self._bits = bits
        self._missing = bits.goal & ~bits.done
        self._steps = 0
        self._takes: dict[int, BitTake] = {}
        self._chosen: dict[int, BitDoing] = {}
        for bar in bits.bars:
            if not bar.first & (bits.done | bits.goal) and bits.doings[bar.first]:
                self._steps |= bar.first
        self._steps |= self._unasked()
        for step in each(self._missing & ~self._steps):
            found = choice(bits, bits.done, step)
            if found.doing is None or found.helps or found.doing.move.means is not None:
                self._steps |= step
            else:
                self._chosen[step] = found.doing

    def grow(self) -> tuple[BitDoing, ...]:
        """Take in all that belongs to it; return what is done as usual after it, in order."""
        while True:
            self._open()
            rest = {s: way for s, way in self._chosen.items() if not s & self._steps}
            backward = FromBack(self._bits, self._bits.done | self._steps, rest)
            order = backward.order(shut_by=self._bits.done)
            tied = backward.left if order is None else [s for s in rest if self._gives_way(s)]
            if order is not None and not tied:
                return order
            for step in tied:
                self._steps |= step

    def _gives_way(self, step: int) -> bool:
        """Tell whether a step is done in spite of a bar that may be opened all the same."""
        bars = self._bits.by_first[step]
        return any(bar.is_shut(self._bits.done) and bar.rest & self._steps for bar in bars)

    def _open(self) -> None:
        """Follow what may have to be opened, and what that clears."""
        before = None
        while before != (self._steps, len(self._takes)):
            before = self._steps, len(self._takes)
            wanted = self._in_way() & self._bits.done
            for at, take in enumerate(self._bits.takes):
                if take.clears & wanted and at not in self._takes:
                    self._takes[at] = take
                    self._steps |= take.clears
            self._steps |= self._unasked()

    def _unasked(self) -> int:
        """Return what would come too early once a step that nobody asks for again is opened."""
        gone, found = self._steps & ~self._bits.goal, 0
        for step in each(gone):
            for bar in self._bits.by_first[step]:
                found |= bar.rest & self._missing
        return found

    def _in_way(self) -> int:
        """Return what may stand in the way of the steps touched and of the moves that open them."""
        wanted = 0
        for step in each(self._steps):
            for doing in self._bits.doings[step]:
                wanted |= doing.needs_open
        for bar in self._bars():
            wanted |= bar.rest
        for take in self._takes.values():
            wanted |= take.needs_open
        return wanted

    def _bars(self) -> Iterator[BitBar]:
        """Yield the bars that can ever be shut while the steps touched are worked at."""
        bits = self._bits
        for bar in bits.bars:
            is_about = bar.first & self._steps or not bar.first & (bits.done | bits.goal)
            if is_about and not bar.rest & ~(bits.done | self._steps):
                yield bar

    def groups(self) -> tuple[int, ...]:
        """Return the steps touched in groups, as bits, that no bar and no move ties together."""
        graph: nx.Graph[int] = nx.Graph()
        graph.add_nodes_from(each(self._steps))
        ties = [bar.first | bar.rest for bar in self._bars()]
        ties += [take.clears | take.needs_open for take in self._takes.values()]
        ties += [
            step | way.needs_open for step in each(self._steps) for way in self._bits.doings[step]
        ]
        for tie in ties:
            tied = list(each(tie & self._steps))
            graph.add_edges_from((tied[0], other) for other in tied[1:])
        found = (sum(group) for group in nx.connected_components(graph))
        return tuple(sorted(found, key=lambda group: group & -group))

    def part(self, group: int) -> RecoveryProblem:
        """Return a group as a problem of its own: what else stands, stands for good."""
        bits = self._bits
        bars: tuple[Bar, ...] = tuple(
            bar.bar for bar in self._bars() if (bar.first | bar.rest) & group
        )
        takes = (take for take in self._takes.values() if take.clears & group)
        ways = {way.move.id for step in each(group) for way in bits.doings[step]}
        ways |= {take.move.id for take in takes}
        own = frozenset(step for step, bit in bits.bit.items() if bit & group)
        problem = bits.problem
        moves = tuple(move for move in problem.moves if move.id in ways)
        named = own.union(*(bar.of for bar in bars), *(map(steps_of, moves)))
        return replace(
            problem, done=problem.done & named, goal=problem.goal & own, bars=bars, moves=moves
        )
