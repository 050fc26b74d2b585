"""How long things take to dry in one room: windows from a start, through its days and nights."""

from collections import deque
from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from armorplan.drying.along import FAST, SLOW, air_along
from armorplan.drying.body import LIKELY, Body, Multiples
from armorplan.drying.curve import Curve, curve_of, instants_of, knots_of
from armorplan.drying.days import usual_days
from armorplan.drying.spans import DryTimes, Span, Stage
from armorplan.drying.stages import (
    film_dose,
    ready_minutes,
    shop_factors,
    stage_doses,
    verdict_of,
    whole_minutes,
    within_cell,
)
from armorplan.drying.track import GRID, cell_of
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import TreatmentEntry

if TYPE_CHECKING:
    from armorplan.drying.track import Doubles

_PACES = (FAST, LIKELY, SLOW)
"""In the order of least, likely, most minutes."""
_ANY_DAY = datetime(2026, 1, 15, 9, tzinfo=UTC)
"""Some morning, for lists that know no clock."""
_STARTS_H = range(9)
"""Starts of a usual day, in hours after nine."""


class DryingRoom:
    """A room that tells when what is in it is dry. The same question is answered from a cache.

    Build it with ``drying_room``, which keeps one for each room.
    """

    def __init__(self, room: Room) -> None:
        self.room = room
        self._along = air_along(room)
        self._usual: dict[tuple[TreatmentEntry, Body], DryTimes] = {}

    @property
    def is_steady(self) -> bool:
        """Tell whether drying takes equally long at all times."""
        return self.room.is_steady

    def air(self, at: datetime) -> Climate:
        """Return the air at an instant."""
        return self._along.air(cell_of(at), 1)[0]

    def air_along(self, start_at: datetime, cells: int) -> list[Climate]:
        """Return the air of each quarter of an hour from a start on."""
        return self._along.air(cell_of(start_at), cells)

    def factors(self, entry: TreatmentEntry) -> Multiples:
        """Return what this shop's own drying multiplies a treatment's minutes by: 10, 50, 90 %."""
        return shop_factors(self.room.pace(entry.id))

    def doses(self, entry: TreatmentEntry, body: Body, stage: Stage) -> Multiples | None:
        """Return the minutes at the reference that a stage takes: least, likely, most.

        ``None`` where the treatment has no such stage.
        """
        return stage_doses(entry, body, self.room.pace(entry.id)).get(stage)

    def reached(
        self, entry: TreatmentEntry, body: Body, stage: Stage, starts: Sequence[datetime]
    ) -> "tuple[Doubles, Doubles, Doubles]":
        """Return minutes from each start to a stage: soonest, likely, latest; ``inf`` for never.

        Raises:
            KeyError: the treatment has no such stage.
        """
        soonest, likely, latest = (
            self._along.taken_min(entry, pace, dose, starts)
            for pace, dose in zip(_PACES, self._needed(entry, body, stage), strict=True)
        )
        return soonest, likely, latest

    def _needed(self, entry: TreatmentEntry, body: Body, stage: Stage) -> Multiples:
        found = self.doses(entry, body, stage)
        if found is None:
            raise KeyError(stage)
        return found

    def minutes(
        self, entry: TreatmentEntry, body: Body, stage: Stage, start_at: datetime
    ) -> int | None:
        """Return the likely minutes from a start to a stage; ``None``: never, or no such stage."""
        doses = self.doses(entry, body, stage)
        if doses is None:
            return None
        taken = self._along.taken_min(entry, LIKELY, doses[LIKELY], (start_at,))
        return whole_minutes(float(taken[0]), stage)

    def until(self, entry: TreatmentEntry, doses: Multiples, from_at: datetime) -> Multiples:
        """Return the minutes until a dose has passed: the least at the fastest pace, and so on."""
        return self._along.bands_min(entry, (doses,), from_at)[0]

    def times(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> DryTimes:
        """Return all windows of a treatment from a start, each as a range."""
        doses = stage_doses(entry, body, self.room.pace(entry.id))
        bands = self._along.bands_min(entry, tuple(doses.values()), start_at)
        spans = {stage: _span(stage, band) for stage, band in zip(doses, bands, strict=True)}
        handle_min = spans[Stage.HANDLE].likely_min
        film_min = self._along.taken_min(
            entry, LIKELY, film_dose(entry, body, self.room.pace(entry.id)), (start_at,)
        )
        coldest_c = self._along.coldest_c(start_at, float(film_min[0]))
        usual_min = entry.handle_min
        return DryTimes(
            start_at=start_at,
            verdict=verdict_of(entry, handle_min, coldest_c),
            spans=spans,
            coldest_c=coldest_c,
            pct_of_usual=round(100 * handle_min / usual_min) if handle_min and usual_min else 0,
        )

    @cached_property
    def usual_day(self) -> "DryingRoom":
        """This room as if all days were its usual one, told by the hours of UTC."""
        day = usual_days(self.room)
        return DryingRoom(replace(self.room, by_hour=day, readings=(), zone="UTC"))

    def usual(self, entry: TreatmentEntry, body: Body) -> DryTimes:
        """Return the windows of a usual start, for lists that know no clock: the middle of a day's.

        Of starts at each hour from nine to five the one is taken that has the middle time to handle.
        What was read counts by its usual day alone, so that another reading of the same air
        changes nothing.
        """
        if (entry, body) not in self._usual:
            self._usual[entry, body] = _usual_times(self, entry, body)
        return self._usual[entry, body]

    def dose_min(self, entry: TreatmentEntry, start_at: datetime, end_at: datetime) -> Multiples:
        """Return the minutes at the reference that passed from start to end: least, likely, most.

        None have passed where the end is before the start.
        """
        slow, likely, fast = (
            max(0.0, by_then) for _, by_then in self.passed(entry, (start_at, end_at))
        )
        return slow, likely, fast

    def curve(
        self, entry: TreatmentEntry, body: Body, start_at: datetime, until_at: datetime
    ) -> Curve:
        """Return how far a drying is from its start to an end, each quarter of an hour and stage.

        Raises:
            ValueError: the end is before the start.
        """
        doses = stage_doses(entry, body, self.room.pace(entry.id))
        bands = self._along.bands_min(entry, tuple(doses.values()), start_at)
        at = instants_of(start_at, until_at, knots_of(start_at, bands))
        needed = self._needed(entry, body, Stage.HANDLE)
        return curve_of(at, self.airs(at), self.passed(entry, at), needed)

    def airs(self, at: Sequence[datetime]) -> list[Climate]:
        """Return the air of ascending instants."""
        first = cell_of(at[0])
        air = self._along.air(first, cell_of(at[-1]) - first + 1)
        return [air[cell_of(each) - first] for each in at]

    def passed(
        self, entry: TreatmentEntry, at: Sequence[datetime]
    ) -> tuple[Sequence[float], Sequence[float], Sequence[float]]:
        """Return the minutes at the reference from the first instant to each: least, likely, most."""
        slow, likely, fast = (self._along.passed(entry, pace, at) for pace in (SLOW, LIKELY, FAST))
        return slow, likely, fast

    def table(
        self,
        entry: TreatmentEntry,
        body: Body,
        stage: Stage,
        origin_at: datetime,
        cells: int,
    ) -> tuple[int, ...] | None:
        """Return for each quarter of an hour from ``origin_at`` when what starts in it gets there.

        Minutes from the origin, never falling. Of the starts within a cell the last counts, so that
        it is ready for all of them; for the latest time to do something the first. A drying that
        never ends takes the longest time looked at. ``None`` where it takes equally long at all times.

        Raises:
            KeyError: the treatment has no such stage.
        """
        needed = self._needed(entry, body, stage)[LIKELY]
        if self.is_steady:
            return None
        first_at = origin_at.astimezone(UTC) + timedelta(minutes=within_cell(stage))
        starts = [first_at + cell * GRID for cell in range(cells)]
        return ready_minutes(self._along.taken_min(entry, LIKELY, needed, starts), stage)


def _span(stage: Stage, band: Multiples) -> Span:
    soonest, likely, latest = (whole_minutes(minutes, stage) for minutes in band)
    return Span(soonest_min=soonest, likely_min=likely, latest_min=latest)


def _usual_times(room: DryingRoom, entry: TreatmentEntry, body: Body) -> DryTimes:
    starts = [_ANY_DAY + timedelta(hours=hour) for hour in _STARTS_H]
    if room.is_steady:
        return room.times(entry, body, starts[0])
    usual = room.usual_day
    handle = usual.reached(entry, body, Stage.HANDLE, starts)[1]
    ranked = sorted(_STARTS_H, key=lambda at: (float(handle[at]), at))
    return usual.times(entry, body, starts[ranked[len(ranked) // 2]])


@lru_cache(maxsize=32)
def _kept(room: Room) -> DryingRoom:
    return DryingRoom(room)


_LAST: deque[tuple[Room, DryingRoom]] = deque(maxlen=4)
"""The rooms asked for last: to look weeks of readings up takes longer than most answers."""


def drying_room(room: Room) -> DryingRoom:
    """Return what reckons the drying of a room; the same for equal rooms."""
    for asked, found in tuple(_LAST):
        if asked is room:
            return found
    kept = _kept(room)
    _LAST.append((room, kept))
    return kept
