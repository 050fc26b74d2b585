"""What a plan is worth, stage by stage, as the solver's objectives; ``measures`` says the same."""

from collections.abc import Iterable

from armorplan.schedule.cp.acts import Acts
from armorplan.schedule.cp.batches import Batches
from armorplan.schedule.cp.bench_times import bench_times
from armorplan.schedule.cp.colours import colour_changes
from armorplan.schedule.cp.draft import Draft
from armorplan.schedule.cp.hands import Hands
from armorplan.schedule.cp.moved import moved_steps
from armorplan.schedule.cp.reading import Reading
from armorplan.schedule.keeping import Pair, order_pairs
from armorplan.schedule.lag_spans import least_wait
from armorplan.schedule.problem import Job
from armorplan.schedule.stages import CHANGES, FINISH, FITS, JUMPS, LATENESS, MOVED
from armorplan.solving.model import Latest, Least, Objective, Term, at_least, at_most

_Terms = tuple[Term, ...]


class Goals:
    """Adds what a stage counts to a draft: as the objective, or held to what was reached."""

    def __init__(self, acts: Acts, hands: Hands, batches: Batches) -> None:
        self._acts = acts
        self._hands = hands
        self._batches = batches

    def objective(self, draft: Draft, stage: str, least: int | None) -> Objective:
        """Return a stage as what is made small; ``least`` is known to be its least."""
        if stage == FINISH:
            low = max(0, least or 0)
            return Latest(of=self._last(), ranges=((low, max(low, self._acts.most_min)),))
        terms = self._terms(draft, stage)
        if least is not None and terms:
            draft.keep(terms, at_least(least))
        return Least(terms=terms)

    def keep(self, draft: Draft, stage: str, most: int) -> None:
        """Let a stage come to no more than this."""
        if stage == FINISH:
            free = (self._acts.end(a.id) for a in self._acts.problem.activities)
            for end, offset in free:
                draft.keep(((end, 1),), at_most(most - offset))
        elif terms := self._terms(draft, stage):
            draft.keep(terms, at_most(most))

    def late_then_moved(self, draft: Draft) -> Least:
        """Return lateness and steps moved in one: a minute late outweighs all that could move."""
        moved = self._terms(draft, MOVED)
        late = tuple((n, w * (1 + len(moved))) for n, w in self._terms(draft, LATENESS))
        return Least(terms=(*late, *moved))

    def fewest_jumps(self, draft: Draft, pairs: Iterable[Pair]) -> Least:
        """Return how many pairs start the other way round, to be made small."""
        return Least(terms=tuple(self._jump(draft, n, p) for n, p in enumerate(pairs)))

    def _terms(self, draft: Draft, stage: str) -> _Terms:
        problem = self._acts.problem
        if stage == LATENESS:
            return tuple(self._late(draft, job) for job in problem.jobs if job.due_min is not None)
        if stage == MOVED:
            return moved_steps(draft, self._acts)
        if stage == JUMPS:
            pairs = enumerate(order_pairs(problem))
            return tuple(self._jump(draft, n, p) for n, p in pairs)
        if stage == FITS:
            return tuple((self._acts.start(a.id), 1) for a in problem.activities if a.soon)
        if stage == CHANGES:
            literals = self._batches.led()
            literals += colour_changes(draft, self._acts, self._batches)
            literals += bench_times(draft, self._acts, self._hands)
            return tuple((literal, 1) for literal in literals)
        raise ValueError(f"There is no stage '{stage}'.")

    def _jump(self, draft: Draft, number: int, pair: Pair) -> Term:
        first, then = pair

        def told(plan: Reading) -> int:
            return int(plan.start(first) > plan.start(then))

        literal = draft.boolean(f"jump {number}", told)
        before = (self._acts.start(first), 0)
        draft.gap(before, self._acts.start(then), least=0, only_if=(f"~{literal}",))
        return literal, 1

    def _late(self, draft: Draft, job: Job) -> Term:
        """Add the minutes a job ends after it is due, as one inequality for each that may be last."""
        due = job.due_min or 0

        def told(plan: Reading) -> int:
            return max(0, *(plan.end(i) - due for i in job.activities)) if job.activities else -due

        ends = [self._acts.end(i) for i in job.activities]
        fixed = [p.end_min for i, p in self._acts.history.items() if i in job.activities]
        surely = max([0, *(end - due for end in fixed)]) if ends else max(0, -due)
        most = max(surely, self._acts.most_min - due)
        late = draft.number(f"late {job.id}", ((surely, most),), lambda plan: max(0, told(plan)))
        for end, offset in self._last(job.activities):
            draft.keep(((late, 1), (end, -1)), at_least(offset - due))
        return late, job.weight

    def _last(self, among: Iterable[str] | None = None) -> _Terms:
        """Return the ends of what nothing else of these has to follow."""
        names = [a.id for a in self._acts.problem.activities] if among is None else list(among)
        these = set(names)
        followed = {
            lag.first
            for lag in self._acts.problem.lags
            # What lies in history may have begun before what it should have followed.
            if least_wait(lag) >= 0
            and lag.then in these
            and lag.then not in self._acts.history
            and self._acts.least(lag.then) > 0
        }
        return tuple(self._acts.end(name) for name in names if name not in followed)
