"""How long things take to dry in one room: windows from a start, through its days and nights."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from math import ceil, exp
from typing import TYPE_CHECKING

from armorplan.drying.body import Body, Multiples, multiples
from armorplan.drying.curve import Curve, curve_of, instants_of
from armorplan.drying.pace import paces
from armorplan.drying.spans import DryTimes, Span, Stage, Verdict
from armorplan.drying.track import GRID_MIN, Track, cell_of, climates, track_of
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import Carrier, TreatmentEntry

if TYPE_CHECKING:
    from armorplan.drying.track import Doubles

MOST_DAYS = 28
"""What is not dry by then will not dry in this air."""
_CELLS_A_DAY = 24 * 60 // GRID_MIN
_MARGIN_CELLS = MOST_DAYS * _CELLS_A_DAY
_USUAL_SPREAD = 0.3
"""Spread of a catalogue's times before anything was learned (common practice, no source)."""
_DECILE = 1.2815515655446004
"""Standard normal quantile of 90 %: eight of ten lie between this on both sides."""
_HAIR = 1e-6
_SLOW, _LIKELY, _FAST = range(3)
_ANY_DAY = datetime(2026, 1, 15, 12, tzinfo=UTC)
"""Some winter's noon in UTC, for rooms whose days are all alike."""


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
        self._air: tuple[int, list[Climate]] = (0, [])
        self._tracks: dict[tuple[Carrier, float, int], Track] = {}

    @property
    def is_steady(self) -> bool:
        """Tell whether drying takes equally long at all times."""
        return self.room.is_steady

    def air(self, at: datetime) -> Climate:
        """Return the air at an instant."""
        return climates(self.room, cell_of(at), 1)[0]

    def air_along(self, start_at: datetime, cells: int) -> list[Climate]:
        """Return the air of each quarter of an hour from a start on."""
        return climates(self.room, cell_of(start_at), cells)

    def factors(self, entry: TreatmentEntry) -> Multiples:
        """Return what this shop's own drying multiplies a treatment's minutes by: 10, 50, 90 %."""
        learned = self.room.pace(entry.id)
        middle, spread = (learned.factor, learned.spread) if learned else (1.0, _USUAL_SPREAD)
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
        doses = self.doses(entry, body, stage)
        if doses is None:
            raise KeyError(stage)
        soonest, likely, latest = (
            self._reached(entry, pace, dose, starts)
            for pace, dose in zip((_FAST, _LIKELY, _SLOW), doses, strict=True)
        )
        return soonest, likely, latest

    def _reached(
        self, entry: TreatmentEntry, pace: int, dose: float, starts: Sequence[datetime]
    ) -> "Doubles":
        import numpy as np

        if self.is_steady:
            speed = paces(entry.carrier, self.room.usual, entry.water_share)[pace]
            taken = dose / speed if speed else np.inf
            return np.full(len(starts), taken if taken <= MOST_DAYS * 24 * 60 else np.inf)
        track = self._track(entry, pace, min(starts), max(starts))
        begun = np.array([track.minutes_of(at) for at in starts])
        taken_min = track.reached(track.dose(begun) + dose) - begun
        return np.where(taken_min <= MOST_DAYS * 24 * 60, taken_min, np.inf)

    def _track(
        self, entry: TreatmentEntry, pace: int, first_at: datetime, last_at: datetime
    ) -> Track:
        """Return the track of a pace that covers these starts and the longest drying after them."""
        need_first, need_end = cell_of(first_at), cell_of(last_at) + _MARGIN_CELLS + 1
        first, air = self._air
        if not air or need_first < first or need_end > first + len(air):
            if air:
                need_first = min(need_first, first)
                need_end = max(need_end, first + len(air))
            air = climates(self.room, need_first, need_end - need_first + _CELLS_A_DAY)
            first, self._tracks = need_first, {}
            self._air = first, air
        key = (entry.carrier, entry.water_share, pace)
        if key not in self._tracks:
            self._tracks[key] = track_of(
                air, first, lambda c: paces(entry.carrier, c, entry.water_share)[pace]
            )
        return self._tracks[key]

    def minutes(
        self, entry: TreatmentEntry, body: Body, stage: Stage, start_at: datetime
    ) -> int | None:
        """Return the likely minutes from a start to a stage; ``None``: never, or no such stage."""
        if stage not in stage_minutes(entry):
            return None
        return _whole(float(self.reached(entry, body, stage, (start_at,))[1][0]), stage)

    def times(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> DryTimes:
        """Return all windows of a treatment from a start, each as a range."""
        spans = {
            stage: Span(
                soonest_min=_whole(float(soonest[0]), stage),
                likely_min=_whole(float(likely[0]), stage),
                latest_min=_whole(float(latest[0]), stage),
            )
            for stage in stage_minutes(entry)
            for soonest, likely, latest in (self.reached(entry, body, stage, (start_at,)),)
        }
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

    def _coldest_c(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> float:
        """Return the coldest air from a start until the film is formed, or it is dry to handle."""
        minutes = self._film_min(entry, body, start_at)
        last = cell_of(start_at + timedelta(minutes=minutes))
        first = cell_of(start_at)
        if self.is_steady:
            return self.room.usual.temperature_c
        return min(c.temperature_c for c in climates(self.room, first, last - first + 1))

    def _film_min(self, entry: TreatmentEntry, body: Body, start_at: datetime) -> float:
        if entry.film_from_c is None:
            return self.minutes(entry, body, Stage.HANDLE, start_at) or MOST_DAYS * 24 * 60
        here = multiples(entry, body)[1]
        dose = (entry.film_min or entry.touch_min) * here * self.factors(entry)[1]
        taken = float(self._reached(entry, _LIKELY, dose, (start_at,))[0])
        return min(taken, MOST_DAYS * 24 * 60)

    def usual(self, entry: TreatmentEntry, body: Body) -> DryTimes:
        """Return the windows of a usual start, for lists that know no clock: the middle of a day's.

        Of starts at each hour from nine to five the one is taken that has the middle time to handle.
        """
        hours = [self._some_day() + timedelta(hours=h) for h in range(-3, 6)]
        if self.is_steady:
            return self.times(entry, body, hours[0])
        handle = self.reached(entry, body, Stage.HANDLE, hours)[1]
        ranked = sorted(range(len(hours)), key=lambda at: (float(handle[at]), at))
        return self.times(entry, body, hours[ranked[len(ranked) // 2]])

    def _some_day(self) -> datetime:
        """Return a local noon: the last one read, else any."""
        from zoneinfo import ZoneInfo

        local = ZoneInfo(self.room.zone)
        last_at = self.room.readings[-1].at if self.room.readings else _ANY_DAY
        noon = last_at.astimezone(local).replace(hour=12, minute=0, second=0, microsecond=0)
        return noon.astimezone(UTC)

    def dose_min(self, entry: TreatmentEntry, start_at: datetime, end_at: datetime) -> Multiples:
        """Return the minutes at the reference that passed from start to end: least, likely, most."""
        import numpy as np

        minutes = max(0.0, (end_at - start_at).total_seconds() / 60)
        if self.is_steady:
            slow, likely, fast = paces(entry.carrier, self.room.usual, entry.water_share)
            return slow * minutes, likely * minutes, fast * minutes
        found = []
        for pace in (_SLOW, _LIKELY, _FAST):
            track = self._track(entry, pace, start_at, end_at)
            ends = np.array([track.minutes_of(start_at), track.minutes_of(max(start_at, end_at))])
            begun, ended = track.dose(ends)
            found.append(float(ended - begun))
        return found[0], found[1], found[2]

    def curve(
        self, entry: TreatmentEntry, body: Body, start_at: datetime, until_at: datetime
    ) -> Curve:
        """Return how far a drying is at each quarter of an hour from its start to an end.

        Raises:
            ValueError: the end is before the start.
        """
        at = instants_of(start_at, until_at)
        slow, likely, fast = zip(*(self.dose_min(entry, at[0], each) for each in at), strict=True)
        needed = self.doses(entry, body, Stage.HANDLE) or (0.0, 0.0, 0.0)
        air = self.air_along(at[0], cell_of(at[-1]) - cell_of(at[0]) + 1)
        return curve_of(
            at, [air[cell_of(each) - cell_of(at[0])] for each in at], (slow, likely, fast), needed
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
        starts = [origin_at + timedelta(minutes=cell * GRID_MIN + within) for cell in range(cells)]
        taken = np.minimum(self.reached(entry, body, stage, starts)[1], MOST_DAYS * 24 * 60)
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
def drying_room(room: Room) -> DryingRoom:
    """Return what reckons the drying of a room; the same for equal rooms."""
    return DryingRoom(room)
