"""Joints that no seam names, put in rows: one after the other, or in lines side by side."""

from collections.abc import Iterator, Sequence
from itertools import pairwise
from math import dist, hypot

from armorplan.pattern.parts import Point

_SHORTEST = 3
"""Lines side by side have at least so many joints each."""
_LINES = (2, 3)
_TURN = 0.107
"""A joint straight on comes before one square to the row that is not this share nearer."""
_SLANT, _FANNED, _ALIKE = 0.45, 2.0, 0.8
"""From one line to the next it goes across (cosine to the line no more than this), so many times as
far at the widest as at the narrowest place at most, and the same way (cosine no less) as one place before."""


def rows_of(spots: Sequence[Point]) -> list[list[int]]:
    """Return the rows that joints lie in, as their numbers in order.

    Each joint comes next to the nearest, from one end. Where that leads to and fro between lines side by side,
    as in a lap that is riveted twice over, or up the one and down the other, each line is a row.

    Args:
        spots: of the joints on one plate.
    """
    order = _nearest_next(spots)
    return next((lines for lines in _tries(order) if _lie_beside(lines, spots)), [order])


def _nearest_next(spots: Sequence[Point]) -> list[int]:
    x, y = (sum(values) / len(spots) for values in zip(*spots, strict=True))
    left = list(range(len(spots)))
    order = [max(left, key=lambda at: dist(spots[at], (x, y)))]
    left.remove(order[0])
    while left:
        last = spots[order[-1]]
        before = _step(spots[order[-2]], last) if len(order) > 1 else (0.0, 0.0)
        order.append(min(left, key=lambda at: _far(before, _step(last, spots[at]))))
        left.remove(order[-1])
    return order


def _far(before: Point, step: Point) -> float:
    """Return how far a joint lies from the last, somewhat more where the row turns to it."""
    length = hypot(*step)
    return length * (1 + _TURN * (1 - _along(before, step)))


def _tries(order: list[int]) -> Iterator[list[list[int]]]:
    """Yield how an order may part in lines: up and down, or to and fro between two or three."""
    half = len(order) // 2
    if len(order) == 2 * half and half >= _SHORTEST:
        for down in (order, order[1:] + order[:1]):
            yield [down[:half], down[: half - 1 : -1]]
    for many in _LINES:
        if len(order) % many == 0 and len(order) >= many * _SHORTEST:
            across = [order[at : at + many] for at in range(0, len(order), many)]
            turned = [each[::-1] if at % 2 else each for at, each in enumerate(across)]
            for tried in (turned, across):
                yield [list(line) for line in zip(*tried, strict=True)]


def _lie_beside(lines: list[list[int]], spots: Sequence[Point]) -> bool:
    """Tell whether each line goes on straight across from the one beside it."""
    for one, other in pairwise(lines):
        over = [_step(spots[a], spots[b]) for a, b in zip(one, other, strict=True)]
        far = [hypot(*each) for each in over]
        if not min(far) or max(far) > _FANNED * min(far):
            return False
        if not all(_along(*both) >= _ALIKE for both in pairwise(over)):
            return False
        for line in (one, other):
            on = [_step(spots[a], spots[b]) for a, b in pairwise(line)]
            if not all(_is_across(*both) for both in zip(on, over, strict=False)):
                return False
    return True


def _step(here: Point, there: Point) -> Point:
    return there[0] - here[0], there[1] - here[1]


def _is_across(one: Point, other: Point) -> bool:
    return hypot(*one) > 0 and abs(_along(one, other)) <= _SLANT


def _along(one: Point, other: Point) -> float:
    """Return the cosine between two steps; 1 where one of them is none."""
    both = hypot(*one) * hypot(*other)
    return (one[0] * other[0] + one[1] * other[1]) / both if both else 1.0
