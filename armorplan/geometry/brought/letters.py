"""Text that was turned into outlines: rows of small shapes, unlike each other, close together."""

from collections.abc import Sequence
from itertools import pairwise
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn
from armorplan.geometry.brought.nesting import Nest, box_of
from armorplan.kernel.stopping import ShouldStop, go_on

if TYPE_CHECKING:
    import shapely
    from numpy import float64, int64
    from numpy.typing import NDArray

_LEAST, _UNLIKE = 3, 2
_AT_ONCE = 500
_HIGH_MM = 30.0
_LIKE = 0.08
_BULGING = 0.9
_GAP = 0.9
"""Letters stand no farther apart than this share of their height; a space is wider, a row goes on."""


def letters_of(lines: Sequence[Drawn], nest: Nest, should_stop: ShouldStop) -> frozenset[int]:
    """Return closed lines that look like letters, what lies in them included."""
    small = [n for n in nest.areas if lines[n].circle is None and _may_be_letter(lines[n])]
    if len(small) < _LEAST:
        return frozenset()
    of_small = frozenset(small)
    outermost = [n for n in small if of_small.isdisjoint(nest.around[n])]
    found: set[int] = set()
    for row in _rows(outermost, lines, nest, should_stop):
        if len(row) >= _LEAST and _differ(row, lines, nest):
            found.update(row)
            found.update(m for n in row for m in nest.within[n])
    return frozenset(found)


def _may_be_letter(line: Drawn) -> bool:
    left, top, right, bottom = box_of(line)
    return max(right - left, bottom - top) <= _HIGH_MM


def _rows(
    at: Sequence[int], lines: Sequence[Drawn], nest: Nest, should_stop: ShouldStop
) -> list[list[int]]:
    """Return groups of shapes close together, each in the same surroundings."""
    import numpy as np
    import shapely
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    left, top, right, bottom = np.array([box_of(lines[n]) for n in at]).T
    boxes = shapely.box(left, top, right, bottom)
    long = np.maximum(right - left, bottom - top)
    around = np.array([next(iter(nest.around[n]), -1) for n in at])
    one, other = _near(boxes, _GAP * long, around, should_stop)
    near = np.maximum(long[one], long[other]) <= 3 * np.minimum(long[one], long[other])
    links = coo_array(
        (np.ones(int(near.sum())), (one[near], other[near])), shape=(len(at), len(at))
    )
    count, group = connected_components(links, directed=False)
    rows: list[list[int]] = [[] for _ in range(count)]
    for n, number in zip(at, group, strict=True):
        rows[number].append(n)
    return rows


def _near(
    boxes: "NDArray[shapely.Polygon]",  # type: ignore[type-var]  # shapely's own arrays
    reach_mm: "NDArray[float64]",
    around: "NDArray[int64]",
    should_stop: ShouldStop,
) -> "NDArray[int64]":
    """Return pairs of boxes within reach, each in the same surroundings."""
    import numpy as np
    import shapely

    tree = shapely.STRtree(boxes)
    found = [np.empty((2, 0), dtype=int)]
    for start in range(0, len(boxes), _AT_ONCE):
        go_on(should_stop)
        part = slice(start, start + _AT_ONCE)
        one, other = tree.query(
            shapely.buffer(boxes[part], reach_mm[part]), predicate="intersects"
        )
        same = around[one + start] == around[other]
        found.append(np.stack((one[same] + start, other[same])))
    return np.concatenate(found, axis=1)


def _differ(row: Sequence[int], lines: Sequence[Drawn], nest: Nest) -> bool:
    """Tell whether few of a row are alike, and many hollow: a row of slots is neither."""
    shaped = [n for n in row if lines[n].circle is None]
    areas = sorted(nest.areas[n].area for n in shaped)
    unlike = 1 + sum(b > a * (1 + _LIKE) for a, b in pairwise(areas))
    hollow = sum(_is_hollow(n, nest) for n in shaped)
    return unlike >= max(_UNLIKE, len(shaped) / 4) and hollow >= max(1, len(shaped) / 3)


def _is_hollow(n: int, nest: Nest) -> bool:
    """Tell whether a shape has something in it, or bays, as most letters have."""
    area = nest.areas[n]
    return bool(nest.within[n]) or area.area < _BULGING * area.convex_hull.area
