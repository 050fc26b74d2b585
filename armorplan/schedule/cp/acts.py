"""Activities as the solver's variables: a start, an end, and which of their variants it is."""

from collections.abc import Iterable

from armorplan.schedule.activity import Mode
from armorplan.schedule.cp.draft import Draft
from armorplan.schedule.cp.look_ups import LookUps
from armorplan.schedule.cp.variants import Ranges, Variant, union, variants_of
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.spans import placed_by_history
from armorplan.solving.model import Term


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
        self._intervals: dict[tuple[str, str | None], str] = {}
        self._ends: dict[str, Term] = {}
        self._takes: dict[str, str | int] = {}

    def lasts(self, name: str, takes: str | int, end: Term) -> None:
        """Let an activity have this duration and this end."""
        self._takes[name], self._ends[name] = takes, end

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
