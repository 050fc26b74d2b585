"""Activities as the solver's variables: a start, an end, and which of their variants it is."""

from collections.abc import Iterable

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.cp.draft import Draft, Told
from armorplan.schedule.cp.look_ups import LookUps
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.cp.variants import Ranges, Variant, meet, union, variants_of
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.spans import placed_by_history
from armorplan.schedule.table import Table
from armorplan.solving.model import MOST, Term, at_most


class Acts:
    """Every activity's variables. An activity of one variant has no literal for it (``None``)."""

    def __init__(self, problem: Problem, draft: Draft, most_min: int) -> None:
        self.problem = problem
        self.most_min = most_min
        self.by_id = {a.id: a for a in problem.activities}
        self.history = {p.id: p for p in placed_by_history(problem)}
        self.look_ups = LookUps(draft, most_min)
        self._draft = draft
        self._keys = {a.id: str(n) for n, a in enumerate(problem.activities)}
        self._variants = variants_of(problem, most_min)
        self._by_hands = _begun_by_hands(problem, self._variants)
        self._intervals: dict[tuple[str, str | None], str] = {}
        self._ends: dict[str, Term] = {}
        self._takes: dict[str, str | int] = {}
        for activity in problem.activities:
            if activity.id in self.history:
                self._lay_history(self.history[activity.id])
            else:
                self._lay(activity)

    def key(self, name: str) -> str:
        """Return a short word for an activity, to name what belongs to it."""
        return self._keys[name]

    def start(self, name: str) -> str:
        """Return the variable of a start."""
        return f"start {self._keys[name]}"

    def end(self, name: str) -> Term:
        """Return the variable of an end, and what is added to it."""
        return self._ends[name]

    def takes(self, name: str) -> str | int:
        """Return the minutes from start to end, or their variable."""
        return self._takes[name]

    def variants(self, name: str) -> tuple[Variant, ...]:
        """Return the variants; none for what is fixed."""
        return self._variants.get(name, ())

    def chosen(self, name: str) -> tuple[tuple[Variant, str | None], ...]:
        """Return the variants, each with the literal that says that it is this one."""
        variants = self.variants(name)
        if len(variants) == 1:
            return ((variants[0], None),)
        return tuple((v, self._literal(name, at)) for at, v in enumerate(variants))

    def ways(self, name: str) -> tuple[Mode, ...]:
        """Return the ways it may be done; what is fixed has the one it was done in."""
        if name in self.history:
            placed = self.history[name]
            way = self.by_id[name].way(placed.who, placed.mode)
            return (way,) if way is not None else ()
        return tuple(v.way for v in self.variants(name))

    def least(self, name: str) -> int:
        """Return the shortest from its start to its end."""
        if name in self.history:
            return self.history[name].end_min - self.history[name].start_min
        table = self.by_id[name].table
        if table is not None:
            return table.shortest_min
        return min((v.takes for v in self.variants(name)), default=0)

    def interval(self, name: str, only_if: str | None = None) -> str:
        """Return the interval from start to end that is there where a literal is true."""
        if (name, only_if) not in self._intervals:
            end, takes = self._ends[name][0], self._takes[name]
            self._intervals[name, only_if] = self._draft.interval(
                self.start(name), takes, None if isinstance(takes, int) else end, only_if
            )
        return self._intervals[name, only_if]

    def interval_of(self, name: str, variant: Variant, literal: str | None) -> str:
        """Return the interval of a variant: of its own length, where that is told beforehand."""
        takes = self._takes[name]
        if literal is None or isinstance(takes, int) or not self._is_told(name):
            return self.interval(name, literal)
        return self._draft.interval(self.start(name), variant.takes, None, literal)

    def end_ranges(self, name: str) -> Ranges:
        """Return the minutes an activity can end at, as far as that is told beforehand."""
        if not self._is_told(name):
            return ((0, self.most_min),)
        parts = (
            tuple((low + v.takes, high + v.takes) for low, high in v.starts)
            for v in self.variants(name)
        )
        return union(parts) or ((0, self.most_min),)

    def placed(self, values: Iterable[Term]) -> tuple[Placed, ...]:
        """Return the plan that the solver's values say, in the problem's order."""
        value = dict(values)
        return tuple(
            self.history[a.id] if a.id in self.history else self._placed(a.id, value)
            for a in self.problem.activities
        )

    def _placed(self, name: str, value: dict[str, int]) -> Placed:
        end, offset = self._ends[name]
        way = next(v.way for v, lit in self.chosen(name) if lit is None or value[lit])
        return Placed(
            id=name,
            start_min=value[self.start(name)],
            end_min=value[end] + offset,
            who=way.who,
            mode=way.name,
        )

    def _literal(self, name: str, at: int) -> str:
        return f"{self.start(name)} way {at}"

    def _is_told(self, name: str) -> bool:
        """Tell whether each variant takes what it takes, without a look-up or a batch."""
        activity = self.by_id[name]
        return name not in self.history and activity.table is None and activity.dip is None

    def _lay_history(self, placed: Placed) -> None:
        start = self.start(placed.id)
        self._draft.number(start, ((placed.start_min,) * 2,), lambda _: placed.start_min)
        self._takes[placed.id] = placed.end_min - placed.start_min
        self._ends[placed.id] = (start, placed.end_min - placed.start_min)

    def _lay(self, activity: Activity) -> None:
        name, start = activity.id, self.start(activity.id)
        starts = union(v.starts for v in self.variants(name))
        self._draft.number(start, starts or ((0, 0),), lambda plan: plan.start(name))
        self._lay_choice(activity, starts)
        lengths = sorted({v.takes for v in self.variants(name)})
        if activity.table is not None and starts:
            self._lay_table(activity, activity.table)
        elif activity.dip is not None and starts:
            self._lay_dip(activity, lengths[0])
        elif len(lengths) > 1:
            self._lay_lengths(activity, lengths)
        else:
            self._takes[name] = lengths[0] if lengths else 0
            self._ends[name] = (start, lengths[0] if lengths else 0)

    def _lay_choice(self, activity: Activity, starts: Ranges) -> None:
        literals = []
        for variant, literal in self.chosen(activity.id):
            if literal is None:
                return
            literals.append(self._draft.boolean(literal, _told_way(activity, variant)))
            if variant.starts != starts:
                self._draft.keep(((self.start(activity.id), 1),), variant.starts, literal)
        # Of no variants at all none can be true: there is no plan, as the solver will say.
        self._draft.one_of(*literals) if literals else self._draft.some_of()

    def _lay_lengths(self, activity: Activity, lengths: list[int]) -> None:
        """Add duration and end of what takes as long as its variant."""
        takes = self._lay_span(activity.id, tuple((n, n) for n in lengths))
        parts = ((lit, -v.takes) for v, lit in self.chosen(activity.id) if lit and v.takes)
        self._draft.keep(((takes, 1), *parts), ((0, 0),))

    def _lay_dip(self, activity: Activity, least: int) -> None:
        """Add duration and end of what goes into a bath; its batch says how long."""
        self._lay_span(activity.id, ((least, self.most_min),))

    def _lay_table(self, activity: Activity, table: Table) -> None:
        name, start = activity.id, self.start(activity.id)
        at, ranges = self._begins_at(name)
        end = self.look_ups.ready_at(
            start, table, self.look_ups.cells(at, table, ranges), lambda plan: plan.end(name)
        )
        takes = self._draft.number(
            f"{start} takes", ((table.shortest_min, table.longest_min),), _told_takes(name)
        )
        self._draft.keep(((end, 1),), at_most(self.most_min))
        self._join(start, takes, end)
        self._takes[name], self._ends[name] = takes, (end, 0)

    def _lay_span(self, name: str, lengths: Ranges) -> str:
        start = self.start(name)
        ends = ending_free(self.by_id[name], self.most_min)
        takes = self._draft.number(f"{start} takes", lengths, _told_takes(name))
        end = self._draft.number(f"{start} end", ends, lambda plan: plan.end(name))
        self._join(start, takes, end)
        self._takes[name], self._ends[name] = takes, (end, 0)
        return takes

    def _join(self, start: str, takes: str, end: str) -> None:
        self._draft.keep(((end, 1), (start, -1), (takes, -1)), ((0, 0),))

    def _begins_at(self, name: str) -> tuple[Term, Ranges]:
        """Return where a start with a table lies, and when: within hours where hands come before.

        What dries and what cures after the same coat, and the window of the next, are so looked
        up from the same end.
        """
        hands = self._by_hands.get(name)
        if hands is None:
            return (self.start(name), 0), union(v.starts for v in self.variants(name))
        takes = self.variants(hands)[0].takes
        return (self.start(hands), takes), self.end_ranges(hands)


