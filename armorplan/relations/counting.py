"""How many orders keep all relations: exact up to stated limits, else a proven 'at least'.

'Before' and 'before all of' are counted group by group (``group_counting``). With 'together' each
block is counted by itself, and from outside as one thing: steps of different blocks never
interleave. 'After any of', and 'before all of' across the border of a block, can be kept in
several ways (``mixing``); every order keeps a first of them and none of those before it, so the
orders fall into cases that are counted one by one. The opposite of 'before the last of a set' is
'after all of it': each case is made of plain relations again.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from math import comb, floor, log10

import networkx as nx

from armorplan.relations.from_back import order_from_back
from armorplan.relations.group_counting import Clause, Group, count_group
from armorplan.relations.index import index_clauses, index_relations
from armorplan.relations.mixing import Choice, Mix, mix
from armorplan.relations.model import Relation
from armorplan.relations.settling import Settled, settle

MOST_STATES = 100_000
"""Sets of steps looked at before settling for a bound; half a second for a group of 200 steps."""
MOST_CASES = 1_000
"""Cases of one group looked at before settling for a bound."""
_MOST_CHOICES = 100
_SHORT = 10**9


@dataclass(frozen=True, slots=True, kw_only=True)
class Count:
    """A number of orders; where not ``exact``, a number that they are proven to reach."""

    number: int
    exact: bool

    def __str__(self) -> str:
        """Write the number for a person, a long one as a power of ten rounded down."""
        said = f"{self.number:,}" if self.number < _SHORT else _power(self.number)
        if self.exact:
            return said if self.number < _SHORT else f"about {said}"
        return f"at least {said}"


def _power(number: int) -> str:
    # In whole numbers to the end: a bound must not grow by rounding.
    tens = floor(log10(number))
    tens += (number >= 10 ** (tens + 1)) - (number < 10**tens)
    whole, tenth = divmod(number // 10 ** (tens - 1), 10)
    return f"{whole}.{tenth} × 10^{tens}"


def count_orders(
    steps: Iterable[str], relations: Iterable[Relation], *, most_states: int = MOST_STATES
) -> Count:
    """Count the orders of the steps that keep all these relations.

    Args:
        steps: step ids.
        relations: all count, whatever their force, but for overruled ones.
        most_states: sets of steps to look at; a group that needs more is bounded, which costs up
            to as much again for every halving of it.
    """
    index = index_relations(steps, relations)
    left, active = index.left_after(()), bytearray(index.plain)
    counted = [at for at in index.others if not index.relations[at].reason.overruled]
    if counted:
        for at in counted:
            active[at] = 1
        return _count_mix(mix(index, left, active), most_states)
    back = order_from_back(index, left, active)
    if len(back) < len(index.steps):
        return Count(number=0, exact=True)
    clauses = {
        (first, frozenset(members))
        for at, (first, members) in enumerate(zip(index.firsts, index.members, strict=True))
        if active[at]
    }
    whole = Group(tuple(reversed(back)), tuple(sorted(clauses, key=_sortable)))
    number, exact = count_group(whole, most_states)
    return Count(number=number, exact=exact)


def _sortable(clause: Clause) -> tuple[int, tuple[int, ...]]:
    return clause[0], tuple(sorted(clause[1]))


def _count_mix(mixed: Mix, most_states: int) -> Count:
    settled = settle(mixed)
    if settled.core:
        return Count(number=0, exact=True)
    parents, number, exact = mixed.blocks.parents, 1, True
    beside: dict[int, int] = {}
    for tied in _tied(mixed):
        bunch = _Bunch(mixed, tied, most_states * len(tied) // len(parents))
        ways, is_exact = bunch.count(settled)
        number, exact = number * ways, exact and is_exact
        # What nothing ties interleaves freely with what lies in the same block.
        for block in {parents[one] for one in tied}:
            count = sum(parents[one] == block for one in tied)
            beside[block] = beside.get(block, 0) + count
            number *= comb(beside[block], count)
    return Count(number=number, exact=exact)


def _tied(mixed: Mix) -> Iterator[list[int]]:
    """Yield steps and blocks that clauses and choices tie to each other."""
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(range(len(mixed.left)))
    index = mixed.index
    for at, counts in enumerate(mixed.fixed):
        if counts:
            graph.add_edges_from((index.firsts[at], m) for m in index.members[at])
    for choice in mixed.choices:
        named = [
            one
            for way in choice.ways
            for at in way
            for one in (index.firsts[at], *index.members[at])
        ]
        graph.add_edges_from((named[0], one) for one in named)
    for found in nx.connected_components(graph):
        yield sorted(found)


@dataclass(slots=True)
class _Bunch:
    """Steps and blocks that hang together, counted case by case."""

    mixed: Mix
    ones: list[int]
    most_states: int
    cases: int = field(default=0, init=False)
    exact: bool = field(default=True, init=False)

    def count(self, settled: Settled) -> tuple[int, bool]:
        """Return the number of orders, or a bound, and which it is."""
        mine, index = frozenset(self.ones), self.mixed.index
        fixed = self._counting(self.mixed.fixed)
        choices = [c for c in self.mixed.choices if index.firsts[c.ways[0][0]] in mine]
        number = self._cases(fixed, choices)
        if not self.exact and settled.possible:
            number = max(number, self._by_block(self._counting(settled.active)))
        return number, self.exact

    def _cases(self, clauses: list[Clause], choices: Sequence[Choice]) -> int:
        """Return the orders that keep the clauses and one way of each choice, case by case."""
        if self.cases >= MOST_CASES or len(choices) > _MOST_CHOICES:
            self.exact = False
            return 0
        if not choices:
            self.cases += 1
            return self._by_block(clauses)
        if not self._order(clauses):
            return 0
        number, opposite = 0, list[Clause]()
        for way in choices[0].ways:
            kept = [self._clause(at) for at in way]
            number += self._cases([*clauses, *opposite, *kept], choices[1:])
            if len(kept) == 1:  # The two ways of a series exclude each other as they are.
                ((first, members),) = kept
                opposite += [(member, frozenset((first,))) for member in sorted(members)]
        return number

    def _by_block(self, clauses: list[Clause]) -> int:
        """Return in how many orders plain clauses can be kept, each block by itself."""
        order = self._order(clauses)
        parents, number = self.mixed.blocks.parents, int(bool(order))
        for block in sorted({parents[one] for one in order}):
            mine = [one for one in order if parents[one] == block]
            inside = {clause for clause in clauses if parents[clause[0]] == block}
            group = Group(tuple(mine), tuple(sorted(inside, key=_sortable)))
            ways, exact = count_group(group, self.most_states)
            number, self.exact = number * ways, self.exact and exact
        return number

    def _order(self, clauses: list[Clause]) -> list[int]:
        """Return a valid order; empty where there is none."""
        number = {one: at for at, one in enumerate(self.ones)}
        pairs = [(number[f], tuple(number[m] for m in ms)) for f, ms in clauses]
        small = index_clauses([""] * len(number), pairs, ())
        back = order_from_back(small, small.left_after(()), bytearray(small.plain))
        return [self.ones[at] for at in reversed(back)] if len(back) == len(self.ones) else []

    def _counting(self, active: bytes) -> list[Clause]:
        mine = frozenset(self.ones)
        here = (at for at, first in enumerate(self.mixed.index.firsts) if first in mine)
        return [self._clause(at) for at in here if active[at]]

    def _clause(self, at: int) -> Clause:
        return self.mixed.index.firsts[at], frozenset(self.mixed.index.members[at])
