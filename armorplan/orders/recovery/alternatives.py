"""All ways back worth telling: by each means the cheapest, and one for each salvage that is feasible."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.orders.recovery.checking import is_shut
from armorplan.orders.recovery.model import Doing, Means, Recovery, RecoveryProblem, TakeBack
from armorplan.orders.recovery.search import Solve, cheapest

_UNDONE = frozenset((Means.UNSCREW, Means.DRILL))
Choice = tuple[frozenset[str], frozenset[str]]
"""Steps that are done in one way, and the moves that are left out then."""


def alternatives(problem: RecoveryProblem, *, solver: Solve | None = None) -> tuple[Recovery, ...]:
    """Return ways back, the best first: those with a move that is too risky stand behind the others.

    Each is the cheapest that does what is wanted in a certain way; the same moves are told once.
    """
    found: dict[frozenset[str], Recovery] = {}
    for narrowed in (problem, *_by_choice(problem), *_by_means(problem)):
        way = cheapest(narrowed, solver=solver)
        if way is not None:
            found.setdefault(frozenset(move.id for move in way.moves), way)
    most = problem.rates.most_risk_pct
    return tuple(sorted(found.values(), key=lambda way: (riskiest(way) > most, way.ticks)))


def riskiest(way: Recovery) -> float:
    """Return the risk of its riskiest move in per cent."""
    return max((move.cost.risk_pct for move in way.moves), default=0.0)


def _by_choice(problem: RecoveryProblem) -> Iterator[RecoveryProblem]:
    """Yield the problem with all that waits for the same done in one and the same way.

    A mistake waits for nothing: each of its salvages is a choice by itself.
    """
    for steps in _alike(problem):
        doings = [m for m in problem.moves if isinstance(m, Doing) and m.does in steps]
        lone = len(steps) == 1 and not any(m.does == m.id.partition(":")[2] for m in doings)
        kinds = {(m.id if lone else m.id.partition(":")[0]) for m in doings}
        for kind in sorted(kinds) if len(kinds) > 1 else ():
            kept = {m.id for m in doings if kind in (m.id, m.id.partition(":")[0])}
            if {m.does for m in doings if m.id in kept} == steps:
                others = {m.id for m in doings} - kept
                yield replace(problem, moves=tuple(m for m in problem.moves if m.id not in others))


def _alike(problem: RecoveryProblem) -> Iterator[frozenset[str]]:
    """Yield the wanted steps that do not stand, those together that the same steps shut."""
    groups: dict[frozenset[str], set[str]] = {}
    for step in sorted(problem.goal - problem.done):
        shut = (bar.of for bar in problem.bars if bar.first == step and is_shut(bar, problem.done))
        groups.setdefault(frozenset().union(*shut) or frozenset((step,)), set()).add(step)
    yield from map(frozenset, groups.values())


def _by_means(problem: RecoveryProblem) -> Iterator[RecoveryProblem]:
    """Yield the problem with the moves of one means, and what has to be undone for it."""
    rest = {m.means for m in problem.moves if m.means is not None}
    for means in sorted(rest):
        yield _only(problem, _UNDONE | {means})
    for means in sorted({m.means for m in problem.moves if isinstance(m, Doing) and m.means}):
        yield _only(problem, frozenset((means,)))
    if any(isinstance(m, TakeBack) for m in problem.moves):
        yield _only(problem, _UNDONE)


def _only(problem: RecoveryProblem, allowed: frozenset[Means]) -> RecoveryProblem:
    moves = tuple(m for m in problem.moves if m.means is None or m.means in allowed)
    return replace(problem, moves=moves)
