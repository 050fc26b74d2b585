"""In how many stretches of their hours people have anything to do, for the solver."""

from armorplan.schedule.activity import Window
from armorplan.schedule.company import beside_in
from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.cp.hands import Hands
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.problem import Worker
from armorplan.solving.model import NoOverlap, Term, at_least


def bench_times(draft: Draft, acts: Acts, hands: Hands) -> list[str]:
    """Add a literal for each stretch of somebody's hours that is used; return them.

    A stretch that is not used is an interval in which nothing else of that person lies.
    """
    literals: list[str] = []
    loads: list[Term] = []
    for worker in acts.problem.workers:
        mine = hands.own[worker.id]
        idle = []
        for number, window in enumerate(worker.windows):
            busy = _is_busy(acts, worker, window)
            if window[0] >= acts.most_min and not busy:
                continue
            literal = draft.boolean(
                f"used {worker.id} {number}", _told_used(acts, worker.id, window)
            )
            literals.append(literal)
            loads.append((literal, window[1] - window[0]))
            if busy:
                draft.some_of(literal)
            else:
                length = window[1] - window[0]
                idle.append(draft.interval(window[0], length, None, f"~{literal}"))
        if idle and mine:
            draft.need(NoOverlap(intervals=(*mine, *idle)))
    if loads:
        draft.keep(tuple(loads), at_least(_work(acts)))
    return literals


def _work(acts: Acts) -> int:
    """Return the least minutes that people have to be at work for what is still free."""
    return sum(
        min(v.way.minutes for v in variants)
        for a in acts.problem.activities
        if a.table is None
        and (variants := acts.variants(a.id))
        and all(v.way.who is not None for v in variants)
    )


def _is_busy(acts: Acts, worker: Worker, window: Window) -> bool:
    """Tell whether history lies in a stretch already."""
    return any(
        worker.id in (p.who, *beside_in(acts.by_id[p.id], p))
        and p.start_min < p.end_min
        and _meet(p.start_min, p.end_min, window)
        for p in acts.history.values()
    )


def _told_used(acts: Acts, who: str, window: Window) -> Told:
    def told(plan: Reading) -> int:
        return int(
            any(
                who in (p.who, *beside_in(acts.by_id[p.id], p))
                for p in plan.lies.values()
                if p.start_min < p.end_min and _meet(p.start_min, p.end_min, window)
            )
        )

    return told


def _meet(start_min: int, end_min: int, window: Window) -> bool:
    return start_min < window[1] and window[0] < end_min
