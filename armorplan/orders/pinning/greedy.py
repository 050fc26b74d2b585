"""Rounds at once, without a solver: each takes in the seams that bring most that is new together."""

from collections import Counter
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
    left = Counter(seam for group in groups for seam in group)
    waiting = [group for group in problem.together if group in groups]
    first = max(waiting, key=lambda group: (len(group), sum(map(left.__getitem__, group))))
    return list(first)


def _best_next(
    problem: PinProblem, chosen: list[str], groups: set[Group], seams: set[str]
) -> str | None:
    """Return the seam that brings most that is new for each pin it takes; ``None`` where none does.

    Those that bring something are tried from the best down: few are asked whether they have pins.
    """
    on, fresh = set(chosen), Counter[str]()
    for group in groups:
        missing = [seam for seam in group if seam not in on]
        if len(missing) == 1:
            fresh[missing[0]] += 1
    worth = {
        seam.id: (2 * fresh[seam.id] + (seam.id in seams)) / len(seam.spots)
        for seam in problem.seams
        if seam.id not in on and (fresh[seam.id] or seam.id in seams)
    }
    held = problem.spots(chosen)
    ranked = sorted(worth, key=worth.__getitem__, reverse=True)
    return next(
        (s for s in ranked if has_pins((*held, *problem.seam(s).spots), problem.stock)), None
    )


def _without_idle(problem: PinProblem, rounds: list[tuple[str, ...]]) -> Laid:
    """Leave out rounds that show nothing that the others do not show; the last one first."""
    seen = [frozenset(_seen(problem, on)) for on in rounds]
    times = Counter(each for shown in seen for each in shown)
    kept = list[tuple[str, ...]]()
    for on, shown in reversed(list(zip(rounds, seen, strict=True))):
        if all(times[each] > 1 for each in shown):
            times.subtract(shown)
        else:
            kept.append(on)
    return tuple(reversed(kept))


def _seen(problem: PinProblem, on: tuple[str, ...]) -> Iterator[Group | str]:
    yield from on
    yield from problem.groups_in(on)
