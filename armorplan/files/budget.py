"""Bounds the work that a pattern's drawings may ask for, all drawings together."""

MAX_ELEMENTS = 50_000
MAX_PLACED = 50_000
MAX_CORNERS = 300_000
MAX_PATH_CHARS = 4_000_000


class OverBudgetError(Exception):
    """A limit was passed; the text names it. Never leaves this package."""


class Budget:
    """What is left of each limit."""

    def __init__(self) -> None:
        self._elements = MAX_ELEMENTS
        self._placed = MAX_PLACED
        self._corners = MAX_CORNERS
        self._chars = MAX_PATH_CHARS

    def element(self) -> None:
        """Count an element of a file; raises OverBudgetError past the limit."""
        self._elements -= 1
        if self._elements < 0:
            raise OverBudgetError(f"more than {MAX_ELEMENTS:,} elements")

    def placed(self) -> None:
        """Count an element of the picture, uses multiplied out; raises OverBudgetError."""
        self._placed -= 1
        if self._placed < 0:
            raise OverBudgetError(f"more than {MAX_PLACED:,} elements, uses multiplied out")

    def corner(self) -> None:
        """Count a corner of a flattened outline; raises OverBudgetError past the limit."""
        self._corners -= 1
        if self._corners < 0:
            raise OverBudgetError(f"outlines of more than {MAX_CORNERS:,} corners")

    def path(self, chars: int) -> None:
        """Count the characters of path data; raises OverBudgetError past the limit."""
        self._chars -= chars
        if self._chars < 0:
            raise OverBudgetError(f"more than {MAX_PATH_CHARS:,} characters of path data")
