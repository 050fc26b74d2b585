"""How many orders a group of steps has: exact where that is affordable, else a proven bound.

Counting is hard in general (#P-complete: Brightwell and Winkler 1991, from memory), so three exact
steps come first, and one that only bounds:

- groups that no relation connects interleave freely: their counts multiply, times the multinomial;
- a group in which every step of a front part comes before every step of the rest is cut there:
  the counts multiply. With the step above this alone gives Knuth's hook formula for forests;
- what is left is counted by dynamic programming over the sets of steps that can stand at the back.
  Such a set is never a dead end (see ``from_back``), so every path counts;
- beyond the limit a valid order of the group is cut in two, and the front half is made to come
  before the rest. Adding a relation never adds an order, so the product is a lower bound.
"""

from bisect import bisect_right
from dataclasses import dataclass
from itertools import accumulate
from math import comb

import networkx as nx

Clause = tuple[int, frozenset[int]]
"""The first of the pair comes before the last of the set."""
_Layer = dict[int, tuple[int, int]]
"""By set of steps at the back: in how many orders, and the set of steps that may join it."""


@dataclass(frozen=True, slots=True)
class Group:
    """Steps in a valid order, and the clauses among them."""

    steps: tuple[int, ...]
    clauses: tuple[Clause, ...]


def count_group(group: Group, most_states: int) -> tuple[int, bool]:
    """Return in how many orders a group can be done, or a bound that they reach, and which it is.

    Args:
        group: steps in a valid order, and what ties them.
        most_states: sets of steps to look at; a group that needs more is bounded, which costs up
            to as much again for every halving of it.
    """
    number, knots = _untangle(group)
    exact, pool, size = True, most_states, sum(len(k.steps) for k in knots)
    for knot in sorted(knots, key=lambda k: len(k.steps)):
        share = pool * len(knot.steps) // size
        size -= len(knot.steps)
        ways, states = _by_sets_behind(knot, share)
        pool -= states
        if ways:
            number *= ways
            continue
        exact = False
        middle = len(knot.steps) // 2
        for half in _in_series(knot, (middle,)):
            number *= count_group(half, share // 2)[0]
    return number, exact


def _untangle(group: Group) -> tuple[int, list[Group]]:
    """Return a factor and groups: the count is the factor times the product of their counts."""
    factor, todo = 1, [group]
    knots: list[Group] = []
    while todo:
        one = todo.pop()
        apart = _apart(one)
        if len(apart) > 1:
            sizes = list(accumulate(len(part.steps) for part in apart))
            for part, size in zip(apart, sizes, strict=True):
                factor *= comb(size, len(part.steps))
            todo.extend(apart)
        elif len(one.steps) > 1:
            cut = _in_series(one, _cuts(one))
            (todo if len(cut) > 1 else knots).extend(cut)
    return factor, knots


def _apart(group: Group) -> list[Group]:
    graph: nx.Graph[int] = nx.Graph()
    graph.add_nodes_from(group.steps)
    for first, members in group.clauses:
        graph.add_edges_from((first, member) for member in members)
    home = {}
    for at, part in enumerate(nx.connected_components(graph)):
        home.update(dict.fromkeys(part, at))
    return _split(group, home)


def _in_series(group: Group, cuts: tuple[int, ...]) -> list[Group]:
    return _split(group, {s: bisect_right(cuts, at) for at, s in enumerate(group.steps)})


def _split(group: Group, home: dict[int, int]) -> list[Group]:
    """Split a group into parts; where they hang together, a part precedes those numbered higher.

    A clause with a member in a part behind its first holds by itself; members in parts before it
    are never the last and drop out.
    """
    steps: dict[int, list[int]] = {}
    clauses: dict[int, list[Clause]] = {}
    for step in group.steps:
        steps.setdefault(home[step], []).append(step)
    for first, members in group.clauses:
        here = home[first]
        if all(home[m] <= here for m in members):
            inside = frozenset(m for m in members if home[m] == here)
            clauses.setdefault(here, []).append((first, inside))
    return [Group(tuple(steps[at]), tuple(clauses.get(at, ()))) for at in sorted(steps)]


def _cuts(group: Group) -> tuple[int, ...]:
    """Return places in the order where all steps in front precede all steps behind."""
    place = {step: at for at, step in enumerate(group.steps)}
    earlier: list[list[int]] = [[] for _ in group.steps]
    for first, members in group.clauses:
        if len(members) == 1:
            earlier[place[min(members)]].append(place[first])
    before: list[int] = []
    for firsts in earlier:
        closed = 0
        for first in firsts:
            closed |= before[first] | 1 << first
        before.append(closed)
    # The lowest clear bit tells how many steps from the front precede this one without a gap.
    unbroken = [(~closed & (closed + 1)).bit_length() - 1 for closed in before]
    least = list(accumulate(reversed(unbroken), min))[::-1]
    return tuple(at for at in range(1, len(least)) if least[at] >= at)


def _by_sets_behind(group: Group, most_states: int) -> tuple[int, int]:
    """Count over the sets that can stand at the back; 0 beyond the limit. Also the sets seen."""
    place = {step: at for at, step in enumerate(group.steps)}
    needs: list[list[int]] = [[] for _ in group.steps]
    frees: list[set[int]] = [set() for _ in group.steps]
    for first, members in group.clauses:
        needs[place[first]].append(sum(1 << place[m] for m in members))
        for member in members:
            frees[place[member]].add(place[first])
    start = sum(1 << at for at, need in enumerate(needs) if not need)
    layer, seen = {0: (1, start)}, 1
    for _ in group.steps:
        layer = _one_more_behind(layer, needs, frees, most_states - seen)
        if not layer:
            return 0, most_states
        seen += len(layer)
    return next(iter(layer.values()))[0], seen


def _one_more_behind(
    layer: _Layer, needs: list[list[int]], frees: list[set[int]], most: int
) -> _Layer:
    """Return the sets with one step more, how often each is reached and what may join it next."""
    grown: _Layer = {}
    for behind, (ways, free) in layer.items():
        for at in _bits(free):
            now = behind | 1 << at
            if now in grown:
                grown[now] = (grown[now][0] + ways, grown[now][1])
                continue
            onward = free ^ 1 << at
            for first in frees[at]:
                if not now >> first & 1 and all(need & now for need in needs[first]):
                    onward |= 1 << first
            grown[now] = (ways, onward)
        if len(grown) > most:
            return {}
    return grown


def _bits(mask: int) -> list[int]:
    found = []
    while mask:
        low = mask & -mask
        found.append(low.bit_length() - 1)
        mask ^= low
    return found
