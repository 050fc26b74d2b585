"""How much drying a room's air does from one time to another, kept for what was asked before."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, datetime, timedelta
from functools import lru_cache
from typing import TYPE_CHECKING

from armorplan.drying.body import LIKELY
from armorplan.drying.days import CELLS_A_DAY, climates
from armorplan.drying.pace import Paces, paces
from armorplan.drying.track import Track, cell_of
from armorplan.workshop.air import Climate, Room
from armorplan.workshop.shelf import Carrier, TreatmentEntry

if TYPE_CHECKING:
    from armorplan.drying.track import Doubles

MOST_DAYS = 28
"""What is not dry by then will not dry in this air."""
MOST_MIN = MOST_DAYS * 24 * 60
SLOW, FAST = 0, 2
"""The numbers that paces are asked for by; ``LIKELY`` lies between them."""
_MARGIN_CELLS = MOST_DAYS * CELLS_A_DAY
_AHEAD_CELLS = 7 * CELLS_A_DAY
"""So much more than is asked for is looked up, since a plan asks on and on."""
_LONGEST_CELLS = 200 * CELLS_A_DAY
"""Times further apart than that are kept apart: last year's dryings and next week's."""


class Stretch:
    """The air of some weeks on end, and the tracks of drying through it.

    Args:
        room: whose air it is.
        first: its first cell.
        end: the cell after its last one.
    """

    def __init__(self, room: Room, first: int, end: int) -> None:
        self.first, self.end = first, end
        self.air = climates(room, first, end - first)
        self._tracks: dict[tuple[Carrier, float], tuple[Track, Track, Track]] = {}

    def covers(self, first: int, end: int) -> bool:
        """Tell whether these cells lie in it."""
        return self.first <= first and end <= self.end

    def tracks(self, carrier: Carrier, water_share: float) -> tuple[Track, Track, Track]:
        """Return the tracks of a carrier's slowest, likely and fastest pace."""
        key = (carrier, water_share)
        if key not in self._tracks:
            self._tracks[key] = self._laid(carrier, water_share)
        return self._tracks[key]

    def _laid(self, carrier: Carrier, water_share: float) -> tuple[Track, Track, Track]:
        import numpy as np

        # By identity: the hours of a usual day are the same objects on every day.
        kinds = {id(climate): climate for climate in self.air}
        numbers = {kind: at for at, kind in enumerate(kinds)}
        known = np.array([paces(carrier, climate, water_share) for climate in kinds.values()])
        cells = [numbers[id(climate)] for climate in self.air]
        slow, likely, fast = (Track(self.first, column[cells]) for column in known.T)
        return slow, likely, fast


