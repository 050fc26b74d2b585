"""Improves a plan of many steps a part at a time: the solver gets the part, the rest is pinned.

Large-neighbourhood search (after Shaw, 'Using constraint programming and local search methods to
solve vehicle routing problems', CP 1998; the reference is from memory). How late builds are tells
of few steps only, so of plans that are as late that one counts as nearer whose steps are less
behind what their due dates ask of them: room is made before it is needed.
"""

from collections.abc import Iterable
from dataclasses import replace
from itertools import takewhile

from armorplan.kernel.units import DAY_MIN
from armorplan.schedule.behind import Behind
from armorplan.schedule.cp import Layout
from armorplan.schedule.improving import Improver, Trial
from armorplan.schedule.keeping import order_pairs
from armorplan.schedule.measures import goals
from armorplan.schedule.pinning import Part, Pinner, merged_plan
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.pulling import pulled_earlier
from armorplan.schedule.relaying import Relaying
from armorplan.schedule.stages import CHANGES, FINISH, JUMPS, LATENESS
from armorplan.solving.model import (
    Answer,
    Effort,
    Least,
    Linear,
    Model,
    Number,
    Outcome,
    at_least,
)

_MOVED_MIN = 3 * DAY_MIN
"""A part may start so much sooner than it did, and where only lateness counts end so much later."""
_COMPACTED = 0.5
"""How often a part is made to start sooner where only the last end counts."""
_KEPT = 0.5
"""How often a part made less late also leaves what it can where it stood."""


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
        self._behind = Behind(problem)
        self._pinner = Pinner(problem)
        self._relaying = Relaying(problem, improver.seed(), placed)
        self.at_hand = placed

    def model(self, effort: Effort) -> Model:
        """Draw a part and return the model that has only this part free."""
        self._trial = self._improver.draw(
            self.at_hand, rather="coats" if self._stage == CHANGES else ""
        )
        effort = replace(effort, seed=self._improver.seed())
        if self._stage == JUMPS:
            return self._fewest_jumps(effort)
        part, most = self._part()
        layout = self._layout = Layout(part.problem, most)
        if self._stage == LATENESS and self._problem.stood and self._improver.chance(_KEPT):
            return layout.late_then_moved(effort=effort, hint=part.placed)
        kept = self._kept(part)
        if self._stage == FINISH and self._improver.chance(_COMPACTED):
            model = layout.model_for(FINISH, kept, effort=effort, hint=part.placed)
            return self._sooner(model, layout)
        model = layout.model_for(self._stage, kept, effort=effort, hint=part.placed)
        return self._guided(model, layout) if self._stage == LATENESS else model

    def _part(self, beside: Iterable[str] = ()) -> tuple[Part, int]:
        """Return what was drawn as a problem of its own, and by when all of it has to end."""
        free = self._trial.free
        mine = [p for p in self.at_hand if p.id in free]
        first = min((p.start_min for p in mine), default=0)
        most = max((p.end_min for p in self.at_hand), default=0)
        if self._stage == LATENESS:
            most = min(most, max((p.end_min for p in mine), default=0) + _MOVED_MIN)
        span = first - _MOVED_MIN, most
        return self._pinner.part(self.at_hand, free, span=span, beside=beside), most

    def _kept(self, part: Part) -> dict[str, int]:
        """Return what the stages before come to in a part; the finish is in what it may reach to."""
        values = goals(part.problem, part.placed)
        before = takewhile(lambda name: name != self._stage, values)
        return {name: values[name] for name in before if name not in (FINISH, JUMPS)}

    def _fewest_jumps(self, effort: Effort) -> Model:
        """Return the model of the pairs of which a part has one or both."""
        free = self._trial.free
        mine = tuple(pair for pair in order_pairs(self._problem) if free.intersection(pair))
        part, most = self._part(i for pair in mine for i in pair)
        self._layout = Layout(part.problem, most)
        return self._layout.fewest_jumps(mine, effort=effort, hint=part.placed)

    def plan_in(self, answer: Answer) -> tuple[Placed, ...]:
        """Return the plan of all steps that an answer to the last model says."""
        if self._layout is None or not answer.values:
            return self.at_hand
        moved = self._layout.placed(answer.values)
        return merged_plan(self.at_hand, moved, self._trial.free)

    def laid_again(self) -> tuple[Placed, ...]:
        """Return a plan laid in an order a little other than that of the one at hand."""
        return self._relaying.next(self.at_hand)

    @property
    def laid_steps(self) -> int:
        """How many steps that laid."""
        return self._relaying.steps

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
            return *up_to, self._behind.minutes(placed)
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
        names = sorted(self._trial.free & self._behind.last_starts.keys())
        if not isinstance(model.objective, Least):
            return model
        behind = [f"behind {at}" for at in range(len(names))]
        lies = {p.id: p.start_min - self._behind.last_starts.get(p.id, 0) for p in self.at_hand}
        most = self._problem.horizon_min
        main = tuple((name, n * (1 + len(names))) for name, n in model.objective.terms)
        return replace(
            model,
            numbers=(*model.numbers, *(Number(name=b, ranges=((0, most),)) for b in behind)),
            constraints=(
                *model.constraints,
                *(
                    Linear(
                        terms=((b, 1), (start, -1)),
                        ranges=at_least(-self._behind.last_starts[name]),
                    )
                    for b, start, name in zip(behind, layout.starts(names), names, strict=True)
                ),
            ),
            objective=Least(terms=(*main, *((b, 1) for b in behind))),
            hints=(
                *model.hints,
                *((b, max(0, lies[name])) for b, name in zip(behind, names, strict=True)),
            ),
        )
