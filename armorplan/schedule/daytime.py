"""When somebody could well be asked to come: the hours of the day at which the shop is at work."""

from armorplan.kernel.units import DAY_MIN, HOUR_MIN
from armorplan.schedule.activity import Window
from armorplan.schedule.problem import Problem

EVENING_MIN = 3 * HOUR_MIN
"""So long after the latest closing of any day an evening may go on."""


def daytime_in(problem: Problem, stretch: Window) -> tuple[Window, ...]:
    """Return the parts of a stretch at which others are at work on some day, and evenings after.

    Hours of the day are counted from the origin, an hour off across a change of the clock. Where
    somebody works around midnight, all of the stretch.
    """
    windows = [w for worker in problem.workers for w in worker.windows]
    if not windows:
        return (stretch,)
    origin = problem.origin_at.hour * HOUR_MIN + problem.origin_at.minute
    days = [((start + origin) % DAY_MIN, end - start) for start, end in windows]
    opens = min(start for start, _ in days)
    closes = min(DAY_MIN, max(start + minutes for start, minutes in days) + EVENING_MIN)
    first = stretch[0] // DAY_MIN - 1
    last = stretch[1] // DAY_MIN + 1
    parts = (
        (
            max(stretch[0], day * DAY_MIN + opens - origin),
            min(stretch[1], day * DAY_MIN + closes - origin),
        )
        for day in range(first, last + 1)
    )
    return tuple(part for part in parts if part[0] < part[1])
