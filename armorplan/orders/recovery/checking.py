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
    bar = next(bars_against(problem, state, move), None)
    return f"{move.id}: {bar.first} cannot be got at. {bar.why}" if bar else ""


def _why_not_done(problem: RecoveryProblem, state: AbstractSet[str], move: Doing) -> str:
    if move.does in state:
        return f"{move.id}: {move.does} stands already."
    bar = next(bars_against(problem, state, move), None)
    if bar is None:
        return ""
    how = "comes too late" if bar.first == move.does else "has to come first"
    return f"{move.id}: {bar.first} {how}. {bar.why}"


def bars_against(problem: RecoveryProblem, state: AbstractSet[str], move: Move) -> Iterator[Bar]:
    """Yield the bars that forbid a move in a state."""
    if isinstance(move, TakeBack):
        after = state - move.clears
        opened = (bar for bar in problem.bars if bar.bars_opening and bar.first in move.clears)
        yield from (bar for bar in opened if is_shut(bar, after))
        return
    after = state | {move.does}
    for bar in problem.bars:
        if bar.id in move.in_spite_of:
            continue
        shuts = move.does in bar.of and bar.first not in after and is_shut(bar, after)
        if shuts or (bar.first == move.does and is_shut(bar, state)):
            yield bar


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
