"""The minutes of one row: joint by joint from its ends, or all of it loaded and then set."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

LONG_ROW = 12
"""Longer rows are tried from one end and from the other, not from both at once."""
_PCT = 100.0

JointMinutes = Callable[[int, frozenset[int]], float]
"""Minutes of the joint at a place of the row, when those at other places of it are made."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RowMinutes:
    """What a row takes either way.

    Attributes:
        run: places in the order in which they are set one by one.
        one_by_one_min: minutes, each joint set before the next is put in.
        loaded_min: minutes with all posts put in first, so that the row no longer gapes; as one by one
            where that cannot be done.
    """

    run: tuple[int, ...]
    one_by_one_min: float
    loaded_min: float

    @property
    def minutes(self) -> float:
        """Minutes of the better way."""
        return min(self.one_by_one_min, self.loaded_min)

    @property
    def is_loaded(self) -> bool:
        """Whether to load the row first."""
        return self.loaded_min < self.one_by_one_min


@dataclass(frozen=True, slots=True, kw_only=True)
class RunMinutes:
    """What each joint of a row takes in a run somebody chose, minutes; ``loaded``: all put in first."""

    each: tuple[float, ...]
    loaded: bool


def run_minutes(
    run: Sequence[int], minutes: JointMinutes, *, saving_pct: float, loads: bool = True
) -> RunMinutes:
    """Return what the joints of a row take in a run, by its places, in the better of both ways.

    Args:
        run: every place of the row once.
        minutes: as for ``row_minutes``.
        saving_pct: as for ``row_minutes``.
        loads: as for ``row_minutes``.
    """
    every, kept = frozenset(run), 1 - saving_pct / _PCT if len(run) > 1 else 1.0
    singly = tuple(minutes(at, frozenset(run[:n])) for n, at in enumerate(run))
    loaded = tuple(kept * minutes(at, every - {at}) for at in run)
    if loads and sum(loaded) < sum(singly):
        return RunMinutes(each=loaded, loaded=True)
    return RunMinutes(each=singly, loaded=False)


def row_minutes(
    count: int, minutes: JointMinutes, *, saving_pct: float, loads: bool = True
) -> RowMinutes:
    """Return the least minutes of a row: as one run from either end, or from both.

    Args:
        count: joints of the row.
        minutes: of each; more made never makes it less.
        saving_pct: share of the minutes that loading the row first saves (``Constants.load_row``).
        loads: each of them can be set with all the others put in.
    """
    least = _least_minutes(count, minutes, saving_pct=saving_pct)
    return least if loads else replace(least, loaded_min=least.one_by_one_min)


def _least_minutes(count: int, minutes: JointMinutes, *, saving_pct: float) -> RowMinutes:
    every = frozenset(range(count))
    last = [minutes(at, every - {at}) for at in range(count)]
    loaded = sum(last) * (1 - saving_pct / _PCT) if count > 1 else sum(last)
    if last == [minutes(at, frozenset()) for at in range(count)]:
        return _of(tuple(range(count)), sum(last), loaded)
    if count > LONG_ROW:
        runs = (tuple(range(count)), tuple(reversed(range(count))))
        return min((_of(r, _spent(r, minutes), loaded) for r in runs), key=_one_by_one)
    return _from_both_ends(count, minutes, loaded)


def _of(run: tuple[int, ...], one_by_one: float, loaded: float) -> RowMinutes:
    return RowMinutes(run=run, one_by_one_min=one_by_one, loaded_min=loaded)


def _one_by_one(row: RowMinutes) -> float:
    return row.one_by_one_min


def _spent(run: Sequence[int], minutes: JointMinutes) -> float:
    return sum(minutes(at, frozenset(run[:n])) for n, at in enumerate(run))


def _from_both_ends(count: int, minutes: JointMinutes, loaded: float) -> RowMinutes:
    """Return the best run: made are always so many from the front and so many from the back."""
    best: dict[tuple[int, int], tuple[float, tuple[int, ...]]] = {(0, 0): (0.0, ())}
    for done in range(count):
        for front in range(done, -1, -1):
            spent, run = best[front, done - front]
            made = frozenset(run)
            for at, key in (
                (front, (front + 1, done - front)),
                (count - 1 - (done - front), (front, done - front + 1)),
            ):
                tried = (spent + minutes(at, made), (*run, at))
                if key not in best or tried[0] < best[key][0]:
                    best[key] = tried
    spent, run = min(
        (best[front, count - front] for front in range(count, -1, -1)), key=lambda one: one[0]
    )
    return _of(run, spent, loaded)
