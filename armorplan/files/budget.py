"""Bounds the work that a pattern's drawings may ask for, all drawings together."""

MAX_ELEMENTS = 50_000
MAX_CORNERS = 300_000
MAX_PATH_CHARS = 4_000_000


class OverBudgetError(Exception):
    """A limit was passed; the text names it. Never leaves this package."""


class Budget:
    """What is left of each limit; ``elements`` bounds those of a file and those it draws alike."""

    def __init__(
        self,
        *,
        elements: int = MAX_ELEMENTS,
        corners: int = MAX_CORNERS,
        chars: int = MAX_PATH_CHARS,
    ) -> None:
        self._most = elements, corners, chars
        self._elements = elements
        self._placed = elements
        self._corners = corners
        self._chars = chars

    def element(self) -> None:
        """Count an element of a file; raises OverBudgetError past the limit."""
        self._elements -= 1
        if self._elements < 0:
            raise OverBudgetError(f"more than {self._most[0]:,} elements")

    def placed(self) -> None:
        """Count an element of the picture, uses multiplied out; raises OverBudgetError."""
        self._placed -= 1
        if self._placed < 0:
            raise OverBudgetError(f"more than {self._most[0]:,} elements, uses multiplied out")

    def corner(self) -> None:
        """Count a corner of a flattened outline; raises OverBudgetError past the limit."""
        self._corners -= 1
        if self._corners < 0:
            raise OverBudgetError(f"outlines of more than {self._most[1]:,} corners")

    def path(self, chars: int) -> None:
        """Count the characters of path data; raises OverBudgetError past the limit."""
        self._chars -= chars
        if self._chars < 0:
            raise OverBudgetError(f"more than {self._most[2]:,} characters of path data")
