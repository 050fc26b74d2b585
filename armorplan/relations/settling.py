"""Making the choices of a mix so that all of it can be kept, or telling why none will do.

To decide whether an order keeps 'after any of' and 'together' beside the rest is hard in general
(betweenness is a case of it: J. Opatrny, 'Total ordering problem', SIAM Journal on Computing 8,
1979, from memory). So this is a search, but one that is asked only where it matters: whatever the
present order happens to keep is left open; the first thing it breaks is settled one way or the
other and the order mended (``mending``, no new start); where no way is left, the search goes back
to the last choice that had part in it. It ends: with an order that keeps everything, with
relations that cannot all hold, or at a stated number of dead ends without an answer.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from armorplan.relations.from_back import order_from_back
from armorplan.relations.knots import conflict_left
from armorplan.relations.mending import LookAhead
from armorplan.relations.mixing import Choice, Mix

MOST_DEAD_ENDS = 400
"""Dead ends after which a search gives up undecided; one costs some 10 ms at 2,000 steps."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Settled:
    """How a search ended.

    Attributes:
        order: steps and blocks not begun, in an order that keeps all clauses that count; empty
            where there is a ``core``.
        active: by clause, 1 where it counts: what is fixed, and if ``possible`` one way of each
            choice.
        core: relations that cannot all hold; empty if it is possible or undecided.
        decided: ``False`` where the search gave up.
    """

    order: tuple[int, ...] = ()
    active: bytes = b""
    core: frozenset[int] = frozenset()
    decided: bool = True

    @property
    def possible(self) -> bool:
        """Tell whether an order was found that keeps everything."""
        return self.decided and not self.core


@dataclass(slots=True)
class _Blame:
    """What had part in dead ends: clauses that count, and relations whose every way failed."""

    clauses: set[int] = field(default_factory=set)
    relations: set[int] = field(default_factory=set)


@dataclass(slots=True)
class _Settling:
    """One choice under way: the ways still to try, the one that counts, what spoke against others."""

    choice: Choice
    ways: list[tuple[int, ...]]
    way: tuple[int, ...] = ()
    blame: _Blame = field(default_factory=_Blame)


def settle(
    mixed: Mix,
    *,
    first: Iterable[int] = (),
    order: Sequence[int] | None = None,
    most_dead_ends: int = MOST_DEAD_ENDS,
) -> Settled:
    """Settle the choices of a mix.

    Args:
        mixed: relations in one shape.
        first: a step and the blocks around it that are to come next of all.
        order: an order of all that is left to begin with; it keeps what is fixed.
        most_dead_ends: when to give up.
    """
    if mixed.clash:
        return Settled(core=mixed.clash)
    return _Search(mixed, order).run(tuple(first), most_dead_ends)


class _Search:
    def __init__(self, mixed: Mix, order: Sequence[int] | None) -> None:
        self._mix = mixed
        self._left = bytearray(mixed.left)
        self._active = bytearray(mixed.fixed)
        self._look = LookAhead(mixed.index, left=self._left, active=self._active, order=order)
        self._settled: list[_Settling] = []

    def run(self, first: tuple[int, ...], most_dead_ends: int) -> Settled:
        """Search until there is an answer or the dead ends are used up."""
        if not self._look.possible:
            return self._failed(self._spoken_against())
        for one in first:
            if not self._look.take(one):
                self._left[one] = 0
                return self._failed(self._spoken_against())
        dead_ends = 0
        while (choice := self._broken()) is not None:
            self._settled.append(_Settling(choice=choice, ways=self._nearest_first(choice)))
            while not self._next_way(self._settled[-1]):
                dead_ends += 1
                if dead_ends > most_dead_ends:
                    order = (*first, *self._onward())
                    return Settled(order=order, active=self._mix.fixed, decided=False)
                blame = self._go_back()
                if blame is not None:
                    return self._failed(blame)
        return Settled(order=(*first, *self._onward()), active=self._one_way_each())

    def _one_way_each(self) -> bytes:
        """Return the clauses of one way of each choice: the settled one, or one the order keeps."""
        active = bytearray(self._mix.fixed)
        settled = {id(one.choice): one.way for one in self._settled}
        for choice in self._mix.choices:
            way = settled.get(id(choice)) or next(w for w in choice.ways if self._keeps(w))
            for at in way:
                active[at] = 1
        return bytes(active)

    def _onward(self) -> tuple[int, ...]:
        return tuple(one for one in self._look.order if self._left[one])

    def _broken(self) -> Choice | None:
        """Return a choice that the present order does not keep, of those with the fewest ways."""
        broken = (c for c in self._mix.choices if not any(map(self._keeps, c.ways)))
        return min(broken, key=lambda choice: len(choice.ways), default=None)

    def _keeps(self, way: tuple[int, ...]) -> bool:
        firsts = self._mix.index.firsts
        return all(not self._left[firsts[at]] or self._look.holds(at) for at in way)

    def _nearest_first(self, choice: Choice) -> list[tuple[int, ...]]:
        """Return the ways, the one that moves least last: it is tried first."""
        return sorted(choice.ways, key=self._distance, reverse=True)

    def _distance(self, way: tuple[int, ...]) -> int:
        index, rank = self._mix.index, self._look.rank
        return sum(
            max(0, rank[index.firsts[at]] - max(rank[m] for m in index.members[at])) for at in way
        )

    def _next_way(self, settling: _Settling) -> bool:
        """Make the next way count that can be kept; tell whether there was one."""
        firsts = self._mix.index.firsts
        while settling.ways:
            way = settling.ways.pop()
            added = []
            for at in way:
                if not self._left[firsts[at]]:
                    continue
                if self._look.add(at):
                    added.append(at)
                    continue
                self._active[at] = 1
                found = self._spoken_against()
                settling.blame.clauses |= found.clauses - set(way)
                settling.blame.relations |= found.relations
                self._drop((*added, at))
                break
            else:
                settling.way = way
                return True
        settling.blame.relations |= settling.choice.made_by
        return False

    def _go_back(self) -> _Blame | None:
        """Give up the last choice and all that had no part in it; the blame where none is left."""
        blame = self._settled.pop().blame
        while self._settled:
            last = self._settled[-1]
            self._drop(last.way)
            if not blame.clauses.isdisjoint(last.way):
                last.blame.clauses |= blame.clauses - set(last.way)
                last.blame.relations |= blame.relations
                return None
            self._settled.pop()
        return blame

    def _drop(self, way: Iterable[int]) -> None:
        for at in way:
            self._look.drop(at)

    def _spoken_against(self) -> _Blame:
        """Return the clauses that count and cannot all hold."""
        index = self._mix.index
        back = order_from_back(index, self._left, self._active)
        return _Blame(clauses=set(conflict_left(index, self._left, self._active, back)))

    def _failed(self, blame: _Blame) -> Settled:
        made_by = self._mix.made_by
        relations = blame.relations.union(*(made_by[at] for at in blame.clauses))
        return Settled(core=frozenset(relations))
