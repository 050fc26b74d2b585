"""People for the solver: nobody does two things at once, and nobody works out of hours."""

from armorplan.schedule.activity import Window
from armorplan.schedule.calendars import merged
from armorplan.schedule.company import everybody
from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.draft import Draft
from armorplan.solving.model import Cumulative, NoOverlap


class Hands:
    """What people are busy with, as intervals.

    Attributes:
        work: for each person the intervals that have to lie within hours.
        paused: for each person those in which closed hours lie.
        own: for each person when they are at the bench, without where they only come for it.
        busy: for each person when history keeps them.
    """

    def __init__(self, draft: Draft, acts: Acts) -> None:
        self._draft = draft
        self._acts = acts
        self._workers = acts.problem.workers
        self.work: dict[str, list[str]] = {w.id: [] for w in self._workers}
        self.paused: dict[str, list[str]] = {w.id: [] for w in self._workers}
        self.own: dict[str, list[str]] = {w.id: [] for w in self._workers}
        self.busy = {w.id: self._kept_by_history(w.id) for w in self._workers}
        for activity in acts.problem.activities:
            if activity.dip is None:
                self._take(activity.id)

    def take(
        self, person: str, interval: str, *, is_own: bool = True, is_paused: bool = False
    ) -> None:
        """Let an interval take somebody's hands."""
        (self.paused if is_paused else self.work)[person].append(interval)
        if is_own:
            self.own[person].append(interval)

    def lay(self) -> None:
        """Keep everybody to one thing at a time, in terms the solver can prove a load with.

        The closed times repeat what the domains say already, and so does the sum over people who
        may do the same; with them 120 steps are proved in 0.1 s, without them not in 10 s.
        """
        closed = {w.id: self._closed(w.id, w.windows) for w in self._workers}
        for who, intervals in self.work.items():
            if intervals:
                self._draft.need(NoOverlap(intervals=(*intervals, *closed[who])))
            if self.paused[who]:
                # Hours it spans are not in its way; what history keeps is.
                kept = [self._draft.interval(a, b - a) for a, b in self.busy[who]]
                everything = (*self.paused[who], *intervals, *kept)
                self._draft.need(NoOverlap(intervals=everything))
        for crew in self._crews():
            self._lay_crew(crew, closed)

    def _take(self, name: str) -> None:
        activity = self._acts.by_id[name]
        for variant, literal in self._acts.chosen(name):
            way = variant.way
            if way.who is None or not (variant.takes or activity.table):
                continue
            interval = self._acts.interval_of(name, variant, literal)
            at_bench = (way.who, *way.also)
            for person in activity.there(way):
                is_own = person in at_bench
                self.take(person, interval, is_own=is_own, is_paused=variant.is_paused)

    def _crews(self) -> list[frozenset[str]]:
        """Return the sets of several people any of whom can do something."""
        crews = {frozenset(self._people(a.id)) for a in self._acts.problem.activities}
        return sorted((c for c in crews if len(c) > 1), key=sorted)

    def _people(self, name: str) -> set[str]:
        return {v.way.who for v in self._acts.variants(name) if v.way.who is not None}

    def _lay_crew(self, crew: frozenset[str], closed: dict[str, list[str]]) -> None:
        """Keep to the hands of a crew what only they can do, whoever of them it is."""
        taken: list[str] = []
        for activity in self._acts.problem.activities:
            people = self._people(activity.id)
            if people and people <= crew:
                taken += self._whole(activity.id)
        taken += [interval for who in sorted(crew) for interval in closed[who]]
        ones = (1,) * len(taken)
        self._draft.need(Cumulative(intervals=tuple(taken), demands=ones, capacity=len(crew)))

    def _whole(self, name: str) -> list[str]:
        """Return the interval of an activity whoever does it; nothing where it may pause or dip."""
        variants = self._acts.variants(name)
        activity = self._acts.by_id[name]
        takes_time = activity.table is not None or all(v.takes for v in variants)
        if activity.dip is not None or any(v.is_paused for v in variants) or not takes_time:
            return []
        return [self._acts.interval(name)]

    def _closed(self, who: str, windows: tuple[Window, ...]) -> list[str]:
        """Lay the times a person cannot take anything on: out of hours, or busy by history."""
        most = self._acts.most_min
        opens = [0, *(m for window in windows for m in window), most]
        gaps = zip(opens[::2], opens[1::2], strict=True)
        outside = [(begin, min(end, most)) for begin, end in gaps]
        return [self._draft.interval(a, b - a) for a, b in merged([*self.busy[who], *outside])]

    def _kept_by_history(self, who: str) -> tuple[Window, ...]:
        by_id = self._acts.by_id
        return merged(
            (p.start_min, p.end_min)
            for p in self._acts.history.values()
            if p.who is not None and who in everybody(by_id[p.id], p)
        )
