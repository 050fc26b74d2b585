"""The planning problem in the solver's model language, and the solver's values as a plan."""

from collections.abc import Iterable
from itertools import pairwise

from armorplan.schedule.activity import Activity
from armorplan.schedule.calendars import merged
from armorplan.schedule.cp_lags import Gaps, lay_after_history
from armorplan.schedule.cp_starts import begun_by_hands, starts_of, union
from armorplan.schedule.cp_table import LookUps
from armorplan.schedule.draft import Draft
from armorplan.schedule.lag_spans import (
    least_wait,
)
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.spans import least_minutes, placed_by_history
from armorplan.schedule.table import Table
from armorplan.solving.model import (
    AtLeastOne,
    Cumulative,
    Effort,
    ExactlyOne,
    Latest,
    Least,
    Linear,
    Model,
    NoOverlap,
    Range,
    Term,
    at_most,
)


class Layout:
    """A problem laid out for the solver, everything ending by ``finish_most_min``.

    Hours are the domains of the starts, not closures as fixed intervals: tried on 300 steps, the
    domains led to far better plans. There is no maximum or minimum equality: OR-Tools 9.15 was
    seen to abort on them.

    Every activity should fit somewhere by itself; ``hopeless`` in ``conflict`` tells before.
    """

    def __init__(self, problem: Problem, finish_most_min: int) -> None:
        self._problem = problem
        self._most = finish_most_min
        self._draft = Draft()
        self._windows = {w.id: w.windows for w in problem.workers}
        self._starts = starts_of(problem, finish_most_min)
        self._by_hands = begun_by_hands(problem)
        self._look_ups = LookUps(self._draft, finish_most_min)
        self._history = {p.id: p for p in placed_by_history(problem)}
        self._ends: dict[str, Term] = {}
        self._hands: dict[str, list[str]] = {w.id: [] for w in problem.workers}
        self._keys = {a.id: str(n) for n, a in enumerate(problem.activities)}
        self._who: dict[str, dict[str, str | None]] = {}
        """For each activity its people, with the literal that says it is theirs."""
        for activity in problem.activities:
            if activity.id in self._history:
                self._lay_history(self._history[activity.id])
            else:
                self._lay_activity(activity)
        self._lay_lags()
        self._lay_before_last()
        self._lay_people()
        self._lay_resources()

    def soonest_finish(self, *, least_min: int, effort: Effort, hint: tuple[Placed, ...]) -> Model:
        """Return the model whose objective is the finish; no plan ends before ``least_min``."""
        followed = {
            lag.first
            for lag in self._problem.lags
            # What lies in history may have begun before what it should have followed.
            if least_wait(lag) >= 0
            and lag.then not in self._history
            and self._minutes(lag.then) > 0
        }
        last = [end for name, end in self._ends.items() if name not in followed]
        goal = Latest(of=tuple(last), ranges=((least_min, self._most),))
        return self._draft.model(objective=goal, effort=effort, hints=self._hints(hint))

    def fewest_jumps(
        self, pairs: tuple[tuple[str, str], ...], *, effort: Effort, hint: tuple[Placed, ...]
    ) -> Model:
        """Return the model whose objective is how many pairs start the other way round."""
        draft = self._draft.copy()
        starts = {p.id: p.start_min for p in hint}
        hints = list(self._hints(hint))
        jumped = []
        for number, (first, then) in enumerate(pairs):
            jumped.append(f"jump {number}")
            draft.gap(self._start(first), self._start(then), least=0, only_if=(f"~{jumped[-1]}",))
            if starts:
                hints.append((jumped[-1], int(starts[first] > starts[then])))
        draft.booleans += jumped
        goal = Least(terms=tuple((literal, 1) for literal in jumped))
        return draft.model(objective=goal, effort=effort, hints=tuple(hints))

    def any_plan(self, *, effort: Effort) -> Model:
        """Return the model without an objective."""
        return self._draft.model(objective=None, effort=effort, hints=())

    def placed(self, values: Iterable[Term]) -> tuple[Placed, ...]:
        """Return the plan that the solver's values say, in the problem's order."""
        value = dict(values)
        placed = []
        for activity in self._problem.activities:
            if activity.id in self._history:
                placed.append(self._history[activity.id])
                continue
            end, offset = self._ends[activity.id]
            mine = self._who[activity.id].items()
            placed.append(
                Placed(
                    id=activity.id,
                    start_min=value[self._start(activity.id)],
                    end_min=value[end] + offset,
                    who=next((p for p, lit in mine if lit is None or value[lit]), None),
                )
            )
        return tuple(placed)

    def _start(self, name: str) -> str:
        return f"start {self._keys[name]}"

    def _minutes(self, name: str) -> int:
        return least_minutes(self._problem.activities[int(self._keys[name])])

    def _lay_history(self, placed: Placed) -> None:
        start = self._start(placed.id)
        self._draft.number(start, ((placed.start_min, placed.start_min),))
        self._ends[placed.id] = (start, placed.end_min - placed.start_min)

    def _lay_activity(self, activity: Activity) -> None:
        start = self._start(activity.id)
        by_person = self._starts[activity.id]
        self._draft.number(start, union(by_person.values()))
        size: str | int = activity.minutes
        end: str | None = None
        self._ends[activity.id] = (start, activity.minutes)
        if activity.table is not None:
            end, size = self._lay_table(activity, activity.table)
            self._ends[activity.id] = (end, 0)
        people = [who for who in by_person if who is not None]
        several = len(people) > 1
        self._who[activity.id] = {w: f"{start} by {w}" if several else None for w in people}
        literals = [x for x in self._who[activity.id].values() if x is not None]
        if literals:
            self._draft.booleans += literals
            self._draft.need(ExactlyOne(literals=tuple(literals)))
        for who, literal in self._who[activity.id].items():
            if literal is not None:
                self._draft.need(
                    Linear(terms=((start, 1),), ranges=by_person[who], only_if=(literal,))
                )
            if size:
                self._hands[who].append(self._draft.interval(start, size, end, literal))

    def _lay_table(self, activity: Activity, table: Table) -> tuple[str, str]:
        """Add the end and the duration of an activity with a table; return their names."""
        start = self._start(activity.id)
        at, ranges = self._begins_at(activity.id)
        end = self._look_ups.ready_at(start, table, self._look_ups.cells(at, table, ranges))
        takes = self._draft.number(f"{start} takes", ((table.shortest_min, table.longest_min),))
        self._draft.need(Linear(terms=((end, 1),), ranges=at_most(self._most)))
        self._draft.need(Linear(terms=((end, 1), (start, -1), (takes, -1)), ranges=((0, 0),)))
        return end, takes

    def _begins_at(self, name: str) -> tuple[Term, tuple[Range, ...]]:
        """Return where a start with a table lies, and when: within hours where hands come before.

        What dries and what cures after the same coat, and the window of the next, are so looked
        up from the same end.
        """
        hands = self._by_hands.get(name)
        if hands is None:
            return (self._start(name), 0), union(self._starts[name].values())
        minutes = self._problem.activities[int(self._keys[hands])].minutes
        return (self._start(hands), minutes), self._end_ranges(hands)

    def _lay_lags(self) -> None:
        gaps = Gaps(self._draft, self._look_ups)
        for lag in self._problem.lags:
            first = self._history.get(lag.first)
            if first is None:
                ends = self._end_ranges(lag.first)
                gaps.lay(lag, self._ends[lag.first], self._start(lag.then), ends)
            elif lag.then not in self._history:
                lay_after_history(self._draft, lag, first.end_min, self._start(lag.then))

    def _end_ranges(self, name: str) -> tuple[Range, ...]:
        """Return the minutes an activity can end at, as far as that is told beforehand."""
        activity = self._problem.activities[int(self._keys[name])]
        if activity.table is not None:
            return ((0, self._most),)
        starts = union(self._starts[name].values())
        return tuple((low + activity.minutes, high + activity.minutes) for low, high in starts)

    def _lay_before_last(self) -> None:
        for number, rule in enumerate(self._problem.before_last):
            if self._history.keys() >= {rule.first, *rule.of}:
                continue
            end, offset = self._ends[rule.first]
            literals = []
            for member in sorted(rule.of):
                literals.append(self._last_literal(number, member))
                self._draft.booleans.append(literals[-1])
                self._draft.gap(end, self._start(member), least=offset, only_if=(literals[-1],))
            self._draft.need(AtLeastOne(literals=tuple(literals)))

    def _last_literal(self, number: int, member: str) -> str:
        return f"rule {number} before {self._keys[member]}"

    def _lay_people(self) -> None:
        """Keep everybody to one thing at a time, in terms the solver can prove a load with.

        The closed times repeat what the domains say already, and so does the sum over all people
        where several may do the same; with them 120 steps are proved in 0.1 s, without them not
        in 10 s.
        """
        closed = {who: self._closed(who) for who in self._hands}
        for who, intervals in self._hands.items():
            if intervals:
                self._draft.need(NoOverlap(intervals=(*intervals, *closed[who])))
        shared = [
            self._whole(a)
            for a in self._problem.activities
            if len(self._who.get(a.id, ())) > 1 and (a.minutes or a.table)
        ]
        if shared:
            everything = (*shared, *(i for intervals in closed.values() for i in intervals))
            ones = (1,) * len(everything)
            self._draft.need(Cumulative(intervals=everything, demands=ones, capacity=len(closed)))

    def _closed(self, who: str) -> list[str]:
        """Lay the times a person cannot take anything on: out of hours, or busy by history."""
        busy = [(p.start_min, p.end_min) for p in self._history.values() if p.who == who]
        opens = [0, *(m for window in self._windows[who] for m in window), self._most]
        gaps = zip(opens[::2], opens[1::2], strict=True)
        outside = [(begin, min(end, self._most)) for begin, end in gaps]
        return [self._draft.interval(a, b - a) for a, b in merged([*busy, *outside])]

    def _lay_resources(self) -> None:
        """Lay what is taken; fixed takers as a profile, cut to the capacity they may exceed."""
        for resource in self._problem.resources:
            takers: list[tuple[str, int]] = []
            fixed: list[tuple[Placed, int]] = []
            for activity in self._problem.activities:
                amount = sum(d.amount for d in activity.demands if d.resource == resource.id)
                if amount and activity.id in self._history:
                    fixed.append((self._history[activity.id], amount))
                elif amount and (activity.minutes or activity.table):
                    takers.append((self._whole(activity), amount))
            minutes = sorted({m for p, _ in fixed for m in (p.start_min, p.end_min)})
            for begin, end in pairwise(minutes):
                used = sum(n for p, n in fixed if p.start_min <= begin < p.end_min)
                if used:
                    interval = self._draft.interval(begin, end - begin)
                    takers.append((interval, min(used, resource.capacity)))
            if takers:
                names, amounts = zip(*takers, strict=True)
                self._draft.need(
                    Cumulative(intervals=names, demands=amounts, capacity=resource.capacity)
                )

    def _whole(self, activity: Activity) -> str:
        start = self._start(activity.id)
        if activity.table is None:
            return self._draft.interval(start, activity.minutes)
        end, _ = self._ends[activity.id]
        return self._draft.interval(start, f"{start} takes", end)

    def _hints(self, plan: tuple[Placed, ...]) -> tuple[Term, ...]:
        lies = {p.id: p for p in plan}
        if not lies:
            return ()
        hints: list[Term] = []
        ends: dict[str, int] = {}
        for activity in self._problem.activities:
            placed, start = lies[activity.id], self._start(activity.id)
            hints.append((start, placed.start_min))
            if activity.id not in self._history:
                hints += [
                    (literal, int(placed.who == who))
                    for who, literal in self._who[activity.id].items()
                    if literal is not None
                ]
                if activity.table is not None:
                    hints.append((f"{start} takes", placed.end_min - placed.start_min))
                    ends[self._ends[activity.id][0]] = placed.end_min
        for number, rule in enumerate(self._problem.before_last):
            if not self._history.keys() >= {rule.first, *rule.of}:
                hints += [
                    (
                        self._last_literal(number, m),
                        int(lies[rule.first].end_min <= lies[m].start_min),
                    )
                    for m in sorted(rule.of)
                ]
        return (*hints, *self._look_ups.hints(dict(hints) | ends))
