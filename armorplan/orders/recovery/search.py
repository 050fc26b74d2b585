"""The cheapest way back."""

from dataclasses import replace

from armorplan.orders.effort_solver import Solve
from armorplan.orders.recovery.all_opened import by_opening_all
from armorplan.orders.recovery.bits import RecoveryBits
from armorplan.orders.recovery.by_solver import by_solver, can_be_bounded
from armorplan.orders.recovery.checking import faults_of
from armorplan.orders.recovery.model import Means, Move, Recovery, RecoveryProblem
from armorplan.orders.recovery.opening import Found, OpeningSearch
from armorplan.orders.recovery.parting import Parted, parted
from armorplan.orders.recovery.standing import by_standing

__all__ = ["MOST_STATES", "Solve", "cheapest"]

MOST_STATES = 3_000
"""So many states of one part are looked at before the search is cut short."""
FEW_STEPS = 20
"""Of so few steps all that may stand is searched as well, where the search was cut short."""


def cheapest(
    problem: RecoveryProblem,
    *,
    allowed: frozenset[Means] | None = None,
    solver: Solve | None = None,
    most_states: int = MOST_STATES,
) -> Recovery | None:
    """Return the cheapest way back; ``None`` where none leads back, which is proved.

    A move by means riskier than ``rates.most_risk_pct`` is taken only in a part of the work where
    nothing else leads back.

    Args:
        problem: what stands, what is wanted, and the moves there are. No price is negative.
        allowed: what it may rest on; what is done as usual always may. ``None`` allows all.
        solver: asked about parts that are too large to be searched; without it such a part gets
            a sound way back, and the bound says how far it may be from the cheapest.
        most_states: so many states of one part are looked at; if that finds no way back at all,
            the search goes on without a limit, since only its end proves that there is none.
    """
    problem = only(problem, allowed)
    whole = parted(problem)
    found = [cheapest_of(part, solver, most_states) for part in whole.parts]
    return put_together(problem, whole, found)


def only(problem: RecoveryProblem, allowed: frozenset[Means] | None) -> RecoveryProblem:
    """Return the problem with the moves by some means, and what is done as usual."""
    if allowed is None:
        return problem
    moves = tuple(move for move in problem.moves if move.means is None or move.means in allowed)
    return replace(problem, moves=moves)


def put_together(problem: RecoveryProblem, whole: Parted, found: list[Found]) -> Recovery | None:
    """Return one way back from those of its parts; ``None`` where a part has none."""
    moves = list[Move]()
    for one in found:
        if one.moves is None:
            return None
        moves += one.moves
    ticks, after = problem.ticks(moves), problem.ticks(whole.after)
    bound = sum(one.bound for one in found)
    return Recovery(
        moves=(*moves, *whole.after),
        ticks=ticks + after,
        bound=bound + after,
        proved=bound == ticks,
    )


def cheapest_of(part: RecoveryProblem, solver: Solve | None, most_states: int) -> Found:
    """Return the cheapest way back of one part, by risky means only where it must be."""
    mild = without_risky(part)
    found = search(mild, solver, most_states)
    if found.moves is None and mild is not part:
        found = search(part, solver, most_states)
    return found


def without_risky(part: RecoveryProblem) -> RecoveryProblem:
    """Return a part without the moves that are too risky; itself where there are none."""
    most = part.rates.most_risk_pct
    moves = tuple(m for m in part.moves if m.means is None or m.cost.risk_pct <= most)
    return part if len(moves) == len(part.moves) else replace(part, moves=moves)


def search(part: RecoveryProblem, solver: Solve | None, most_states: int) -> Found:
    """Return the cheapest way back of one part, or a sound one with its bound beyond the limit."""
    bits = RecoveryBits(part)
    found = OpeningSearch(bits).run(most_states)
    if _is_settled(found):
        return found
    if not found.cut_short or len(bits.bit) <= FEW_STEPS:
        whole = by_standing(bits, most_states)
        if _is_settled(whole):
            return whole
        found = replace(found, bound=max(found.bound, whole.bound))
    if found.moves is None:
        found = _beyond(bits, found, solver)
    return found if found.moves is not None else _to_the_end(bits)


def _to_the_end(bits: RecoveryBits) -> Found:
    """Return a way back that nothing else found, or the proof that there is none."""
    found = OpeningSearch(bits).run(None)
    return found if found.complete or found.moves is not None else by_standing(bits, None)


def _is_settled(found: Found) -> bool:
    return found.complete if found.moves is None else found.bound == found.ticks


def _beyond(bits: RecoveryBits, found: Found, solver: Solve | None) -> Found:
    """Return the better of what the solver finds and what opening all leaves, with the best bound."""
    told, bound = [by_opening_all(bits)], found.bound
    if solver is not None:
        moves, proved = by_solver(bits, solver)
        told.append(moves)
        if can_be_bounded(bits):
            bound = max(bound, proved)
    sound = [moves for moves in told if moves is not None and not faults_of(bits.problem, moves)]
    if not sound:
        return replace(found, bound=bound)
    best = min(sound, key=bits.problem.ticks)
    ticks = bits.problem.ticks(best)
    return Found(moves=best, ticks=ticks, bound=min(bound, ticks), complete=False)
