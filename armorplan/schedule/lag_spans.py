"""What a lag allows: from the end of what comes first to the start of what follows, and back."""

from armorplan.schedule.monotone import first_holding
from armorplan.schedule.problem import Lag, Table


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
        limits.append(lag.closes.ready_at(end_min))
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
        firsts.append(first_holding(lambda end: table.ready_at(end) >= start_min, 0, top))
    return max(firsts, default=-(2**60))


def least_wait(lag: Lag) -> int:
    """Return the shortest wait it asks for, whenever ``first`` ends."""
    return lag.min_lag if lag.opens is None else max(lag.min_lag, shortest_of(lag.opens))


def most_wait(lag: Lag) -> int | None:
    """Return the longest wait it allows, whenever ``first`` ends; ``None`` for no limit."""
    limits = [] if lag.max_lag is None else [lag.max_lag]
    if lag.closes is not None:
        limits.append(longest_of(lag.closes))
    return min(limits, default=None)


def shortest_of(table: Table) -> int:
    """Return the shortest a table takes, whenever it starts."""
    ends_of_cells = range(table.grid_min - 1, len(table.ready) * table.grid_min, table.grid_min)
    return min(max(0, ready - end) for ready, end in zip(table.ready, ends_of_cells, strict=True))


def longest_of(table: Table) -> int:
    """Return the longest a table takes, whenever it starts."""
    starts_of_cells = range(0, len(table.ready) * table.grid_min, table.grid_min)
    return max(
        max(0, ready - start) for ready, start in zip(table.ready, starts_of_cells, strict=True)
    )
