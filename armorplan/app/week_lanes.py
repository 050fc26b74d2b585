"""The week laid by person, by bath and rack, or by build."""

from collections.abc import Iterable
from dataclasses import replace
from datetime import timedelta
from zoneinfo import ZoneInfo

from armorplan.app.chart_rows import DRYING_LANE
from armorplan.app.week_bars import bars_of
from armorplan.app.week_changes import change_bars
from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_loads import loads_of
from armorplan.app.week_places import place_bars, place_lanes
from armorplan.app.week_rows import BarKind, By, LaneKind, Stretch, Week, WeekBar, WeekLane
from armorplan.schedule.calendars import closed_windows
from armorplan.schedule.company import everybody
from armorplan.schedule.problem import Job, Worker

_DRYING_ID = "drying"


def week_of(facts: WeekFacts, by: By) -> Week:
    """Return the week at one laying."""
    bars = bars_of(facts)
    lay = {By.PERSON: _by_person, By.PLACE: _by_place, By.BUILD: _by_build}[by]
    laid, lanes = lay(facts, bars)
    if by is By.PERSON:
        laid = (*laid, *change_bars(facts))
    problem = facts.problem
    dips = (a.dip.family for a in problem.activities if a.dip) if problem else ()
    held = (bath.holds for bath in problem.baths if bath.holds) if problem else ()
    return Week(
        by=by,
        bars=tuple(sorted(laid, key=lambda bar: (bar.start_at, bar.end_at, bar.key))),
        lanes=lanes,
        closed=_closed(facts, bars),
        now_at=facts.chart.now_at,
        zone=facts.chart.zone,
        reach=_reach(facts, bars),
        air=facts.chart.air,
        families=tuple(sorted({*dips, *held})),
        has_promise=bool(facts.was_promised),
        builds=_build_lanes(facts, bars),
    )


Laid = tuple[tuple[WeekBar, ...], tuple[WeekLane, ...]]


def _by_person(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> Laid:
    """Lay hands-on work by who does it, also by who has to be there, and below it what dries."""
    laid = []
    for bar in bars:
        lane = bar.who if bar.attended else _DRYING_ID
        laid.append(replace(bar, lane=lane))
        activity = facts.activities.get(bar.key)
        placed = facts.placed.get(bar.key)
        company = everybody(activity, placed)[1:] if activity and placed and placed.who else ()
        for who in company:
            there = facts.name(who)
            helps = bar.who if there in bar.beside else ""
            key = f"{bar.key}@{who}"
            laid.append(replace(bar, lane=there, who=there, key=key, beside=(), helps=helps))
    present = [w for w in facts.problem.workers if w.windows] if facts.problem else []
    workers = {facts.name(worker.id): worker for worker in present}
    named = dict.fromkeys(workers or (n for n in facts.chart.lanes if n != DRYING_LANE))
    named |= dict.fromkeys(bar.lane for bar in laid if bar.attended)
    lanes = [_person_lane(facts, name, workers.get(name)) for name in named]
    return tuple(laid), (*lanes, _drying_lane())


def _person_lane(facts: WeekFacts, name: str, worker: Worker | None) -> WeekLane:
    loads = loads_of(facts, worker, ZoneInfo(facts.chart.zone)) if worker else ()
    closed: tuple[Stretch, ...] = ()
    if worker is not None and facts.problem is not None:
        shut = closed_windows((worker,), facts.problem.horizon_min)
        closed = tuple(facts.stretch(window) for window in shut)
    return WeekLane(id=name, name=name, kind=LaneKind.PERSON, closed=closed, loads=loads)


def _drying_lane() -> WeekLane:
    return WeekLane(id=_DRYING_ID, name=DRYING_LANE, kind=LaneKind.DRYING)


def _by_place(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> Laid:
    """Lay dips by their bath, what hangs by its rack, what needs a place by it; else what dries."""
    laid = place_bars(facts, bars)
    hung = {bar.key.partition("@")[0] for bar in laid if bar.kind is BarKind.HANGS}
    taken = {bar.key.partition("@")[0] for bar in laid}
    loose = [
        replace(bar, lane=_DRYING_ID)
        for bar in bars
        if bar.kind is BarKind.DRIES and bar.key not in taken and not _is_hung(facts, bar, hung)
    ]
    lanes = place_lanes(facts, laid)
    if loose or not lanes:
        lanes = (*lanes, _drying_lane())
    return (*laid, *loose), lanes


def _is_hung(facts: WeekFacts, bar: WeekBar, hung: set[str]) -> bool:
    """Tell whether a drying is shown already, as what hangs on a rack from its bath on."""
    return not hung.isdisjoint(facts.wet_before.get(bar.key, frozenset()))


def _by_build(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> Laid:
    """Lay everything by the build it belongs to, the soonest due first."""
    laid = tuple(replace(bar, lane=bar.build or facts.build) for bar in bars)
    return laid, _build_lanes(facts, bars)


def _build_lanes(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> tuple[WeekLane, ...]:
    jobs = {job.id: job for job in facts.problem.jobs} if facts.problem else {}
    ids = list(facts.tags) or list(jobs) or [facts.build]
    ends = _last_ends(facts, bars)
    ids += sorted(set(ends) - set(ids))
    return tuple(_build_lane(facts, build, jobs.get(build), ends) for build in ids)


def _last_ends(facts: WeekFacts, bars: Iterable[WeekBar]) -> dict[str, WeekBar]:
    ends: dict[str, WeekBar] = {}
    for bar in bars:
        build = bar.build or facts.build
        if build not in ends or bar.end_at > ends[build].end_at:
            ends[build] = bar
    return ends


def _build_lane(
    facts: WeekFacts, build: str, job: Job | None, ends: dict[str, WeekBar]
) -> WeekLane:
    promised = [
        facts.was_promised[i][1]
        for i in (job.activities if job else ())
        if i in facts.was_promised
    ]
    due_min = job.due_min if job else None
    title = facts.title if build == facts.build else (job.title if job else "")
    return WeekLane(
        id=build,
        name=title or build,
        kind=LaneKind.BUILD,
        tag=facts.tags.get(build, ""),
        due_at=None if due_min is None else facts.at(due_min),
        finish_at=ends[build].end_at if build in ends else None,
        promised_at=max(promised, default=None),
    )


def _reach(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> Stretch:
    now_at = facts.chart.now_at
    jobs = facts.problem.jobs if facts.problem else ()
    due = (facts.at(job.due_min) for job in jobs if job.due_min is not None)
    ends = (max(bar.end_at, bar.surely_at or bar.end_at) for bar in bars)
    first_at = min((bar.start_at for bar in bars), default=now_at)
    return min(first_at, now_at), max((now_at, *ends, *due))


def _closed(facts: WeekFacts, bars: tuple[WeekBar, ...]) -> tuple[Stretch, ...]:
    """Return when nobody works, as far as the bars reach and a day beyond."""
    if facts.problem is None or not facts.problem.workers:
        return facts.chart.closed
    until_at = max((bar.end_at for bar in bars), default=facts.chart.now_at) + timedelta(days=2)
    begins_at = facts.at(0)
    before = [(s, min(e, begins_at)) for s, e in facts.chart.closed if s < begins_at]
    shut = closed_windows(facts.problem.workers, facts.problem.horizon_min)
    after = [facts.stretch(window) for window in shut]
    return tuple(s for s in (*before, *after) if s[0] < min(until_at, s[1]))
