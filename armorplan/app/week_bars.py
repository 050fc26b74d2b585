"""Bars of the week: one for each activity of the plan, with its window, its rests, its promise."""

from bisect import bisect_right
from collections.abc import Mapping
from datetime import datetime, timedelta

from armorplan.app.rows import BenchState, ChartBar
from armorplan.app.week_facts import WeekFacts
from armorplan.app.week_rows import BarKind, Stretch, WeekBar
from armorplan.schedule.activity import Window
from armorplan.schedule.company import beside_in
from armorplan.schedule.problem import Lag, Placed, Problem
from armorplan.schedule.sittings import step_of

_BEGUN = (
    BenchState.DONE,
    BenchState.EARLY,
    BenchState.RUNNING,
    BenchState.PAUSED,
    BenchState.DRYING,
)
_LEAST = timedelta(minutes=1)


def bars_of(facts: WeekFacts) -> tuple[WeekBar, ...]:
    """Return a bar for everything that is planned, under way or done, by its start."""
    windows = open_windows(facts)
    sheds = {w.id: w.windows for w in facts.problem.workers} if facts.problem else {}
    bars = [_planned(facts, placed, windows, sheds) for placed in facts.placed.values()]
    told = {bar.step for bar in bars if not bar.build}
    bars += [_charted(facts, bar) for step, bar in facts.charted.items() if step not in told]
    return tuple(sorted(bars, key=lambda bar: (bar.start_at, bar.end_at, bar.key)))


def _charted(facts: WeekFacts, bar: ChartBar) -> WeekBar:
    """Return the bar of a step of the open build that the plan of all builds does not speak of."""
    return WeekBar(
        key=bar.step,
        step=bar.step,
        title=bar.title,
        kind=BarKind.WORK if bar.attended else BarKind.DRIES,
        lane=bar.lane,
        who=bar.lane if bar.attended else "",
        start_at=bar.start_at,
        end_at=bar.end_at,
        state=bar.state,
        tag=facts.tags.get(facts.build, ""),
        surely_at=bar.surely_at,
        note=bar.note,
    )


def _planned(
    facts: WeekFacts,
    placed: Placed,
    windows: Mapping[str, Window],
    sheds: Mapping[str, tuple[Window, ...]],
) -> WeekBar:
    activity, job = facts.activities[placed.id], facts.job_of.get(placed.id)
    known = facts.chart_bar(placed.id)
    is_open = facts.is_open(placed.id)
    start_at, end_at = _span(facts, placed, known)
    window = windows.get(placed.id)
    state = known.state if known else _state(facts, placed)
    rests: tuple[Window, ...] = ()
    beside = beside_in(activity, placed)
    if activity.sitting_min and placed.who and not beside:
        rests = gaps(sheds.get(placed.who, ()), (placed.start_min, placed.end_min))
    return WeekBar(
        key=placed.id,
        step=step_of(placed.id),
        title=known.title if known else activity.title or placed.id,
        kind=BarKind.DRIES if placed.who is None else BarKind.WORK,
        lane="",
        who=facts.name(placed.who),
        beside=tuple(map(facts.name, beside)),
        start_at=start_at,
        end_at=max(end_at, start_at + _LEAST),
        state=state,
        build="" if is_open or job is None else job.id,
        build_title="" if is_open or job is None else job.title or job.id,
        tag=facts.tags.get(job.id if job else facts.build, ""),
        surely_at=known.surely_at if known else None,
        note=known.note if known else "",
        rests=tuple(facts.stretch(rest) for rest in rests),
        window=facts.stretch(window) if window and placed.who and state not in _BEGUN else None,
        promised=facts.was_promised.get(placed.id),
        family=activity.dip.family if activity.dip else "",
    )


def _span(facts: WeekFacts, placed: Placed, known: ChartBar | None) -> tuple[datetime, datetime]:
    """Return where an activity lies: what has begun lies where it was recorded."""
    if known is not None and known.state in _BEGUN and placed.id == known.step:
        return known.start_at, known.end_at
    return facts.at(placed.start_min), facts.at(placed.end_min)


def _state(facts: WeekFacts, placed: Placed) -> BenchState:
    """Return how a step of another build stands, as far as the problem knows."""
    activity = facts.activities[placed.id]
    if activity.fixed_start_min is None:
        return BenchState.WAITING
    if (
        activity.fixed_end_min is not None
        and facts.at(activity.fixed_end_min) <= facts.chart.now_at
    ):
        return BenchState.DONE
    return BenchState.DRYING if placed.who is None else BenchState.RUNNING


def open_windows(facts: WeekFacts) -> Mapping[str, Window]:
    """Return from when to when each activity has to begin, for those that may come too late."""
    problem: Problem | None = facts.problem
    found: dict[str, Window] = {}
    for lag in problem.lags if problem else ():
        if lag.is_window and lag.first in facts.placed and lag.then in facts.placed:
            opens, closes = _window(lag, facts.placed[lag.first].end_min)
            known = found.get(lag.then)
            if known is None or closes < known[1]:
                found[lag.then] = (opens, closes)
    return found


def _window(lag: Lag, end_min: int) -> Window:
    opens = end_min + lag.min_lag
    if lag.opens is not None:
        opens = max(opens, lag.opens.ready_at(end_min))
    shuts = [] if lag.max_lag is None else [end_min + lag.max_lag]
    shuts += [] if lag.closes is None else [lag.closes.open_till(end_min)]
    return opens, max(opens, min(shuts))


def gaps(windows: tuple[Window, ...], within: Window) -> tuple[Window, ...]:
    """Return the stretches of ``within`` that lie between windows, which ascend and are apart."""
    found, since = [], within[0]
    at = max(0, bisect_right(windows, (within[0],)) - 1)
    for start, end in windows[at:]:
        if start >= within[1]:
            break
        if start > since:
            found.append((since, start))
        since = max(since, end)
    if since < within[1]:
        found.append((since, within[1]))
    return tuple(found)


def pieces(stretch: Stretch, rests: tuple[Stretch, ...]) -> tuple[Stretch, ...]:
    """Return what is left of a stretch without its rests, which ascend and are apart."""
    found, since = [], stretch[0]
    for start, end in rests:
        if start > since:
            found.append((since, start))
        since = max(since, end)
    if since < stretch[1]:
        found.append((since, stretch[1]))
    return tuple(found)
