"""Lags without those that others say already."""

from graphlib import CycleError, TopologicalSorter

from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.problem import Lag


def needed_lags(acts: Acts) -> tuple[Lag, ...]:
    """Return the problem's lags without waits that follow from two others, one after the other.

    Rules say of every piece below a joint that it comes first: of 5,900 lags of a whole arm 1,700
    are left, and the solver's presolve of it in a room with nights takes a third of the time.
    """
    waits: dict[str, dict[str, int]] = {}
    for lag in acts.problem.lags:
        if (
            lag.min_lag >= 0
            and lag.opens is None
            and not acts.history.keys() & {lag.first, lag.then}
        ):
            then = waits.setdefault(lag.first, {})
            then[lag.then] = max(lag.min_lag, then.get(lag.then, 0))
    try:
        # In a ring each would follow from the others, and nothing be left of it.
        TopologicalSorter(waits).prepare()
    except CycleError:
        return acts.problem.lags
    return tuple(lag for lag in acts.problem.lags if not _follows(lag, waits, acts))


def _follows(lag: Lag, waits: dict[str, dict[str, int]], acts: Acts) -> bool:
    if lag.is_window or lag.opens is not None or lag.min_lag < 0:
        return False
    return any(
        lag.then in waits.get(middle, ())
        and wait + acts.least(middle) + waits[middle][lag.then] >= lag.min_lag
        for middle, wait in waits.get(lag.first, {}).items()
    )
