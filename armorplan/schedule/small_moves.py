"""Small moves in a plan: a piece of work sooner or later, and what its person does meanwhile."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from armorplan.schedule.activity import Activity
from armorplan.schedule.lag_spans import closes_at, opens_at
from armorplan.schedule.problem import Lag, Placed

Lies = Mapping[str, Placed]


def may_move(activity: Activity, placed: Placed) -> bool:
    """Tell whether it is work by hand that lies by itself and is not begun."""
    is_free = activity.fixed_start_min is None and activity.dip is None
    return is_free and activity.table is None and placed.who is not None


def holds(lag: Lag, lies: Lies) -> bool:
    """Tell whether a plan keeps a lag."""
    end, start = lies[lag.first].end_min, lies[lag.then].start_min
    closes = closes_at(lag, end)
    return opens_at(lag, end) <= start and (closes is None or start <= closes)


def done_between(lies: Lies, who: str | None, from_min: int, until_min: int) -> list[Placed]:
    """Return what a person does in between, in order; what takes no time is left out."""
    found = (
        p
        for p in lies.values()
        if p.who == who and from_min <= p.start_min < p.end_min <= until_min
    )
    return sorted(found, key=lambda p: p.start_min)


def later(
    row: Sequence[Placed], between: Sequence[Placed], until_min: int
) -> Iterator[list[Placed]]:
    """Yield a row of work later: where others leave room, or after some that come sooner by it.

    Args:
        row: follows one another in the same hands.
        between: what these hands do after it.
        until_min: it has to end by then.
    """
    end = row[-1].end_min
    takes = end - row[0].start_min
    for until in (*(p.start_min for p in between), until_min):
        yield _moved(row, until - end)
    for at, placed in enumerate(between):
        sooner_by = _moved(between[: at + 1], -takes)
        yield [*_moved(row, placed.end_min - end), *sooner_by]


def sooner(
    row: Sequence[Placed], between: Sequence[Placed], from_min: int
) -> Iterator[list[Placed]]:
    """Yield a row of work sooner: where others leave room, or before some that come later by it."""
    start = row[0].start_min
    takes = row[-1].end_min - start
    for begin in (from_min, *(p.end_min for p in between)):
        yield _moved(row, begin - start)
    for at, placed in enumerate(between):
        yield [*_moved(row, placed.start_min - start), *_moved(between[at:], takes)]


def _moved(row: Sequence[Placed], minutes: int) -> list[Placed]:
    return [replace(p, start_min=p.start_min + minutes, end_min=p.end_min + minutes) for p in row]
