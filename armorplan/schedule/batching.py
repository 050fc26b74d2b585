"""Dips that go into a bath together while a serial plan is laid: who may join, who is waited for."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass

from armorplan.schedule.activity import Activity
from armorplan.schedule.bench import Bench
from armorplan.schedule.occupancy import Member
from armorplan.schedule.problem import Problem
from armorplan.schedule.sequence import Laying
from armorplan.schedule.trials import Fit


@dataclass(frozen=True, slots=True, kw_only=True)
class Patience:
    """How long a dip waits for others of its family.

    Attributes:
        most_min: a batch starts at most so much later than its first dip could alone.
        gathers: what others of its own build wait for is laid before it.
        across: and so is what others of other builds wait for.
        alone: every dip is a batch by itself.
    """

    most_min: int = 0
    gathers: bool = False
    across: bool = False
    alone: bool = False


ALONE = Patience(alone=True)
READY = Patience()
OF_A_BUILD = Patience(most_min=480, gathers=True)
OF_ALL = Patience(most_min=480, gathers=True, across=True)


class Batching:
    """Finds the dips that go into a bath with one that is being laid."""

    def __init__(
        self, problem: Problem, laying: Laying, order: tuple[str, ...], patience: Patience
    ) -> None:
        self.order = order
        self._laying = laying
        self._patience = patience
        self._by_id = {a.id: a for a in problem.activities if a.dip is not None}
        self._job_of = {name: job.id for job in problem.jobs for name in job.activities}
        self._gathered: set[str] = set()
        self._alone: set[str] = set()
        self._alike: dict[str, list[str]] = {}
        for name in order:
            dip = self._by_id[name].dip if name in self._by_id else None
            if dip is not None:
                self._alike.setdefault(dip.family, []).append(name)

    def part(self, names: Iterable[str]) -> None:
        """Let these be batches by themselves from now on: together they were too late."""
        self._alone.update(names)

    def waits_for(self, activity: Activity, bench: Bench) -> set[str]:
        """Return what is to be laid before a dip, so that others can join it; each asks once."""
        if not self._patience.gathers or activity.id in self._gathered:
            return set()
        self._gathered.add(activity.id)
        left = self._most(activity, bench) - _amount(activity)
        needed: set[str] = set()
        job = self._job_of.get(activity.id)
        for other in self._others(activity, bench):
            if not self._patience.across and self._job_of.get(other.id) != job:
                continue
            mine = self._laying.behind((other.id,), bench.placed) - {other.id}
            if _amount(other) <= left and not any(i in self._by_id for i in mine):
                left -= _amount(other)
                needed |= mine
                self._gathered.add(other.id)
            if left <= 0:
                break
        return needed

    def with_others(self, fit: Fit, bench: Bench) -> Fit:
        """Return the batch that others join, where they may; else the dip by itself."""
        activity, way = fit.trial.members[0]
        if self._patience.alone or activity.id in self._alone or fit.trial.vat is None:
            return fit
        latest = fit.start_min + self._patience.most_min
        left = bench.room.bath_holds(way) - _amount(activity)
        for other in self._others(activity, bench):
            if left <= 0:
                break
            if _amount(other) <= left and self._is_ready(other, bench):
                joined = self._joined(fit, other, bench)
                if joined is not None and joined.start_min <= latest:
                    fit = joined
                    left -= _amount(other)
        return fit

    def _others(self, activity: Activity, bench: Bench) -> Iterator[Activity]:
        """Yield the dips of the same family that are still to be laid, in the order of laying."""
        family = activity.dip.family if activity.dip else ""
        for name in self._alike[family]:
            if name not in bench.placed and name != activity.id and name not in self._alone:
                yield self._by_id[name]

    def _is_ready(self, other: Activity, bench: Bench) -> bool:
        waits = any(name not in bench.placed for name in self._laying.waited_for(other.id))
        return not waits and not bench.allowed.waits_for_others(other.id)

    def _joined(self, fit: Fit, other: Activity, bench: Bench) -> Fit | None:
        """Return the first fit of a batch with one more, where nothing makes it too late."""
        _, first = fit.trial.members[0]
        mine = (first.who, first.bath, first.also)
        ways = [w for w in other.ways if (w.who, w.bath, w.also) == mine]
        if not ways:
            return None
        members: tuple[Member, ...] = (*fit.trial.members, (other, ways[0]))
        floors = [bench.allowed.floors(a, bench.floors) for a, _ in members]
        names = [a.id for a, _ in members]
        latest = min(bench.held.latest(name) for name in names)
        lifted = [first for name in names for first in bench.held.lift(name)]
        joined = bench.room.batch(members).fit(
            max(start for start, _ in floors),
            max(end for _, end in floors),
            bench.room.horizon_min,
            bench.held.tails(names),
        )
        for name in lifted:
            bench.held.settle(name)
        if joined is None or joined.start_min > latest:
            return None
        limits = (limit for a, _ in members for limit in bench.allowed.limits(a))
        return None if any(limit.missed_by(joined) > 0 for limit in limits) else joined

    def _most(self, activity: Activity, bench: Bench) -> int:
        holds = [bench.room.bath_holds(t.members[0][1]) for t in bench.room.trials(activity)]
        return max(holds, default=0)


def _amount(activity: Activity) -> int:
    return activity.dip.amount if activity.dip else 0
