"""The order of least effort by subsets: exact, up to 14 atoms.

For each set of atoms the least extra work of doing it first is kept; the last of the set is any
that may come last of it. Of all orders of least work one with the least changes is taken, and of
those the first by the listing.
"""

from functools import cache

from armorplan.orders.effort_bits import EffortBits, Worked, after, each_bit

MOST_ATOMS = 14
"""Up to so many the subsets are gone through: 16,384 sets, a quarter of a second."""
MOST_STANDS = 40_000
"""States of the second criterion looked at; beyond, the listing decides alone."""

_NEVER = 1 << 60


def by_subsets(bits: EffortBits) -> tuple[int, ...] | None:
    """Return the order of least effort; ``None`` where the hard relations leave no order."""
    least = _least(bits)
    if least[bits.everything] >= _NEVER:
        return None
    ways = _ways_on(bits, least)
    return _fewest_changes(bits, ways) or _by_listing(bits, ways)


def _least(bits: EffortBits) -> list[int]:
    least = [_NEVER] * (bits.everything + 1)
    least[0] = 0
    for done in range(1, bits.everything + 1):
        best = _NEVER
        for at in each_bit(done):
            rest = done & ~(1 << at)
            if least[rest] < best and bits.may_be_last(at, done):
                best = min(best, least[rest] + bits.dearer(at, rest))
        least[done] = best
    return least


def _ways_on(bits: EffortBits, least: list[int]) -> dict[int, list[int]]:
    """Return by set that some order of least work does first, the atoms that may follow it."""
    ways: dict[int, list[int]] = {}
    todo, seen = [bits.everything], {bits.everything}
    while todo:
        done = todo.pop()
        for at in each_bit(done):
            rest = done & ~(1 << at)
            if not bits.may_be_last(at, done) or least[rest] >= _NEVER:
                continue
            if least[rest] + bits.dearer(at, rest) == least[done]:
                ways.setdefault(rest, []).append(at)
                if rest not in seen:
                    seen.add(rest)
                    todo.append(rest)
    return {done: sorted(found) for done, found in ways.items()}


def _by_listing(bits: EffortBits, ways: dict[int, list[int]]) -> tuple[int, ...]:
    order, done = list[int](), 0
    while done != bits.everything:
        order.append(ways[done][0])
        done |= 1 << order[-1]
    return tuple(order)


def _fewest_changes(bits: EffortBits, ways: dict[int, list[int]]) -> tuple[int, ...] | None:
    """Return the order with the least for tools and turning; ``None`` where it grows too large."""
    if len(ways) > MOST_STANDS:
        return None

    @cache
    def left(done: int, last: Worked) -> int:
        if done == bits.everything:
            return 0
        return min(step(done, last, at) for at in ways[done])

    def step(done: int, last: Worked, at: int) -> int:
        now = bits.worked(at, done)
        return bits.change(last, now) + left(done | 1 << at, after(last, now))

    order, done, last = list[int](), 0, ("", "")
    while done != bits.everything:
        at = min(ways[done], key=lambda one: step(done, last, one))
        last = after(last, bits.worked(at, done))
        order.append(at)
        done |= 1 << at
    return tuple(order)
