"""Improves a plan of many steps a part at a time: the solver gets the part, the rest is pinned.

Large-neighbourhood search (after Shaw, 'Using constraint programming and local search methods to
solve vehicle routing problems', CP 1998; the reference is from memory). How late builds are tells
of few steps only, so of plans that are as late that one counts as nearer whose steps are less
behind what their due dates ask of them: room is made before it is needed.
"""

from dataclasses import replace

from armorplan.schedule.cp import Layout
from armorplan.schedule.improving import Improver, Trial
from armorplan.schedule.keeping import order_pairs
from armorplan.schedule.last_starts import last_starts
from armorplan.schedule.measures import goals
from armorplan.schedule.pinning import merged_plan, pinned
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.pulling import pulled_earlier
from armorplan.schedule.relaying import Relaying
from armorplan.schedule.stages import FINISH, JUMPS, LATENESS
from armorplan.solving.model import (
    MOST,
    Answer,
    Effort,
    Least,
    Linear,
    Model,
    Number,
    Outcome,
    at_least,
)

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
        self._last_starts = _due_last_starts(problem) if stage == LATENESS else {}
        self._relaying = Relaying(problem, improver.seed(), placed)
        self.at_hand = placed

    def model(self, effort: Effort) -> Model:
        """Draw a part and return the model that has only this part free."""
        values = goals(self._problem, self.at_hand)
        self._trial = self._improver.draw(self.at_hand)
        problem = pinned(self._problem, self.at_hand, self._trial.free)
        most = values[FINISH]
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
            return self._sooner(model, layout)
        model = layout.model_for(self._stage, kept, effort=effort, hint=self.at_hand)
        return self._guided(model, layout) if self._stage == LATENESS else model

    def plan_in(self, answer: Answer) -> tuple[Placed, ...]:
        """Return the plan of all steps that an answer to the last model says."""
        if self._layout is None or not answer.values:
            return self.at_hand
        moved = self._layout.placed(answer.values)
        return merged_plan(self.at_hand, moved, self._trial.free)

    def laid_again(self) -> tuple[Placed, ...]:
        """Return a plan laid in an order a little other than that of the one at hand."""
        self._relaying.at_hand = self.at_hand
        return self._relaying.next()

    def gained_by_laying(self) -> None:
        """Take in that the plan laid again last is gone on from."""
        self._relaying.gained()

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
        if self._stage == LATENESS:
            behind = (p.start_min - self._last_starts.get(p.id, MOST) for p in placed)
            return *up_to, sum(minutes for minutes in behind if minutes > 0)
        if self._stage == FINISH:
            return *up_to, sum(p.start_min for p in placed)
        return up_to

    def _sooner(self, model: Model, layout: Layout) -> Model:
        """Return the model with the sum of all starts made small."""
        names = sorted(self._trial.free)
        terms = tuple((start, 1) for start in layout.starts(names))
        return replace(model, objective=Least(terms=terms))

    def _guided(self, model: Model, layout: Layout) -> Model:
        """Return the model that counts, beside the lateness, by how much steps are behind."""
        names = sorted(self._trial.free & self._last_starts.keys())
        if not isinstance(model.objective, Least):
            return model
        behind = [f"behind {at}" for at in range(len(names))]
        lies = {p.id: p.start_min - self._last_starts.get(p.id, 0) for p in self.at_hand}
        most = self._problem.horizon_min
        main = tuple((name, n * (1 + len(names))) for name, n in model.objective.terms)
        return replace(
            model,
            numbers=(*model.numbers, *(Number(name=b, ranges=((0, most),)) for b in behind)),
            constraints=(
                *model.constraints,
                *(
                    Linear(terms=((b, 1), (start, -1)), ranges=at_least(-self._last_starts[name]))
                    for b, start, name in zip(behind, layout.starts(names), names, strict=True)
                ),
            ),
            objective=Least(terms=(*main, *((b, 1) for b in behind))),
            hints=(
                *model.hints,
                *((b, max(0, lies[name])) for b, name in zip(behind, names, strict=True)),
            ),
        )


def _due_last_starts(problem: Problem) -> dict[str, int]:
    """Return when each step of what is due has to start at the latest, by what follows it alone."""
    due = frozenset(i for job in problem.jobs if job.due_min is not None for i in job.activities)
    latest = last_starts(problem) if due else {}
    return {name: latest[name] for name in sorted(due & latest.keys())}
