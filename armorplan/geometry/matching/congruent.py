"""Holes in no row, three and more, that one motion lays on holes of another part."""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from armorplan.geometry.alike.closed_lines import Numbers, Reals, Spots, Truths
from armorplan.geometry.matching.chains import LIKE_MM
from armorplan.geometry.matching.laying import misses
from armorplan.kernel.stopping import ShouldStop, go_on, never

Pairs = tuple[tuple[int, int], ...]
"""Numbers of holes of the first set and of the second, each with its like."""
LEAST = 3
MOST_PARTS = 2_000
"""So many pairs of parts are looked at, those first that have most distances in common."""
_HAIR = 1e-6


def like_pairs(
    spots: Sequence[Spots], misfit_mm: float, should_stop: ShouldStop = never
) -> Iterator[tuple[int, int]]:
    """Yield pairs of parts whose holes have three distances in common, the most first.

    Args:
        spots: the holes of each part.
        misfit_mm: a hole may be off by this much, so that a distance is by twice that.
        should_stop: asked now and then.
    """
    go_on(should_stop)
    far_mm, of = _distances(spots)
    order = np.argsort(far_mm, kind="stable")
    far_mm, of = far_mm[order], of[order]
    until = np.searchsorted(far_mm, far_mm + 2 * misfit_mm, "right")
    count = until - np.arange(len(far_mm)) - 1
    one = np.repeat(np.arange(len(far_mm)), count)
    other = np.arange(len(one)) - np.repeat(np.cumsum(count) - count, count) + one + 1
    first, second = np.minimum(of[one], of[other]), np.maximum(of[one], of[other])
    keys = (first * len(spots) + second)[first != second]
    found, times = np.unique(keys, return_counts=True)
    likely = np.argsort(-times, kind="stable")[:MOST_PARTS]
    for at in likely[times[likely] >= LEAST].tolist():
        go_on(should_stop)
        yield divmod(int(found[at]), len(spots))


def _distances(spots: Sequence[Spots]) -> tuple[Reals, Numbers]:
    """Return all distances between two holes of one part, and the number of the part."""
    far_mm, of = [np.zeros(0)], [np.zeros(0, dtype=np.int64)]
    for number, here in enumerate(spots):
        one, other = np.triu_indices(len(here), 1)
        far_mm.append(np.abs(here[one] - here[other]))
        of.append(np.full(len(one), number))
    return np.concatenate(far_mm), np.concatenate(of)


def common_sets(
    first: Spots, second: Spots, sizes: tuple[Reals, Reals], misfit_mm: float
) -> tuple[Pairs, ...]:
    """Return the sets of three holes and more that one motion lays on holes of a second set.

    Turned over or not; none is part of another. No hole then misses by more than the misfit.

    Args:
        first: holes of one part.
        second: holes of another.
        sizes: their diameters in mm.
        misfit_mm: a hole may be off by this much.
    """
    like = np.abs(sizes[0][:, None] - sizes[1]) <= LIKE_MM + _HAIR
    found: set[Pairs] = set()
    for over in (False, True):
        there = second.conj() if over else second
        for near in set(_near(first, there, like, misfit_mm)):
            found |= _sound(first, there, near, misfit_mm)
    kept: list[Pairs] = []
    for each in sorted(found, key=lambda pairs: (-len(pairs), pairs)):
        if not any(set(each) <= set(other) for other in kept):
            kept.append(each)
    return tuple(kept)


def _near(first: Spots, second: Spots, like: Truths, misfit_mm: float) -> Iterator[Pairs]:
    """Yield, for each two holes laid on two others, which of all then lie near which.

    Where the two that lie farthest apart are laid on each other, the others of a set that fits
    are off by less than four misfits: one of their own, one for the shift, and √3 for the turn.
    """
    one, other = np.triu_indices(len(first), 1)
    way = first[other] - first[one]
    into, upon = (at.ravel() for at in np.indices((len(second), len(second))))
    there = second[upon] - second[into]
    fits = np.abs(np.abs(way)[:, None] - np.abs(there)) <= 2 * misfit_mm
    fits &= (np.abs(there) > _HAIR) & (np.abs(way)[:, None] > _HAIR)
    fits &= like[one][:, into] & like[other][:, upon]
    for base, laid in np.argwhere(fits).tolist():
        turn = way[base] / there[laid]
        middle = (first[one[base]] + first[other[base]]) / 2
        amid = (second[into[laid]] + second[upon[laid]]) / 2
        moved = middle + turn / abs(turn) * (second - amid)
        near = np.argwhere(like & (np.abs(first[:, None] - moved) <= 4 * misfit_mm))
        if len(near) >= LEAST:
            yield tuple((a, b) for a, b in near.tolist())


def _sound(first: Spots, second: Spots, near: Pairs, misfit_mm: float) -> set[Pairs]:
    """Return the largest sets, each hole with one other, that then lie within the misfit."""
    ones, others = first.tolist(), second.tolist()
    for count in range(len(near), LEAST - 1, -1):
        fitting = {
            kept
            for kept in combinations(near, count)
            if len({a for a, _ in kept}) == len({b for _, b in kept}) == count
            and misses([ones[a] for a, _ in kept], [others[b] for _, b in kept]).most_mm
            <= misfit_mm
        }
        if fitting:
            return fitting
    return set()
