"""A row's own order: as runs that leave no joint out, and the end it has to be begun at.

A row is set from its first or its last joint on, from both ends towards the middle, or from
somewhere out both ways. What is made is then one stretch of the row, or all of it but one stretch,
so the order of least effort is found stretch by stretch, exactly. Where no run sets all of a row
it may still go by leaps.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from math import inf

from armorplan.geometry.reach.bench import Bench
from armorplan.geometry.reach.from_back import bar_each_other, is_settable
from armorplan.geometry.reach.margins import Gauge, gauges
from armorplan.geometry.reach.model import Margin, ReachNet, Row, Standing
from armorplan.geometry.reach.stretches import Stretches

_ALIKE = 1e-9
_WORTH = 0.05
"""What turns a row round: so much of the effort of one joint on the flat bench, and more."""
LONGEST = 48
"""A row of more joints is run from an end only."""


class Course(StrEnum):
    """How a row is run, the plainest first."""

    FROM_FIRST = "from_first"
    FROM_LAST = "from_last"
    BOTH_ENDS = "both_ends"
    OUTWARD = "outward"
    BY_LEAPS = "by_leaps"


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """One way to run a row, the best of its course.

    Attributes:
        order: joints as they are set.
        margins: how each is set, in that order.
    """

    course: Course
    order: tuple[str, ...]
    margins: tuple[Margin, ...]

    @property
    def effort(self) -> float:
        """Minutes in all, times those of one joint on the flat bench; infinite where one sticks."""
        return sum(margin.effort for margin in self.margins)

    @property
    def stuck(self) -> tuple[str, ...]:
        """Joints that cannot be set in this order."""
        pairs = zip(self.order, self.margins, strict=True)
        return tuple(joint for joint, margin in pairs if margin.standing is Standing.CANNOT)


@dataclass(frozen=True, slots=True, kw_only=True)
class RowRun:
    """How a row is best run, and what the other ways would take.

    Attributes:
        runs: the best of each course; by leaps only where no other sets all of the row.
        best: the one of least effort; of those alike the plainest.
    """

    row: str
    runs: tuple[Run, ...]
    best: Run

    def run(self, course: Course) -> Run:
        """Return the best run of a course."""
        return next(run for run in self.runs if run.course is course)

    @property
    def order(self) -> tuple[str, ...]:
        """The best order; empty where no run sets all of the row."""
        return () if self.best.effort == inf else self.best.order

    @property
    def effort(self) -> float:
        """What the best run takes."""
        return self.best.effort


def row_run(
    net: ReachNet, row: Row, bench: Bench, made_before: frozenset[str] = frozenset()
) -> RowRun:
    """Return how a row is best run once joints of other rows are made."""
    gauge = _gauge_of(net, row, bench)
    before = made_before - frozenset(row.joints)
    orders = _courses(Stretches(gauge, row, bench, before), row)
    found = [_run(gauge, course, order, before) for course, order in orders.items()]
    least = min(run.effort for run in found)
    if least == inf and (leaps := _leaping(gauge, before, row.joints)) is not None:
        found.append(_run(gauge, Course.BY_LEAPS, leaps, before))
        least = found[-1].effort
    best = next(run for run in found if run.effort <= least + _ALIKE)
    return RowRun(row=row.id, runs=tuple(found), best=best)


def order_in(net: ReachNet, row: Row, bench: Bench) -> tuple[str, ...]:
    """Return the order a row is set in while the others are open; empty where there is none.

    From an end where all of it can be set from one, since a row that is begun at both ends or in
    its middle may bulge; the end that is listed first, unless the other takes clearly less. Else by
    the best run there is, leaps too.
    """
    gauge = _gauge_of(net, row, bench)
    forth = _run(gauge, Course.FROM_FIRST, row.joints, frozenset()).effort
    back = _run(gauge, Course.FROM_LAST, row.joints[::-1], frozenset()).effort
    if forth == back == inf:
        return row_run(net, row, bench).order
    return row.joints if forth <= back + _WORTH else row.joints[::-1]


def _courses(stretches: Stretches, row: Row) -> Mapping[Course, tuple[str, ...]]:
    orders = {Course.FROM_FIRST: row.joints, Course.FROM_LAST: row.joints[::-1]}
    if 2 < len(row.joints) <= LONGEST:  # noqa: PLR2004 - two joints have but two orders
        orders[Course.BOTH_ENDS] = stretches.inward()
        orders[Course.OUTWARD] = stretches.outward()
    return orders


def _run(gauge: Gauge, course: Course, order: tuple[str, ...], before: frozenset[str]) -> Run:
    margins = (gauge.margin(joint, before.union(order[:at])) for at, joint in enumerate(order))
    return Run(course=course, order=order, margins=tuple(margins))


def may_follow(net: ReachNet, row: Row, bench: Bench, made: frozenset[str]) -> tuple[str, ...]:
    """Return which joints of a row may come next so that all later ones of it can still be set.

    Any order of what is left is weighed, leaps too.

    Args:
        net: the ways in.
        row: one of its rows, begun or not.
        bench: tools and constants.
        made: all joints made, of this row and of others.
    """
    gauge = _gauge_of(net, row, bench)
    left = tuple(joint for joint in row.joints if joint not in made)
    return tuple(
        joint
        for joint in left
        if is_settable(gauge, joint, made)
        and not bar_each_other(gauge, (each for each in left if each != joint), made | {joint})
    )


def _leaping(
    gauge: Gauge, made: frozenset[str], joints: tuple[str, ...]
) -> tuple[str, ...] | None:
    """Return an order in which joints can all be set; ``None`` where there is none at all.

    Found from the back, as in ``from_back``, the joint listed first that may come last each time.
    """
    left, back = list(joints), []
    while left:
        every = made.union(left)
        last = next((j for j in left if is_settable(gauge, j, every - {j})), None)
        if last is None:
            return None
        left.remove(last)
        back.append(last)
    return tuple(reversed(back))


def _gauge_of(net: ReachNet, row: Row, bench: Bench) -> Gauge:
    known = gauges(net, bench)
    joint = next((joint for joint in row.joints if joint in net.access), None)
    if joint is not None and row.id in known[net.access[joint].shell].rows:
        return known[net.access[joint].shell]
    return next(gauge for gauge in known.values() if row.id in gauge.rows)
