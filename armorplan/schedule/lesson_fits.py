"""Whether a step may be learned where it lies, and what begins later for it."""

from bisect import bisect_right
from collections.abc import Container, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import replace

from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.company import everybody
from armorplan.schedule.lesson_room import LessonRoom
from armorplan.schedule.links import Links
from armorplan.schedule.measures import is_as_it_stood, job_end
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.small_moves import holds, may_move

_MOST_PUSHED = 60
"""So many things may begin later for one lesson: a day's work at the most."""


class LessonFits:
    """A plan that holds, in which one step after the other is learned.

    Attributes:
        lies: where everything lies by now.
    """

    def __init__(
        self, problem: Problem, placed: Sequence[Placed], earlier: Sequence[Placed] = ()
    ) -> None:
        self._by_id = {a.id: a for a in problem.activities}
        self._room = LessonRoom(problem, {p.id: p for p in placed})
        self.lies = self._room.lies
        self._links = Links(problem)
        self._hours = {w.id: w.windows for w in problem.workers}
        starts = {p.id: p.start_min for p in earlier}
        self._stay = {p.id for p in placed if starts.get(p.id) == p.start_min}
        self._stood = {p.id: p for p in problem.stood}
        self._until = self._ends(problem)
        self._holding = {hold.first for hold in problem.holds}

    def clears(self, changed: Sequence[Placed]) -> bool:
        """Tell whether a place is taken later by it, so that something else may fit there."""
        return any(p.id in self._holding for p in changed)

    def take(self, name: str, way: Mode, *, is_pushed: bool, is_old: bool) -> tuple[Placed, ...]:
        """Have a step done this way; return all that lies otherwise then, empty where it cannot.

        Args:
            name: a step that the one who is beside in this way does alone.
            way: how.
            is_pushed: what its teacher does next may begin later for it.
            is_old: but not what lies where it lay in the plan people go by.
        """
        now = self.lies[name]
        end_min = now.start_min + way.minutes
        lesson = replace(now, end_min=end_min, who=way.who, mode=way.name)
        if not self._is_there(self._by_id[name], lesson):
            return ()
        staying = self._stay if is_old else frozenset()
        news = self._pushed(lesson, now, staying, most=_MOST_PUSHED if is_pushed else 0)
        lies = _Over(self.lies, news)
        # What lies last is the likeliest to lie too late.
        if not all(self._keeps(self._by_id[i], news[i], lies) for i in reversed(news)):
            return ()
        changed = tuple(news.values())
        return changed if changed and self._room.take(changed) else ()

    def _pushed(
        self, lesson: Placed, now: Placed, staying: AbstractSet[str], *, most: int
    ) -> dict[str, Placed]:
        """Return a lesson and what the teacher does next, one upon the other; empty: it cannot."""
        news = {lesson.id: lesson}
        end, after = lesson.end_min, self._room.next_of(now.who, now)
        while after is not None and after.start_min < end:
            if len(news) > most or after.id in staying or not self._gives_way(after, news):
                return {}
            later = end - after.start_min
            pushed = replace(after, start_min=end, end_min=after.end_min + later)
            news[pushed.id] = pushed
            end, after = pushed.end_min, self._room.next_of(now.who, after)
        return news

    def _gives_way(self, placed: Placed, news: Container[str]) -> bool:
        """Tell whether a step may begin later: nobody comes for it, and no window gets shorter."""
        activity = self._by_id[placed.id]
        is_plain = may_move(activity, placed) and not (activity.also or activity.soon)
        windows = (lag for lag in self._links.into(placed.id) if lag.is_window)
        return (
            is_plain and placed.id not in self._stood and all(lag.first in news for lag in windows)
        )

    def _keeps(self, activity: Activity, placed: Placed, lies: "_Over") -> bool:
        """Tell whether what lies otherwise keeps everything but hands and places."""
        name, end, latest = activity.id, placed.end_min, activity.latest_start_min
        rules = (*self._links.first_in(name), *self._links.last_in(name))
        return (
            end <= self._until[name]
            and (latest is None or placed.start_min <= latest)
            and not any(begin <= end < till for begin, till in activity.ends_outside)
            and self._is_as_it_stood(activity, placed)
            and self._is_there(activity, placed)
            and all(
                holds(lag, lies) for lag in (*self._links.into(name), *self._links.out_of(name))
            )
            and all(
                any(lies[rule.first].end_min <= lies[i].start_min for i in rule.of)
                for rule in rules
            )
        )

    def _is_as_it_stood(self, activity: Activity, placed: Placed) -> bool:
        """Tell whether it is moved no more than it is: a pair that a search may take counts so."""
        stood = self._stood.get(activity.id)
        if stood is None or not is_as_it_stood(activity, stood, self.lies[activity.id]):
            return True
        return is_as_it_stood(activity, stood, placed)

    def _is_there(self, activity: Activity, placed: Placed) -> bool:
        """Tell whether everybody is there for the whole of it, in one stretch of their hours."""
        start, end = placed.start_min, placed.end_min
        for who in everybody(activity, placed):
            hours = self._hours.get(who, ())
            at = bisect_right(hours, start, key=_begin) - 1
            if at < 0 or end > hours[at][1]:
                return False
        return True

    def _ends(self, problem: Problem) -> dict[str, int]:
        """Return by when each step has to end, so that no build ends later."""
        last = max((p.end_min for p in self.lies.values()), default=0)
        ends = dict.fromkeys(self.lies, min(last, problem.horizon_min))
        for job in problem.jobs:
            if all(name in self.lies for name in job.activities):
                until = job_end(job, self.lies)
                ends |= {name: min(ends[name], until) for name in job.activities}
        return ends


def _begin(window: Window) -> int:
    return window[0]


class _Over(dict[str, Placed]):
    """A plan with some steps otherwise, without a copy of the rest."""

    def __init__(self, lies: dict[str, Placed], news: dict[str, Placed]) -> None:
        super().__init__(news)
        self._lies = lies

    def __missing__(self, name: str) -> Placed:
        return self._lies[name]
