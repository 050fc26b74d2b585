"""Chains of holes among spots in the plane: which lie in a row, which two belong together."""

from cmath import phase
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise
from math import inf, pi

import numpy as np

from armorplan.geometry.alike.closed_lines import Reals, Spots

LIKE_MM = 0.6
"""Holes for one fastener differ by no more than this: half a millimetre between two punches of a
set, and what a drawing rounds (common practice, no source)."""
FURTHEST_MM = 80.0
"""Rivets of a row stand no farther apart; two holes farther apart are a pair, not a row."""
Dots = Sequence[complex]
"""Centres of holes in mm, as plain complex numbers, which are quicker one by one than an array."""
Chain = tuple[int, ...]
"""Numbers of spots in their order along a row."""
_NEIGHBOURS, _AT_ONCE = 8, 4_096
_TURN_DEG = 50.0
_UNEVEN = 1.8
"""A spacing may be so many times the one before it."""
_BREAK = 1.15
"""Where spacings change by more, a row may end and the next begin."""
_PAIR = 1.1
"""Two holes are a pair where every other is so many times farther off."""
_BESIDE = 0.3
"""A hole lies beside the end of a pair where it is nearer than so much of the pair's length."""
_FEWEST, _MOST = 3, 500
"""More holes in a row than this are sewn or pricked with a wheel: nobody joins them one by one."""
_MOST_PAIRED, _MOST_FAR = 40, 24
"""Among more holes of one size in one part no two are looked at as a pair, near or far apart."""
_MOST_AMID, _IN_ROW = 150, 2
"""Among more holes of one size only those with two neighbours are looked at as rows: the rest is a
field of pricking or of punched ornament."""
_MANY, _FINE_MM = 100, 0.05
"""Sizes of so many holes are told apart no finer than this."""
_HAIR = 1e-6


def alike_groups(sizes: Reals) -> Iterator[list[int]]:
    """Yield groups of holes of like size: nearly the same ones, then all within ``LIKE_MM``."""
    order = np.argsort(sizes, kind="stable")
    rising = sizes[order]
    for within_mm in (LIKE_MM / 4, LIKE_MM):
        until = np.searchsorted(rising, rising + within_mm + _HAIR, "right")
        wider_mm = _FINE_MM if len(sizes) > _MANY else 0.0
        last, end_mm = 0, -inf
        for first, end in enumerate(until.tolist()):
            if end - first > 1 and end > last and rising[end - 1] >= end_mm + wider_mm:
                yield sorted(order[first:end].tolist())
                last, end_mm = end, rising[end - 1]


def chains(group: Sequence[int], spots: Dots) -> Iterator[tuple[Chain, bool]]:
    """Yield chains of neighbours that run on without a sharp turn, and the even stretches of them.

    Any two of few holes are one too; whether it stands for itself is told beside each.
    """
    steps = [(group[a], group[b]) for a, b in _steps(np.array([spots[at] for at in group]))]
    for one, other in combinations(group if len(group) <= _MOST_PAIRED else (), 2):
        if _HAIR < abs(spots[one] - spots[other]) <= FURTHEST_MM:
            yield (one, other), _keeps_apart(one, other, group, spots)
    nexts = _nexts(steps, many=len(group) > _MOST_AMID)
    gone: set[tuple[int, int]] = set()
    for one, others in nexts.items():
        for other in others:
            if (one, other) in gone:
                continue
            ahead = _onward([one, other], nexts, spots)
            whole = tuple(_onward(ahead[::-1], nexts, spots))
            gone.update(pairwise(whole))
            gone.update(pairwise(whole[::-1]))
            if _FEWEST <= len(whole) <= _MOST:
                yield _ring_from_first(whole, nexts), True
                yield from ((stretch, True) for stretch in _stretches(whole, spots))


def _nexts(steps: Sequence[tuple[int, int]], *, many: bool) -> dict[int, list[int]]:
    """Return the neighbours of each spot; among many only of those that stand in a row, not amid."""
    found: dict[int, list[int]] = {}
    for one, other in steps:
        found.setdefault(one, []).append(other)
    if not many:
        return found
    rows = {at for at, others in found.items() if len(others) <= _IN_ROW}
    return {at: [each for each in found[at] if each in rows] for at in sorted(rows)}


