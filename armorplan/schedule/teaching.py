"""Work that somebody learns: they do it, and who would have done it alone stands beside them.

The reverse of ``parting``, and what comes last: of a plan that holds, steps that somebody does
alone are done by a learner with that person beside, wherever both are there and the longer time
fits. No build ends later, and nothing of anybody else has to move. First all is learned that fits
with every start where it is; then what fits if the same person's next things begin some minutes
later in the same stretch of their hours: no fit, no window, no dry-fit among them.

Of what could be learned at the same time that comes first which was to be learned before, so that
a plan does not flicker; then the kind of work that somebody has the fewest of, so that all kinds
have their turn; then what takes the teacher the fewest minutes more for each minute of practice;
then what comes first.
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from collections.abc import Set as AbstractSet
from dataclasses import dataclass, replace
from fractions import Fraction

from armorplan.schedule.activity import Activity, Mode
from armorplan.schedule.checked import would_pass
from armorplan.schedule.company import as_alone, beside_in
from armorplan.schedule.halving import kept_groups
from armorplan.schedule.hands import beside_named
from armorplan.schedule.lesson_fits import LessonFits
from armorplan.schedule.measures import goals
from armorplan.schedule.problem import Placed, Plan, Problem, Status
from armorplan.schedule.small_moves import may_move
from armorplan.schedule.stages import CHANGES, stage

_Kind = tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson:
    """A step as somebody learns it.

    Attributes:
        step: its activity.
        way: how it is done then.
        kind: what is learned, and who learns it.
        price: minutes more of the teacher for each minute of practice.
        start_min: when it starts in the plan at hand.
    """

    step: str
    way: Mode
    kind: _Kind
    price: Fraction
    start_min: int


def taught_plan(problem: Problem, plan: Plan, earlier: Sequence[Placed] = ()) -> Plan:
    """Return a plan with what can be learned in it; the same one where nothing can.

    Args:
        problem: what it was made for.
        plan: holds; or has nothing placed.
        earlier: where steps lay in the plan people go by, in minutes of the problem. What they
            learn in it they still do where that is possible; what starts as it did there gives no
            way to a kind of which they learn some in it already.
    """
    return _placed_so(problem, plan, taught(problem, plan.placed, earlier))


def _placed_so(problem: Problem, plan: Plan, placed: tuple[Placed, ...]) -> Plan:
    """Return a plan with its steps there, and its stages as they then are."""
    if placed is plan.placed:
        return plan
    values = goals(problem, placed)
    stages = (
        replace(s, value=values[s.name])
        if s.status is Status.STOPPED
        else stage(s.name, values[s.name], s.bound, s.status)
        for s in plan.stages
        if s.name in values
    )
    return replace(plan, placed=placed, stages=tuple(stages))


def opened(problem: Problem, placed: Iterable[Placed]) -> Problem:
    """Return a problem whose searches may leave what is learned in a plan as it is learned there.

    To have it done alone again would tear apart what is set in one go.
    """
    lessons = {p.id: p for p in placed if beside_named(p.mode)}
    if not lessons:
        return problem
    activities = tuple(
        _with_lesson(a, lessons[a.id]) if a.id in lessons else a for a in problem.activities
    )
    return problem if activities == problem.activities else replace(problem, activities=activities)


def _with_lesson(activity: Activity, placed: Placed) -> Activity:
    way = activity.lesson(placed.who, placed.mode)
    if way is None or way in activity.ways:
        return activity
    others = tuple(one for one in activity.taught if one != way)
    return replace(activity, modes=(*activity.ways, way), taught=others)


def untaught(problem: Problem, placed: tuple[Placed, ...]) -> tuple[Placed, ...]:
    """Return where steps lie with those done alone that nobody learns any more; else the same."""
    by_id = {a.id: a for a in problem.activities}
    lost = {
        p.id: as_alone(by_id[p.id], p)
        for p in placed
        if beside_named(p.mode) and p.id in by_id and by_id[p.id].way(p.who, p.mode) is None
    }
    return tuple(lost.get(p.id, p) for p in placed) if lost else placed


def learned_in(problem: Problem, placed: Sequence[Placed]) -> AbstractSet[str]:
    """Return what is done with somebody beside who alone would need no longer."""
    by_id = {a.id: a for a in problem.activities if a.taught}
    return {p.id for p in placed if p.id in by_id and by_id[p.id].lesson(p.who, p.mode)}


def taught(
    problem: Problem, placed: tuple[Placed, ...], earlier: Sequence[Placed] = ()
) -> tuple[Placed, ...]:
    """Return a plan that holds, with what can be learned in it; the very same where nothing can.

    Every stage is worth no less than before but for the times at the bench: who learns is there.
    """
    if not placed or not any(a.taught or a.in_pairs for a in problem.activities):
        return placed
    worth = _worth(problem, placed)
    best = placed

    def is_as_good(chosen: Sequence[Sequence[Placed]]) -> bool:
        nonlocal best
        news = {p.id: p for changed in chosen for p in changed}
        tried = tuple(news.get(p.id, p) for p in placed)
        if _worth(problem, tried) > worth or not would_pass(problem, tried):
            return False
        best = tried
        return True

    lessons = _Teaching(problem, placed, earlier).lessons()
    if lessons and not is_as_good(lessons):
        kept_groups(lessons, is_as_good)
    return best


def _worth(problem: Problem, placed: tuple[Placed, ...]) -> tuple[int, ...]:
    return tuple(value for name, value in goals(problem, placed).items() if name != CHANGES)


class _Teaching:
    """Finds what can be learned in a plan, one lesson after the other."""

    def __init__(
        self, problem: Problem, placed: tuple[Placed, ...], earlier: Sequence[Placed]
    ) -> None:
        self._fits = LessonFits(problem, placed, earlier)
        self._known = {(p.id, p.who, p.mode) for p in earlier}
        self._todo = [
            lesson
            for activity in problem.activities
            for lesson in _lessons_of(activity, self._fits.lies.get(activity.id))
        ]
        by_id = {a.id: a for a in problem.activities}
        self._old = frozenset(_kinds_in(by_id, earlier))
        self._counts = Counter(_kinds_in(by_id, placed))

    def lessons(self) -> list[tuple[Placed, ...]]:
        """Return for each lesson what lies otherwise for it; a later one may move a step again."""
        found: list[tuple[Placed, ...]] = []
        for is_pushed in (False, True):
            again: AbstractSet[str] = {lesson.step for lesson in self._todo}
            while again:
                more = [*self._taken(again, known=True, is_pushed=is_pushed)]
                more += self._taken(again, known=False, is_pushed=is_pushed)
                found += more
                again = self._may_fit_now(more)
        return found

    def _may_fit_now(self, changed: Sequence[Sequence[Placed]]) -> AbstractSet[str]:
        """Return the steps that did not fit and now may: they begin later, or a place is clear."""
        if any(map(self._fits.clears, changed)):
            return {lesson.step for lesson in self._todo}
        return {p.id for one in changed for p in one[1:]}

    def _is_known(self, lesson: Lesson) -> bool:
        return (lesson.step, lesson.way.who, lesson.way.name) in self._known

    def _taken(
        self, steps: AbstractSet[str], *, known: bool, is_pushed: bool
    ) -> Iterator[tuple[Placed, ...]]:
        """Yield what is learned of some steps, the kind next that had the fewest turns."""
        rows: dict[_Kind, list[Lesson]] = {}
        for lesson in sorted(self._todo, key=_by_time, reverse=True):
            if lesson.step in steps and self._is_known(lesson) == known:
                rows.setdefault(lesson.kind, []).append(lesson)
        while rows:
            kind = min(rows, key=lambda k: (self._counts[k], rows[k][-1].price, k))
            lesson = rows[kind].pop()
            if not rows[kind]:
                del rows[kind]
            changed = self._fits.take(
                lesson.step, lesson.way, is_pushed=is_pushed, is_old=kind in self._old
            )
            if changed:
                self._counts[kind] += 1
                self._todo = [one for one in self._todo if one.step != lesson.step]
                yield changed


def _kinds_in(by_id: Mapping[str, Activity], placed: Iterable[Placed]) -> Iterator[_Kind]:
    """Yield for each step done with somebody beside what its kind is, and who does it."""
    for each in placed:
        if each.who is not None and each.id in by_id and beside_in(by_id[each.id], each):
            yield by_id[each.id].cause, each.who


def _lessons_of(activity: Activity, placed: Placed | None) -> Iterator[Lesson]:
    """Yield how a step could be learned from who does it alone."""
    if placed is None or not may_move(activity, placed):
        return
    alone = activity.way(placed.who, placed.mode)
    if alone is None or alone.also:
        return
    for way in (*activity.taught, *(w for w in activity.ways if w.also)):
        if (way.also, way.demands) == ((placed.who,), alone.demands) and way.who is not None:
            longer = max(0, way.minutes - alone.minutes)
            yield Lesson(
                step=activity.id,
                way=way,
                kind=(activity.cause, way.who),
                price=Fraction(longer, max(1, way.minutes)),
                start_min=placed.start_min,
            )


def _by_time(lesson: Lesson) -> tuple[int, Fraction, str, str]:
    return lesson.start_min, lesson.price, lesson.step, lesson.way.name
