"""Long straight lines that lie on one another, told by direction and offset instead of by place.

The boxes of long slanted lines all overlap, so that a search by place would look at every pair of a
hatching. Lines on one another have nearly the same direction and offset, wherever they lie.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import chain, pairwise
from math import dist
from typing import TYPE_CHECKING, cast

from armorplan.geometry.brought.lines import LONG_MM, Drawn, is_straight
from armorplan.geometry.brought.near import SAME_MM, too_dense
from armorplan.kernel.stopping import ShouldStop, go_on

if TYPE_CHECKING:
    from numpy import bool_, float64, int64
    from numpy.typing import NDArray
    from scipy.spatial import cKDTree

    from armorplan.pattern.parts import Point

    Numbers = NDArray[float64]
    Whole = NDArray[int64]

MAX_LOOKS, MAX_PAIRS = 40_000_000, 2_000_000
_STRETCH_MM = 0.3
_LEAST_MM = 1.5 * SAME_MM
_MANY = 50
"""So many lines in one row are thinned out to those that cover it, before pairs are made."""
_SAME_WAY, _SAME_OFFSET_MM = 1e-6, 0.01
_AT_ONCE, _ASKED = 200_000, 5_000
_ENDS = 2


def straightened(lines: Sequence[Drawn], should_stop: ShouldStop) -> tuple[list[Drawn], int]:
    """Return the lines, long straight ones without stretches that lie on one another.

    Of two the longer keeps the stretch, then the one drawn first; a line of which nothing is left
    gives its strokes to one that lies there.

    Returns:
        The lines, and how many lost a stretch.

    Raises:
        UnreadableError: too many lie on one another.
    """
    thin, gone = _thinned(lines, should_stop)
    at = [n for n, line in enumerate(thin) if is_straight(line)]
    if len(at) < _ENDS:
        return thin, gone
    order = sorted(at, key=lambda n: (-round(dist(*thin[n].points), 1), thin[n].order))
    rank = {n: place for place, n in enumerate(order)}
    under: dict[int, list[int]] = {}
    for one, other in _pairs([thin[n] for n in at], should_stop):
        go_on(should_stop)
        upper, lower = sorted((at[one], at[other]), key=rank.__getitem__, reverse=True)
        under.setdefault(upper, []).append(lower)
    now: dict[int, list[Drawn]] = {n: [line] for n, line in enumerate(thin)}
    for upper in sorted(under, key=rank.__getitem__):
        go_on(should_stop)
        gone += _cut(upper, sorted(n for n in under[upper] if now[n]), now)
    return [line for n in sorted(now) for line in now[n]], gone


def _cut(upper: int, under: Sequence[int], now: dict[int, list[Drawn]]) -> bool:
    """Take from a line what lies on those under it; tell whether it lost anything."""
    (line,) = now[upper]
    left = list(_left(line, [each for n in under for each in now[n]]))
    if left == [line.points]:
        return False
    # Each piece has a name of its own; the first keeps the line's.
    now[upper] = [
        replace(line, points=ends, strokes=line.strokes if n == 0 else _further(line, n))
        for n, ends in enumerate(left)
    ]
    if not left:
        now[under[0]][0] = taken_over(now[under[0]][0], [line])
    return True


def _further(line: Drawn, n: int) -> tuple[str, ...]:
    return (f"{line.key}/{n + 1}", *line.strokes)


def taken_over(heir: Drawn, gone: Sequence[Drawn]) -> Drawn:
    """Return a line with the strokes of others, and what they are called where it has no name."""
    return replace(
        heir,
        strokes=(*heir.strokes, *(key for line in gone for key in line.strokes)),
        name=next((line.name for line in (heir, *gone) if line.name), ""),
        group=next((line.group for line in (heir, *gone) if line.group), ""),
    )


def _left(line: Drawn, below: Sequence[Drawn]) -> "Iterator[tuple[Point, Point]]":
    """Yield the stretches of a line on which none below it lies."""
    (x0, y0), last = line.points
    long_mm = dist(*line.points)
    ux, uy = (last[0] - x0) / long_mm, (last[1] - y0) / long_mm
    covers = sorted(
        sorted(((x - x0) * ux + (y - y0) * uy, (x, y)) for x, y in each.points) for each in below
    )
    reached, spot = 0.0, line.points[0]
    for (start, first), (end, behind) in covers:
        if start - reached > _LEAST_MM:
            yield spot, first
        if end > reached:
            reached, spot = end, behind
    if long_mm - reached > _LEAST_MM:
        yield spot, last


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """Lines by direction (radians, 0 to π), offset from one middle, and reach along it, in mm."""

    way: "Numbers"
    offset: "Numbers"
    start: "Numbers"
    end: "Numbers"
    ends: "Numbers"
    far_mm: float


def _laid(lines: Sequence[Drawn]) -> _Laid:
    import numpy as np

    ends = np.array([line.points for line in lines], dtype=float)
    ends -= ends.mean(axis=(0, 1))
    run = ends[:, 1] - ends[:, 0]
    way = np.arctan2(run[:, 1], run[:, 0]) % np.pi
    along = np.stack((np.cos(way), np.sin(way)), axis=1)
    across = np.stack((-along[:, 1], along[:, 0]), axis=1)
    reach = np.einsum("nek,nk->ne", ends, along)
    return _Laid(
        way=way,
        offset=np.einsum("nk,nk->n", ends.mean(axis=1), across),
        start=reach.min(axis=1),
        end=reach.max(axis=1),
        ends=ends,
        far_mm=float(np.abs(ends).max()) * 1.5,
    )


def _thinned(lines: Sequence[Drawn], should_stop: ShouldStop) -> tuple[list[Drawn], int]:
    """Return the lines, of very many in one row only those that are needed to cover it."""
    import numpy as np

    at = np.array([n for n, line in enumerate(lines) if is_straight(line)], dtype=int)
    if len(at) <= _MANY:
        return list(lines), 0
    laid = _laid([lines[n] for n in at])
    cells = np.stack(
        (np.round(laid.way / _SAME_WAY), np.round(laid.offset / _SAME_OFFSET_MM)), axis=1
    )
    _, cell, counts = np.unique(cells, axis=0, return_inverse=True, return_counts=True)
    heirs: dict[int, list[int]] = {}
    for row in np.flatnonzero(counts > _MANY):
        members = np.flatnonzero(cell == row)
        members = members[np.lexsort((-laid.end[members], laid.start[members]))]
        for gone, kept in _not_needed(members.tolist(), laid, should_stop):
            heirs.setdefault(int(at[kept]), []).append(int(at[gone]))
    dropped = {n for gone in heirs.values() for n in gone}
    left = [
        taken_over(line, [lines[m] for m in heirs[n]]) if n in heirs else line
        for n, line in enumerate(lines)
        if n not in dropped
    ]
    return left, len(dropped)


def _not_needed(
    members: Sequence[int], laid: _Laid, should_stop: ShouldStop
) -> Iterator[tuple[int, int]]:
    """Yield lines of one row that others cover, each with one of those.

    From where the row begins the line is taken that reaches farthest, and so on from its end.
    """
    last, best = members[0], members[0]
    waiting: list[int] = []
    for n in members[1:]:
        go_on(should_stop)
        if laid.start[n] > laid.end[last] and best != last:
            yield from ((each, best) for each in waiting if each != best)
            waiting, last = [], best
        if laid.start[n] > laid.end[last]:
            yield from ((each, last) for each in waiting)
            waiting, last, best = [], n, n
            continue
        waiting.append(n)
        if laid.end[n] > laid.end[best]:
            best = n
    yield from ((each, best) for each in waiting if each != best)


def _pairs(lines: Sequence[Drawn], should_stop: ShouldStop) -> list[tuple[int, int]]:
    """Return pairs of which one lies on the other for a stretch."""
    import numpy as np

    laid = _laid(lines)
    size = laid.end - laid.start
    found = [np.empty(0, dtype=int)]
    count = 0
    least = LONG_MM
    while least <= size.max():
        own = np.flatnonzero((size >= least) & (size < 2 * least))
        others = np.flatnonzero(size >= least)
        for one, other in _alike(laid, own, others, least, should_stop):
            meets = _lies_along(laid, one, other)
            low, high = np.minimum(one, other)[meets], np.maximum(one, other)[meets]
            found.append(np.unique(low * len(lines) + high))
            count += len(low)
            if count > MAX_PAIRS:
                raise too_dense("straight lines")
        least *= 2
    both = np.unique(np.concatenate(found))
    return list(zip((both // len(lines)).tolist(), (both % len(lines)).tolist(), strict=True))


def _alike(
    laid: _Laid, own: "Whole", others: "Whole", least_mm: float, should_stop: ShouldStop
) -> "Iterator[tuple[Whole, Whole]]":
    """Yield pairs of nearly one direction and offset, some at a time.

    Of two lines on one another the shorter, ``least_mm`` long, may turn by as little as lets both
    its ends lie there; that moves its offset the more, the farther away it lies.
    """
    import numpy as np
    from scipy.spatial import cKDTree

    turn = 2 * SAME_MM / least_mm
    aside = SAME_MM + laid.far_mm * turn
    way, offset = laid.way[others], laid.offset[others]
    # A direction of nearly 180° is nearly that of 0°, with the offset to the other side.
    low, high = way < turn, way > np.pi - turn
    ways = np.concatenate((way, way[low] + np.pi, way[high] - np.pi)) / turn
    offsets = np.concatenate((offset, -offset[low], -offset[high])) / aside
    place = np.concatenate((others, others[low], others[high]))
    tree = cKDTree(np.stack((ways, offsets), axis=1))
    asked = np.stack((laid.way[own] / turn, laid.offset[own] / aside), axis=1)
    for part, count in _parts(tree, asked, should_stop):
        near = cast("Sequence[list[int]]", tree.query_ball_point(asked[part], 1.0, p=np.inf))
        one = np.repeat(own[part], count)
        yield one, place[np.array(list(chain.from_iterable(near)), dtype=int)]


def _parts(
    tree: "cKDTree", asked: "Numbers", should_stop: ShouldStop
) -> "Iterator[tuple[slice, Whole]]":
    """Yield parts of what is asked, with how many each finds; together not too many."""
    import numpy as np

    total = 0
    for start in range(0, len(asked), _ASKED):
        go_on(should_stop)
        batch = asked[start : start + _ASKED]
        count = np.asarray(
            tree.query_ball_point(batch, 1.0, p=np.inf, return_length=True), dtype=int
        )
        total += int(count.sum())
        if total > MAX_LOOKS:
            raise too_dense("straight lines")
        cut = np.searchsorted(np.cumsum(count), np.arange(0, count.sum() + _AT_ONCE, _AT_ONCE))
        for begin, end in pairwise(np.unique((0, *cut, len(batch))).tolist()):
            go_on(should_stop)
            yield slice(start + begin, start + end), count[begin:end]


def _lies_along(laid: _Laid, one: "Whole", other: "Whole") -> "NDArray[bool_]":
    """Tell which lines lie on the other for a stretch, both their ends near its direction."""
    import numpy as np

    along = np.stack((np.cos(laid.way[other]), np.sin(laid.way[other])), axis=1)
    across = np.stack((-along[:, 1], along[:, 0]), axis=1)
    off = np.einsum("nek,nk->ne", laid.ends[one], across) - laid.offset[other][:, None]
    reach = np.einsum("nek,nk->ne", laid.ends[one], along)
    shared = np.minimum(reach.max(axis=1), laid.end[other])
    shared -= np.maximum(reach.min(axis=1), laid.start[other])
    near = np.abs(off).max(axis=1) <= SAME_MM
    return np.asarray(near & (shared > _STRETCH_MM) & (one != other), dtype=bool)
