"""Several builds in one shop: one problem of shared people, baths, racks and places."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime

from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.building import problem_of
from armorplan.schedule.drying_tables import Drier
from armorplan.schedule.frame import Frame, frame_of
from armorplan.schedule.horizon import MOST_DAYS, horizon_of
from armorplan.schedule.in_the_bath import as_left
from armorplan.schedule.moving_on import Made, are_alike, moved_on
from armorplan.schedule.problem import Job, Lag, Problem
from armorplan.schedule.shared_paper import with_paper_shared
from armorplan.workshop.air import Room
from armorplan.workshop.shop import Shop

__all__ = ("BuildInHand", "Joiner", "joined_problem", "own_id", "ranks")


def joined_problem(builds: Iterable[BuildInHand], *, origin_at: datetime) -> Problem:
    """Return one problem of all builds in hand; see ``Joiner.problem``."""
    return Joiner().problem(builds, origin_at=origin_at)


class Joiner:
    """Joins the builds of a shop again and again; one at which nothing happened is not made anew.

    Any thread may ask it.
    """

    def __init__(self) -> None:
        self._made: Mapping[str, Made] = {}
        self._driers: _Driers | None = None

    def problem(self, builds: Iterable[BuildInHand], *, origin_at: datetime) -> Problem:
        """Return one problem of all builds in hand.

        People, baths, racks and places are shared, so that coats of one family can go into one
        batch whatever build they belong to. A build's activities begin with its id. Where the plan
        is free, the build that is due first comes first: of builds alike as well.

        Args:
            builds: all of one shop; at least one.
            origin_at: minutes count from here.
        """
        found = tuple(builds)
        shop = found[0].workplace.shop
        driers = self._driers_of(shop, origin_at)
        mine = [driers.of(build) for build in found]
        horizon_min = horizon_of((b.work for b in found), shop, mine)
        frame = frame_of(shop, origin_at, _reaching(horizon_min, found, origin_at))
        frame = frame.with_baths(as_left(frame.problem.baths, found))
        alone = _Alone(frame=frame, former=self._made)
        ranked = ranks(found)
        parts = [
            alone.problem(build, drier, ranked[build.id])
            for build, drier in zip(found, mine, strict=True)
        ]
        self._made, self._driers = alone.known, driers
        return with_paper_shared(_joined(frame, found, parts), found, ranked)

    def _driers_of(self, shop: Shop, origin_at: datetime) -> "_Driers":
        """Return those of the last time where they count from the same minute of the same air."""
        former = self._driers
        if former is not None and (former.room, former.origin_at) == (shop.room, origin_at):
            return former
        return _Driers(shop.room, origin_at)


def _reaching(horizon_min: int, builds: Iterable[BuildInHand], origin_at: datetime) -> int:
    """Return the horizon, counted from when the last build may begin."""
    starts = [b.ready_at for b in builds if b.ready_at is not None]
    later_min = max((int((at - origin_at).total_seconds() // 60) for at in starts), default=0)
    return min(horizon_min + max(0, later_min), MOST_DAYS * DAY_MIN)


def ranks(builds: Sequence[BuildInHand]) -> dict[str, int]:
    """Return which build comes first where the plan is free: by due date, then as they stand."""

    def due(at: int) -> tuple[bool, float, int]:
        due_at = builds[at].due_at
        return due_at is None, due_at.timestamp() if due_at else 0.0, at

    return {builds[at].id: rank for rank, at in enumerate(sorted(range(len(builds)), key=due))}


class _Driers:
    """One drier for each shelf: builds that share it share its tables."""

    def __init__(self, room: Room, origin_at: datetime) -> None:
        self.room = room
        self.origin_at = origin_at
        self._known: list[Drier] = []

    def of(self, build: BuildInHand) -> Drier:
        shelf = build.workplace.shelf
        found = next((d for d in self._known if d.shelf is shelf or d.shelf == shelf), None)
        if found is None:
            found = Drier(shelf, self.room, self.origin_at)
            self._known.append(found)
        return found


@dataclass(frozen=True, slots=True, kw_only=True)
class _Alone:
    """Makes the problem of each build by itself; builds that are alike share the making.

    Attributes:
        former: what was made the last time, by build.
        known: what was made by now.
    """

    frame: Frame
    former: Mapping[str, Made]
    known: dict[str, Made] = field(default_factory=dict)

    def problem(self, build: BuildInHand, drier: Drier, rank: int) -> Problem:
        made = self._made(build, drier)
        called = made.called
        if called is None or called[:2] != (build.id, rank):
            called = (build.id, rank, _called(made.problem, build, rank))
        self.known[build.id] = replace(made, build=build, called=called)
        return called[2]

    def _made(self, build: BuildInHand, drier: Drier) -> Made:
        alike = next((m for m in self.known.values() if are_alike(build, m.build)), None)
        if alike is not None:
            return alike
        former = self.former.get(build.id)
        moved = moved_on(former, build, self.frame, drier) if former else None
        if former is None or moved is None:
            anew = problem_of(build, self.frame, drier)
            return Made(build=build, problem=anew, made_at=anew.origin_at)
        if moved.activities is former.problem.activities:
            return former
        return Made(build=build, problem=moved, made_at=former.made_at)


def own_id(build: str, name: str) -> str:
    """Return an activity's id as this build's: its first segment is the build."""
    return name if name.startswith(f"{build}/") else f"{build}/{name.partition('/')[2]}"


def _called(problem: Problem, build: BuildInHand, rank: int) -> Problem:
    """Return a build's problem with ids and priorities of its own among other builds."""
    count = len(problem.activities) + 1
    names = {a.id: own_id(build.id, a.id) for a in problem.activities}
    return replace(
        problem,
        activities=tuple(
            replace(a, id=names[a.id], priority=a.priority + rank * count)
            for a in problem.activities
        ),
        lags=tuple(replace(g, first=names[g.first], then=names[g.then]) for g in problem.lags),
        before_last=tuple(
            replace(r, first=names[r.first], of=frozenset(names[i] for i in r.of))
            for r in problem.before_last
        ),
        holds=tuple(
            replace(h, first=names[h.first], until=tuple(names[i] for i in h.until))
            for h in problem.holds
        ),
    )


