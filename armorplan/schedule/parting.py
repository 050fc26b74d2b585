"""Pairs of a plan that gain it nothing: who was beside does the work alone, and the other is free.

Of plans alike in every stage the one with fewer pairs is as good for the builds, and gives somebody
hours back; so the stages stay as they are, and this comes after them.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from armorplan.schedule.activity import Mode, Window
from armorplan.schedule.checked import would_pass
from armorplan.schedule.company import beside_somebody, everybody
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.links import Links
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.small_moves import holds, may_move

Lies = Mapping[str, Placed]
Run = Sequence[Placed]
"""What two people do together, one thing upon the other; from when on somebody else waits."""


def parted(problem: Problem, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Return a plan that holds, with the pairs parted that gain it nothing.

    A run of work in a pair ends in what one of them does alone, as far as that leaves everything
    else where it lies; every stage is worth no less than before.
    """
    lies = {p.id: p for p in placed}
    if not beside_somebody(problem.activities, lies):
        return placed
    parting = _Parting(problem, lies)
    moved = [found for run in parting.runs() if (found := parting.alone(run))]
    worth = tuple(goals(problem, placed).values())
    best = placed

    def is_as_good(runs: Sequence[Run]) -> bool:
        nonlocal best
        news = {p.id: p for run in runs for p in run}
        tried = tuple(news.get(p.id, p) for p in placed)
        is_worse = tuple(goals(problem, tried).values()) > worth
        if is_worse or not would_pass(problem, tried):
            return False
        best = tried
        return True

    if moved:
        kept_groups(moved, is_as_good)
    return best


class _Parting:
    def __init__(self, problem: Problem, lies: Lies) -> None:
        self._lies = lies
        self._by_id = {a.id: a for a in problem.activities}
        self._links = Links(problem)
        self._hours = {w.id: w.windows for w in problem.workers}
        self._days: dict[str, list[Placed]] = {}
        for placed in sorted(lies.values(), key=lambda p: (p.start_min, p.end_min)):
            if placed.start_min < placed.end_min and placed.id in self._by_id:
                for who in everybody(self._by_id[placed.id], placed):
                    self._days.setdefault(who, []).append(placed)

    def runs(self) -> Iterator[tuple[str, Run, int]]:
        """Yield who could do it alone, what follows one upon the other, and till when they may."""
        for who, day in sorted(self._days.items()):
            run: list[Placed] = []
            for placed in day:
                if run and (placed.start_min > run[-1].end_min or not self._is_with(who, placed)):
                    yield who, run, placed.start_min
                    run = []
                if self._is_with(who, placed):
                    run.append(placed)
            if run:
                yield who, run, self._until(who, run[-1].end_min)

    def alone(self, found: tuple[str, Run, int]) -> Run:
        """Return the end of a run as somebody does it alone; empty where no time is left for it."""
        who, run, next_min = found
        room = min(next_min, self._until(who, run[-1].end_min)) - run[-1].end_min
        parted: list[tuple[Placed, Mode]] = []
        for placed in reversed(run):
            way = self._way(who, placed)
            longer = way.minutes - (placed.end_min - placed.start_min) if way else room + 1
            if way is None or longer > room:
                break
            room -= longer
            parted.append((placed, way))
        news = _one_upon_the_other(parted[::-1])
        lies = {**self._lies, **{p.id: p for p in news}} if news else self._lies
        return news if all(self._keeps_lags(p.id, lies) for p in news) else ()

    def _is_with(self, who: str, placed: Placed) -> bool:
        return self._way(who, placed) is not None and placed.who != who

    def _way(self, who: str, placed: Placed) -> Mode | None:
        """Return how somebody who is beside would do it alone, there where it is done."""
        activity = self._by_id[placed.id]
        way = activity.way(placed.who, placed.mode) if activity.in_pairs else None
        if way is None or who not in way.also or not may_move(activity, placed):
            return None
        return next(
            (
                one
                for one in activity.ways
                if one.who == who and not one.also and one.demands == way.demands
            ),
            None,
        )

    def _until(self, who: str, minute: int) -> int:
        """Return until when somebody is there who is there up to a minute."""
        windows: Sequence[Window] = self._hours.get(who, ())
        return next((end for begin, end in windows if begin < minute <= end), minute)

    def _keeps_lags(self, name: str, lies: Lies) -> bool:
        return all(
            holds(lag, lies) for lag in (*self._links.into(name), *self._links.out_of(name))
        )


def _one_upon_the_other(parted: Sequence[tuple[Placed, Mode]]) -> list[Placed]:
    news: list[Placed] = []
    for placed, way in parted:
        start = news[-1].end_min if news else placed.start_min
        end = start + way.minutes
        news.append(replace(placed, start_min=start, end_min=end, who=way.who, mode=way.name))
    return news
