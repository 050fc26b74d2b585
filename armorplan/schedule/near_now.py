"""The next steps laid anew by the solver, while everything later stays to the minute.

An hour lost is often made good within a day or two: what has time to spare yields to what has not.
That is a packing which no single order of laying finds, and small enough for the solver: of the
steps that come next first a few, then more may move, and of plans as punctual the one counts that
moves the fewest.
"""

from collections.abc import Callable, Iterator
from collections.abc import Set as AbstractSet

from armorplan.kernel.errors import SolverLostError
from armorplan.schedule.activity import Activity
from armorplan.schedule.checked import passes
from armorplan.schedule.cp import Layout
from armorplan.schedule.displaced import must_move
from armorplan.schedule.neighbourhoods import Grounds
from armorplan.schedule.pinning import Pinner, merged_plan
from armorplan.schedule.problem import Placed, Problem
from armorplan.schedule.searching import Solver
from armorplan.schedule.spans import placed_by_history
from armorplan.solving.model import Effort, Model

_SIZES = ((30, 0.5), (60, 1.0), (100, 1.5))
"""So many steps may move, and for so long that is searched, as the solver counts its work."""
_BUSY = 4.0
"""On a busy machine that may take so many times as many seconds."""


def laid_near_now(
    problem: Problem, standing: tuple[Placed, ...], solver: Solver, should_stop: Callable[[], bool]
) -> Iterator[tuple[Placed, ...]]:
    """Yield for each size the plan found that holds; empty where none was.

    Args:
        problem: as ``keeping_to.stood_in`` returns it.
        standing: where steps may still stand as they stood (``rearranging.still_standing``).
        solver: looks for it; where it is lost nothing more is yielded.
        should_stop: asked by the solver.
    """
    near = _NearNow(problem, standing)
    for size, work in _SIZES:
        if should_stop() or size > len(near.stood) + _SIZES[0][0]:
            return
        model, layout, free = near.model(size, Effort(seconds=work * _BUSY, work=work))
        try:
            answer = solver.solve(model, should_stop=should_stop)
        except SolverLostError:
            return
        found = (
            merged_plan(near.whole, layout.placed(answer.values), free) if answer.values else ()
        )
        yield found if found and passes(problem, found, made_by="around tonight") else ()


class _NearNow:
    """A problem of which only what comes next is free.

    Attributes:
        stood: where everything stood that is still to come.
        whole: the same with what is begun; it need not hold.
    """

    def __init__(self, problem: Problem, standing: tuple[Placed, ...]) -> None:
        self._grounds = Grounds(problem)
        self._pinner = Pinner(problem)
        self._moves = must_move(problem, standing)
        told = {p.id: p for p in problem.stood}
        free = (a for a in problem.activities if a.fixed_start_min is None)
        self.stood = {a.id: told.get(a.id) or _somewhere(a) for a in free}
        self.whole = (*placed_by_history(problem), *self.stood.values())

    def model(self, size: int, effort: Effort) -> tuple[Model, Layout, frozenset[str]]:
        """Return the model, its layout, and what is free in it."""
        order = sorted(self.stood, key=lambda i: (self.stood[i].start_min, i))
        known: AbstractSet[str] = frozenset(order[:size]) | self._moves
        free = self._grounds.closed(known, self.stood)
        most = max(p.end_min for p in self.whole)
        part = self._pinner.part(self.whole, free, span=(0, most))
        layout = Layout(part.problem, most)
        return layout.late_then_moved(effort=effort, hint=()), layout, free


def _somewhere(activity: Activity) -> Placed:
    """Return a place for what came in addition: it says nothing but that it is there."""
    way, start_min = activity.ways[0], max(0, activity.earliest_min)
    return Placed(
        id=activity.id,
        start_min=start_min,
        end_min=start_min + way.minutes,
        who=way.who,
        mode=way.name,
    )
