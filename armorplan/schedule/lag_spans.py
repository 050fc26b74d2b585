"""What a lag allows: from the end of what comes first to the start of what follows, and back."""

from armorplan.schedule.monotone import first_holding
from armorplan.schedule.problem import Lag

_MOST = 2**60


def opens_at(lag: Lag, end_min: int) -> int:
    """Return the soonest start of what follows when ``first`` ends at ``end_min``."""
    soonest = end_min + lag.min_lag
    return soonest if lag.opens is None else max(soonest, lag.opens.ready_at(end_min))


def closes_at(lag: Lag, end_min: int) -> int | None:
    """Return the latest start of what follows, or ``None`` where it never is too late."""
    limits = []
    if lag.max_lag is not None:
        limits.append(end_min + lag.max_lag)
    if lag.closes is not None:
        limits.append(lag.closes.open_till(end_min))
    return min(limits, default=None)


def last_end_open_by(lag: Lag, start_min: int) -> int:
    """Return the last end of ``first`` after which what follows may start at ``start_min``.

    Below 0 a table's answer is no nearer than "before the origin".
    """
    latest = start_min - lag.min_lag
    table = lag.opens
    if table is None or latest < 0:
        return latest
    too_late = first_holding(lambda end: table.ready_at(end) > start_min, 0, latest + 1)
    return too_late - 1


def first_end_open_till(lag: Lag, start_min: int) -> int:
    """Return the first end of ``first`` after which a start at ``start_min`` is not too late.

    At the least 0 where a table says it; a lag that never closes allows any end.
    """
    firsts = []
    if lag.max_lag is not None:
        firsts.append(start_min - lag.max_lag)
    table = lag.closes
    if table is not None:
        top = max(start_min, 0)
        firsts.append(first_holding(lambda end: table.open_till(end) >= start_min, 0, top))
    return max(firsts, default=-_MOST)


def least_wait(lag: Lag) -> int:
    """Return the shortest wait it asks for, whenever ``first`` ends."""
    return lag.min_lag if lag.opens is None else max(lag.min_lag, lag.opens.shortest_min)


def most_wait(lag: Lag) -> int | None:
    """Return the longest wait it allows, whenever ``first`` ends; ``None`` for no limit."""
    limits = [] if lag.max_lag is None else [lag.max_lag]
    if lag.closes is not None:
        limits.append(lag.closes.longest_min)
    return min(limits, default=None)
