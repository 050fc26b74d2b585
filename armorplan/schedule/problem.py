"""The neutral planning problem: activities, lags, calendars. Minutes count from ``origin_at``.

Published scheduling instances and the work of a workshop are both put in these terms, and go one
way through serial plan, solver, search and checker.
"""

from dataclasses import dataclass
from datetime import datetime
from enum import StrEnum

from armorplan.schedule.activity import Activity, Window
from armorplan.schedule.table import Table


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
    """A renewable resource: a press, a line of a rack in mm, a tray's area in dm².

    Attributes:
        windows: what demands it lies within one of these; ``None``: at any time. A ``Hold`` on it
            goes on through closed hours.
    """

    id: str
    capacity: int
    windows: tuple[Window, ...] | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hold:
    """A place taken from the end of ``first`` until the last of ``until`` starts.

    What hangs on a rack hangs there until somebody takes it down, not only until it is dry.
    Nothing is held where all of ``until`` start before ``first`` ends.
    """

    resource: str
    amount: int
    first: str
    until: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Bath:
    """A vat or tray that holds one family at a time.

    Attributes:
        capacity: what a batch's amounts add up to at the most.
        change_min: between two batches of different families lie at least so many minutes.
        holds: the family it holds at the origin; empty where it stands clean.
    """

    id: str
    capacity: int
    change_min: int = 0
    holds: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """A build among others: what belongs to it, when it is due, what a minute of lateness weighs.

    It ends when the last of its activities ends.
    """

    id: str
    activities: tuple[str, ...]
    title: str = ""
    due_min: int | None = None
    weight: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Worker:
    """A person with the windows they work in, ascending and apart. Does one thing at a time."""

    id: str
    windows: tuple[Window, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """Where an activity lies: minutes from the origin, and who does it (``None``: time alone).

    ``mode`` is the name of its mode, where it has modes.
    """

    id: str
    start_min: int
    end_min: int
    who: str | None = None
    mode: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Problem:
    """Everything the planner knows; plain data, no leather in it.

    Attributes:
        stood: where steps lay in a plan that people go by: each that is moved counts against a plan
            (``stages.MOVED``). Of what is begun, or not among the activities, it says nothing.
    """

    origin_at: datetime
    horizon_min: int
    activities: tuple[Activity, ...]
    lags: tuple[Lag, ...] = ()
    before_last: tuple[EndsBeforeLast, ...] = ()
    resources: tuple[Resource, ...] = ()
    workers: tuple[Worker, ...] = ()
    holds: tuple[Hold, ...] = ()
    baths: tuple[Bath, ...] = ()
    jobs: tuple[Job, ...] = ()
    stood: tuple[Placed, ...] = ()


class Status(StrEnum):
    """How good an answer is, in our words; never 'best' after a stop."""

    BEST = "proved best"
    GOOD = "good"
    NONE = "none possible"
    STOPPED = "stopped"
    OUT_OF_TIME = "out of time"


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
