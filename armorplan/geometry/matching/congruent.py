"""Holes in no row, three and more, that one motion lays on holes of another part."""

from collections.abc import Iterator, Sequence
from itertools import combinations

import numpy as np

from armorplan.geometry.alike.closed_lines import Numbers, Reals, Spots, Truths
from armorplan.geometry.matching.chains import LIKE_MM, Dots
from armorplan.geometry.matching.laying import misses
from armorplan.kernel.stopping import ShouldStop, go_on, never

Pairs = tuple[tuple[int, int], ...]
"""Numbers of holes of the first set and of the second, each with its like."""
LEAST = 3
MOST_COMMON = 8_000
"""So many distances in common are looked at closer, those of the parts first that have the most."""
_MOST_ALIKE = 3_000_000
"""Of all distances those with the fewest like them tell the most: no more pairs are compared."""
_MOST_LAID = 1_000
"""Of two patterns of pricking no more ways to lie on each other are tried."""
_MOST_TRIED = 8
"""Of more holes than this not every choice is tried: the one that misses most is left out."""
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
    count = _rarest(until - np.arange(len(far_mm)) - 1)
    go_on(should_stop)
    one = np.repeat(np.arange(len(far_mm)), count)
    other = np.arange(len(one)) - np.repeat(np.cumsum(count) - count, count) + one + 1
    first, second = np.minimum(of[one], of[other]), np.maximum(of[one], of[other])
    keys = (first * len(spots) + second)[first != second]
    go_on(should_stop)
    found, times = np.unique(keys, return_counts=True)
    likely = np.argsort(-times, kind="stable")
    likely = likely[np.cumsum(times[likely]) <= MOST_COMMON]
    for at in likely[times[likely] >= LEAST].tolist():
        go_on(should_stop)
        yield divmod(int(found[at]), len(spots))


def _distances(spots: Sequence[Spots]) -> tuple[Reals, Numbers]:
    """Return all distances between two holes of one part, and the number of the part."""
    far_mm, of = [np.zeros(0)], [np.zeros(0, dtype=np.int64)]
    for number, here in enumerate(spots):
        one, other = np.triu_indices(len(here), 1)
        between = np.abs(here[one] - here[other])
        # Holes on one spot are one hole drawn twice.
        far_mm.append(between[between > _HAIR])
        of.append(np.full(len(far_mm[-1]), number))
    return np.concatenate(far_mm), np.concatenate(of)


def _rarest(count: Numbers) -> Numbers:
    """Return how many others are like each distance, 0 for the commonest where all are too many."""
    order = np.argsort(count, kind="stable")
    kept = order[np.cumsum(count[order]) <= _MOST_ALIKE]
    rare = np.zeros_like(count)
    rare[kept] = count[kept]
    return rare


def common_sets(
    first: Spots,
    second: Spots,
    sizes: tuple[Reals, Reals],
    misfit_mm: float,
    should_stop: ShouldStop = never,
) -> tuple[Pairs, ...]:
    """Return the sets of three holes and more that one motion lays on holes of a second set.

    Turned over or not; none is part of another. No hole then misses by more than the misfit.

    Args:
        first: holes of one part.
        second: holes of another.
        sizes: their diameters in mm.
        misfit_mm: a hole may be off by this much.
        should_stop: asked now and then.

    Raises:
        StoppedError: it was asked to stop.
    """
    like = np.abs(sizes[0][:, None] - sizes[1]) <= LIKE_MM + _HAIR
    found: set[Pairs] = set()
    for over in (False, True):
        there = second.conj() if over else second
        go_on(should_stop)
        for near in sorted(set(_near(first, there, like, misfit_mm))):
            go_on(should_stop)
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
    for base, laid in np.argwhere(fits)[:_MOST_LAID].tolist():
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
    if len(near) > _MOST_TRIED:
        return _without_the_worst(ones, others, near, misfit_mm)
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


def _without_the_worst(ones: Dots, others: Dots, near: Pairs, misfit_mm: float) -> set[Pairs]:
    """Return a set that lies within the misfit, after the pair that misses most was left out each time."""
    kept = _once_each(near)
    while len(kept) >= LEAST:
        here, there = [ones[a] for a, _ in kept], [others[b] for _, b in kept]
        motion = misses(here, there)
        if motion.most_mm <= misfit_mm:
            return {tuple(sorted(kept))}
        middle, amid = sum(here) / len(here), sum(there) / len(there)
        far = [
            abs(a - middle - motion.turn * (b - amid)) for a, b in zip(here, there, strict=True)
        ]
        kept.pop(far.index(max(far)))
    return set()


def _once_each(near: Pairs) -> list[tuple[int, int]]:
    """Return pairs in which no hole stands twice, the first of each in their order."""
    kept: list[tuple[int, int]] = []
    for a, b in near:
        if all(a != c and b != d for c, d in kept):
            kept.append((a, b))
    return kept
