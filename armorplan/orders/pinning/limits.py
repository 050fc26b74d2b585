"""When seams have their pins, as sums: for each set of kinds, how many joints take nothing else.

By P. Hall's theorem (On representatives of subsets, 1935) all joints have a pin where none of these
sums is above what there is of those kinds. A search asks that of thousands of sets of seams.
"""

from collections.abc import Iterator, Sequence
from itertools import combinations

from armorplan.orders.pinning.model import PinProblem, PinSpot

MOST_ALIKE = 8
"""Joints of so many different choices of kinds: 255 sums."""

Limit = tuple[tuple[int, ...], int]
"""What each seam, in the problem's order, takes of some pins, and how many of these there are."""


def limits_of(problem: PinProblem) -> tuple[Limit, ...] | None:
    """Return the sums that tell whether seams have their pins; ``None``: there are too many."""
    choices = sorted({_choice(spot) for seam in problem.seams for spot in seam.spots})
    if len(choices) > MOST_ALIKE:
        return None
    least: dict[tuple[int, ...], int] = {}
    for needs, held in _limits(problem, choices):
        least[needs] = min(held, least.get(needs, held))
    return tuple((needs, held) for needs, held in least.items() if sum(needs) > held)


def _limits(problem: PinProblem, choices: Sequence[tuple[str, ...]]) -> Iterator[Limit]:
    if problem.stock.most is not None:
        yield tuple(len(seam.spots) for seam in problem.seams), problem.stock.most
    for size in range(1, len(choices) + 1):
        for some in combinations(choices, size):
            kinds = {kind for choice in some for kind in choice}
            counts = [problem.stock.counts.get(kind, 0) for kind in kinds]
            known = [count for count in counts if count is not None]
            if len(known) == len(counts):
                needs = (sum(_choice(s) in some for s in seam.spots) for seam in problem.seams)
                yield tuple(needs), sum(known)


def _choice(spot: PinSpot) -> tuple[str, ...]:
    return tuple(sorted(spot.kinds))
