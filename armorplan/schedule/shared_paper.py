"""Paper work of builds alike: one print is measured and one mock-up tried, and they serve all."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from armorplan.pattern.wearing import CheckTime
from armorplan.schedule.activity import Activity
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.problem import Lag, Problem
from armorplan.schedule.sittings import visit_id
from armorplan.steps.model import Step, StepKind

REASON = "One print and one mock-up serve builds alike."


def with_paper_shared(
    problem: Problem, builds: Sequence[BuildInHand], ranks: Mapping[str, int]
) -> Problem:
    """Return the problem with paper work that another build does already taking no time.

    A print serves all builds whose parts are drawn alike; a mock-up, with what is checked on it,
    those of them that the same wearer wears. It is done in the build that has begun it, else in
    the one that may begin first; a build that waits for others never does it for them.

    Args:
        problem: of all builds, ids beginning with their builds.
        builds: those in it.
        ranks: which build comes first where the plan is free.
    """
    by_id = {a.id: a for a in problem.activities}
    served: dict[str, Activity] = {}
    lags: list[Lag] = []
    for group in _groups(builds, by_id):
        first = min(group, key=lambda one: one.turn(ranks))
        if first.build.after and first.activity.fixed_start_min is None:
            continue
        for one in group:
            if one is not first and one.activity.fixed_start_min is None:
                served[one.activity.id] = _served(one.activity, first.build.title)
                serves = Lag(first=first.activity.id, then=one.activity.id, reason=REASON)
                lags.append(serves)
    if not served:
        return problem
    activities = tuple(served.get(a.id, a) for a in problem.activities)
    return replace(problem, activities=activities, lags=(*problem.lags, *lags))


def is_served(activity: Activity) -> bool:
    """Tell whether an activity is nobody's work since another build does it."""
    is_nothing = not activity.minutes and not activity.people and activity.table is None
    return is_nothing and activity.title.endswith(")") and _WITH in activity.title


_WITH = " (done once, with "


def _served(activity: Activity, title: str) -> Activity:
    return Activity(
        id=activity.id,
        minutes=0,
        earliest_min=activity.earliest_min,
        priority=activity.priority,
        title=f"{activity.title}{_WITH}{title})",
    )


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Paper:
    """A step of paper work in one build."""

    build: BuildInHand
    step: Step
    activity: Activity

    def turn(self, ranks: Mapping[str, int]) -> tuple[bool, bool, int, int]:
        """Return a key by which the one that serves the others comes first."""
        is_free = self.activity.fixed_start_min is None
        waits = bool(self.build.after)
        return is_free, waits, self.activity.earliest_min, ranks[self.build.id]

    def serves(self, other: "_Paper") -> bool:
        """Tell whether what is done for one need not be done for the other."""
        same_wearer = self.build.wearer == other.build.wearer
        if self.step.kind is not StepKind.MEASURE and not same_wearer:
            return False
        return self.step.parts == other.step.parts and self._is_drawn_like(other)

    def _is_drawn_like(self, other: "_Paper") -> bool:
        mine, theirs = self.build.assembly, other.build.assembly
        if mine is None or theirs is None:
            return self.build.work is other.build.work
        return mine is theirs or all(mine.part(p) == theirs.part(p) for p in self.step.parts)


def _groups(
    builds: Iterable[BuildInHand], by_id: Mapping[str, Activity]
) -> Iterator[list[_Paper]]:
    """Yield paper work of which one does for all, two or more together."""
    alike: dict[str, list[list[_Paper]]] = {}
    for build in builds:
        for step in _paper_steps(build):
            name = step.id.partition("/")[2]
            activity = by_id.get(f"{build.id}/{name}")
            if activity is None or visit_id(activity.id, 1) in by_id:
                continue
            paper = _Paper(build=build, step=step, activity=activity)
            groups = alike.setdefault(name, [])
            mine = next((g for g in groups if g[0].serves(paper)), None)
            if mine is None:
                groups.append([paper])
            else:
                mine.append(paper)
    return (group for groups in alike.values() for group in groups if len(group) > 1)


def _paper_steps(build: BuildInHand) -> Iterator[Step]:
    yield from build.work.of_kind(StepKind.MEASURE, StepKind.MOCK_UP)
    for step in build.work.of_kind(StepKind.CHECK):
        if step.tray.endswith(f":{CheckTime.MOCK_UP}"):
            yield step
