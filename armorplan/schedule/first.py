"""The best of a few serial plans: in several orders, dips waiting for each other or not."""

from collections import deque
from collections.abc import Callable, Iterator
from itertools import chain, islice

from armorplan.schedule.batching import ALONE, OF_A_BUILD, OF_ALL, READY
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.measures import any_due, goals
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.ranks import by_starts, ranks_of, urgent_ranks
from armorplan.schedule.sequence import Rank
from armorplan.schedule.serial import Stuck, Try, serial_placings

_WITH_DIPS = (
    (0, OF_A_BUILD),
    (3, READY),
    (4, READY),
    (2, READY),
    (0, OF_ALL),
    (3, OF_ALL),
    (4, OF_ALL),
    (1, OF_A_BUILD),
    (2, OF_ALL),
)
"""Which rank is tried with which patience, those first that were the best most often: of nine
weeks with two colours at loads of 80 to 105 %."""
_MOST_LAID, _MOST_LAID_WITH_DIPS = 4000, 1500
"""So many activities may be laid in all, roughly, as long as a plan is found at all; fewer where
dips are laid together, which takes longer."""
_LEAST_TRIES, _MANY = 2, 5000
"""At least so many orders are tried; of more steps than ``_MANY`` one that is found does."""
_ALONE_FIRST, _ALONE_THEN = range(0, 1000, 2), range(1, 1000, 2)
"""Every other order is laid with nobody beside anybody. What is laid step by step takes whichever
way ends first, and so a pair wherever it is quicker; whether two people are better spent on one
step or on two shows only in the whole."""
_MOST_LAID_IN_VAIN = 20_000
"""So many activities may be laid as long as no plan is found, but two orders are tried."""


def first_placing(
    problem: Problem,
    earlier: tuple[Placed, ...] = (),
    should_stop: Callable[[], bool] | None = None,
) -> tuple[Placed, ...] | Stuck:
    """Return the best of some serial plans: least late, then soonest, as the goals count.

    ``earlier`` is a plan for a former state of the problem; its sequence is tried too. The lags
    have to be free of rings. ``should_stop`` is asked now and then; the best so far comes back.
    """
    has_dips = any(a.dip is not None for a in problem.activities)
    laid, steps = _MOST_LAID_WITH_DIPS if has_dips else _MOST_LAID, len(problem.activities)
    least = _LEAST_TRIES if steps <= _MANY else 1
    most = max(least, laid // max(1, steps))
    most_in_vain = max(_LEAST_TRIES, _MOST_LAID_IN_VAIN // max(1, steps))
    best: tuple[Placed, ...] = ()
    rated: tuple[int, ...] = ()
    stuck: Stuck | None = None
    tries, alone_at = _tries(problem, earlier), _ALONE_THEN if earlier else _ALONE_FIRST
    placings = serial_placings(problem, tries, should_stop, alone_at=alone_at)
    for number, found in enumerate(placings, start=1):
        if isinstance(found, Stuck):
            stuck = stuck or found
        elif not rated or _rating(problem, found) < rated:
            best, rated = found, _rating(problem, found)
        if number >= (most if rated else most_in_vain) or (should_stop and should_stop()):
            break
    return stuck if stuck and not rated else best


def better_laid_like(
    problem: Problem,
    found: tuple[Placed, ...],
    earlier: tuple[Placed, ...],
    should_stop: Callable[[], bool] | None = None,
) -> tuple[Placed, ...]:
    """Return the serial plan by the sequence of ``earlier`` if it is better than ``found``.

    Args:
        problem: what to plan.
        found: what ``first_placing`` found without it; empty where it got stuck.
        earlier: a plan for this problem or a former state of it.
        should_stop: asked now and then; then it is as if none were found.
    """
    tries = ((by_starts(problem, earlier), READY),)
    placing = next(serial_placings(problem, tries, should_stop))
    if isinstance(placing, Stuck):
        return found
    is_better = not found or _rating(problem, placing) < _rating(problem, found)
    return placing if is_better else found


def _rating(problem: Problem, placed: tuple[Placed, ...]) -> tuple[int, ...]:
    """Return a key, the smaller the better: the goals in the order in which they count."""
    return tuple(goals(problem, placed).values())


_LAST_TOLD: deque[tuple[Problem, bool]] = deque(maxlen=2)
"""The problems asked about last: what lets relations go asks again of what the one before kept."""


def is_stuck(problem: Problem) -> bool:
    """Tell whether no serial plan is found; that is no proof that there is none.

    The same problem asked for again is not laid again.
    """
    for asked, told in tuple(_LAST_TOLD):
        if asked is problem:
            return told
    told = _is_stuck(problem)
    _LAST_TOLD.append((problem, told))
    return told


def _is_stuck(problem: Problem) -> bool:
    if lag_cycle(problem):
        return True
    return all(isinstance(found, Stuck) for found in serial_placings(problem, _tries(problem)))


def _tries(problem: Problem, earlier: tuple[Placed, ...] = ()) -> Iterator[Try]:
    """Yield in which orders to lay, and how long dips wait: last the ways that only just may do."""
    ranks = ranks_of(problem)
    if earlier:
        yield by_starts(problem, earlier), READY
    if not any(a.dip is not None for a in problem.activities):
        urgent = urgent_ranks(problem) if any_due(problem) else ()
        yield from ((rank, READY) for rank in chain(islice(ranks, 1), urgent, ranks))
        return
    made: list[dict[str, Rank]] = []
    if any_due(problem):
        yield from zip(urgent_ranks(problem), (READY, OF_A_BUILD, READY), strict=True)
    for number, patience in _WITH_DIPS:
        made += islice(ranks, max(0, number + 1 - len(made)))
        yield made[number], patience
    yield from ((rank, ALONE) for rank in made)
