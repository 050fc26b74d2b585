"""Improves a plan of many steps a part at a time: the solver gets the part, the rest is pinned.

Large-neighbourhood search (after Shaw, 'Using constraint programming and local search methods to
solve vehicle routing problems', CP 1998; the reference is from memory). How late builds are tells
of few steps only, so within the same lateness a plan counts as nearer whose steps of late builds
start sooner: room is made before it is needed.
"""

from collections.abc import Mapping
from dataclasses import replace

from armorplan.schedule.cp import Layout
from armorplan.schedule.improving import Improver, Trial
from armorplan.schedule.keeping import order_pairs
from armorplan.schedule.measures import goals, job_end
from armorplan.schedule.pinning import merged_plan, pinned
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.pulling import pulled_earlier
from armorplan.schedule.stages import FINISH, JUMPS, LATENESS
from armorplan.solving.model import Answer, Effort, Least, Model, Outcome

_COMPACTED = 0.5
"""How often a part is made to start sooner where only the last end counts."""


class PartByPart:
    """One plan being improved in one stage; ``at_hand`` may be nearer than the best one known.

    Args:
        problem: what is planned.
        improver: draws what to free.
        stage: what is to get smaller.
        placed: the plan to begin with; it holds.
    """

    def __init__(
        self, problem: Problem, improver: Improver, stage: str, placed: tuple[Placed, ...]
    ) -> None:
        self._problem = problem
        self._improver = improver
        self._stage = stage
        self._trial = Trial(kind="", free=frozenset())
        self._layout: Layout | None = None
        self.at_hand = placed

    def model(self, effort: Effort) -> Model:
        """Draw a part and return the model that has only this part free."""
        values = goals(self._problem, self.at_hand)
        self._trial = self._improver.draw(self.at_hand)
        problem = pinned(self._problem, self.at_hand, self._trial.free)
        most = self._problem.horizon_min if self._stage == LATENESS else values[FINISH]
        layout = self._layout = Layout(problem, most)
        effort = replace(effort, seed=self._improver.seed())
        if self._stage == JUMPS:
            # A pair counts also where one of the two is pinned.
            pairs = order_pairs(self._problem)
            mine = tuple(p for p in pairs if self._trial.free.intersection(p))
            return layout.fewest_jumps(mine, effort=effort, hint=self.at_hand)
        names = list(values)
        before = names[: names.index(self._stage)]
        kept = {name: values[name] for name in before if name != JUMPS}
        if self._stage == FINISH and self._improver.chance(_COMPACTED):
            model = layout.model_for(FINISH, kept, effort=effort, hint=self.at_hand)
            return replace(model, objective=self._sooner(layout, self._trial.free))
        model = layout.model_for(self._stage, kept, effort=effort, hint=self.at_hand)
        return self._guided(model, layout) if self._stage == LATENESS else model

    def plan_in(self, answer: Answer) -> tuple[Placed, ...]:
        """Return the plan of all steps that an answer to the last model says."""
        if self._layout is None or not answer.values:
            return self.at_hand
        moved = self._layout.placed(answer.values)
        return merged_plan(self.at_hand, moved, self._trial.free)

    def take(self, placed: tuple[Placed, ...]) -> None:
        """Go on from a plan that holds."""
        self.at_hand = placed

    def is_nearer(self, placed: tuple[Placed, ...]) -> bool:
        """Tell whether a plan is worth going on from."""
        return self._distance(placed) < self._distance(self.at_hand)

    def pulled(self, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
        """Return the plan pulled earlier, where that is nearer."""
        pulled = pulled_earlier(self._problem, placed)
        return min(placed, pulled, key=self._distance)

    def learn(self, answer: Answer, *, gained: bool) -> None:
        """Take in how the last part went."""
        through = answer.status in (Outcome.BEST, Outcome.NONE)
        self._improver.learn(self._trial, gained=gained, searched_through=through)

    def _distance(self, placed: tuple[Placed, ...]) -> tuple[int, ...]:
        values = goals(self._problem, placed)
        names = list(values)
        up_to = tuple(values[name] for name in names[: names.index(self._stage) + 1])
        if self._stage not in (LATENESS, FINISH):
            return up_to
        lies = {p.id: p for p in placed}
        return *up_to, sum(lies[i].start_min for i in self._hurried(lies))

    def _hurried(self, lies: Mapping[str, Placed]) -> frozenset[str]:
        """Return the steps that had better start sooner: those of late builds, or all."""
        if self._stage != LATENESS:
            return frozenset(lies)
        return frozenset(
            name
            for job in self._problem.jobs
            if job.due_min is not None and job_end(job, lies) > job.due_min
            for name in job.activities
        )

    def _guided(self, model: Model, layout: Layout) -> Model:
        hurried = self._trial.free & self._hurried({p.id: p for p in self.at_hand})
        if not isinstance(model.objective, Least):
            return model
        main = tuple((name, n * (1 + len(hurried))) for name, n in model.objective.terms)
        return replace(model, objective=Least(terms=(*main, *self._sooner(layout, hurried).terms)))

    @staticmethod
    def _sooner(layout: Layout, names: frozenset[str]) -> Least:
        return Least(terms=tuple((start, 1) for start in layout.starts(sorted(names))))
