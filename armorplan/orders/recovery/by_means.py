"""The ways back side by side: for each means the cheapest that rests on it."""

from collections.abc import Iterator

from armorplan.orders.recovery.bits import RecoveryBits
from armorplan.orders.recovery.model import Means, Recovery, RecoveryProblem
from armorplan.orders.recovery.opening import Found, OpeningSearch
from armorplan.orders.recovery.parting import parted
from armorplan.orders.recovery.search import (
    FEW_STEPS,
    MOST_STATES,
    Solve,
    cheapest_of,
    only,
    put_together,
    without_risky,
)
from armorplan.orders.recovery.standing import by_standing

UNDOING = frozenset({Means.UNSCREW, Means.DRILL})
"""What any way back may need, only to get at the place."""
_MOST_STATES = 300


def by_means(
    problem: RecoveryProblem, *, solver: Solve | None = None, most_states: int = MOST_STATES
) -> tuple[Recovery, ...]:
    """Return for each means the cheapest way back that rests on it, the one to choose first.

    It rests on a means if, without what that does, the rest of its moves leads nowhere. Beside it
    things are done as usual and undone to get at the place; other means are taken only where
    nothing else leads back. Of places that have nothing to do with each other each is mended by
    the means where it can be, the others in the cheapest way. The cheapest of all stands among
    them; the same moves are told once. Those with a move riskier than ``rates.most_risk_pct`` come
    last, however many small risks others add up to. Empty where no way leads back.

    Args:
        problem: what stands, what is wanted, and the moves there are.
        solver: as for ``cheapest``.
        most_states: as for ``cheapest``; for each means a part is searched through 300 states at
            most, and a means of which that finds nothing is not told.
    """
    whole = parted(problem)
    best = [cheapest_of(part, solver, most_states) for part in whole.parts]
    told = [put_together(problem, whole, best)]
    for means in _means_of(problem):
        found = [_resting_on(part, means, min(most_states, _MOST_STATES)) for part in whole.parts]
        if any(one is not None for one in found):
            mixed = [one or other for one, other in zip(found, best, strict=True)]
            told.append(put_together(problem, whole, mixed))
    return in_order(problem, tuple(one for one in told if one is not None))


def _means_of(problem: RecoveryProblem) -> Iterator[Means]:
    used = {move.means for move in problem.moves}
    return (means for means in Means if means in used)


def _resting_on(part: RecoveryProblem, means: Means, most_states: int) -> Found | None:
    """Return the cheapest way back of a part that rests on a means; ``None`` where none does."""
    if all(move.means is not means for move in part.moves):
        return None
    pure = only(part, UNDOING | {means})
    for tried in dict.fromkeys((without_risky(pure), pure, without_risky(part), part)):
        found = _tried(RecoveryBits(tried), means, most_states)
        if found.moves is not None:
            return found
    return None


def _tried(bits: RecoveryBits, means: Means, most_states: int) -> Found:
    """Return the cheapest way back by a means; where none is sure, the cheapest of all may be one."""
    found = OpeningSearch(bits, by=means).run(most_states)
    if found.moves is not None or found.complete or len(bits.bit) > FEW_STEPS:
        return found
    whole = by_standing(bits, most_states)
    uses = whole.moves is not None and any(move.means is means for move in whole.moves)
    return whole if uses else found


def in_order(problem: RecoveryProblem, told: tuple[Recovery, ...]) -> tuple[Recovery, ...]:
    """Return ways back with the one to choose first, the same moves once."""
    once = {frozenset(move.id for move in one.moves): one for one in reversed(told)}
    rates = problem.rates
    return tuple(sorted(once.values(), key=lambda one: (len(one.too_risky(rates)), one.ticks)))
