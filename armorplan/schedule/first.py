"""The best of a few serial plans: the chosen order, latest finish, and mixtures of the two."""

from collections import deque
from collections.abc import Iterator

from armorplan.schedule.critical import critical_times
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.sequence import Rank
from armorplan.schedule.serial import Stuck, serial_placing, serial_placings

_MIX = 4
"""The ranks tried weigh the chosen order by 4, 3 … 0 and latest finish by the rest."""


def first_placing(
    problem: Problem, earlier: tuple[Placed, ...] = ()
) -> tuple[Placed, ...] | Stuck:
    """Return the best of some serial plans: least late, then soonest, as the goals count.

    ``earlier`` is a plan for a former state of the problem; its sequence is tried too. The lags
    have to be free of rings.
    """
    found = list(serial_placings(problem, _ranks(problem, earlier)))
    placings = [placing for placing in found if not isinstance(placing, Stuck)]
    if not placings:
        return found[0]
    return min(placings, key=lambda p: _rating(problem, p))


def better_laid_like(
    problem: Problem, found: tuple[Placed, ...], earlier: tuple[Placed, ...]
) -> tuple[Placed, ...]:
    """Return the serial plan by the sequence of ``earlier`` if it is better than ``found``.

    Args:
        problem: what to plan.
        found: what ``first_placing`` found without it; empty where it got stuck.
        earlier: a plan for this problem or a former state of it.
    """
    chosen = [a.id for a in sorted(problem.activities, key=lambda a: a.priority)]
    placing = serial_placing(problem, _by_starts(chosen, earlier))
    if isinstance(placing, Stuck):
        return found
    is_better = not found or _rating(problem, placing) < _rating(problem, found)
    return placing if is_better else found


def _rating(problem: Problem, placed: tuple[Placed, ...]) -> tuple[int, ...]:
    """Return a key, the smaller the better: the goals in the order in which they count."""
    return tuple(goals(problem, placed).values())


def _by_starts(chosen: list[str], earlier: tuple[Placed, ...]) -> dict[str, Rank]:
    started = {p.id: p.start_min for p in earlier}
    return {name: (started.get(name, 0), at) for at, name in enumerate(chosen)}


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
    return all(isinstance(found, Stuck) for found in serial_placings(problem, _ranks(problem)))


def _ranks(problem: Problem, earlier: tuple[Placed, ...] = ()) -> Iterator[dict[str, Rank]]:
    chosen = [a.id for a in sorted(problem.activities, key=lambda a: a.priority)]
    at_priority = {name: at for at, name in enumerate(chosen)}
    yield {i: (at_priority[i],) for i in chosen}
    latest = {t.id: t.latest_end_min for t in critical_times(problem)}
    by_finish = sorted(chosen, key=lambda name: (latest[name], at_priority[name]))
    at_finish = {name: at for at, name in enumerate(by_finish)}
    for k in range(1, _MIX + 1):
        yield {i: ((_MIX - k) * at_priority[i] + k * at_finish[i], at_priority[i]) for i in chosen}
    if earlier:
        yield _by_starts(chosen, earlier)