def _ring_from_first(chain: Chain, nexts: dict[int, list[int]]) -> Chain:
    """Return a chain that closes on itself so that it begins at its first spot; others as they are."""
    if len(chain) <= _FEWEST or chain[-1] not in nexts.get(chain[0], ()):
        return chain
    at = chain.index(min(chain))
    turned = (*chain[at:], *chain[:at])
    return min(turned, (turned[0], *turned[:0:-1]))


def _keeps_apart(one: int, other: int, group: Sequence[int], spots: Dots) -> bool:
    span = abs(spots[one] - spots[other])
    rest = [i for i in group if i not in (one, other)]
    near = [abs(spots[i] - spots[end]) for i in rest for end in (one, other)]
    return not near or min(near) >= _PAIR * span


def _steps(spots: Spots) -> list[tuple[int, int]]:
    """Return pairs of holes with no hole between them (relative neighbours, Toussaint 1980)."""
    from scipy.spatial import cKDTree

    flat = np.column_stack((spots.real, spots.imag))
    near = min(_NEIGHBOURS + 1, len(spots))
    far_mm, who = (np.asarray(each) for each in cKDTree(flat).query(flat, k=near))
    found: list[tuple[int, int]] = []
    for start in range(0, len(spots), _AT_ONCE):
        ones = np.arange(start, min(start + _AT_ONCE, len(spots)))
        far, other = far_mm[ones], who[ones]
        is_near = (far <= FURTHEST_MM) & (other != ones[:, None]) & (far > 0)
        is_near[:, 0] = False
        # Axes: the hole, its neighbour, and a third that may lie between both.
        beside = np.abs(spots[other][:, None, :] - spots[other][:, :, None])
        less = far[:, :, None] - _HAIR
        is_third = (other != ones[:, None])[:, None, :]
        between = (beside < less) & (far[:, None, :] < less) & is_third
        at, which = np.nonzero(is_near & ~between.any(axis=2))
        found += zip(ones[at].tolist(), other[at, which].tolist(), strict=True)
    return found


def _onward(chain: list[int], nexts: dict[int, list[int]], spots: Dots) -> list[int]:
    """Return a chain gone on from its end, each time to the hole that lies straightest ahead."""
    chain = list(chain)
    held = set(chain)
    while True:
        way = spots[chain[-1]] - spots[chain[-2]]
        best, straight = None, _TURN_DEG / 180 * pi
        for other in nexts.get(chain[-1], ()):
            step = spots[other] - spots[chain[-1]]
            ratio = abs(step) / abs(way)
            turn = abs(phase(step / way))
            if other not in held and 1 / _UNEVEN <= ratio <= _UNEVEN and turn <= straight:
                best, straight = other, turn
        if best is None:
            return chain
        chain.append(best)
        held.add(best)


def _stretches(chain: Chain, spots: Dots) -> Iterator[Chain]:
    """Yield the even stretches of a chain whose spacing changes underway."""
    spans = [abs(spots[b] - spots[a]) for a, b in pairwise(chain)]
    breaks = [
        at + 1 for at, (a, b) in enumerate(pairwise(spans)) if max(a, b) > _BREAK * min(a, b)
    ]
    for start, end in pairwise((0, *breaks, len(chain) - 1)):
        if end - start >= _FEWEST - 1 and end - start < len(chain) - 1:
            yield chain[start : end + 1]


def far_pairs(group: Sequence[int], spots: Dots, least_mm: float) -> Iterator[Chain]:
    """Yield two holes far apart, none of them slanting where two such pairs lie side by side."""
    for one, other in combinations(group if len(group) <= _MOST_FAR else (), 2):
        apart_mm = abs(spots[one] - spots[other])
        if apart_mm < least_mm:
            continue
        shorter = (
            abs(spots[near] - spots[stays]) < apart_mm - _HAIR
            for end, stays in ((one, other), (other, one))
            for near in group
            if near != end and abs(spots[near] - spots[end]) < _BESIDE * apart_mm
        )
        if not any(shorter):
            yield one, other
