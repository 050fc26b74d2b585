"""A plan as a table: each activity with its instants, who does it, and by when to begin."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field, replace
from datetime import datetime, timedelta
from zoneinfo import ZoneInfo

from armorplan.app.chart_notes import NO_NOTE, BarNote
from armorplan.kernel.units import span_words
from armorplan.schedule.activity import Activity, Window
from armorplan.schedule.changeovers import Changeover, changeovers, family_words
from armorplan.schedule.company import beside_in
from armorplan.schedule.lesson_words import lesson_words
from armorplan.schedule.problem import Job, Lag, Placed, Plan, Problem
from armorplan.schedule.shared_paper import is_served
from armorplan.schedule.sittings import step_of
from armorplan.schedule.waiting import Visits, waited_min
from armorplan.sheets.week_table import BuildLine, PlanLine, WeekTable, by_start
from armorplan.workshop.shop import Shop

Note = Callable[[str, datetime, datetime], BarNote]
"""What is said of an activity between two instants."""

NOBODY_FREE = "Nobody is free"
"""Stands for who changes a bath where everybody has other work."""
EMPTIED = "Empty, scour and fill it; the plan leaves these minutes free."
NOBODY_NEAR = (
    "The bath needs this time, and nobody in the plan is free for so long: somebody who may dip "
    "has to be near."
)


def _nothing(_activity: str, _start_at: datetime, _end_at: datetime) -> BarNote:
    return NO_NOTE


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """What is said of a plan beside its instants.

    Attributes:
        title: of the shop, or of the one pattern that is planned.
        sentence: how good the plan is.
        notes: what else to know of it.
        note: what is said of one activity.
        origins: by build what names it in the world (``build_origins``).
    """

    title: str
    sentence: str = ""
    notes: tuple[str, ...] = ()
    note: Note = field(default=_nothing)
    origins: Mapping[str, str] = field(default_factory=dict)


def week_table(problem: Problem, plan: Plan, shop: Shop, told: Told) -> WeekTable:
    """Return a plan as a table.

    Args:
        problem: what the plan answers.
        plan: the plan.
        shop: names of people and baths, and the zone.
        told: what is said of it.
    """
    writer = _Writer(problem, plan, shop, told)
    return WeekTable(
        title=told.title,
        zone=shop.zone,
        sentence=told.sentence,
        builds=tuple(writer.build(job) for job in writer.jobs),
        lines=by_start(
            (
                *(line for placed in plan.placed for line in writer.lines(placed)),
                *(writer.change(change) for change in changeovers(problem, plan.placed)),
            )
        ),
        notes=(*told.notes, *writer.waits(), *writer.lessons(plan)),
    )


class _Writer:
    """Writes lines of one plan."""

    def __init__(self, problem: Problem, plan: Plan, shop: Shop, told: Told) -> None:
        self._problem = problem
        self._origin_at = problem.origin_at
        self._told = told
        self._lies = {placed.id: placed for placed in plan.placed}
        self._activities = {activity.id: activity for activity in problem.activities}
        everything = Job(id=told.title, title=told.title, activities=tuple(self._activities))
        self.jobs = problem.jobs or (everything,)
        self._job_of = {one: job for job in self.jobs for one in job.activities}
        self._people = _names(shop)
        self._zone = shop.zone
        self._visits = Visits(problem)
        self._baths = {bath.id: bath.name for bath in shop.baths}
        self._windows = _windows(problem)
        self._hours = {worker.id: worker.windows for worker in problem.workers}

    def _at(self, minute: int) -> datetime:
        return self._origin_at + timedelta(minutes=minute)

    def build(self, job: Job) -> BuildLine:
        ends = [self._lies[one].end_min for one in job.activities if one in self._lies]
        end_min = max(ends, default=None)
        late = 0 if end_min is None or job.due_min is None else max(0, end_min - job.due_min)
        return BuildLine(
            id=job.id,
            title=job.title or job.id,
            due_at=None if job.due_min is None else self._at(job.due_min),
            weight=job.weight,
            finish_at=None if end_min is None else self._at(end_min),
            late_min=late,
        )

    def lines(self, placed: Placed) -> Iterator[PlanLine]:
        """Yield a line for each stretch of it: what stops at closing goes on as hours begin again."""
        if is_served(self._activities[placed.id]):
            return
        first, *others = self._stretches(placed)
        line = self._line(placed, first)
        yield line
        for number, stretch in enumerate(others, start=2):
            yield replace(
                line,
                id=f"{line.id}|{number}",
                known_as=f"{line.known_as}|{number}",
                title=f"{line.title} (goes on)",
                start_at=self._at(stretch[0]),
                end_at=self._at(stretch[1]),
                begin_from_at=None,
                begin_by_at=None,
                why="",
            )

    def waits(self) -> Iterator[str]:
        """Yield when somebody who comes for a fit stands about between, and how long."""
        zone = ZoneInfo(self._zone)
        for who, visit in self._visits.visits(self._lies):
            if waited := waited_min(visit):
                begin = self._at(visit[0].start_min).astimezone(zone)
                end = self._at(max(p.end_min for p in visit)).astimezone(zone)
                yield (
                    f"{self._people.get(who, who)} is here {begin:%a} {begin.day} {begin:%b}, "
                    f"{begin:%H:%M} to {end:%H:%M}, and waits {span_words(waited)} of it."
                )

    def lessons(self, plan: Plan) -> Iterator[str]:
        """Yield who learns how much from whom."""
        return lesson_words(self._problem, plan, self._name)

    def change(self, change: Changeover) -> PlanLine:
        """Return the line of a bath that is changed: whose hands are free for it, or that none are."""
        job = self._job_of.get(change.then, self.jobs[0])
        bath = self._baths.get(change.bath, change.bath)
        own = f"change of {change.bath} before {change.then.partition('/')[2]}"
        return PlanLine(
            id=f"{job.id}/{own}",
            step=step_of(change.then),
            title=f"Change {bath} to {family_words(change.family)}",
            build=job.id,
            build_title=job.title or job.id,
            start_at=self._at(change.start_min),
            end_at=self._at(change.end_min),
            who=self._people.get(change.who, change.who) if change.who else NOBODY_FREE,
            bath=bath,
            note=EMPTIED if change.who else NOBODY_NEAR,
            known_as=self._known_as(f"{job.id}/{own}"),
        )

    def _stretches(self, placed: Placed) -> list[Window]:
        whole = (placed.start_min, placed.end_min)
        activity = self._activities[placed.id]
        if not activity.sitting_min or placed.who is None or beside_in(activity, placed):
            return [whole]
        hours = self._hours.get(placed.who, ())
        cut = [(max(start, whole[0]), min(end, whole[1])) for start, end in hours]
        return [stretch for stretch in cut if stretch[0] < stretch[1]] or [whole]

    def _line(self, placed: Placed, stretch: Window) -> PlanLine:
        activity = self._activities[placed.id]
        job = self._job_of.get(placed.id, self.jobs[0])
        start_at, end_at = self._at(stretch[0]), self._at(stretch[1])
        note = self._told.note(placed.id, start_at, end_at)
        beside = tuple(map(self._name, beside_in(activity, placed)))
        opens_min, closes_min, why = self._window(activity)
        return PlanLine(
            id=placed.id,
            step=step_of(placed.id),
            title=activity.title or activity.id,
            build=job.id,
            build_title=job.title or job.id,
            start_at=start_at,
            end_at=end_at,
            who=self._people.get(placed.who, placed.who) if placed.who else "",
            also=tuple(dict.fromkeys((*beside, *map(self._name, activity.also)))),
            beside=beside,
            bath=self._bath(activity, placed),
            begin_from_at=None if opens_min is None else self._at(opens_min),
            begin_by_at=None if closes_min is None else self._at(closes_min),
            why=why,
            surely_at=note.surely_at,
            note=note.text,
            known_as=self._known_as(placed.id),
        )

    def _name(self, who: str) -> str:
        return self._people.get(who, who)

    def _known_as(self, activity: str) -> str:
        build, _, own = activity.partition("/")
        return f"{self._told.origins.get(build, build)}/{own}"

    def _bath(self, activity: Activity, placed: Placed) -> str:
        way = activity.way(placed.who, placed.mode)
        bath = way.bath if way is not None else ""
        return self._baths.get(bath, bath)

    def _window(self, activity: Activity) -> tuple[int | None, int | None, str]:
        """Return in which minutes an activity has to begin, and why; of windows the narrowest."""
        if activity.fixed_start_min is not None:
            return None, None, ""
        found = [
            (*_between(lag, self._lies[lag.first].end_min), lag.reason)
            for lag in self._windows.get(activity.id, ())
            if lag.first in self._lies
        ]
        if activity.latest_start_min is not None:
            found.append((activity.earliest_min, activity.latest_start_min, ""))
        return min(found, key=lambda window: window[1], default=(None, None, ""))


def _names(shop: Shop) -> Mapping[str, str]:
    wearers = {wearer.id: wearer.name for wearer in shop.wearers}
    return wearers | {person.id: person.name for person in shop.people}


def _windows(problem: Problem) -> Mapping[str, list[Lag]]:
    found: dict[str, list[Lag]] = {}
    for lag in problem.lags:
        # What follows at once is no window but one piece of work.
        if lag.closes is not None or (lag.max_lag is not None and lag.max_lag > lag.min_lag):
            found.setdefault(lag.then, []).append(lag)
    return found


def _between(lag: Lag, end_min: int) -> tuple[int, int]:
    opens, closes = [end_min + lag.min_lag], []
    if lag.opens is not None:
        opens.append(lag.opens.ready_at(end_min))
    if lag.max_lag is not None:
        closes.append(end_min + lag.max_lag)
    if lag.closes is not None:
        closes.append(lag.closes.open_till(end_min))
    return max(opens), min(closes)
