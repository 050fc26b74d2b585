"""The planning problem in the solver's model language, and the solver's values as a plan."""

from collections.abc import Iterable, Mapping

from armorplan.schedule.cp.act_spans import lay_acts
from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.batches import Batches
from armorplan.schedule.cp.draft import Draft
from armorplan.schedule.cp.gaps import Gaps, lay_after_history
from armorplan.schedule.cp.goals import Goals
from armorplan.schedule.cp.hands import Hands
from armorplan.schedule.cp.needed_lags import needed_lags
from armorplan.schedule.cp.places import Places
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.problem import Placed, Problem
from armorplan.solving.model import Effort, Model, Term


class Layout:
    """A problem laid out for the solver, everything ending by ``finish_most_min``.

    Hours are the domains of the starts and closures as fixed intervals beside them. There is no
    maximum or minimum equality: OR-Tools 9.15 was seen to abort on them.

    What fits nowhere by itself leaves a model without a plan.
    """

    def __init__(self, problem: Problem, finish_most_min: int) -> None:
        self._problem = problem
        self._draft = Draft()
        self._acts = Acts(problem, self._draft, finish_most_min)
        lay_acts(self._draft, self._acts)
        hands = Hands(self._draft, self._acts)
        self._lay_lags()
        self._lay_before_last()
        batches = Batches(self._draft, self._acts, hands)
        hands.lay()
        Places(self._draft, self._acts).lay()
        self._goals = Goals(self._acts, hands, batches)

    def model_for(
        self,
        stage: str,
        kept: Mapping[str, int],
        *,
        effort: Effort,
        hint: tuple[Placed, ...] = (),
        least: int | None = None,
    ) -> Model:
        """Return the model that makes the value of one stage as small as it can be.

        Args:
            stage: which, by its name in ``stages``; its value is the one that ``measures`` says.
            kept: the most that other stages may come to.
            effort: how long to search.
            hint: a plan of all activities to start from, or nothing.
            least: no plan has less of it, where that is known already.
        """
        draft = self._draft.copy()
        for name, most in kept.items():
            if name != stage:
                self._goals.keep(draft, name, most)
        objective = self._goals.objective(draft, stage, least)
        return draft.model(objective=objective, effort=effort, hint=self._reading(hint))

    def late_then_moved(self, *, effort: Effort, hint: tuple[Placed, ...]) -> Model:
        """Return the model that makes lateness small, and of plans as late the steps moved."""
        draft = self._draft.copy()
        objective = self._goals.late_then_moved(draft)
        return draft.model(objective=objective, effort=effort, hint=self._reading(hint))

    def fewest_jumps(
        self, pairs: tuple[tuple[str, str], ...], *, effort: Effort, hint: tuple[Placed, ...]
    ) -> Model:
        """Return the model whose objective is how many pairs start the other way round."""
        draft = self._draft.copy()
        objective = self._goals.fewest_jumps(draft, pairs)
        return draft.model(objective=objective, effort=effort, hint=self._reading(hint))

    def any_plan(self, *, effort: Effort, hint: tuple[Placed, ...] = ()) -> Model:
        """Return the model without an objective."""
        return self._draft.model(objective=None, effort=effort, hint=self._reading(hint))

    def starts(self, names: Iterable[str]) -> tuple[str, ...]:
        """Return the variables of the starts of these activities."""
        return tuple(self._acts.start(name) for name in names)

    def placed(self, values: Iterable[Term]) -> tuple[Placed, ...]:
        """Return the plan that the solver's values say, in the problem's order."""
        return self._acts.placed(values)

    def _reading(self, plan: tuple[Placed, ...]) -> Reading | None:
        return Reading(self._problem, plan) if plan else None

    def _lay_lags(self) -> None:
        acts = self._acts
        gaps = Gaps(self._draft, acts.look_ups)
        for lag in needed_lags(acts):
            first = acts.history.get(lag.first)
            if first is None:
                ends = acts.end_ranges(lag.first)
                gaps.lay(lag, acts.end(lag.first), acts.start(lag.then), ends)
            elif lag.then not in acts.history:
                lay_after_history(self._draft, lag, first.end_min, acts.start(lag.then))

    def _lay_before_last(self) -> None:
        for number, rule in enumerate(self._problem.before_last):
            if self._acts.history.keys() >= {rule.first, *rule.of}:
                continue
            literals = [
                self._lay_last(
                    f"rule {number} before {self._acts.key(member)}", rule.first, member
                )
                for member in sorted(rule.of)
            ]
            self._draft.some_of(*literals)

    def _lay_last(self, literal: str, first: str, member: str) -> str:
        """Add the literal that ``first`` ends before ``member`` starts."""

        def told(plan: Reading) -> int:
            return int(plan.end(first) <= plan.start(member))

        self._draft.boolean(literal, told)
        self._draft.gap(
            self._acts.end(first), self._acts.start(member), least=0, only_if=(literal,)
        )
        return literal
