"""What a maker can do to undo one claim, and the problem once it is done."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from enum import StrEnum

from armorplan.schedule.activity import Activity, Window
from armorplan.schedule.claims import Claim, Kind, joined, open_to, without
from armorplan.schedule.problem import Problem, Resource, Worker


class Deed(StrEnum):
    """What a maker does to free a plan."""

    SOFTEN = "soften"
    MOVE = "move"
    ADD = "add"


DEEDS = {
    Kind.WINDOW: Deed.SOFTEN,
    Kind.LATEST: Deed.MOVE,
    Kind.EARLIEST: Deed.MOVE,
    Kind.HOURS: Deed.ADD,
    Kind.ABSENCE: Deed.ADD,
    Kind.HANDS: Deed.ADD,
    Kind.PLACES: Deed.ADD,
    Kind.OPEN: Deed.ADD,
    Kind.BATH: Deed.ADD,
    Kind.CHANGE: Deed.SOFTEN,
    Kind.HANGS: Deed.MOVE,
    Kind.SHUT: Deed.SOFTEN,
    Kind.LAST: Deed.SOFTEN,
}
"""What undoes a claim. A wait has none: what has to dry dries."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """One thing to do.

    Attributes:
        claim: what it undoes, or as much of it as is needed.
        amount: minutes a window stays open, the capacity of a place or bath, or the minute by
            or from which something starts.
        hours: when somebody would have to be there besides.
        who: who would have to be able to do it as well.
        wide: not only this, but all that the same people alone may do.
    """

    claim: Claim
    deed: Deed
    amount: int = 0
    hours: tuple[Window, ...] = ()
    who: str = ""
    wide: bool = False


def mended(problem: Problem, mends: Sequence[Mend]) -> Problem:
    """Return the problem with mends made: those that say how much so far, the others in full."""
    in_full = [m.claim for m in mends if not (m.amount or m.hours or m.who)]
    for mend in mends:
        if mend.amount or mend.hours or mend.who:
            problem = _in_part(problem, mend)
    return without(problem, in_full)


def _in_part(problem: Problem, mend: Mend) -> Problem:
    claim, amount = mend.claim, mend.amount
    if mend.hours:
        workers = tuple(_longer(w, mend) if w.id == claim.of else w for w in problem.workers)
        return replace(problem, workers=workers)
    if mend.wide:
        ids = alike_in_hands(problem, claim.of)
        activities = tuple(
            open_to(a, (mend.who,)) if a.id in ids else a for a in problem.activities
        )
        return replace(problem, activities=activities)
    if claim.kind is Kind.WINDOW:
        lags = tuple(
            replace(lag, max_lag=amount, closes=None) if at == claim.at else lag
            for at, lag in enumerate(problem.lags)
        )
        return replace(problem, lags=lags)
    if claim.kind is Kind.PLACES:
        resources = tuple(_larger(r, mend) for r in problem.resources)
        return replace(problem, resources=resources)
    if claim.kind is Kind.BATH:
        baths = tuple(
            replace(b, capacity=amount) if b.id == claim.of else b for b in problem.baths
        )
        return replace(problem, baths=baths)
    activities = tuple(_otherwise(a, mend) if a.id == claim.of else a for a in problem.activities)
    return replace(problem, activities=activities)


def _longer(worker: Worker, mend: Mend) -> Worker:
    return replace(worker, windows=joined((*worker.windows, *mend.hours)))


def _larger(resource: Resource, mend: Mend) -> Resource:
    return replace(resource, capacity=mend.amount) if resource.id == mend.claim.of else resource


def _otherwise(activity: Activity, mend: Mend) -> Activity:
    if mend.who:
        return open_to(activity, (mend.who,))
    if mend.claim.kind is Kind.LATEST:
        return replace(activity, latest_start_min=mend.amount)
    return replace(activity, earliest_min=mend.amount)


def alike_in_hands(problem: Problem, activity: str) -> frozenset[str]:
    """Return what the same people alone may do, this activity among it; nothing of history."""
    people = next(set(a.alone) for a in problem.activities if a.id == activity)
    return frozenset(
        a.id for a in problem.activities if set(a.alone) == people and a.fixed_start_min is None
    )
