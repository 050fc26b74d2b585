"""The search for a way back: A* over what is taken back, each state finished from there.

In a way back all that is taken back can go first, since fewer steps that stand never make a move
harder that takes back or does; what is done comes after it. So a state is what still stands of
what stood at the start, and an edge takes one thing back. From a state only those moves are tried
of which every cheaper way on needs one: they hit a set of steps that is in the way, or a set that
is in the way of such a move (``useful``).
"""

from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from heapq import heappop, heappush
from itertools import count

from armorplan.orders.recovery.bits import BitTake, RecoveryBits
from armorplan.orders.recovery.checking import state_after, why_not
from armorplan.orders.recovery.finishing import Finish, finish
from armorplan.orders.recovery.hitting import LowerBound
from armorplan.orders.recovery.model import Means, Move, RecoveryProblem


@dataclass(frozen=True, slots=True)
class Node:
    """A state on the way.

    Attributes:
        state: what stands.
        trusted: a step that a move on the way clears did not stand any more; it only bounds.
        used: something on the way was taken back by the means that is asked for.
    """

    state: int
    trusted: bool = False
    used: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Found:
    """What a search found.

    Attributes:
        moves: the way back; ``None`` where none was found.
        ticks: its price.
        bound: no way back costs less.
        complete: the search came to its end: without moves there is no way back.
        cut_short: it did not, for it had looked at as many states as it might.
    """

    moves: tuple[Move, ...] | None
    ticks: int = 0
    bound: int = 0
    complete: bool = True
    cut_short: bool = False


_DOUBT = Finish(least=None, doings=None)
"""In place of a way on that may be there, at a price, but was not found."""


@dataclass(slots=True)
class _Open:
    """The nodes still to be looked at, the most promising first, of these the furthest."""

    heap: list[tuple[int, int, int, Node, Finish | None]] = field(default_factory=list)
    number: Iterator[int] = field(default_factory=count)

    def put(self, total: int, spent: int, node: Node, ending: Finish | None = None) -> None:
        heappush(self.heap, (total, -spent, next(self.number), node, ending))


class OpeningSearch:
    """One search; ``run`` it once.

    Args:
        bits: the problem.
        by: a means that the way back has to rest on: without what it does, none is left.
    """

    def __init__(self, bits: RecoveryBits, *, by: Means | None = None) -> None:
        self._bits = bits
        self._by_means = by
        self._without = None if by is None else RecoveryBits(_without(bits.problem, by))
        self._bound = LowerBound(bits)
        self._spent: dict[Node, int] = {}
        self._by: dict[Node, tuple[Node, BitTake]] = {}
        self._open = _Open()
        self._floor: int | None = None

    def run(self, most_states: int | None) -> Found:
        """Search until the cheapest way back is found, none is left, or so many states were seen."""
        self._reach(Node(self._bits.done), 0)
        seen = 0
        while self._open.heap:
            total, spent, _, node, ending = heappop(self._open.heap)
            spent = -spent
            if self._spent[node] < spent:
                continue
            if ending is not None:
                if node.trusted or ending.doings is None:
                    self._doubt(total)
                    continue
                takes = self._way_to(node)
                if self._by_means is not None and self._is_idle(takes):
                    self._doubt(total)
                    continue
                opened: tuple[Move, ...] = tuple(take.move for take in takes)
                moves = opened + tuple(doing.move for doing in ending.doings)
                return Found(moves=moves, ticks=total, bound=self._least(total))
            seen += 1
            if most_states is not None and seen > most_states:
                return Found(moves=None, bound=self._least(total), complete=False, cut_short=True)
            self._expand(node, spent)
        return Found(moves=None, bound=self._floor or 0, complete=self._floor is None)

    def _doubt(self, total: int) -> None:
        """Note a price below which nothing is, though no way back is known at it."""
        self._floor = total if self._floor is None else min(self._floor, total)

    def _least(self, total: int) -> int:
        return total if self._floor is None else min(total, self._floor)

    def _way_to(self, node: Node) -> tuple[BitTake, ...]:
        takes = list[BitTake]()
        while node in self._by:
            node, take = self._by[node]
            takes.append(take)
        return tuple(reversed(takes))

    def _is_idle(self, takes: tuple[BitTake, ...]) -> bool:
        """Tell whether the rest of what was taken back would do without the means asked for."""
        state: frozenset[str] = self._bits.problem.done
        for take in takes:
            if take.move.means is not self._by_means:
                if why_not(self._bits.problem, state, take.move):
                    return False
                state = state_after(state, take.move)
        bits = self._without
        return bits is not None and finish(bits, bits.mask(state)).doings is not None

    def _reach(self, node: Node, spent: int) -> bool:
        """Take a node up where it is new or came cheaper; tell whether it was."""
        if node in self._spent and self._spent[node] <= spent:
            return False
        if node.trusted and self._floor is not None:
            return False
        left = self._bound(node.state)
        if left is None:
            return False
        self._spent[node] = spent
        self._open.put(spent + left, spent, node)
        return True

    def _expand(self, node: Node, spent: int) -> None:
        by = None if node.used else self._by_means
        ending = finish(self._bits, node.state, by=by)
        if ending.doings is not None:
            self._open.put(spent + ending.ticks, spent, node, ending)
        if ending.least is not None and ending.doubtful:
            self._open.put(spent + ending.least, spent, node, _DOUBT)
        for take in useful(self._bits, node.state, ending.helps):
            whole = not take.clears & ~node.state
            used = node.used or take.move.means is self._by_means
            after = Node(node.state & ~take.clears, node.trusted or not whole, used)
            if self._reach(after, spent + take.ticks):
                self._by[after] = (node, take)


def _without(problem: RecoveryProblem, means: Means) -> RecoveryProblem:
    return replace(problem, moves=tuple(m for m in problem.moves if m.means is not means))


def useful(bits: RecoveryBits, state: int, helps: tuple[int, ...]) -> tuple[BitTake, ...]:
    """Return the moves that open one of some sets of steps, or what is in the way of such a move."""
    wanted = 0
    for mask in helps:
        wanted |= mask
    found = dict[int, BitTake]()
    looked_at = set[int]()
    grew = True
    while grew:
        grew = False
        for at, take in enumerate(bits.takes):
            if at in looked_at or not take.clears & wanted & state:
                continue
            looked_at.add(at)
            blockers = tuple(take.blockers(state))
            for blocker in blockers:
                wanted |= blocker
            if blockers:
                grew = True
            else:
                found[at] = take
    return tuple(found[at] for at in sorted(found))
