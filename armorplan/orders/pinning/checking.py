"""Checks rounds against their problem, by none of the search's own means."""

from collections.abc import Iterator
from itertools import chain, combinations

from armorplan.orders.pinning.model import PinProblem, Rounds


def faults_of(problem: PinProblem, found: Rounds) -> tuple[str, ...]:
    """Return what is wrong with rounds, in words; empty where they keep the problem."""
    each = enumerate(found.rounds, start=1)
    pins = chain.from_iterable(_too_many(problem, on, number) for number, on in each)
    return (*pins, *_unseen(problem, found))


def _too_many(problem: PinProblem, seams: tuple[str, ...], number: int) -> Iterator[str]:
    """Yield where a round takes more pins than there are.

    It has its pins where no set of kinds is all that so many joints take as there are not of it
    (P. Hall, On representatives of subsets, 1935).
    """
    spots, stock = problem.spots(seams), problem.stock
    if stock.most is not None and len(spots) > stock.most:
        yield f"Round {number} takes {len(spots)} pins of {stock.most}."
    asked = sorted({kind for spot in spots for kind in spot.kinds})
    for kinds in chain.from_iterable(combinations(asked, size) for size in range(len(asked) + 1)):
        counts = [stock.counts.get(kind, 0) for kind in kinds]
        bound_to = sum(set(spot.kinds) <= set(kinds) for spot in spots)
        if None not in counts and bound_to > sum(filter(None, counts)):
            yield f"Round {number} takes {bound_to} pins of the kinds {kinds}."


def _unseen(problem: PinProblem, found: Rounds) -> Iterator[str]:
    seen = set(chain.from_iterable(found.rounds))
    for seam in problem.seams:
        if (seam.id in seen) == (seam.id in found.unpinned):
            yield f"{seam.id} is in no round, or told as not pinned."
    for group in problem.together:
        excused = bool({*group} & {*found.unpinned}) or group in found.apart
        if not excused and not any({*group} <= {*on} for on in found.rounds):
            yield f"{' and '.join(group)} are never on together."