class AirAlong:
    """The air of a room along time. Paces are asked for by number: ``SLOW``, ``LIKELY``, ``FAST``."""

    def __init__(self, room: Room) -> None:
        self._room = room
        self._stretches: tuple[Stretch, ...] = ()
        self._steady: dict[tuple[Carrier, float], Paces] = {}

    def air(self, first: int, cells: int) -> list[Climate]:
        """Return the air of each cell from ``first`` on."""
        if self._room.is_steady:
            return [self._room.usual] * cells
        stretch = self._stretch(first, first + cells)
        return stretch.air[first - stretch.first : first - stretch.first + cells]

    def passed(
        self, entry: TreatmentEntry, pace: int, instants: Sequence[datetime]
    ) -> list[float]:
        """Return the minutes at the reference that passed from the first instant to each."""
        import numpy as np

        if self._room.is_steady:
            begin = instants[0].astimezone(UTC)
            speed = self._speeds(entry)[pace]
            return [speed * (at.astimezone(UTC) - begin).total_seconds() / 60 for at in instants]
        track = self._track(entry, pace, instants, 0)
        doses = track.dose(np.array([track.minutes_of(at) for at in instants]))
        return [float(dose) for dose in doses - doses[0]]

    def taken_min(
        self,
        entry: TreatmentEntry,
        pace: int,
        doses: float | Sequence[float],
        starts: Sequence[datetime],
    ) -> "Doubles":
        """Return the minutes from each start until a dose has passed; ``inf`` for never.

        Of one start several doses may be asked for at once.
        """
        import numpy as np

        needed = np.asarray(doses, dtype=float)
        if self._room.is_steady:
            speed = self._speeds(entry)[pace]
            found = np.zeros(len(starts)) + (
                needed / speed if speed else np.full_like(needed, np.inf)
            )
            return np.where(found <= MOST_MIN, found, np.inf)
        track = self._track(entry, pace, starts, _MARGIN_CELLS)
        return _taken(track, needed, np.array([track.minutes_of(at) for at in starts]))

    def taken_by_minute(
        self, entry: TreatmentEntry, pace: int, dose: float, when: tuple[datetime, int]
    ) -> "Doubles":
        """Return the minutes until a dose has passed from an instant and each minute after it.

        Args:
            entry: the treatment.
            pace: by number.
            dose: minutes at the reference.
            when: the instant, and how many minutes from it on are asked for.
        """
        import numpy as np

        from_at, minutes = when
        if self._room.is_steady:
            return np.repeat(self.taken_min(entry, pace, dose, (from_at,)), minutes)
        ends = (from_at, from_at + timedelta(minutes=minutes))
        track = self._track(entry, pace, ends, _MARGIN_CELLS)
        begun = track.minutes_of(from_at) + np.arange(minutes, dtype=float)
        return _taken(track, dose, begun)

    def bands_min(
        self, entry: TreatmentEntry, doses: Sequence[Sequence[float]], start_at: datetime
    ) -> list[tuple[float, float, float]]:
        """Return for each band of doses the minutes from a start: soonest, likely, latest.

        The least dose passes at the fastest pace, the most at the slowest.
        """
        columns = (
            self.taken_min(entry, pace, needed, (start_at,))
            for pace, needed in zip((FAST, LIKELY, SLOW), zip(*doses, strict=True), strict=True)
        )
        return [
            (float(soonest), float(likely), float(latest))
            for soonest, likely, latest in zip(*columns, strict=True)
        ]

    def coldest_c(self, start_at: datetime, minutes: float) -> float:
        """Return the coldest air from a start on for so many minutes."""
        until_at = start_at.astimezone(UTC) + timedelta(minutes=min(minutes, MOST_MIN))
        cells = cell_of(until_at) - cell_of(start_at) + 1
        return min(climate.temperature_c for climate in self.air(cell_of(start_at), cells))

    def _speeds(self, entry: TreatmentEntry) -> Paces:
        key = (entry.carrier, entry.water_share)
        if key not in self._steady:
            self._steady[key] = paces(entry.carrier, self._room.usual, entry.water_share)
        return self._steady[key]

    def _track(
        self, entry: TreatmentEntry, pace: int, instants: Sequence[datetime], margin: int
    ) -> Track:
        cells = [cell_of(at) for at in (min(instants), max(instants))]
        stretch = self._stretch(cells[0], cells[1] + margin + 1)
        return stretch.tracks(entry.carrier, entry.water_share)[pace]

    def _stretch(self, first: int, end: int) -> Stretch:
        """Return air that covers these cells; what lies near is taken up in it."""
        for stretch in self._stretches:
            if stretch.covers(first, end):
                return stretch
        first, end = first - CELLS_A_DAY, end + _AHEAD_CELLS
        apart: list[Stretch] = []
        for stretch in self._stretches:
            begin, stop = min(first, stretch.first), max(end, stretch.end)
            if stop - begin <= _LONGEST_CELLS:
                first, end = begin, stop
            else:
                apart.append(stretch)
        found = Stretch(self._room, first, end)
        self._stretches = (found, *apart)
        return found


def _taken(track: Track, doses: "float | Doubles", begun: "Doubles") -> "Doubles":
    """Return the minutes from where each begins until its dose has passed; ``inf`` for never."""
    import numpy as np

    found = np.maximum(track.reached(track.dose(begun) + doses) - begun, 0.0)
    return np.where(found <= MOST_MIN, found, np.inf)


@lru_cache(maxsize=16)
def _kept(air: Room) -> AirAlong:
    return AirAlong(air)


def air_along(room: Room) -> AirAlong:
    """Return the air of a room along time; the same for rooms that differ in what was learned."""
    return _kept(replace(room, paces=(), volume_m3=None))
