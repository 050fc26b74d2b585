"""What lies in what: closed lines in closed lines, open lines and spots in areas."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn, as_areas, as_lines
from armorplan.kernel.errors import UnreadableError
from armorplan.kernel.findings import Finding, Severity
from armorplan.kernel.stopping import ShouldStop, go_on

if TYPE_CHECKING:
    import shapely
    from numpy import int64
    from numpy.typing import NDArray

_MOSTLY = 0.97
"""A line of which so much lies in another is inside it, though the two touch."""
MAX_MEETING = 1_500_000
"""Pairs of lines that lie in or over one another; a pattern has a few thousand."""
MAX_CROSSING = 200_000
"""Pairs of closed lines that cross; that takes longer to tell."""
_AT_ONCE = 500
_TOO_MANY = Finding(
    code="drawing-limit",
    severity=Severity.ERROR,
    text=f"More than {MAX_MEETING:,} pairs of lines lie in or over one another.",
    remedy="Take out hatchings and ornaments; leave the outlines, holes and slots.",
)
_SAMPLES = (0.1, 0.3, 0.5, 0.7, 0.9)
_MOST_SAMPLES = 3
"""A fold line may be drawn well beyond both edges of its part."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Nest:
    """What lies in what, by the place of each line in the list.

    Attributes:
        areas: of closed lines, by their place.
        around: for each line the closed ones it lies in, the smallest first.
        within: for each closed line those closed ones that lie in it, however deep.
        crossing: pairs of closed lines whose areas overlap, neither in the other.
    """

    areas: "dict[int, shapely.Polygon]"
    around: dict[int, tuple[int, ...]]
    within: dict[int, tuple[int, ...]]
    crossing: tuple[tuple[int, int], ...]

    def directly_in(self, n: int) -> list[int]:
        """Return the closed lines that lie in a closed line and in nothing smaller."""
        return [m for m in self.within[n] if self.around[m][0] == n]


def nested(lines: Sequence[Drawn], should_stop: ShouldStop) -> Nest:
    """Return what of the lines lies in what."""
    closed = [n for n, line in enumerate(lines) if line.closed]
    shapes = as_areas([lines[n] for n in closed]) if closed else []
    areas = dict(zip(closed, shapes, strict=True))
    size = {n: float(area.area) for n, area in areas.items()}
    around: dict[int, list[int]] = {n: [] for n in range(len(lines))}
    crossing: list[tuple[int, int]] = []
    for inner, outer, shared in _meeting(shapes, should_stop):
        small, large = closed[inner], closed[outer]
        if shared >= _MOSTLY * size[small]:
            around[small].append(large)
        elif shared > 0:
            crossing.append((min(small, large), max(small, large)))
    _put_open(lines, closed, shapes, around, should_stop)
    ordered = {
        n: tuple(sorted(set(found), key=lambda m: (size[m], m))) for n, found in around.items()
    }
    within: dict[int, list[int]] = {n: [] for n in closed}
    for n in closed:
        for m in ordered[n]:
            within[m].append(n)
    return Nest(
        areas=areas,
        around=ordered,
        within={n: tuple(found) for n, found in within.items()},
        crossing=tuple(sorted(crossing)),
    )


def _meeting(
    shapes: "Sequence[shapely.Polygon]", should_stop: ShouldStop
) -> Iterator[tuple[int, int, float]]:
    """Yield pairs of areas that meet, the smaller first, and how much they share in mm²."""
    import numpy as np
    import shapely

    if not shapes:
        return
    sizes = shapely.area(shapes)
    # Of equals the later lies in the earlier.
    rank = np.empty(len(shapes), dtype=int)
    rank[np.lexsort((-np.arange(len(shapes)), sizes))] = np.arange(len(shapes))
    inner, outer = _boxes_meeting(shapes, should_stop)
    fit = rank[inner] < rank[outer]
    order = np.lexsort((outer[fit], inner[fit]))
    inner, outer = inner[fit][order], outer[fit][order]
    given = np.array(shapes, dtype=object)
    shapely.prepare(given)
    crossing = 0
    for start in range(0, len(inner), _AT_ONCE):
        go_on(should_stop)
        one, other = inner[start : start + _AT_ONCE], outer[start : start + _AT_ONCE]
        shared = np.where(shapely.covers(given[other], given[one]), sizes[one], 0.0)
        over = np.flatnonzero(shared == 0)
        over = over[shapely.intersects(given[other[over]], given[one[over]])]
        shared[over] = shapely.area(shapely.intersection(given[one[over]], given[other[over]]))
        crossing += len(over)
        if crossing > MAX_CROSSING:
            raise UnreadableError((_TOO_MANY,))
        meets = shared > 0
        yield from zip(
            one[meets].tolist(), other[meets].tolist(), shared[meets].tolist(), strict=True
        )


def _boxes_meeting(
    shapes: "Sequence[shapely.Polygon]", should_stop: ShouldStop
) -> "tuple[NDArray[int64], NDArray[int64]]":
    import numpy as np
    import shapely

    tree = shapely.STRtree(shapes)
    found: list[NDArray[int64]] = []
    for start in range(0, len(shapes), _AT_ONCE):
        go_on(should_stop)
        inner, outer = tree.query(shapes[start : start + _AT_ONCE])
        found.append(np.stack((inner + start, outer)))
        if sum(pairs.shape[1] for pairs in found) > MAX_MEETING:
            raise UnreadableError((_TOO_MANY,))
    one, other = np.concatenate(found, axis=1)
    return one, other


def _put_open(
    lines: Sequence[Drawn],
    closed: Sequence[int],
    shapes: "Sequence[shapely.Polygon]",
    around: dict[int, list[int]],
    should_stop: ShouldStop,
) -> None:
    """Put open lines into the areas in which most of them lies."""
    import numpy as np
    import shapely

    loose = [n for n, line in enumerate(lines) if not line.closed]
    if not loose or not closed:
        return
    tree = shapely.STRtree(shapes)
    drawn = as_lines([lines[n] for n in loose])
    found: list[NDArray[int64]] = []
    for share in _SAMPLES:
        spots = shapely.line_interpolate_point(drawn, share, normalized=True)
        for start in range(0, len(spots), _AT_ONCE):
            go_on(should_stop)
            at, holder = tree.query(spots[start : start + _AT_ONCE], predicate="intersects")
            found.append((at + start) * len(shapes) + holder)
            if sum(map(len, found)) > MAX_MEETING:
                raise UnreadableError((_TOO_MANY,))
    pairs, times = np.unique(np.concatenate(found), return_counts=True)
    for pair in pairs[times >= _MOST_SAMPLES].tolist():
        around[loose[pair // len(shapes)]].append(closed[pair % len(shapes)])


def box_of(line: Drawn) -> tuple[float, float, float, float]:
    """Return the least and greatest x and y: left, top, right, bottom."""
    xs, ys = zip(*line.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def long_side_mm(line: Drawn) -> float:
    """Return the longer side of a line's box."""
    left, top, right, bottom = box_of(line)
    return max(right - left, bottom - top)
