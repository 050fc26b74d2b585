"""Whether a way back holds, told move by move; it knows nothing of how ways back are found."""

from collections.abc import Iterable, Iterator
from collections.abc import Set as AbstractSet

from armorplan.orders.recovery.model import Bar, Doing, Move, RecoveryProblem, TakeBack


def why_not(problem: RecoveryProblem, state: AbstractSet[str], move: Move) -> str:
    """Return why a move is not possible in a state; empty where it is."""
    standing = sorted(move.needs_open & state)
    if standing:
        return f"{move.id}: {', '.join(standing)} still stands."
    if isinstance(move, TakeBack):
        return _why_not_opened(problem, state, move)
    return _why_not_done(problem, state, move)


def _why_not_opened(problem: RecoveryProblem, state: AbstractSet[str], move: TakeBack) -> str:
    missing = sorted(move.clears - state)
    if missing:
        return f"{move.id}: {', '.join(missing)} does not stand."
    after = state - move.clears
    for bar in problem.bars:
        if bar.bars_opening and bar.first in move.clears and is_shut(bar, after):
            return f"{move.id}: {bar.first} cannot be got at. {bar.why}"
    return ""


def _why_not_done(problem: RecoveryProblem, state: AbstractSet[str], move: Doing) -> str:
    if move.does in state:
        return f"{move.id}: {move.does} stands already."
    after = state | {move.does}
    for bar in problem.bars:
        if bar.id in move.in_spite_of:
            continue
        if bar.first == move.does and is_shut(bar, state):
            return f"{move.id}: {bar.first} comes too late. {bar.why}"
        shuts = move.does in bar.of and bar.first not in after and is_shut(bar, after)
        if shuts:
            return f"{move.id}: {bar.first} has to come first. {bar.why}"
    return ""


def is_shut(bar: Bar, state: AbstractSet[str]) -> bool:
    """Tell whether all that bars a step stands. Without members nothing ever does."""
    rest = bar.of - {bar.first}
    return bool(rest) and rest <= state


def state_after(state: AbstractSet[str], move: Move) -> frozenset[str]:
    """Return what stands after a move."""
    if isinstance(move, TakeBack):
        return frozenset(state - move.clears)
    return frozenset(state | {move.does})


def faults_of(problem: RecoveryProblem, moves: Iterable[Move]) -> tuple[str, ...]:
    """Return what is wrong with a way back, in order; empty where it holds."""
    return tuple(_faults(problem, moves))


def _faults(problem: RecoveryProblem, moves: Iterable[Move]) -> Iterator[str]:
    state: frozenset[str] = problem.done
    known = {move.id for move in problem.moves}
    for move in moves:
        if move.id not in known:
            yield f"{move.id}: there is no such move."
        reason = why_not(problem, state, move)
        if reason:
            yield reason
        state = state_after(state, move)
    missing = sorted(problem.goal - state)
    if missing:
        yield f"Not done at the end: {', '.join(missing)}."
