"""What would free a problem that has no plan: one claim softened, moved or added to, and its price.

Each is first tried in full (a window left open for good, somebody there day and night); the plan
found says how much of it was needed, and that much is tried again by halves.
"""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace

from armorplan.schedule.activity import Activity
from armorplan.schedule.checker import violations
from armorplan.schedule.claims import Claim, Kind
from armorplan.schedule.conflict import Oracle, smallest_conflict
from armorplan.schedule.daytime import daytime_in
from armorplan.schedule.hands import NOBODY
from armorplan.schedule.measures import job_end
from armorplan.schedule.mend_amounts import as_it_is, as_needed
from armorplan.schedule.mends import DEEDS, Mend, mended
from armorplan.schedule.monotone import first_holding
from armorplan.schedule.problem import Plan, Problem

Seek = Callable[[Problem], Plan]
"""Makes a plan; one without anything placed where it finds none."""
OnTry = Callable[[Mend, int, int], None]
"""Told a mend before it is tried: the how many-th it is, counted from 0, of how many."""
_MOST_TOGETHER = 3
"""So many conflicts that stand beside each other are undone together at the most."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Freed:
    """What was tried: the mends together, the problem with them, and the plan it has then.

    ``late`` holds by how many minutes each job that is due would end too late, 0 where it does not.
    """

    mends: tuple[Mend, ...]
    problem: Problem
    plan: Plan
    late: tuple[tuple[str, int], ...]

    @property
    def is_freed(self) -> bool:
        """Tell whether a plan was found."""
        return bool(self.plan.placed)


def mends_of(problem: Problem, claims: Sequence[Claim]) -> tuple[Mend, ...]:
    """Return what could undo a conflict, one mend a claim, or a person, not yet tried."""
    return tuple(mend for claim in claims for mend in _for_claim(problem, claim))


def _for_claim(problem: Problem, claim: Claim) -> Iterator[Mend]:
    deed = DEEDS.get(claim.kind)
    if deed is None:
        return
    if claim.kind in (Kind.HOURS, Kind.ABSENCE):
        stretch = (0, problem.horizon_min) if claim.kind is Kind.HOURS else claim.window
        yield Mend(claim=claim, deed=deed, hours=daytime_in(problem, stretch))
        return
    if claim.kind is not Kind.HANDS:
        yield Mend(claim=claim, deed=deed)
        return
    activity = _activity(problem, claim.of)
    doing = {who for a in problem.activities for who in a.people}
    for worker in problem.workers:
        if worker.id in doing - {NOBODY, *activity.alone}:
            yield Mend(claim=claim, deed=deed, who=worker.id)


def freed_by(
    problem: Problem, mends: Sequence[Mend], seek: Seek, quick: Seek | None = None
) -> Freed:
    """Try mends together: as much as is needed of each, and what plan there is then.

    Args:
        problem: has no plan.
        mends: at least one.
        seek: makes the plan whose price is told.
        quick: makes those by which it is told how much is needed; ``None``: the same.
    """
    whole = mended(problem, mends)
    plan = _kept(whole, (quick or seek)(whole))
    if quick is not None and not plan.placed:
        plan = _kept(whole, seek(whole))
    if not plan.placed:
        return Freed(mends=tuple(mends), problem=whole, plan=plan, late=())
    needed = tuple(as_needed(problem, mend, plan) for mend in mends)
    if len(needed) == 1:
        needed = (_least(problem, needed[0], quick or seek),)
    less = mended(problem, needed)
    answer = _kept(less, seek(less))
    plan = answer if answer.placed else plan
    return Freed(mends=needed, problem=less, plan=plan, late=lateness_of(less, plan))


def _kept(problem: Problem, plan: Plan) -> Plan:
    """Return a plan that holds; without anything placed where it does not."""
    if plan.placed and violations(problem, plan):
        return replace(plan, placed=(), stages=())
    return plan


def lateness_of(problem: Problem, plan: Plan) -> tuple[tuple[str, int], ...]:
    """Return by how many minutes each job that is due ends too late."""
    lies = {p.id: p for p in plan.placed}
    return tuple(
        (job.id, max(0, job_end(job, lies) - job.due_min))
        for job in problem.jobs
        if job.due_min is not None
    )


def ways_out(
    problem: Problem,
    claims: Sequence[Claim],
    is_possible: Oracle,
    seek: Seek,
    quick: Seek | None = None,
    *,
    on_try: OnTry = lambda *_: None,
) -> Iterator[Freed]:
    """Yield each mend of a conflict as it was tried; where none helps alone, what helps with it.

    A conflict is one of several that may stand beside each other: a mend that undoes it without
    giving a plan is joined by mends of the conflict that is left, until a plan is found.
    ``on_try`` is told each mend before it is tried.
    """
    stuck: list[Mend] = []
    helped = False
    mends = mends_of(problem, claims)
    for at, mend in enumerate(mends):
        on_try(mend, at, len(mends))
        freed = freed_by(problem, (mend,), seek, quick)
        if mend.who and not freed.is_freed:
            freed = freed_by(problem, (replace(mend, wide=True),), seek, quick)
        helped = helped or freed.is_freed
        if freed.is_freed:
            yield freed
        else:
            stuck.append(mend)
    if not helped:
        for mend in stuck[:_MOST_TOGETHER]:
            joint = _together(problem, mend, is_possible, seek)
            if joint is not None:
                yield joint


def _together(problem: Problem, mend: Mend, is_possible: Oracle, seek: Seek) -> Freed | None:
    mends = [mend]
    while len(mends) < _MOST_TOGETHER:
        left = mended(problem, mends)
        if is_possible(left) is not False:
            return None
        more = mends_of(left, smallest_conflict(left, is_possible))
        if not more:
            return None
        mends.append(more[0])
        for other in more:
            mends[-1] = other
            freed = freed_by(problem, mends, seek)
            if freed.is_freed:
                return freed
    return None


def _least(problem: Problem, mend: Mend, seek: Seek) -> Mend:
    """Return a mend with the least of it for which a plan is still found, by halves."""
    low = as_it_is(problem, mend)
    if low is None or not mend.amount:
        return mend

    def holds(amount: int) -> bool:
        tried = mended(problem, (replace(mend, amount=amount),))
        return bool(_kept(tried, seek(tried)).placed)

    least = first_holding(holds, low + 1, mend.amount) if low < mend.amount else mend.amount
    return replace(mend, amount=least)


def _activity(problem: Problem, an_id: str) -> Activity:
    return next(a for a in problem.activities if a.id == an_id)
