"""Rounds at once, without a solver: each takes in the seams that bring most that is new together."""

from collections.abc import Iterator

from armorplan.orders.pinning.matching import has_pins
from armorplan.orders.pinning.model import Group, PinProblem

Laid = tuple[tuple[str, ...], ...]


def greedy_rounds(problem: PinProblem) -> Laid:
    """Return rounds that see every seam and every group; each fits the pins there are.

    Every seam and every group has to fit by itself.
    """
    rank = {seam.id: at for at, seam in enumerate(problem.seams)}
    groups, seams = set(problem.together), set(rank)
    rounds: list[tuple[str, ...]] = []
    while groups or seams:
        chosen = _begun(problem, groups, seams)
        while more := _best_next(problem, chosen, groups, seams):
            chosen.append(more)
        groups -= problem.groups_in(chosen)
        seams -= set(chosen)
        rounds.append(tuple(sorted(chosen, key=rank.__getitem__)))
    return _without_idle(problem, rounds)


def _begun(problem: PinProblem, groups: set[Group], seams: set[str]) -> list[str]:
    """Begin with the largest group, of those the one of which most is still to be seen; else a seam."""
    if not groups:
        return [next(seam.id for seam in problem.seams if seam.id in seams)]
    left = {seam.id: sum(seam.id in group for group in groups) for seam in problem.seams}
    waiting = [group for group in problem.together if group in groups]
    first = max(waiting, key=lambda group: (len(group), sum(map(left.__getitem__, group))))
    return list(first)


def _best_next(
    problem: PinProblem, chosen: list[str], groups: set[Group], seams: set[str]
) -> str | None:
    """Return the seam that brings most that is new for each pin it takes; ``None`` where none does."""
    before = problem.groups_in(chosen)
    best: tuple[float, str] | None = None
    for seam in problem.seams:
        if seam.id in chosen:
            continue
        fresh = (problem.groups_in((*chosen, seam.id)) - before) & groups
        gain = 2 * len(fresh) + (seam.id in seams)
        worth = gain / problem.need(seam.id)
        better = gain and (best is None or worth > best[0])
        if better and has_pins(problem.spots((*chosen, seam.id)), problem.stock):
            best = worth, seam.id
    return best[1] if best else None


def _without_idle(problem: PinProblem, rounds: list[tuple[str, ...]]) -> Laid:
    """Leave out rounds that show nothing that the others do not show."""
    kept = list(rounds)
    for each in list(reversed(rounds)):
        rest = [other for other in kept if other is not each]
        if set(_seen(problem, rest)) == set(_seen(problem, kept)):
            kept = rest
    return tuple(kept)


def _seen(problem: PinProblem, rounds: list[tuple[str, ...]]) -> Iterator[Group | str]:
    for each in rounds:
        yield from each
        yield from problem.groups_in(each)
