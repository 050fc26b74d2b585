"""Hours in which no coat may end: it would be too cold before its film has formed."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime, timedelta
from functools import cached_property
from itertools import groupby

from armorplan.drying.body import Body
from armorplan.drying.room import drying_room
from armorplan.drying.spoiling import spoiled
from armorplan.drying.track import GRID_MIN
from armorplan.schedule.activity import Window
from armorplan.schedule.first import is_stuck
from armorplan.schedule.problem import Problem
from armorplan.schedule.sittings import step_of
from armorplan.schedule.workplace import Workplace
from armorplan.steps.model import Work
from armorplan.workshop.shelf import TreatmentEntry

_EDGES = (0, GRID_MIN - 1)
"""Minutes of a cell that are asked for all of it."""


ShutHours = dict[tuple[str, Body], tuple[Window, ...]]
"""By treatment and body, when it must not begin to dry: in one room, from one origin."""


def without_spoiling_hours(
    problem: Problem,
    work: Work,
    workplace: Workplace,
    *,
    cells: int,
    looked_up: ShutHours | None = None,
) -> Problem:
    """Keep coats from ending where they would spoil, if a serial plan is left then.

    In a room where it is always too cold, or at all hours anybody works, the plan stands and a
    finding tells of it.

    Args:
        problem: with its sittings laid.
        work: the steps.
        workplace: the air of the room, and the treatments.
        cells: how many quarters of an hour are looked at.
        looked_up: what was looked up already, for other builds in the same room.
    """
    hours = _Hours(problem, workplace, cells, {} if looked_up is None else looked_up)
    known = {a.id: a for a in problem.activities}
    last = {step_of(a.id): a.id for a in problem.activities}
    kept: dict[str, tuple[Window, ...]] = {}
    for step in work.steps:
        told = step.drying
        if told is None or step.after is None or step.after not in last:
            continue
        wet = known[last[step.after]]
        shut = hours.of(told.treatment, told.body) if wet.fixed_start_min is None else ()
        if shut and wet.people and wet.table is None:
            kept[wet.id] = shut
    if not kept:
        return problem
    held = replace(
        problem,
        activities=tuple(
            replace(a, ends_outside=kept[a.id]) if a.id in kept else a for a in problem.activities
        ),
    )
    return problem if is_stuck(held) else held


class _Hours:
    """Looks each treatment and body up once."""

    def __init__(
        self, problem: Problem, workplace: Workplace, cells: int, known: ShutHours
    ) -> None:
        self._origin_at = problem.origin_at
        self._room = drying_room(workplace.shop.room)
        self._shelf = workplace.shelf
        self._cells = cells
        self._known = known

    def of(self, treatment: str, body: Body) -> tuple[Window, ...]:
        """Return the stretches, in minutes, in which nothing of this is to begin drying."""
        key = (treatment, body)
        if key not in self._known:
            entry = self._shelf.treatment(treatment)
            self._known[key] = () if entry is None else tuple(self._stretches(entry, body))
        return self._known[key]

    @cached_property
    def _starts(self) -> list[datetime]:
        """The first and the last minute of each cell: months of them, made once for all."""
        return [
            self._origin_at + timedelta(minutes=cell * GRID_MIN + edge)
            for cell in range(self._cells)
            for edge in _EDGES
        ]

    def _stretches(self, entry: TreatmentEntry, body: Body) -> Iterator[Window]:
        flags = spoiled(self._room, entry, body, self._starts).reshape(self._cells, len(_EDGES))
        cells = [any(flags_of) for flags_of in flags.tolist()]
        if all(cells):
            return
        at = 0
        for is_shut, run in groupby(cells):
            count = len(list(run))
            if is_shut:
                yield at * GRID_MIN, (at + count) * GRID_MIN
            at += count
