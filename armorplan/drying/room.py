"""How long things take to dry in one room: windows from a start, through its days and nights."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from math import ceil, exp
from typing import TYPE_CHECKING

from armorplan.drying.along import MOST_MIN, air_along
from armorplan.drying.body import Body, Multiples, multiples
from armorplan.drying.curve import Curve, curve_of, instants_of
from armorplan.drying.days import usual_days
from armorplan.drying.spans import DryTimes, Span, Stage, Verdict
from armorplan.drying.track import GRID_MIN, cell_of
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import TreatmentEntry

if TYPE_CHECKING:
    from armorplan.drying.track import Doubles

USUAL_SPREAD = 0.3
"""Spread of a catalogue's times before anything was learned (common practice, no source)."""
_DECILE = 1.2815515655446004
"""Standard normal quantile of 90 %: eight of ten lie between this on both sides."""
_HAIR = 1e-6
_SLOW, _LIKELY, _FAST = range(3)
_ANY_DAY = datetime(2026, 1, 15, 9, tzinfo=UTC)
"""Some morning, for lists that know no clock."""
_STARTS_H = range(9)
"""Starts of a usual day, in hours after nine."""


def stage_minutes(entry: TreatmentEntry) -> dict[Stage, int]:
    """Return the catalogue's minutes to each stage a treatment knows."""
    opens, closes = entry.window_min or (None, None)
    found = {
        Stage.TOUCH: entry.touch_min,
        Stage.RECOAT_BY: entry.recoat_by_min,
        Stage.OPENS: opens,
        Stage.CLOSES: closes,
        Stage.HANDLE: entry.handle_min,
        Stage.CURE: entry.cure_min,
    }
    return {stage: minutes for stage, minutes in found.items() if minutes is not None}


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
        learned = self.room.pace(entry.id)
        middle, spread = (learned.factor, learned.spread) if learned else (1.0, USUAL_SPREAD)
        wide = exp(_DECILE * spread)
        return middle / wide, middle, middle * wide

    def doses(self, entry: TreatmentEntry, body: Body, stage: Stage) -> Multiples | None:
        """Return the minutes at the reference that a stage takes: least, likely, most.

        ``None`` where the treatment has no such stage.
        """
        minutes = stage_minutes(entry).get(stage)
        if minutes is None:
            return None
        here, shop = multiples(entry, body), self.factors(entry)
        least, likely, most = (minutes * m * s for m, s in zip(here, shop, strict=True))
        return least, likely, most

    def reached(
        self, entry: TreatmentEntry, body: Body, stage: Stage, starts: Sequence[datetime]
    ) -> "tuple[Doubles, Doubles, Doubles]":
        """Return minutes from each start to a stage: soonest, likely, latest; ``inf`` for never.

        Raises:
            KeyError: the treatment has no such stage.
        """
        soonest, likely, latest = (
            self._reached(entry, body, stage, pace, starts) for pace in (_FAST, _LIKELY, _SLOW)
        )
        return soonest, likely, latest

    def _reached(
        self,
        entry: TreatmentEntry,
        body: Body,
        stage: Stage,
        pace: int,
        starts: Sequence[datetime],
    ) -> "Doubles":
        """Return minutes from each start to a stage; the slow pace has the most to dry."""
        doses = self.doses(entry, body, stage)
        if doses is None:
            raise KeyError(stage)
        return self._along.taken_min(entry, pace, doses[_FAST - pace], starts)

    def minutes(
        self, entry: TreatmentEntry, body: Body, stage: Stage, start_at: datetime
    ) -> int | None:
        """Return the likely minutes from a start to a stage; ``None``: never, or no such stage."""
        if stage not in stage_minutes(entry):
            return None
        return _whole(float(self._reached(entry, body, stage, _LIKELY, (start_at,))[0]), stage)

    def until(self, entry: TreatmentEntry, doses: Multiples, from_at: datetime) -> Multiples:
        """Return the minutes until a dose has passed: the least at the fastest pace, and so on."""
        soonest, likely, latest = (
            float(self._along.taken_min(entry, pace, dose, (from_at,))[0])
            for pace, dose in zip((_FAST, _LIKELY, _SLOW), doses, strict=True)
        )
        return soonest, likely, latest

    def times(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> DryTimes:
        """Return all windows of a treatment from a start, each as a range."""
        spans = self._spans(entry, body, start_at)
        handle_min = spans[Stage.HANDLE].likely_min
        coldest_c = self._coldest_c(entry, body, start_at)
        usual_min = entry.handle_min
        return DryTimes(
            start_at=start_at,
            verdict=_verdict(entry, handle_min, coldest_c),
            spans=spans,
            coldest_c=coldest_c,
            pct_of_usual=round(100 * handle_min / usual_min) if handle_min and usual_min else 0,
        )

    def _spans(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> dict[Stage, Span]:
        """Return the range of every stage, all of them looked up at once."""
        stages = tuple(stage_minutes(entry))
        doses = [self.doses(entry, body, stage) or (0.0, 0.0, 0.0) for stage in stages]
        soonest, likely, latest = (
            self._along.taken_min(entry, pace, [dose[_FAST - pace] for dose in doses], (start_at,))
            for pace in (_FAST, _LIKELY, _SLOW)
        )
        return {
            stage: Span(
                soonest_min=_whole(float(soonest[at]), stage),
                likely_min=_whole(float(likely[at]), stage),
                latest_min=_whole(float(latest[at]), stage),
            )
            for at, stage in enumerate(stages)
        }

    def _coldest_c(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> float:
        """Return the coldest air from a start until the film is formed, or it is dry to handle."""
        if self.is_steady:
            return self.room.usual.temperature_c
        taken_min = self._film_min(entry, body, start_at)
        last = cell_of(start_at.astimezone(UTC) + timedelta(minutes=taken_min))
        cells = last - cell_of(start_at) + 1
        return min(climate.temperature_c for climate in self.air_along(start_at, cells))

    def _film_min(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> float:
        forms_min = entry.handle_min
        if entry.film_from_c is not None:
            forms_min = entry.touch_min if entry.film_min is None else entry.film_min
        dose = forms_min * multiples(entry, body)[1] * self.factors(entry)[1]
        return min(float(self._along.taken_min(entry, _LIKELY, dose, (start_at,))[0]), MOST_MIN)

    def usual(self, entry: TreatmentEntry, body: Body) -> DryTimes:
        """Return the windows of a usual start, for lists that know no clock: the middle of a day's.

        Of starts at each hour from nine to five the one is taken that has the middle time to handle.
        What was read counts by its usual day alone, so that another reading of the same air
        changes nothing.
        """
        if (entry, body) not in self._usual:
            self._usual[entry, body] = self._usual_times(entry, body)
        return self._usual[entry, body]

    def _usual_times(self, entry: TreatmentEntry, body: Body) -> DryTimes:
        starts = [_ANY_DAY + timedelta(hours=hour) for hour in _STARTS_H]
        if self.is_steady:
            return self.times(entry, body, starts[0])
        usual = drying_room(
            replace(self.room, by_hour=usual_days(self.room), readings=(), zone="UTC")
        )
        handle = usual.reached(entry, body, Stage.HANDLE, starts)[1]
        ranked = sorted(_STARTS_H, key=lambda at: (float(handle[at]), at))
        return usual.times(entry, body, starts[ranked[len(ranked) // 2]])

    def dose_min(self, entry: TreatmentEntry, start_at: datetime, end_at: datetime) -> Multiples:
        """Return the minutes at the reference that passed from start to end: least, likely, most.

        None have passed where the end is before the start.
        """
        slow, likely, fast = (
            max(0.0, self._along.passed(entry, pace, (start_at, end_at))[1])
            for pace in (_SLOW, _LIKELY, _FAST)
        )
        return slow, likely, fast

    def curve(
        self, entry: TreatmentEntry, body: Body, start_at: datetime, until_at: datetime
    ) -> Curve:
        """Return how far a drying is at each quarter of an hour from its start to an end.

        Raises:
            ValueError: the end is before the start.
        """
        at = instants_of(start_at, until_at)
        slow, likely, fast = (
            self._along.passed(entry, pace, at) for pace in (_SLOW, _LIKELY, _FAST)
        )
        needed = self.doses(entry, body, Stage.HANDLE) or (0.0, 0.0, 0.0)
        first = cell_of(at[0])
        air = self._along.air(first, cell_of(at[-1]) - first + 1)
        return curve_of(
            at, [air[cell_of(each) - first] for each in at], (slow, likely, fast), needed
        )

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
        import numpy as np

        if self.is_steady:
            return None
        by_then = stage in (Stage.CLOSES, Stage.RECOAT_BY)
        within = 0 if by_then else GRID_MIN - 1
        first_at = origin_at.astimezone(UTC) + timedelta(minutes=within)
        starts = [first_at + timedelta(minutes=cell * GRID_MIN) for cell in range(cells)]
        taken = np.minimum(self._reached(entry, body, stage, _LIKELY, starts), MOST_MIN)
        begun = np.arange(cells) * GRID_MIN + within
        rounded = np.floor(taken + _HAIR) if by_then else np.ceil(taken - _HAIR)
        return tuple(int(m) for m in np.maximum.accumulate(begun + rounded))


def _whole(minutes: float, stage: Stage) -> int | None:
    """Return whole minutes: up for what has to be waited for, down for the latest time."""
    if minutes == float("inf"):
        return None
    if stage in (Stage.CLOSES, Stage.RECOAT_BY):
        return max(1, int(minutes + _HAIR))
    return ceil(minutes - _HAIR)


def _verdict(entry: TreatmentEntry, handle_min: int | None, coldest_c: float) -> Verdict:
    if handle_min is None:
        return Verdict.WILL_NOT_DRY
    if entry.film_from_c is not None and coldest_c < entry.film_from_c:
        return Verdict.WOULD_SPOIL
    return Verdict.DRIES


@lru_cache(maxsize=32)
def _kept(room: Room) -> DryingRoom:
    return DryingRoom(room)


_LAST = [DryingRoom(Room())]
"""The room asked for last: to look weeks of readings up takes longer than most answers."""


def drying_room(room: Room) -> DryingRoom:
    """Return what reckons the drying of a room; the same for equal rooms."""
    last = _LAST[0]
    if last.room is not room:
        last = _LAST[0] = _kept(room)
    return last
