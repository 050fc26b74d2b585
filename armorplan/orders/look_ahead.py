"""The look-ahead at one moment: after which steps would everything left still be possible?

For 'before' and 'before all of' the answer is exact and needs no solver (the reasoning stands in
``relations.from_back``). ``relations.mending`` answers for one step after another while an order
grows; ``held_back`` answers for all steps at one moment. With 'after any of' and 'together'
``orders.mixed_standing`` asks here about blocks and settled choices.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from functools import reduce
from heapq import heappop, heappush
from operator import or_

from armorplan.orders.setting_aside import StillHolds
from armorplan.relations.index import RelationIndex


def held_back(
    index: RelationIndex, holds: StillHolds, free: Collection[int]
) -> dict[int, list[int]]:
    """Return, of the ``free`` steps, those that would leave a step stuck, with what holds them.

    For every step the set of free steps without which it could still be placed from the back is
    kept as the bits of one number, so that one sweep answers for all of them. The sets only grow;
    where they no longer do they are exact. A relation holds a step if without that step none of
    its members could be placed, and so its first never.

    Args:
        index: steps and relations.
        holds: the relations that hold, and an order of all steps left.
        free: steps to be answered for.
    """
    bit = {step: 1 << at for at, step in enumerate(sorted(free))}
    without = _placed_without(index, holds, bit) if bit else []
    held: dict[int, list[int]] = {}
    for at, members in enumerate(holds.live):
        for member in members if len(members) > 1 else ():
            if member in bit and not any(without[m] & bit[member] for m in members):
                held.setdefault(member, []).append(at)
    return held


def _placed_without(index: RelationIndex, holds: StillHolds, bit: Mapping[int, int]) -> list[int]:
    """Return by step the bits of the free steps without which it can still be placed."""
    live, back = holds.live, holds.back
    everyone = (1 << len(bit)) - 1
    without = [everyone] * len(index.steps)
    place = {step: at for at, step in enumerate(back)}
    touched = _leaning_on(index, live, bit)
    for step in touched:
        without[step] = 0
    todo = sorted(place[step] for step in touched)
    waiting = set(todo)
    while todo:
        at = heappop(todo)
        waiting.discard(at)
        step = back[at]
        could = everyone & ~bit.get(step, 0)
        for relation in index.by_first[step]:
            if live[relation]:
                could &= reduce(or_, (without[m] for m in live[relation]))
        if could != without[step]:
            without[step] = could
            heads = {place[index.firsts[r]] for r in index.by_member[step] if live[r]} - waiting
            waiting |= heads
            for head in heads:
                heappush(todo, head)
    return without


def _leaning_on(
    index: RelationIndex, live: Sequence[Sequence[int]], steps: Iterable[int]
) -> set[int]:
    """Return the steps and all that have to come before one of them, or may have to."""
    found = set(steps)
    spread = sorted(found)
    while spread:
        for relation in index.by_member[spread.pop()]:
            first = index.firsts[relation]
            if live[relation] and first not in found:
                found.add(first)
                spread.append(first)
    return found
