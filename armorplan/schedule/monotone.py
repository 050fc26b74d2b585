"""The first whole number for which something begins to hold."""

from collections.abc import Callable


def first_holding(holds: Callable[[int], bool], low: int, high: int) -> int:
    """Return the least of ``low`` to ``high`` for which a monotone test holds, else ``high``."""
    while low < high:
        middle = (low + high) // 2
        if holds(middle):
            high = middle
        else:
            low = middle + 1
    return high
