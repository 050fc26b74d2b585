"""Pieces of work of a plan: what is done at once, who does it, and when the plan has it."""

from collections.abc import Mapping
from dataclasses import dataclass

from armorplan.schedule.activity import Activity, Mode, Window
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.promise.hours import common


@dataclass(frozen=True, slots=True, kw_only=True)
class Member:
    """An activity in the way the plan has it done."""

    activity: Activity
    placed: Placed
    way: Mode


@dataclass(frozen=True, slots=True, kw_only=True)
class Work:
    """What starts and ends together: one activity, or a batch in a bath.

    Attributes:
        members: its activities.
        start_min, end_min: where the plan has it.
        people: who is there.
        bath, family: where it is dipped, and what that bath then holds.
    """

    members: tuple[Member, ...]
    start_min: int
    end_min: int
    people: tuple[str, ...] = ()
    bath: str = ""
    family: str = ""

    @property
    def first(self) -> Activity:
        """Its activity; of a batch the first."""
        return self.members[0].activity

    @property
    def is_history(self) -> bool:
        """Tell whether it began already."""
        return self.first.fixed_start_min is not None

    @property
    def sitting_min(self) -> int:
        """How short a sitting may be; 0 where it is done in one go."""
        return self.first.sitting(self.members[0].way)

    @property
    def set_up_min(self) -> int:
        """Minutes once for all members."""
        return max(m.activity.dip.set_up_min if m.activity.dip else 0 for m in self.members)

    @property
    def minutes(self) -> int:
        """How long it takes as planned; of what goes by a table, as the plan has it."""
        if self.first.table is not None:
            return self.end_min - self.start_min
        return self.set_up_min + sum(m.way.minutes for m in self.members)


def pieces_of_work(problem: Problem, placed: Mapping[str, Placed]) -> tuple[Work, ...]:
    """Return what a plan does, in the order of its starts."""
    batches: dict[tuple[object, ...], list[Member]] = {}
    for activity in problem.activities:
        here = placed[activity.id]
        way = activity.way(here.who, here.mode) or Mode(
            who=here.who, minutes=here.end_min - here.start_min
        )
        key: tuple[object, ...] = (activity.id,)
        if activity.dip is not None and way.bath:
            key = (way.bath, here.start_min, here.who)
        batches.setdefault(key, []).append(Member(activity=activity, placed=here, way=way))
    works = [_work(tuple(members)) for members in batches.values()]
    return tuple(
        sorted(works, key=lambda w: (w.start_min, w.end_min, w.first.priority, w.first.id))
    )


def _work(members: tuple[Member, ...]) -> Work:
    people = dict.fromkeys(p for m in members for p in m.activity.there(m.way))
    dip = members[0].activity.dip
    return Work(
        members=members,
        start_min=members[0].placed.start_min,
        end_min=max(m.placed.end_min for m in members),
        people=tuple(people),
        bath=members[0].way.bath if dip else "",
        family=dip.family if dip else "",
    )


def windows_of(problem: Problem, work: Work) -> tuple[Window, ...] | None:
    """Return when all its people are there and all its places open; ``None``: at any time."""
    hours = {worker.id: worker.windows for worker in problem.workers}
    opened = {resource.id: resource.windows for resource in problem.resources}
    demands = (d for m in work.members for d in (*m.activity.demands, *m.way.demands))
    places = dict.fromkeys(d.resource for d in demands)
    found: tuple[Window, ...] | None = None
    for windows in (*(hours.get(p, ()) for p in work.people), *(opened.get(r) for r in places)):
        found = common(found, windows)
    return found
