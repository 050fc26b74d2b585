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
MAX_MEETING = 3_000_000
"""Pairs of closed lines that lie in or over one another; a pattern has a few thousand."""
_AT_ONCE = 500
_TOO_MANY = Finding(
    code="drawing-limit",
    severity=Severity.ERROR,
    text=f"More than {MAX_MEETING:,} pairs of closed lines lie in or over one another.",
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
    for inner, outer, covered in _meeting(shapes, should_stop):
        small, large = closed[inner], closed[outer]
        shared = size[small] if covered else float(areas[small].intersection(areas[large]).area)
        if shared >= _MOSTLY * size[small]:
            around[small].append(large)
        elif shared > 0:
            crossing.append((min(small, large), max(small, large)))
    _put_open(lines, closed, shapes, around)
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
) -> Iterator[tuple[int, int, bool]]:
    """Yield pairs of areas that meet, the smaller first, and whether it lies in the other."""
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
    inner, outer = inner[fit], outer[fit]
    go_on(should_stop)
    given = np.array(shapes, dtype=object)
    shapely.prepare(given)
    covered = shapely.covers(given[outer], given[inner])
    meets = covered.copy()
    meets[~covered] = shapely.intersects(given[outer[~covered]], given[inner[~covered]])
    order = np.lexsort((outer, inner))
    for at in order[meets[order]].tolist():
        go_on(should_stop)
        yield int(inner[at]), int(outer[at]), bool(covered[at])


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
) -> None:
    """Put open lines into the areas in which most of them lies."""
    import shapely

    loose = [n for n, line in enumerate(lines) if not line.closed]
    if not loose or not closed:
        return
    tree = shapely.STRtree(shapes)
    drawn = as_lines([lines[n] for n in loose])
    count: dict[tuple[int, int], int] = {}
    for share in _SAMPLES:
        spots = shapely.line_interpolate_point(drawn, share, normalized=True)
        at, holder = tree.query(spots, predicate="intersects")
        for pair in zip(at.tolist(), holder.tolist(), strict=True):
            count[pair] = count.get(pair, 0) + 1
    for (at, holder), times in sorted(count.items()):
        if times >= _MOST_SAMPLES:
            around[loose[at]].append(closed[holder])


def box_of(line: Drawn) -> tuple[float, float, float, float]:
    """Return the least and greatest x and y: left, top, right, bottom."""
    xs, ys = zip(*line.points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def long_side_mm(line: Drawn) -> float:
    """Return the longer side of a line's box."""
    left, top, right, bottom = box_of(line)
    return max(right - left, bottom - top)
