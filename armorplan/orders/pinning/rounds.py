"""The fewest rounds: greedy at once, proved by counting, by trying, or by the solver where one is given."""

from collections.abc import Mapping
from dataclasses import replace

from armorplan.orders.effort_solver import Solve
from armorplan.orders.pinning.bounds import fewest_by_counting
from armorplan.orders.pinning.by_solver import by_solver
from armorplan.orders.pinning.exact import by_trying
from armorplan.orders.pinning.greedy import greedy_rounds
from armorplan.orders.pinning.matching import has_pins
from armorplan.orders.pinning.model import PinProblem, Rounds


def fewest_rounds(problem: PinProblem, solver: Solve | None = None) -> Rounds:
    """Return the fewest rounds that see every seam, and together what has to be seen together.

    Args:
        problem: what has to be seen, and with which pins.
        solver: asks CP-SAT in its own process; without it a large fit may stay unproved.

    Returns:
        What there are too few pins for is told apart, and left out of what the rounds have to show.
    """
    unpinned = tuple(s.id for s in problem.seams if not has_pins(s.spots, problem.stock))
    groups = tuple(g for g in problem.together if not {*g} & {*unpinned})
    apart = tuple(g for g in groups if not has_pins(problem.spots(g), problem.stock))
    asked = replace(
        problem,
        seams=tuple(s for s in problem.seams if s.id not in unpinned),
        together=tuple(g for g in groups if g not in apart),
    )
    rounds, bound = greedy_rounds(asked), fewest_by_counting(asked)
    if len(rounds) > bound:
        rounds, bound = by_trying(asked, rounds, bound)
    if len(rounds) > bound and solver is not None:
        rounds, bound = by_solver(asked, rounds, bound, solver)
    return Rounds(rounds=rounds, bound=bound, unpinned=unpinned, apart=apart)


class Fewest:
    """Finds the fewest rounds; the left of a pair is the right once more, and asked once."""

    def __init__(self, solver: Solve | None) -> None:
        self._solver = solver
        self._known: list[tuple[PinProblem, Rounds]] = []

    def __call__(self, problem: PinProblem) -> Rounds:
        """Return the fewest rounds of a problem."""
        plain = _renamed(problem, {seam.id: str(at) for at, seam in enumerate(problem.seams)})
        found = next((rounds for known, rounds in self._known if known == plain), None)
        if found is None:
            found = fewest_rounds(plain, self._solver)
            self._known.append((plain, found))
        return _named(found, {str(at): seam.id for at, seam in enumerate(problem.seams)})


def _renamed(problem: PinProblem, names: Mapping[str, str]) -> PinProblem:
    """Return a problem with other names of its seams; joints go by their place in them."""
    seams = (
        replace(
            seam,
            id=names[seam.id],
            spots=tuple(
                replace(s, joint=f"{names[seam.id]}.{n}") for n, s in enumerate(seam.spots)
            ),
            more=(),
        )
        for seam in problem.seams
    )
    return replace(
        problem,
        seams=tuple(seams),
        together=tuple(tuple(names[seam] for seam in group) for group in problem.together),
    )


def _named(found: Rounds, names: Mapping[str, str]) -> Rounds:
    return Rounds(
        rounds=tuple(tuple(names[seam] for seam in on) for on in found.rounds),
        bound=found.bound,
        unpinned=tuple(names[seam] for seam in found.unpinned),
        apart=tuple(tuple(names[seam] for seam in group) for group in found.apart),
    )
