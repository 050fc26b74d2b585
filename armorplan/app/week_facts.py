"""What the week is laid out of: the open build's days, and the plan of all builds in hand."""

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from functools import cached_property
from string import ascii_uppercase

from armorplan.app.rows import Chart, ChartBar
from armorplan.app.shown_plan import ShownPlan
from armorplan.app.week_rows import Stretch, WeekBar
from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.problem import Job, Placed, Problem
from armorplan.schedule.sittings import step_of


@dataclass(frozen=True, kw_only=True)
class WeekFacts:
    """The plan of all builds as one has to look things up in it.

    Attributes:
        chart: the open build's days: states, notes of dryings, the air.
        build: the id of the open build.
        title: its name.
        problem: what the plan answers; ``None`` where only the open build's days are known.
        shown: the plan as it stands.
        promised: the plan as it was promised.
    """

    chart: Chart
    build: str
    title: str
    problem: Problem | None = None
    shown: ShownPlan | None = None
    promised: ShownPlan | None = None

    def at(self, minute: int) -> datetime:
        """Return the instant of a minute of the problem."""
        return self._origin_at + timedelta(minutes=minute)

    @cached_property
    def _origin_at(self) -> datetime:
        return self.problem.origin_at if self.problem else self.chart.now_at

    def stretch(self, window: tuple[int, int]) -> Stretch:
        """Return a window of the plan as instants."""
        return self.at(window[0]), self.at(window[1])

    @cached_property
    def placed(self) -> Mapping[str, Placed]:
        """The plan as it stands, by activity, in minutes of the problem.

        The plan shown may be older than the problem, whose minutes then begin later.
        """
        if self.shown is None:
            return {}
        known = self.activities
        later = (self._origin_at - self.shown.origin_at) // timedelta(minutes=1)
        placed = {p.id: p for p in self.shown.plan.placed if p.id in known}
        return {i: _sooner(p, later) for i, p in placed.items()} if later else placed

    @cached_property
    def activities(self) -> Mapping[str, Activity]:
        """The activities of the problem, by id."""
        return {a.id: a for a in self.problem.activities} if self.problem else {}

    @cached_property
    def job_of(self) -> Mapping[str, Job]:
        """The build that each activity belongs to; what belongs to none is the open build's."""
        jobs = self.problem.jobs if self.problem else ()
        return {i: job for job in jobs for i in job.activities}

    @cached_property
    def tags(self) -> Mapping[str, str]:
        """A letter for each build, the soonest due first; none where there is one build only."""
        jobs = self.problem.jobs if self.problem else ()
        if len(jobs) <= 1:
            return {}
        ranked = sorted(jobs, key=lambda j: (j.due_min is None, j.due_min or 0, j.id))
        return {job.id: letters(at) for at, job in enumerate(ranked)}

    @cached_property
    def names(self) -> Mapping[str, str]:
        """What people are called, by id, and baths and places, by the ids of their lanes."""
        return dict(self.chart.names)

    def name(self, who: str | None) -> str:
        """Return what a person is called, or a lane; the id where that is not known."""
        return self.names.get(who or "", (who or "").rpartition(":")[2].replace("_", " "))

    @cached_property
    def charted(self) -> Mapping[str, ChartBar]:
        """The open build's bars, by step."""
        return {bar.step: bar for bar in self.chart.bars}

    @cached_property
    def was_promised(self) -> Mapping[str, Stretch]:
        """Where each step lay in the plan that was promised."""
        promised = self.promised
        return {p.id: promised.span(p) for p in promised.plan.placed} if promised else {}

    @cached_property
    def dries_after(self) -> Mapping[str, tuple[str, ...]]:
        """What time alone does right after each activity: dripping, drying, and what follows those."""
        next_of: dict[str, list[str]] = defaultdict(list)
        for lag in self.problem.lags if self.problem else ():
            known = self.placed.get(lag.then)
            if known is not None and known.who is None and lag.first in self.placed:
                next_of[lag.first].append(lag.then)
        return {first: _closure(first, next_of) for first in sorted(next_of)}

    @cached_property
    def wet_before(self) -> Mapping[str, frozenset[str]]:
        """The same the other way round: what made wet what dries."""
        found: dict[str, set[str]] = defaultdict(set)
        for first, dryings in self.dries_after.items():
            for drying in dryings:
                found[drying].add(first)
        return {drying: frozenset(firsts) for drying, firsts in found.items()}

    def is_open(self, activity: str) -> bool:
        """Tell whether an activity is the open build's."""
        job = self.job_of.get(activity)
        return job is None or job.id == self.build

    def knows(self, bar: WeekBar) -> bool:
        """Tell whether a bar stands for a step of the open build."""
        return not bar.build and bar.step in self.charted

    def chart_bar(self, activity: str) -> ChartBar | None:
        """Return the bar of the open build's days that an activity belongs to, if there is one."""
        return self.charted.get(step_of(activity)) if self.is_open(activity) else None

    def way(self, placed: Placed) -> Mode | None:
        """Return the way in which an activity is done."""
        return self.activities[placed.id].way(placed.who, placed.mode)


def _sooner(placed: Placed, by: int) -> Placed:
    return replace(placed, start_min=placed.start_min - by, end_min=placed.end_min - by)


def _closure(first: str, next_of: Mapping[str, list[str]]) -> tuple[str, ...]:
    found: dict[str, None] = {}
    waiting = [first]
    while waiting:
        for then in next_of.get(waiting.pop(), ()):
            if then not in found:
                found[then] = None
                waiting.append(then)
    return tuple(found)


def letters(at: int) -> str:
    """Return the letter of the build of a rank: A to Z, then A2, B2 and so on."""
    rounds, rank = divmod(at, len(ascii_uppercase))
    return ascii_uppercase[rank] + (str(rounds + 1) if rounds else "")
