"""Choosing a day to plan: real steps around two waits that one person can just fit into it.

Not trivial: who does one step after the other and waits out each drying is late, and who makes all
wet that can be made wet first comes back too late where anything has a latest time. That a right
plan exists is proved, and so is the soonest end (``practice.day_plan``).
"""

from collections.abc import Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from itertools import combinations, pairwise, product

from armorplan.app.derived import Derived
from armorplan.app.drills.about import steps_of_part
from armorplan.app.drills.day_dry import DryDays
from armorplan.app.drills.day_hours import ON_THE_WEARER, WorkDay, work_days
from armorplan.app.drills.day_links import Link, links_of
from armorplan.app.drills.last_made import keeping_last
from armorplan.practice.day_plan import MOST_DAY_STEPS, Starts, best_day, one_after_another
from armorplan.practice.drill import Asked, Level
from armorplan.practice.levels import chance_of
from armorplan.schedule.activity import Activity
from armorplan.schedule.hands import at_pace
from armorplan.schedule.problem import Lag, Problem, Worker
from armorplan.steps.model import Step

GRID_MIN = 5
SIZES = {Level.STRAP: 4, Level.ROW: 5, Level.PIECE: 6, Level.HARNESS: MOST_DAY_STEPS}
"""Steps of a day by level."""
FEWEST = 4
LEAST_WAIT_MIN, MOST_WAIT_MIN = 5, 150
"""Waits that are worth a thought and over within half a day."""
LEAST_FILL_MIN, MOST_FILL_MIN = 3, 60
SLACK_MIN = {Level.STRAP: 30, Level.ROW: 20, Level.PIECE: 10, Level.HARNESS: 5}
"""So much later than it can be done at the soonest all has to be done, at the most."""
_MOST_PAIRS = 240
_MOST_TRIED = 60
_FILLINGS = 2
_BEFORE_NOON_MIN = (0, 60, 120)
"""One comes to the bench at opening, or so long before it closes at noon."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Day:
    """A day that can be planned, and only with a thought.

    Attributes:
        steps: what is done in it, in the order of the build.
        links: what they wait for among themselves.
        problem: the same for the checker; its horizon is when all has to be done.
        from_min: when one comes to the bench.
        best: the plan that ends soonest, and ``best_min`` when that is: no plan ends sooner.
        done: what is done before, in order.
    """

    steps: tuple[Step, ...]
    links: tuple[Link, ...]
    hours: WorkDay
    problem: Problem
    from_min: int
    best: Starts
    best_min: int
    done: tuple[str, ...]

    def link(self, first: str, then: str) -> Link:
        """Return what one step waits for the other by."""
        return next(one for one in self.links if (one.first, one.then) == (first, then))

    def minutes(self, step: str) -> int:
        """Return how long a step takes this person."""
        return next(a.ways[0].minutes for a in self.problem.activities if a.id == step)

    @property
    def waits(self) -> tuple[Link, ...]:
        """The links in which time has to pass."""
        return tuple(link for link in self.links if link.is_wait)

    @property
    def ends_by_min(self) -> int:
        """When all has to be done."""
        return self.problem.horizon_min


@keeping_last
def day_of(derived: Derived, asked: Asked) -> Day | None:
    """Return the day of an exercise; ``None`` where this build has no two waits that fit one day."""
    making, usual = _Making(derived, asked), SIZES[asked.level]
    sizes = (*range(usual, FEWEST - 1, -1), *range(usual + 1, MOST_DAY_STEPS + 1))
    for begins_min, size in product((_BEFORE_NOON_MIN, (0,)), sizes):
        found = making.day(size, begins_min)
        if found is not None:
            return found
    return None


class _Making:
    def __init__(self, derived: Derived, asked: Asked) -> None:
        self._derived = derived
        self._asked = asked
        self._chance = chance_of(asked)
        self._links = links_of(derived)
        self._steps = tuple(s for s in map(derived.work.step, derived.order) if self._is_meant(s))
        self._dry = DryDays(derived)
        self._pairs = self._mixed_pairs()

    def _is_meant(self, step: Step) -> bool:
        asked = self._asked
        if not step.attended or step.kind in ON_THE_WEARER or not self._links.is_plain(step.id):
            return False
        return asked.piece in ("", step.piece)

    def _mixed_pairs(self) -> tuple[tuple[Link, Link], ...]:
        """Return pairs of waits in chance's order, those of the rule asked for first, windows next."""
        waits = self._links.waits(self._steps, most_min=MOST_WAIT_MIN)
        told = [link for link in waits if link.least_min >= LEAST_WAIT_MIN or link.most_min]
        about = steps_of_part(self._derived, self._asked)
        pairs = [
            pair
            for pair in combinations(told, 2)
            if pair[0].first != pair[1].first
            and (about is None or any({one.first, one.then} <= about for one in pair))
        ]
        self._chance.shuffle(pairs)
        focus = self._asked.focus
        pairs.sort(key=lambda pair: focus not in {link.relation.reason.rule for link in pair})
        return tuple(pairs[:_MOST_PAIRS])

    def day(self, size: int, begins_min: Sequence[int]) -> Day | None:
        """Return a day of so many steps, begun at opening (0) or so long before noon."""
        tried = 0
        for pair in self._pairs:
            core = self._closed_in({step for link in pair for step in (link.first, link.then)})
            if core is None or len(core) > size or not self._dry.keeps_dry(core):
                continue
            for _ in range(_FILLINGS):
                steps = self._filled(core, size)
                found = self._planned(steps, begins_min) if len(steps) == size else None
                if found is not None:
                    return found
            tried += 1
            if tried == _MOST_TRIED:
                break
        return None

    def _closed_in(self, steps: set[str]) -> frozenset[str] | None:
        """Return the steps with all that lies between them; ``None``: that is no work of one's own."""
        partners = {other for step in steps for other in self._links.partners(step)}
        whole = steps | partners
        closed = frozenset((*whole, *self._links.between(whole)))
        meant = {step.id for step in self._steps}
        return closed if closed <= meant and self._is_self_contained(closed) else None

    def _is_self_contained(self, steps: AbstractSet[str]) -> bool:
        """Tell whether nothing of it was begun, or is left to be ended, within a window outside."""
        return all(self._links.partners(step) <= steps for step in steps)

    def _filled(self, core: frozenset[str], size: int) -> tuple[Step, ...]:
        """Return a core with steps that can be done while it waits, in the order of the build."""
        chosen = set(core)
        others = [s for s in self._steps if LEAST_FILL_MIN <= s.minutes <= MOST_FILL_MIN]
        self._chance.shuffle(others)
        for step in others:
            if len(chosen) >= size:
                break
            fits = step.id not in chosen and self._links.is_apart(step.id, core)
            fits = fits and self._links.partners(step.id) <= chosen
            fits = fits and self._dry.keeps_dry({*chosen, step.id})
            if fits and not self._links.between({*chosen, step.id}):
                chosen.add(step.id)
        return tuple(step for step in self._steps if step.id in chosen)

    def _planned(self, steps: tuple[Step, ...], begins_min: Sequence[int]) -> Day | None:
        hours = next(iter(work_days(self._derived.shop, steps, self._chance)), None)
        names = {step.id for step in steps}
        done = self._links.before(names)
        if hours is None or not self._dry.may_follow(names, {*done}):
            return None
        from_min = _begins(hours, self._chance.choice(begins_min))
        links = self._links.among(names)
        whole = _problem(steps, links, hours, from_min)
        best = best_day(whole, grid_min=GRID_MIN) if _tempts(whole, links) else None
        if best is None:
            return None
        best_min = _end(whole, best)
        late = one_by_one(whole, links, [step.id for step in steps])
        ends_by = min(best_min + SLACK_MIN[self._asked.level], (late or whole.horizon_min) - 1)
        ends_by = ends_by // GRID_MIN * GRID_MIN
        if ends_by < best_min:
            return None
        return Day(
            steps=steps,
            links=links,
            hours=hours,
            problem=replace(whole, horizon_min=ends_by),
            from_min=from_min,
            best=best,
            best_min=best_min,
            done=done,
        )


