"""Hours within which work may lie, asked for all runs at once."""

from collections.abc import Sequence
from typing import TYPE_CHECKING

from armorplan.schedule.activity import Window

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles

NEVER = 1e9
"""The minute of what no hours are left for: far beyond any horizon."""
STAY_MIN = 60
"""Who is in the middle of work at closing time stays so long to end it, else it waits till morning."""

_HAIR = 1e-6


def common(
    one: Sequence[Window] | None, other: Sequence[Window] | None
) -> tuple[Window, ...] | None:
    """Return what lies in both; ``None`` stands for all time."""
    if one is None or other is None:
        both = other if one is None else one
        return None if both is None else tuple(both)
    found, at = [], 0
    for start, end in one:
        while at and other[at - 1][1] > start:
            at -= 1
        while at < len(other) and other[at][0] < end:
            low, high = max(start, other[at][0]), min(end, other[at][1])
            if low < high:
                found.append((low, high))
            at += 1
    return tuple(found)


class Hours:
    """Windows, ascending and apart; what fits none of them any more starts at ``NEVER``."""

    def __init__(self, windows: Sequence[Window]) -> None:
        import numpy as np

        ends = [end for _, end in windows]
        self._starts = np.array([*(start for start, _ in windows), NEVER], dtype=float)
        self._ends = np.array([*ends, np.inf], dtype=float)
        spans = [end - start for start, end in windows]
        self._opened = np.cumsum([0.0, *spans])
        self._longest = max(spans, default=0)

    def fit(self, since: "Doubles", minutes: float) -> "Doubles":
        """Return the first starts from ``since`` on with so many minutes before hours end.

        What is longer than any window begins with one.
        """
        import numpy as np

        wanted = min(minutes, self._longest)
        at = np.searchsorted(self._ends[:-1], since, side="right")
        start: Doubles = np.maximum(since, self._starts[at])
        late = start + wanted > self._ends[at] + _HAIR
        while late.any():
            at[late] += 1
            start[late] = self._starts[at[late]]
            late = start + wanted > self._ends[at] + _HAIR
        return start

    def sit_down(self, since: "Doubles", minutes: float, sitting_min: float) -> "Doubles":
        """Return the first starts of pausable work none of whose sittings would be too short.

        It starts where it ends before hours do, or where what is left by then is worth another
        sitting; where too little would be left, a bit later.
        """
        import numpy as np

        least = min(sitting_min, minutes)
        if minutes < 2 * least:
            return self.fit(since, minutes)
        at = np.searchsorted(self._ends[:-1], since, side="right")
        start: Doubles = np.maximum(since, self._starts[at])
        at += self._ends[at] - start < least - _HAIR
        start = np.maximum(start, self._starts[at])
        left = minutes - (self._ends[at] - start)
        is_short = (left > _HAIR) & (left < least)
        start[is_short] += least - left[is_short]
        return start

    def end(self, start: "Doubles", minutes: "Doubles", *, pausable: bool) -> "Doubles":
        """Return when work ends that starts within hours and takes so many minutes.

        Pausable work stops where hours end and goes on as they begin again. Other work is ended
        past closing time, unless that would be more than ``STAY_MIN`` later.
        """
        import numpy as np

        in_one_go = start + minutes
        count = len(self._opened) - 1
        at = np.searchsorted(self._ends[:-1], start, side="right")
        closing = self._ends[at]
        stays = in_one_go <= closing + (0 if pausable else STAY_MIN)
        if bool(stays.all()):
            return in_one_go
        worked = self._opened[np.minimum(at, count)] + start - self._starts[at]
        wanted = worked + minutes
        last = np.searchsorted(self._opened[1:], wanted - _HAIR, side="left")
        known = np.minimum(last, count)
        resumed = self._starts[known] + (wanted - self._opened[known])
        return np.where(stays, in_one_go, resumed)