def _joined(frame: Frame, builds: Sequence[BuildInHand], parts: Sequence[Problem]) -> Problem:
    # Those of the frame last: their hours count from now, those of a part that stands from before.
    shared = frame.problem.resources
    resources = {r.id: r for r in (*(r for part in parts for r in part.resources), *shared)}
    jobs = tuple(
        Job(
            id=build.id,
            activities=tuple(a.id for a in part.activities),
            title=build.title,
            due_min=frame.minute_till(build.due_at),
            weight=build.weight,
        )
        for build, part in zip(builds, parts, strict=True)
    )
    of = {build.id: part for build, part in zip(builds, parts, strict=True)}
    return replace(
        frame.problem,
        activities=tuple(a for part in parts for a in part.activities),
        lags=(*(g for part in parts for g in part.lags), *_one_after_another(builds, of)),
        before_last=tuple(r for part in parts for r in part.before_last),
        holds=tuple(h for part in parts for h in part.holds),
        resources=tuple(resources.values()),
        jobs=jobs,
    )


def _one_after_another(
    builds: Iterable[BuildInHand], parts: Mapping[str, Problem]
) -> tuple[Lag, ...]:
    """Return what lets a build wait for others: its first activities for their last ones."""
    return tuple(
        Lag(first=last, then=first, reason=f"{build.title} waits for {former}.")
        for build in builds
        for former in build.after
        if former in parts
        for last in _ends(parts[former])
        for first in _starts(parts[build.id])
    )


def _ends(problem: Problem) -> list[str]:
    followed = {lag.first for lag in problem.lags}
    return [a.id for a in problem.activities if a.id not in followed]


def _starts(problem: Problem) -> list[str]:
    follows = {lag.then for lag in problem.lags}
    free = (a for a in problem.activities if a.fixed_start_min is None)
    return [a.id for a in free if a.id not in follows]
