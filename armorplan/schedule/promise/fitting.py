"""Where a piece of work fits into hours, in all runs at once."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from armorplan.schedule.promise.hours import Hours
from armorplan.schedule.promise.work import Work

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles

_TRIES = 8
"""So often a start is put off since the work would end where it must not."""


def fitting(work: Work, hours: Hours | None, since: "Doubles") -> "Doubles":
    """Return the first starts within hours that let the minutes reckoned end in them."""
    start = _within(work, hours, since)
    if not work.first.ends_outside:
        return start
    for _ in range(_TRIES):
        later = _after_shut(start + work.minutes, work.first.ends_outside) - work.minutes
        if not (later > start).any():
            break
        start = _within(work, hours, later)
    return start


def _within(work: Work, hours: Hours | None, since: "Doubles") -> "Doubles":
    if hours is None:
        return since
    sitting_min = work.sitting_min
    if sitting_min:
        return hours.sit_down(since, work.minutes, sitting_min)
    return hours.fit(since, work.minutes)


def _after_shut(end: "Doubles", shut: Sequence[tuple[int, int]]) -> "Doubles":
    """Return ends, those within a shut stretch moved to where it opens."""
    import numpy as np

    since = np.array([a for a, _ in shut], dtype=float)
    till = np.array([b for _, b in shut], dtype=float)
    at = np.searchsorted(since, end, side="right") - 1
    inside = (at >= 0) & (end < till[np.maximum(at, 0)])
    return np.where(inside, till[np.maximum(at, 0)], end)
