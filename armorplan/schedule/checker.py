"""Says whether a plan keeps a problem, written from the problem's statement alone.

Shares nothing with the serial plan or the solver, so that each can be judged by it. What is
fixed is history: it has to lie where it lies, and breaks no rule by itself; a rule is broken only
where something that could be placed elsewhere takes part.
"""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, field

from armorplan.schedule.activity import Activity
from armorplan.schedule.checking_baths import bath_violations
from armorplan.schedule.checking_hands import hand_violations, people_violations
from armorplan.schedule.checking_places import place_violations
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Lag, Placed, Plan, Problem, Status
from armorplan.schedule.violation import Violation


@dataclass(frozen=True, slots=True, kw_only=True)
class CheckedPlan:
    """A plan with the problem it answers; making one checks it, which takes its time.

    Attributes:
        holds: the checker finds no fault in it; where nothing is placed there is none to find.
    """

    problem: Problem
    plan: Plan
    holds: bool = field(init=False)

    def __post_init__(self) -> None:
        """Ask the checker."""
        silent = not (self.plan.placed and violations(self.problem, self.plan))
        object.__setattr__(self, "holds", silent)


def violations(problem: Problem, plan: Plan) -> tuple[Violation, ...]:
    """Return everything a plan breaks; nothing for a plan that holds."""
    found = list(_each_once(problem, plan))
    known = {a.id: a for a in problem.activities}
    lies = {p.id: p for p in plan.placed if p.id in known}
    for name, placed in lies.items():
        found += _alone(problem, known[name], placed)
        found += hand_violations(problem, known[name], placed)
    free = frozenset(i for i, a in known.items() if a.fixed_start_min is None)
    found += _lags(problem, lies, free)
    found += _before_last(problem, lies, free)
    found += people_violations(problem, lies, free)
    found += place_violations(problem, lies, free)
    found += bath_violations(problem, lies, free)
    found += _stages(problem, plan, lies)
    return tuple(found)


def _each_once(problem: Problem, plan: Plan) -> Iterator[Violation]:
    counts = Counter(p.id for p in plan.placed)
    known = {a.id: a for a in problem.activities}
    for name in sorted(known - counts.keys()):
        yield Violation(kind="missing", about=(name,), text=f"{name} is not in the plan.")
    for name in sorted(counts.keys() - known):
        yield Violation(kind="unknown", about=(name,), text=f"{name} is not in the problem.")
    for name, times in sorted(counts.items()):
        if times > 1:
            yield Violation(kind="twice", about=(name,), text=f"{name} is placed {times} times.")


def _alone(problem: Problem, activity: Activity, placed: Placed) -> Iterator[Violation]:
    """Check when one activity lies, by itself; its hands are checked beside."""
    said = list(_of_history(activity, placed))
    if activity.fixed_start_min is None:
        said += _of_the_free(problem, activity, placed)
    for kind, text in said:
        yield Violation(kind=kind, about=(activity.id,), text=f"{activity.id} {text}.")


def _of_history(activity: Activity, placed: Placed) -> Iterator[tuple[str, str]]:
    fixed = activity.fixed_start_min
    if fixed is not None and placed.start_min != fixed:
        yield "moved", f"began at {fixed}, the plan says {placed.start_min}"
    if fixed is not None and activity.fixed_who not in (None, placed.who):
        yield "wrong person", f"is {activity.fixed_who}'s, the plan says {placed.who}"
    if fixed is not None and activity.fixed_mode not in ("", placed.mode):
        yield "wrong way", f"was done with {activity.fixed_mode}, the plan says {placed.mode}"


def _of_the_free(
    problem: Problem, activity: Activity, placed: Placed
) -> Iterator[tuple[str, str]]:
    start, end, latest = placed.start_min, placed.end_min, activity.latest_start_min
    if start < max(0, activity.earliest_min):
        yield "too early", f"starts at {start}, before {max(0, activity.earliest_min)}"
    if latest is not None and start > latest:
        yield "too late", f"starts at {start}, after {latest}"
    if end > problem.horizon_min:
        yield "too late", f"ends at {end}, after the horizon {problem.horizon_min}"
    for shut_from, shut_till in activity.ends_outside:
        if shut_from <= end < shut_till:
            yield "shut", f"ends at {end}, where it is shut from {shut_from} to {shut_till}"


def _lags(problem: Problem, lies: dict[str, Placed], free: frozenset[str]) -> Iterator[Violation]:
    for lag in problem.lags:
        pair = (lag.first, lag.then)
        if not free.intersection(pair) or not lies.keys() >= set(pair):
            continue
        end, start = lies[lag.first].end_min, lies[lag.then].start_min
        yield from _by_table(lag, end, start)
        gap = start - end
        text = f"{lag.then} starts {gap} min after {lag.first} ends, not "
        if gap < lag.min_lag:
            yield Violation(kind="too soon", about=pair, text=f"{text}at least {lag.min_lag}.")
        if lag.max_lag is not None and gap > lag.max_lag:
            yield Violation(
                kind="too long after", about=pair, text=f"{text}at most {lag.max_lag}."
            )


def _by_table(lag: Lag, end: int, start: int) -> Iterator[Violation]:
    """Check the window that the air leaves: it is told by when ``first`` ends."""
    pair = (lag.first, lag.then)
    if lag.opens is not None and start < lag.opens.ready_at(end):
        soonest = lag.opens.ready_at(end)
        text = f"{lag.then} starts at {start}, its window opens at {soonest}."
        yield Violation(kind="too soon", about=pair, text=text)
    if lag.closes is not None and start > lag.closes.open_till(end):
        latest = lag.closes.open_till(end)
        text = f"{lag.then} starts at {start}, its window closes at {latest}."
        yield Violation(kind="too long after", about=pair, text=text)


def _before_last(
    problem: Problem, lies: dict[str, Placed], free: frozenset[str]
) -> Iterator[Violation]:
    for rule in problem.before_last:
        about = (rule.first, *sorted(rule.of))
        if not free.intersection(about) or not lies.keys() >= set(about):
            continue
        last = max(lies[i].start_min for i in rule.of)
        end = lies[rule.first].end_min
        if end > last:
            text = f"{rule.first} ends at {end}, after the last of the others starts at {last}."
            yield Violation(kind="not before the last", about=about, text=text)


def _stages(problem: Problem, plan: Plan, lies: dict[str, Placed]) -> Iterator[Violation]:
    is_whole = len(lies) == len(problem.activities)
    worth = goals(problem, lies.values()) if plan.stages and is_whole else {}
    for stage in plan.stages:
        if stage.bound > stage.value:
            text = f"{stage.name} is {stage.value}, below its own bound {stage.bound}."
            yield Violation(kind="false bound", about=(), text=text)
        if stage.status is Status.BEST and stage.bound != stage.value:
            text = f"{stage.name} is {stage.value}, not proved: its bound is {stage.bound}."
            yield Violation(kind="false proof", about=(), text=text)
        value = worth.get(stage.name, stage.value)
        if stage.value != value:
            text = f"{stage.name} of the plan is {value}, its stage says {stage.value}."
            yield Violation(kind="false value", about=(), text=text)
