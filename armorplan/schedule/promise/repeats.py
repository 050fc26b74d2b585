"""When what was done again leaves its bath or its room to others."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from armorplan.schedule.promise.policy import Part

if TYPE_CHECKING:
    from armorplan.schedule.promise.doubles import Doubles, Rows


class Repeats:
    """Work done again, by the pieces from which others take over its bath or room."""

    def __init__(self, runs: int) -> None:
        self._runs = runs
        self._ends: dict[int, dict[str, Doubles]] = {}

    def keep(self, line: Iterable[int], family: str, end: "Doubles", rows: "Rows") -> None:
        """Have all who take over from these pieces wait for what ends then, in these runs."""
        import numpy as np

        for piece in line:
            ends = self._ends.setdefault(piece, {})
            till = ends.setdefault(family, np.full(self._runs, -np.inf))
            till[rows] = np.maximum(till[rows], end)

    def left_at(self, piece: int, then: Part) -> "Doubles | float":
        """Return from when on another piece can take over from one, its bath changed."""
        import numpy as np

        since: Doubles | float = -np.inf
        for family, till in self._ends.get(piece, {}).items():
            gap = then.change_min if family != then.work.family else 0
            since = np.maximum(since, till + gap)
        return since
