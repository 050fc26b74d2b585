"""Limits of one drawing, and the place where its reading can be stopped: each thing is counted."""

from armorplan.files.budget import Budget
from armorplan.kernel.stopping import ShouldStop, go_on

MAX_ELEMENTS = 150_000
MAX_CORNERS = 2_000_000
MAX_CHARS = 40_000_000
_EVERY = 512


class StoppableBudget(Budget):
    """What is left of each limit; asks from time to time whether to go on.

    Every count raises StoppedError where the reading is no longer wanted.
    """

    def __init__(self, should_stop: ShouldStop) -> None:
        super().__init__(elements=MAX_ELEMENTS, corners=MAX_CORNERS, chars=MAX_CHARS)
        self._should_stop = should_stop
        self._counted = 0

    def element(self) -> None:
        """Count an element of a file."""
        self._count()
        super().element()

    def placed(self) -> None:
        """Count an element of the picture."""
        self._count()
        super().placed()

    def corner(self) -> None:
        """Count a corner."""
        self._count()
        super().corner()

    def _count(self) -> None:
        self._counted += 1
        if self._counted % _EVERY == 1:
            go_on(self._should_stop)
