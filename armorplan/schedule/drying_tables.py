"""What the air of the hour makes of dryings and windows: tables on a grid for the plan.

Only in a room whose air is not the same at all times from the plan's origin on. Where it was
another before, what has ended by then gives plain minutes by the air of then. What never dries there
keeps the minutes of its step, the catalogue's; a finding tells of it.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from itertools import accumulate
from math import ceil, floor

from armorplan.drying.along import MOST_MIN
from armorplan.drying.body import Body
from armorplan.drying.each_minute import is_steady_from, waits_by_minute
from armorplan.drying.room import DryingRoom, drying_room
from armorplan.drying.spans import Stage
from armorplan.drying.stages import LATEST
from armorplan.drying.track import GRID_MIN
from armorplan.schedule.activity import Window
from armorplan.schedule.problem import Lag
from armorplan.schedule.table import Table
from armorplan.steps.model import Step, StepKind, Work
from armorplan.steps.windows import StepWindow, step_windows
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Shelf

WINDOW_RULES = frozenset(("damp-window", "recoat-window"))
"""Rules whose waits the air makes; what they say in minutes is for a usual day."""
_DRIES = (StepKind.DRY, StepKind.CURE)
_Asked = tuple[str, Body, Stage]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tables:
    """What depends on the time of day in one problem.

    Attributes:
        dryings: by step how long it takes from when it starts.
        windows: by pair of steps the wait that the air makes, from when the first one ends.
    """

    dryings: Mapping[str, Table] = field(default_factory=dict)
    windows: Mapping[tuple[str, str], Lag] = field(default_factory=dict)


NO_TABLES = Tables()


class Drier:
    """Makes tables for the steps of a build; equal dryings share one.

    Args:
        shelf: the treatments.
        room: the air they dry in.
        origin_at: minutes count from here.

    Attributes:
        shut: kept here for ``film_hours``: when what must not begin to dry.
    """

    def __init__(self, shelf: Shelf, room: Room, origin_at: datetime) -> None:
        self.shelf = shelf
        self._room: DryingRoom = drying_room(room)
        self._origin_at = origin_at
        self._is_steady = is_steady_from(self._room, origin_at)
        self._known: dict[tuple[_Asked, int], Table | None] = {}
        self.shut: dict[tuple[str, Body], tuple[Window, ...]] = {}

    @property
    def is_steady(self) -> bool:
        """Tell whether nothing depends on the time of day any more."""
        return self._is_steady

    @property
    def is_always_steady(self) -> bool:
        """Tell whether nothing ever depended on it: what has ended tells no more than usual."""
        return self._room.is_steady

    def most_waiting_min(self, steps: Iterable[Step], cells: int) -> int:
        """Return the minutes of all waits one after another, each at its worst time of day."""
        tables = ((step, self.drying(step, cells)) for step in steps if not step.attended)
        return sum(table.longest_min if table else step.minutes for step, table in tables)

    def drying(self, step: Step, cells: int) -> Table | None:
        """Return how long a drying takes from when it starts; ``None``: always as long."""
        told = step.drying
        if told is None or step.kind not in _DRIES:
            return None
        return self.table((told.treatment, told.body, told.stage), cells)

    def table(self, asked: _Asked, cells: int) -> Table | None:
        """Return the table of a stage; ``None`` in steady air, and where it never gets there.

        What only some starts never get done takes from them the longest time looked at.
        """
        key = (asked, cells)
        if key not in self._known:
            ready = self._ready(asked, cells)
            self._known[key] = None if ready is None else Table(grid_min=GRID_MIN, ready=ready)
        return self._known[key]

    def _ready(self, asked: _Asked, cells: int) -> tuple[int, ...] | None:
        treatment, body, stage = asked
        entry = self.shelf.treatment(treatment)
        if entry is None or self.is_steady:
            return None
        ready = self._room.table(entry, body, stage, self._origin_at, cells)
        if ready is None or all(at - _last_of(cell) >= MOST_MIN for cell, at in enumerate(ready)):
            return None
        return ready

    def _to_the_minute(self, asked: _Asked, cells: int) -> Table | None:
        """Return the table of a window's edge, with minutes beside its cells.

        A thin binding is ready to fold for ten minutes: on a grid of fifteen none are left. So
        every minute of a cell is asked, and the worst of them counts: where the air turns that is
        neither the first nor the last.
        """
        key = (asked, -cells)
        if key not in self._known:
            self._known[key] = self._edge(asked, cells)
        return self._known[key]

    def _edge(self, asked: _Asked, cells: int) -> Table | None:
        treatment, body, stage = asked
        entry = self.shelf.treatment(treatment)
        if entry is None or self.is_steady:
            return None
        minutes = cells * GRID_MIN
        waits = waits_by_minute(self._room, entry, (body, stage), self._origin_at, minutes)
        if waits is None:
            return None
        closes = stage in LATEST
        of_cells = waits.reshape(cells, GRID_MIN).tolist()
        ready = _rising(
            cell * GRID_MIN + waits[0] if closes else _last_of(cell) + waits[-1]
            for cell, waits in enumerate(of_cells)
        )
        worst = [(min if closes else max)(waits) for waits in of_cells]
        return Table(grid_min=GRID_MIN, ready=ready, takes=_in_line(ready, worst, closes=closes))

    def window(self, window: StepWindow, cells: int) -> Lag | None:
        """Return a window by tables; ``None`` where the usual minutes have to do."""
        found = {
            stage: self._to_the_minute((window.treatment, window.body_at(stage), stage), cells)
            for stage in (window.opens, window.closes)
            if stage is not None
        }
        if not found or None in found.values():
            return None
        return Lag(
            first=window.first,
            then=window.then,
            opens=found.get(window.opens) if window.opens else None,
            closes=found.get(window.closes) if window.closes else None,
        )

    def window_from(self, window: StepWindow, end_at: datetime) -> Lag | None:
        """Return a window that counts from a known end, in minutes from that end's minute."""
        opens = self._until(window, window.opens, end_at)
        closes = self._until(window, window.closes, end_at)
        if (window.opens and opens is None) or (window.closes and closes is None):
            return None
        # The end counts as the whole minute before it.
        over_s = (end_at - self._origin_at).total_seconds() % 60
        return Lag(
            first=window.first,
            then=window.then,
            min_lag=0 if opens is None else ceil((opens * 60 + over_s) / 60),
            max_lag=None if closes is None else floor((closes * 60 + over_s) / 60),
        )

    def _until(self, window: StepWindow, stage: Stage | None, end_at: datetime) -> int | None:
        entry = self.shelf.treatment(window.treatment)
        if stage is None or entry is None:
            return None
        return self._room.minutes(entry, window.body_at(stage), stage, end_at)


