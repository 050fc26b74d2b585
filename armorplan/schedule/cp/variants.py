"""The ways an activity can be done, each with the minutes it can start at."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import accumulate

from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.bounds import earliest_starts
from armorplan.schedule.calendars import merged
from armorplan.schedule.critical import critical_times
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.problem import Problem
from armorplan.schedule.spans import last_start_ending_by
from armorplan.solving.model import MOST, Range

Ranges = tuple[Range, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Variant:
    """A way, a time from start to end, and when it can start like that.

    Work that may stop at closing has one for each total of closed minutes that can lie in it.

    Attributes:
        takes: minutes from start to end; of a dip and of what goes by a table, the least.
        is_paused: closed hours lie in it.
    """

    way: Mode
    takes: int
    starts: Ranges
    is_paused: bool = False


def variants_of(problem: Problem, most_min: int) -> dict[str, tuple[Variant, ...]]:
    """Return the variants of each activity that is not fixed, everything ending by ``most_min``.

    Hours of places and of everybody who has to be there are in the starts, except for what a
    dip takes beyond its own share.
    """
    rooms = _Rooms(problem)
    spans = _spans(problem, most_min)
    found: dict[str, tuple[Variant, ...]] = {}
    for activity in problem.activities:
        if activity.fixed_start_min is None:
            last = MOST if activity.latest_start_min is None else activity.latest_start_min
            wide = max(0, activity.earliest_min), last
            low, high = spans.get(activity.id, wide)
            narrow = max(low, wide[0]), min(high, wide[1])
            # Where no start is left there is no plan; that is for the solver to prove.
            by_span = (rooms.variants(activity, span, most_min) for span in (narrow, wide))
            found[activity.id] = next((v for v in by_span if v), ())
    return found


class _Rooms:
    """When people and places are to be had."""

    def __init__(self, problem: Problem) -> None:
        self._hours = {w.id: w.windows for w in problem.workers}
        self._open = {r.id: r.windows for r in problem.resources if r.windows is not None}
        self._baths = {bath.id: bath for bath in problem.baths}
        self._soonest = _soonest_in_history(problem)

    def variants(self, activity: Activity, span: Range, most_min: int) -> tuple[Variant, ...]:
        """Return the variants that start within a span and end in time."""
        found: list[Variant] = []
        for way in activity.ways:
            if activity.sitting(way) and way.minutes:
                found += self._pausing(activity, way, span, most_min)
            elif activity.dip is None:
                found += self._in_one_go(activity, way, span, most_min)
            elif way.bath in self._baths:
                found += self._dipping(activity, way, span, most_min)
        return tuple(found)

    def _in_one_go(
        self, activity: Activity, way: Mode, span: Range, most_min: int
    ) -> Iterator[Variant]:
        takes = way.minutes

        def last(end_min: int) -> int:
            if activity.table is None:
                return end_min - takes
            return last_start_ending_by(activity, end_min)

        starts = _from(span[0], min(span[1], last(most_min)))
        for windows in self._around(activity, way):
            starts = meet(starts, ((begin, last(end)) for begin, end in windows))
        starts = ending_outside(activity, starts, takes)
        if starts:
            yield Variant(way=way, takes=takes, starts=starts)

    def _dipping(
        self, activity: Activity, way: Mode, span: Range, most_min: int
    ) -> Iterator[Variant]:
        bath, dip = self._baths[way.bath], activity.dip
        if dip is None or dip.amount > bath.capacity:
            return
        takes = way.minutes + dip.set_up_min
        changed = 0
        if bath.holds not in ("", dip.family):
            changed = min(bath.change_min, self._soonest.get(bath.id, bath.change_min))
        starts = _from(max(span[0], changed), min(span[1], most_min - takes))
        for windows in self._around(activity, way):
            starts = meet(starts, ((begin, end - takes) for begin, end in windows))
        if starts:
            yield Variant(way=way, takes=takes, starts=starts)

    def _around(self, activity: Activity, way: Mode) -> Iterator[Iterable[Window]]:
        """Yield the windows of everybody and every place: it lies within one of each."""
        for person in activity.there(way):
            yield self._hours.get(person, ())
        yield from self.places(activity, way)

    def places(self, activity: Activity, way: Mode) -> Iterator[tuple[Window, ...]]:
        """Yield the windows of each place it takes that is not always open."""
        for demand in (*activity.demands, *way.demands):
            if demand.resource in self._open:
                yield self._open[demand.resource]

    def _pausing(
        self, activity: Activity, way: Mode, span: Range, most_min: int
    ) -> Iterator[Variant]:
        """Yield work that may stop at closing, by the closed minutes that lie in it."""
        by_closed: dict[int, list[Range]] = {}
        hours = self._hours.get(way.who or "", ())
        for closed, begun in _stretches(way.minutes, activity.sitting_min, hours):
            by_closed.setdefault(closed, []).append(begun)
        for closed, parts in sorted(by_closed.items()):
            takes = way.minutes + closed
            starts = meet(_from(span[0], min(span[1], most_min - takes)), union([tuple(parts)]))
            for windows in self.places(activity, way):
                starts = meet(starts, ((begin, end - takes) for begin, end in windows))
            starts = ending_outside(activity, starts, takes)
            if starts:
                yield Variant(way=way, takes=takes, starts=starts, is_paused=closed > 0)


def _stretches(
    minutes: int, sitting_min: int, windows: tuple[Window, ...]
) -> Iterator[tuple[int, Range]]:
    """Yield closed minutes and the starts that lead to them, for work begun in each window."""
    least = max(1, min(sitting_min, minutes))
    lengths = [end - begin for begin, end in windows]
    worked = [0, *accumulate(lengths)]
    for at, (begin, end) in enumerate(windows):
        if lengths[at] >= minutes:
            yield 0, (begin, end - minutes)
        for to in range(at + 1, len(windows)):
            if to > at + 1 and lengths[to - 1] < least:
                break
            # What is left to work at in the first window and in the last.
            left = minutes - (worked[to] - worked[at + 1])
            if left < 2 * least:
                break
            low = max(least, left - lengths[to])
            high = min(lengths[at], left - least)
            if low <= high:
                closed = windows[to][0] - end - (worked[to] - worked[at + 1])
                yield closed, (end - high, end - low)


def meet(one: Iterable[Range], other: Iterable[Range]) -> Ranges:
    """Return what lies in both; ranges are inclusive, ascending and apart, empty ones left out."""
    mine, theirs = list(one), list(other)
    both, here, there = [], 0, 0
    while here < len(mine) and there < len(theirs):
        (a, b), (c, d) = mine[here], theirs[there]
        if max(a, c) <= min(b, d):
            both.append((max(a, c), min(b, d)))
        if a > b or b <= d:
            here += 1
        else:
            there += 1
    return tuple(both)


def _from(low: int, high: int) -> Ranges:
    return ((low, high),) if low <= high else ()


def ending_outside(activity: Activity, starts: Ranges, takes: int) -> Ranges:
    """Return the starts without those that end within what is shut for an activity."""
    for shut_from, shut_till in activity.ends_outside:
        starts = meet(starts, ((-MOST, shut_from - takes - 1), (shut_till - takes, MOST)))
    return starts


def union(parts: Iterable[Ranges]) -> Ranges:
    """Return inclusive ranges as one ascending union."""
    joined = merged((low, high + 1) for ranges in parts for low, high in ranges)
    return tuple((low, high - 1) for low, high in joined)


def _soonest_in_history(problem: Problem) -> dict[str, int]:
    """Return when the first fixed batch went into each bath."""
    soonest: dict[str, int] = {}
    for activity in problem.activities:
        start = activity.fixed_start_min
        if activity.dip is not None and start is not None:
            for way in activity.ways:
                soonest[way.bath] = min(start, soonest.get(way.bath, start))
    return soonest


def _spans(problem: Problem, most_min: int) -> Mapping[str, Range]:
    """Return the first and the last start that the lags leave each activity, where any look-up is.

    So there are fewer cells to look up in; without tables the solver is quicker at it by itself.
    """
    looks_up = any(a.table for a in problem.activities)
    if not looks_up or lag_cycle(problem):
        return {}
    starts = earliest_starts(problem)
    times = critical_times(problem)
    finish = max((t.latest_end_min for t in times), default=0)
    return {t.id: (starts[t.id], most_min - (finish - t.latest_start_min)) for t in times}
