"""The fewest rounds: greedy at once, proved by counting or by the solver where one is given."""

from dataclasses import replace

from armorplan.orders.effort_solver import Solve
from armorplan.orders.pinning.bounds import fewest_by_counting
from armorplan.orders.pinning.by_solver import by_solver
from armorplan.orders.pinning.greedy import greedy_rounds
from armorplan.orders.pinning.matching import has_pins
from armorplan.orders.pinning.model import PinProblem, Rounds


def fewest_rounds(problem: PinProblem, solver: Solve | None = None) -> Rounds:
    """Return the fewest rounds that see every seam, and together what has to be seen together.

    Args:
        problem: what has to be seen, and with which pins.
        solver: asks CP-SAT in its own process; without it counting alone gives the bound.

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
    if len(rounds) > bound and solver is not None:
        rounds, bound = by_solver(asked, rounds, bound, solver)
    return Rounds(rounds=rounds, bound=bound, unpinned=unpinned, apart=apart)
