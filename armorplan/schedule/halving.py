"""Which of many wishes can be kept together, found by halves."""

from collections.abc import Callable, Sequence
from typing import TypeVar

_T = TypeVar("_T")

_MOST_TRIED = 24
"""So many trials are made, each some serial plans; what they do not tell is let go."""


def kept_groups(groups: Sequence[_T], holds: Callable[[list[_T]], bool]) -> list[_T]:
    """Return groups that hold together; of those that do not, halves are tried, down to one.

    Args:
        groups: what is wished for.
        holds: tells whether these can be kept at once.
    """
    kept: list[_T] = []
    todo, tries = [list(groups)], _MOST_TRIED
    while todo and tries:
        tried = todo.pop()
        tries -= 1
        if holds([*kept, *tried]):
            kept += tried
        elif len(tried) > 1:
            half = len(tried) // 2
            todo += [tried[half:], tried[:half]]
    return kept
