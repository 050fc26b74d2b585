"""From a build's steps and relations, and what was done so far, to the neutral problem."""

from collections.abc import Iterable, Mapping
from collections.abc import Set as AbstractSet
from dataclasses import replace
from datetime import datetime

from armorplan.relations.model import Relation, Together
from armorplan.schedule.activity import Activity
from armorplan.schedule.bench_history import NOTHING_DONE, ActivityMaker, History
from armorplan.schedule.bounds import earliest_starts
from armorplan.schedule.build_in_hand import BuildInHand
from armorplan.schedule.demands import before_last_of, kept_relations, lags_of, places_taken
from armorplan.schedule.dips import Dips
from armorplan.schedule.drying_tables import Drier, Tables, tables_of
from armorplan.schedule.film_hours import without_spoiling_hours
from armorplan.schedule.first import is_stuck
from armorplan.schedule.frame import Frame, frame_of
from armorplan.schedule.hands import Hands, wearer_of
from armorplan.schedule.hanging import Hanging
from armorplan.schedule.horizon import cells_of, horizon_of
from armorplan.schedule.joint_chain import with_joints_chained
from armorplan.schedule.lag_cycle import lag_cycle
from armorplan.schedule.one_go import without_gaps
from armorplan.schedule.problem import Lag, Problem, Resource
from armorplan.schedule.room_taken import RoomTaken
from armorplan.schedule.sittings import in_sittings
from armorplan.schedule.soft_windows import without_vain_wishes
from armorplan.schedule.spans import placed_by_history
from armorplan.schedule.visits import with_visits
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
    """Return the planning problem of one build by itself; see ``problem_of``."""
    build = BuildInHand(
        id="",
        title="",
        work=work,
        relations=relations,
        workplace=workplace,
        order=order,
        history=history,
    )
    drier = Drier(workplace.shelf, workplace.shop.room, origin_at)
    horizon_min = horizon_of((work,), workplace.shop, (drier,))
    return problem_of(build, frame_of(workplace.shop, origin_at, horizon_min), drier)


def problem_of(build: BuildInHand, frame: Frame, drier: Drier) -> Problem:
    """Return the planning problem of one build, in a shop where it is alone.

    The joints of each piece and side are set in the chosen order (``schedule.joint_chain``).
    Hands-on work longer than any stretch of hours is laid in sittings (``schedule.sittings``).
    Steps done stand where they were done. A relation that history has already broken asks for
    nothing any more. Maximum lags from steps begun or done are kept only while they can be met:
    what was missed at the bench must not leave the maker without a plan. In a room whose air
    is not the same at all times dryings and windows go by tables.

    Args:
        build: its work, its relations, its order, what was done.
        frame: the shop's people and places over the horizon.
        drier: makes its tables; builds in one room may share it.
    """
    work, begun = build.work, build.history.begun
    place = {step: at for at, step in enumerate(build.order)}
    cells = cells_of(frame.horizon_min)
    tables = tables_of(work, drier, cells=cells, ended_at=build.history.ends(work))
    activities = _activities(build, frame, place, tables)
    kept = kept_relations(build.relations, (step.id for step in work.steps), place)
    kept = _without_shared_baths(kept, activities)
    apart, taken = places_taken(kept)
    problem = replace(
        frame.problem,
        activities=tuple(
            replace(a, demands=tuple(dict.fromkeys((*a.demands, *taken.get(a.id, ())))))
            for a in activities
        ),
        lags=lags_of(kept, begun, place, tables.windows),
        before_last=tuple(before_last_of(kept, begun)),
        resources=_each_once((*frame.problem.resources, *apart)),
    )
    laid = in_sittings(problem)
    if frame.shop.is_detailed:
        laid = with_visits(laid, work)
        laid = _on_racks(laid, build, place)
    possible = without_vain_wishes(_without_missed_windows(laid, begun))
    if not drier.is_always_steady:
        possible = without_spoiling_hours(
            possible, work, build.workplace, cells=cells, looked_up=drier.shut
        )
    return without_gaps(with_joints_chained(possible, work, place), kept)


def _each_once(resources: Iterable[Resource]) -> tuple[Resource, ...]:
    """Return resources by id; what relations share is the shop's own place of that name."""
    found: dict[str, Resource] = {}
    for resource in resources:
        found.setdefault(resource.id, resource)
    return tuple(found.values())


def _activities(
    build: BuildInHand, frame: Frame, place: Mapping[str, int], tables: Tables
) -> tuple[Activity, ...]:
    hands = Hands(shop=frame.shop, wearer=wearer_of(frame.shop, build.wearer))
    room = RoomTaken(assembly=build.assembly)
    maker = ActivityMaker(
        origin_at=frame.problem.origin_at,
        place=place,
        history=build.history,
        hands=hands,
        dips=Dips(hands=hands, shelf=build.workplace.shelf, room=room),
        earliest_min=frame.minute_from(build.ready_at),
    )
    return tuple(maker.activity(s, tables.dryings.get(s.id)) for s in build.work.steps)


def _without_shared_baths(
    kept: tuple[Relation, ...], activities: Iterable[Activity]
) -> tuple[Relation, ...]:
    """Leave out what asks dips to follow one another: in one batch they go in at the same time."""
    dips = {a.id for a in activities if a.dip is not None}
    return tuple(r for r in kept if not (isinstance(r, Together) and r.of & dips))


def _on_racks(problem: Problem, build: BuildInHand, place: Mapping[str, int]) -> Problem:
    """Let what is wet take its room on the racks; hung closer where else no plan is left."""
    hanging = Hanging(shop=build.workplace.shop, room=RoomTaken(assembly=build.assembly))
    begun = build.history.begun
    found = hanging.holds(build.work, place, tuple(a.id for a in problem.activities))
    holds = tuple(h for h in found if not begun >= {h.first, *h.until})
    held = replace(problem, holds=holds)
    if not holds or not is_stuck(held) or is_stuck(problem):
        return held
    return replace(problem, holds=hanging.pressed(holds, build.work))


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
