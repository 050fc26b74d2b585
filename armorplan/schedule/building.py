"""From a build's steps and relations, and what was done so far, to the neutral problem."""

from collections.abc import Iterable
from collections.abc import Set as AbstractSet
from dataclasses import replace
from datetime import datetime

from armorplan.relations.model import Relation
from armorplan.schedule.bench_history import NOTHING_DONE, ActivityMaker, History
from armorplan.schedule.bounds import earliest_starts
from armorplan.schedule.calendars import worker_windows
from armorplan.schedule.demands import before_last_of, kept_relations, lags_of, places_taken
from armorplan.schedule.drying_tables import Drier, tables_of
from armorplan.schedule.film_hours import without_spoiling_hours
from armorplan.schedule.first import is_stuck
from armorplan.schedule.horizon import cells_of, horizon_of
from armorplan.schedule.joint_chain import with_joints_chained
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.one_go import without_gaps
from armorplan.schedule.problem import Lag, Problem, Worker
from armorplan.schedule.sittings import in_sittings
from armorplan.schedule.soft_windows import without_vain_wishes
from armorplan.schedule.spans import placed_by_history
from armorplan.schedule.workplace import Workplace
from armorplan.steps.model import Work


def problem_from(
    work: Work,
    relations: Iterable[Relation],
    workplace: Workplace,
    *,
    origin_at: datetime,
    order: tuple[str, ...],
    history: History = NOTHING_DONE,
) -> Problem:
    """Return the planning problem of one build.

    The joints of each piece and side are set in the chosen order (``schedule.joint_chain``).
    Hands-on work longer than any stretch of hours is laid in sittings (``schedule.sittings``).
    Steps done stand where they were done. A relation that history has already broken asks for
    nothing any more. Maximum lags from steps begun or done are kept only while they can be met:
    what was missed at the bench must not leave the maker without a plan. In a room whose air
    is not the same at all times dryings and windows go by tables.

    Args:
        work: the steps.
        relations: those that bind become demands; so do those that only steer, where ``order``
            keeps them, since what is easier in the order is easier in the plan. Overruled ones
            ask for nothing.
        workplace: people and their hours, the air of the room, the treatments.
        origin_at: minutes count from here.
        order: the chosen order, that of the joints as it stands; of other steps the lags leave
            free, the earlier one is placed first.
        history: what was done.
    """
    shop = workplace.shop
    drier = Drier(workplace.shelf, shop.room, origin_at)
    horizon_min = horizon_of(work, shop, drier)
    workers = tuple(
        Worker(id=p.id, windows=worker_windows(p, shop.zone, origin_at, horizon_min))
        for p in shop.people
    )
    place = {step: at for at, step in enumerate(order)}
    tables = tables_of(work, drier, cells=cells_of(horizon_min), ended_at=history.ends(work))
    maker = ActivityMaker(origin_at, tuple(p.id for p in shop.people), place, history)
    activities = tuple(maker.activity(s, tables.dryings.get(s.id)) for s in work.steps)
    begun = history.begun
    kept = kept_relations(relations, (step.id for step in work.steps), place)
    resources, demands = places_taken(kept)
    problem = Problem(
        origin_at=origin_at,
        horizon_min=horizon_min,
        activities=tuple(replace(a, demands=demands.get(a.id, ())) for a in activities),
        lags=lags_of(kept, begun, place, tables.windows),
        before_last=tuple(before_last_of(kept, begun)),
        resources=resources,
        workers=workers,
    )
    possible = _without_missed_windows(in_sittings(problem), begun)
    possible = without_vain_wishes(possible)
    if not drier.is_always_steady:
        cells = cells_of(horizon_min)
        possible = without_spoiling_hours(possible, work, workplace, cells=cells)
    return without_gaps(with_joints_chained(possible, work, place), kept)


def _without_missed_windows(problem: Problem, begun: AbstractSet[str]) -> Problem:
    """Let go of the maximum lags that count from history and can no longer be kept.

    First those that the earliest start of what follows misses already; if no serial plan keeps
    the others together, all of them.
    """
    counted = [g for g in problem.lags if g.max_lag is not None and g.first in begun]
    if not counted:
        return problem
    unbound = _let_go(problem, counted)
    if lag_cycle(unbound):  # The lags clash without them; planning says how.
        return problem
    starts = earliest_starts(unbound)
    ends = {p.id: p.end_min for p in placed_by_history(problem)}
    missed = [g for g in counted if starts[g.then] > ends[g.first] + (g.max_lag or 0)]
    kept = _let_go(problem, missed)
    return unbound if is_stuck(kept) else kept


def _let_go(problem: Problem, windows: Iterable[Lag]) -> Problem:
    gone = set(windows)
    lags = tuple(replace(g, max_lag=None, closes=None) if g in gone else g for g in problem.lags)
    return replace(problem, lags=lags)
