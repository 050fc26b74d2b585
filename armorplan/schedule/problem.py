"""The neutral planning problem: activities, lags, calendars. Minutes count from ``origin_at``."""

from dataclasses import dataclass, field
from datetime import datetime
from enum import StrEnum

Window = tuple[int, int]
"""Minutes from the origin, start inclusive, end exclusive."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A duration that depends on when it starts: ``ready[i]`` for a start in grid cell ``i``.

    ``ready`` is non-decreasing and holds minutes from the origin; cell ``i`` covers the minutes
    ``[i * grid_min, (i + 1) * grid_min)``. A start beyond the last cell takes as long as in it.

    Attributes:
        takes: minutes for a start in each cell, beside ``ready``: where a quarter of an hour is
            too coarse, the one of the two counts that is nearer. Adding them to a start never
            leads from one cell beyond what the next cell says. Empty where ``ready`` is enough.
        shortest_min: it takes no less, whenever it starts.
        longest_min: it takes no more, whenever it starts.
    """

    grid_min: int
    ready: tuple[int, ...]
    takes: tuple[int, ...] = ()
    shortest_min: int = field(init=False, repr=False, compare=False)
    longest_min: int = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        """Reckon its least and most once: a plan asks for them again and again."""
        grid, all_min = self.grid_min, len(self.ready) * self.grid_min
        ends, starts = range(grid - 1, all_min, grid), range(0, all_min, grid)
        least = min(ready - end for ready, end in zip(self.ready, ends, strict=True))
        most = max(ready - start for ready, start in zip(self.ready, starts, strict=True))
        object.__setattr__(self, "shortest_min", max(0, min((least, *self.takes))))
        object.__setattr__(self, "longest_min", max(0, most, *self.takes))

    def ready_at(self, start_min: int) -> int:
        """Return the minute it is ready when it starts at ``start_min``; before 0, as from cell 0."""
        cell, ready = self._entry(start_min)
        if self.takes:
            ready = min(ready, start_min + self.takes[cell])
        return max(start_min, ready)

    def open_till(self, start_min: int) -> int:
        """Return the last minute of what begins to close at ``start_min``."""
        cell, ready = self._entry(start_min)
        if self.takes:
            ready = max(ready, start_min + self.takes[cell])
        return max(start_min, ready)

    def _entry(self, start_min: int) -> tuple[int, int]:
        cell = max(0, min(start_min // self.grid_min, len(self.ready) - 1))
        beyond = max(0, start_min - ((cell + 1) * self.grid_min - 1))
        return cell, self.ready[cell] + beyond


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """How much of a renewable resource an activity takes while it runs."""

    resource: str
    amount: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Activity:
    """One activity.

    Attributes:
        minutes: its duration; ignored where ``table`` gives it.
        people: who may do it, any one of them; empty for what time alone does. With people it
            lies within one stretch of that person's hours, without it runs day and night.
        demands: renewable resources taken while it runs.
        earliest_min: it starts no sooner.
        fixed_start_min: it started then; nothing moves it.
        fixed_end_min: it ended then; with ``fixed_start_min``, for what is done or under way.
        priority: a smaller number is placed first where the lags leave a choice.
        title: what sentences call it; its id where there is none.
        ends_outside: it ends within none of these, ascending and apart; for what has no table.
    """

    id: str
    minutes: int
    people: tuple[str, ...] = ()
    demands: tuple[Demand, ...] = ()
    table: Table | None = None
    earliest_min: int = 0
    fixed_start_min: int | None = None
    fixed_end_min: int | None = None
    priority: int = 0
    title: str = ""
    ends_outside: tuple[Window, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lag:
    """``then`` starts at least ``min_lag`` and at most ``max_lag`` minutes after ``first`` ends.

    Where the wait depends on when ``first`` ends, tables say it: ``then`` starts no sooner than
    ``opens.ready_at(end)`` and no later than ``closes.open_till(end)``. The minutes hold beside them.

    Attributes:
        reason: the text of the relation it comes from, for conflicts in words.
        wish: its latest time is only wished for, and gives way where no plan keeps it.
    """

    first: str
    then: str
    min_lag: int = 0
    max_lag: int | None = None
    opens: Table | None = None
    closes: Table | None = None
    reason: str = ""
    wish: bool = False

    @property
    def is_window(self) -> bool:
        """Tell whether ``then`` may come too late."""
        return self.max_lag is not None or self.closes is not None


@dataclass(frozen=True, slots=True, kw_only=True)
class EndsBeforeLast:
    """``first`` ends no later than the last of ``of`` starts."""

    first: str
    of: frozenset[str]
    reason: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Resource:
    """A renewable resource: places on a rack, a press."""

    id: str
    capacity: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Worker:
    """A person with the windows they work in, ascending and apart. Does one thing at a time."""

    id: str
    windows: tuple[Window, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Everything the planner knows; plain data, no leather in it."""

    origin_at: datetime
    horizon_min: int
    activities: tuple[Activity, ...]
    lags: tuple[Lag, ...] = ()
    before_last: tuple[EndsBeforeLast, ...] = ()
    resources: tuple[Resource, ...] = ()
    workers: tuple[Worker, ...] = ()


class Status(StrEnum):
    """How good an answer is, in our words; never 'best' after a stop."""

    BEST = "proved best"
    GOOD = "good"
    NONE = "none possible"
    STOPPED = "stopped"
    OUT_OF_TIME = "out of time"


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Where an activity lies: minutes from the origin, and who does it (``None``: time alone)."""

    id: str
    start_min: int
    end_min: int
    who: str | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Stage:
    """One stage of the objective: its value, the proven bound, and how it ended."""

    name: str
    value: int
    bound: int
    status: Status


@dataclass(frozen=True, slots=True, kw_only=True)
class Plan:
    """An answer to a problem. ``conflict`` says in words why there is none."""

    status: Status
    placed: tuple[Placed, ...] = ()
    stages: tuple[Stage, ...] = ()
    conflict: str = ""
    made_by: str = "serial"

    @property
    def finish_min(self) -> int:
        """Minute at which the last activity ends; 0 for an empty plan."""
        return max((p.end_min for p in self.placed), default=0)
