"""Work that may stop where hours end and goes on as they begin again."""

from bisect import bisect_right
from collections.abc import Sequence

from armorplan.schedule.activity import Window


def end_with_pauses(
    minutes: int, start_min: int, windows: Sequence[Window], sitting_min: int
) -> int | None:
    """Return the minute at which pausable work ends that starts at ``start_min``.

    Args:
        minutes: how long it is worked at.
        start_min: where it starts; inside a window, or nothing can start there.
        windows: the person's hours, ascending and apart.
        sitting_min: no stretch is shorter, unless the whole work is.

    Returns:
        The end; ``None`` where it cannot start there, or where hours run out.
    """
    at = bisect_right(windows, (start_min, 2**60)) - 1
    if at < 0 or start_min >= windows[at][1]:
        return None
    least = min(sitting_min, minutes)
    left, since = minutes, start_min
    while left > windows[at][1] - since:
        worked = windows[at][1] - since
        if worked < least or left - worked < least or at + 1 == len(windows):
            return None
        left -= worked
        at += 1
        since = windows[at][0]
    return since + left