def _begins(hours: WorkDay, before_noon_min: int) -> int:
    opens, noon = hours.windows[0]
    return max(opens, noon - before_noon_min) if before_noon_min and hours.closed else opens


def _problem(
    steps: tuple[Step, ...], links: tuple[Link, ...], hours: WorkDay, from_min: int
) -> Problem:
    who = hours.person
    windows = hours.begun_at(from_min)
    return Problem(
        origin_at=hours.midnight_at,
        horizon_min=windows[-1][1],
        activities=tuple(
            Activity(
                id=step.id,
                minutes=at_pace(who, step.kind, step.minutes),
                people=(who.id,),
                priority=at,
                title=step.title,
            )
            for at, step in enumerate(steps)
        ),
        lags=tuple(
            Lag(
                first=link.first,
                then=link.then,
                min_lag=link.least_min,
                max_lag=link.most_min,
                reason=link.relation.reason.text,
            )
            for link in links
        ),
        workers=(Worker(id=who.id, windows=windows),),
    )


def _end(problem: Problem, starts: Starts) -> int:
    return max(starts[a.id] + a.ways[0].minutes for a in problem.activities)


def one_by_one(problem: Problem, links: tuple[Link, ...], order: list[str]) -> int | None:
    """Return when all is done one after the other, each wait waited out before anything else is begun.

    ``None``: not within the day.
    """
    longest = {
        name: max((link.least_min for link in links if link.first == name), default=0)
        for name in order
    }
    waiting = tuple(
        Lag(first=one, then=other, min_lag=longest[one]) for one, other in pairwise(order)
    )
    patient = replace(problem, lags=(*(replace(g, max_lag=None) for g in problem.lags), *waiting))
    starts = one_after_another(patient, tuple(order), grid_min=GRID_MIN)
    return None if starts is None else _end(problem, starts)


def _tempts(problem: Problem, links: tuple[Link, ...]) -> bool:
    """Tell whether to make all wet first breaks a window; true where nothing has a latest time."""
    if all(link.most_min is None for link in links):
        return True
    order = wet_first(problem, links)
    free = replace(problem, lags=tuple(replace(g, max_lag=None) for g in problem.lags))
    if one_after_another(free, order, grid_min=GRID_MIN) is None:
        return True
    return one_after_another(problem, order, grid_min=GRID_MIN) is None


def wet_first(problem: Problem, links: tuple[Link, ...]) -> tuple[str, ...]:
    """Return the order of who first begins all that has to wait, then does the rest as listed."""
    begins = {link.first for link in links if link.is_wait}
    left = [activity.id for activity in problem.activities]
    order: list[str] = []
    while left:
        ready = [n for n in left if not any(k.then == n and k.first in left for k in links)]
        order.append(min(ready, key=lambda name: (name not in begins, left.index(name))))
        left.remove(order[-1])
    return tuple(order)
