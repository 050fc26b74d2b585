"""What is laid already says of what is laid next: not before, not after, and what to move if it is."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from armorplan.schedule.activity import Activity
from armorplan.schedule.lag_spans import (
    closes_at,
    first_end_open_till,
    last_end_open_by,
    opens_at,
)
from armorplan.schedule.links import Links
from armorplan.schedule.occupancy import Occupancy
from armorplan.schedule.problem import Lag, Placed, Problem
from armorplan.schedule.trials import Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class Limit:
    """The latest start or end something allows, and the activity to move later to allow more.

    ``by`` is the lag that says so; ``None`` where another has to end before the last of some.
    ``moves`` is empty where nothing can be moved: its own latest start.
    """

    latest_min: int
    is_end: bool
    moves: str = ""
    by: Lag | None = None

    def missed_by(self, fit: Fit) -> int:
        """Return the minutes by which a fit is too late; 0 or fewer where it is not."""
        return (fit.end_min if self.is_end else fit.start_min) - self.latest_min


@dataclass(slots=True, kw_only=True)
class Floors:
    """What was found out while laying: activities that cannot start, or end, before."""

    starts: dict[str, int] = field(default_factory=dict)
    ends: dict[str, int] = field(default_factory=dict)

    def forget(self) -> None:
        """Begin anew."""
        self.starts.clear()
        self.ends.clear()

    def move(self, limit: Limit, fit: Fit) -> None:
        """Let what stands in the way of a fit be so late that the fit is not too late for it."""
        lag, moves = limit.by, limit.moves
        if lag is None:
            self.starts[moves] = max(self.starts.get(moves, 0), fit.end_min)
        elif moves == lag.then:
            self.starts[moves] = max(self.starts.get(moves, 0), opens_at(lag, fit.end_min))
        else:
            end = first_end_open_till(lag, fit.start_min)
            self.ends[moves] = max(self.ends.get(moves, 0), end)


class Allowed:
    """The floors and limits of activities, as what is placed beside them says."""

    def __init__(self, problem: Problem, room: Occupancy, placed: Mapping[str, Placed]) -> None:
        self._links = Links(problem)
        self._by_id = {a.id: a for a in problem.activities}
        self._room = room
        self._placed = placed

    def floors(self, activity: Activity, floors: Floors) -> tuple[int, int]:
        """Return the first start, and the first end, that lags and 'before the last of' allow."""
        name = activity.id
        start = max(self._ready(activity, floors), self._after_others(name))
        end = floors.ends.get(name, 0)
        for lag in self._links.windows_out_of(name):
            then = self._placed.get(lag.then)
            soonest = self._soonest(lag.then, floors) if then is None else then.start_min
            end = max(end, first_end_open_till(lag, soonest))
        return start, end

    def limits(self, activity: Activity) -> list[Limit]:
        """Return the latest starts and ends that what is placed allows."""
        limits = []
        latest = activity.latest_start_min
        if latest is not None:
            limits.append(Limit(latest_min=latest, is_end=False))
        for lag in self._links.windows_into(activity.id):
            first = self._placed.get(lag.first)
            closes = None if first is None else closes_at(lag, first.end_min)
            if closes is not None:
                limits.append(Limit(latest_min=closes, is_end=False, moves=lag.first, by=lag))
        for lag in self._links.out_of(activity.id):
            then = self._placed.get(lag.then)
            if then is not None:
                last = last_end_open_by(lag, then.start_min)
                limits.append(Limit(latest_min=last, is_end=True, moves=lag.then, by=lag))
        return limits + self._before_last(activity.id)

    def waits_for_others(self, name: str) -> bool:
        """Tell whether it may yet have to be the last of some, for what is not placed."""
        return any(rule.first not in self._placed for rule in self._links.last_in(name))

    def _before_last(self, name: str) -> list[Limit]:
        limits = []
        for rule in self._links.first_in(name):
            if all(other in self._placed for other in rule.of):
                last = max(sorted(rule.of), key=lambda other: self._placed[other].start_min)
                start = self._placed[last].start_min
                limits.append(Limit(latest_min=start, is_end=True, moves=last))
        return limits

    def _ready(self, activity: Activity, floors: Floors) -> int:
        name, placed = activity.id, self._placed
        ready = max(0, activity.earliest_min, floors.starts.get(name, 0))
        for lag in self._links.into(name):
            first = placed.get(lag.first)
            if first is not None:
                ready = max(ready, opens_at(lag, first.end_min))
        return ready

    def _after_others(self, name: str) -> int:
        return max(
            (
                self._placed[rule.first].end_min
                for rule in self._links.last_in(name)
                if rule.first in self._placed and self._must_be_last(name, rule.first, rule.of)
            ),
            default=0,
        )

    def _soonest(self, name: str, floors: Floors) -> int:
        """Return when an activity not yet placed may start at the soonest, as far as is known."""
        activity = self._by_id[name]
        floor = self._ready(activity, floors)
        fits = self._room.fits(activity, floor, floors.ends.get(name, 0))
        return min((fit.start_min for fit in fits), default=floor)

    def _must_be_last(self, name: str, first: str, of: frozenset[str]) -> bool:
        end = self._placed[first].end_min
        others = (self._placed.get(other) for other in of if other != name)
        return all(other is not None and other.start_min < end for other in others)