def ending_free(activity: Activity, most_min: int) -> Ranges:
    """Return the minutes at which an activity may end, hours aside."""
    ends: Ranges = ((0, most_min),)
    for shut_from, shut_till in activity.ends_outside:
        ends = meet(ends, ((-MOST, shut_from - 1), (shut_till, MOST)))
    return ends or ((0, most_min),)


def _told_way(activity: Activity, variant: Variant) -> Told:
    def told(plan: Reading) -> int:
        lies = plan.lies[activity.id]
        same_length = not activity.sitting_min or lies.end_min - lies.start_min == variant.takes
        return int((lies.who, lies.mode) == (variant.way.who, variant.way.name) and same_length)

    return told


def _told_takes(name: str) -> Told:
    return lambda plan: plan.end(name) - plan.start(name)


def _begun_by_hands(problem: Problem, variants: dict[str, tuple[Variant, ...]]) -> dict[str, str]:
    """Return what goes by a table and begins as hands come off something, with that something."""
    by_id = {a.id: a for a in problem.activities}
    return {
        lag.then: lag.first
        for lag in problem.lags
        if lag.min_lag == lag.max_lag == 0
        and by_id[lag.then].table is not None
        and not by_id[lag.then].people
        and by_id[lag.first].people
        and by_id[lag.first].table is None
        and by_id[lag.first].dip is None
        and len({v.takes for v in variants.get(lag.first, ())}) == 1
        and lag.then in variants
    }
