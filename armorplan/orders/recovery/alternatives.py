"""All ways back worth telling: by each means the cheapest, and one for each salvage that is feasible."""

from collections.abc import Iterator
from dataclasses import replace

from armorplan.orders.recovery.by_means import by_means, in_order
from armorplan.orders.recovery.checking import is_shut
from armorplan.orders.recovery.model import Doing, Recovery, RecoveryProblem
from armorplan.orders.recovery.search import Solve, cheapest

_FEW = 4
"""Where more things than this wait for others than each other, only what each means does is told."""


def alternatives(problem: RecoveryProblem, *, solver: Solve | None = None) -> tuple[Recovery, ...]:
    """Return ways back, the one to choose first; see ``by_means`` for their order.

    Beside the cheapest by each means stands the cheapest that does what is wanted in each way there
    is: two salvages by one means are both told. The same moves are told once.
    """
    told = list(by_means(problem, solver=solver))
    for narrowed in _by_choice(problem):
        way = cheapest(narrowed, solver=solver)
        if way is not None:
            told.append(way)
    # Of the same moves found twice the one that is proved is told.
    return in_order(problem, tuple(sorted(told, key=lambda way: not way.proved)))


def _by_choice(problem: RecoveryProblem) -> Iterator[RecoveryProblem]:
    """Yield the problem with all that waits for the same done in one and the same way.

    A mistake waits for nothing: each of its salvages is a choice by itself.
    """
    alike = tuple(_alike(problem))
    for steps in alike if len(alike) <= _FEW else ():
        doings = [m for m in problem.moves if isinstance(m, Doing) and m.does in steps]
        ways = {_way_of(move, steps) for move in doings}
        for way in sorted(ways) if len(ways) > 1 else ():
            kept = [move for move in doings if _way_of(move, steps) == way]
            if {move.does for move in kept} == steps:
                others = {move.id for move in doings if _way_of(move, steps) != way}
                yield replace(problem, moves=tuple(m for m in problem.moves if m.id not in others))


def _way_of(move: Doing, steps: frozenset[str]) -> str:
    """Return in which way a move does a step: of several together only by what it rests on."""
    return move.id if len(steps) == 1 else str(move.means or "")


def _alike(problem: RecoveryProblem) -> Iterator[frozenset[str]]:
    """Yield the wanted steps that do not stand, those together that the same steps shut."""
    groups: dict[frozenset[str], set[str]] = {}
    for step in sorted(problem.goal - problem.done):
        shut = (bar.of for bar in problem.bars if bar.first == step and is_shut(bar, problem.done))
        groups.setdefault(frozenset().union(*shut) or frozenset((step,)), set()).add(step)
    yield from map(frozenset, groups.values())