def _last_of(cell: int) -> int:
    """Return the last minute of a cell."""
    return (cell + 1) * GRID_MIN - 1


def _rising(minutes: Iterable[int]) -> tuple[int, ...]:
    return tuple(accumulate(minutes, max))


def _in_line(ready: tuple[int, ...], waits: list[int], *, closes: bool) -> tuple[int, ...]:
    """Return waits that never lead beyond what the next cell says, nor behind the one before."""
    if closes:
        nexts = [at - (cell + 1) * GRID_MIN + 1 for cell, at in enumerate(ready[1:])]
        return tuple(
            max(0, min(wait, most)) for wait, most in zip(waits, [*nexts, waits[-1]], strict=True)
        )
    formers = [0, *(at - (cell + 1) * GRID_MIN for cell, at in enumerate(ready[:-1]))]
    return tuple(max(wait, least) for wait, least in zip(waits, formers, strict=True))


def tables_of(work: Work, drier: Drier, *, cells: int, ended_at: Mapping[str, datetime]) -> Tables:
    """Return the tables of a build's dryings and windows.

    Args:
        work: the steps.
        drier: makes the tables.
        cells: how many quarters of an hour they look ahead.
        ended_at: when what is done ended, or what runs will: there is nothing left to look up.
    """
    if drier.is_always_steady:
        return NO_TABLES
    dryings = ((step.id, drier.drying(step, cells)) for step in work.steps)
    windows = (
        drier.window(window, cells)
        if window.first not in ended_at
        else drier.window_from(window, ended_at[window.first])
        for window in step_windows(work, drier.shelf)
    )
    return Tables(
        dryings={step: table for step, table in dryings if table is not None},
        windows={(lag.first, lag.then): lag for lag in windows if lag is not None},
    )
