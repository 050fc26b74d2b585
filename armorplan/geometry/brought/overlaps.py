"""Open lines that lie on others for a stretch lose that stretch, so that what is left joins up.

Two ways of cutting one outline into pieces overlap piece by piece; none lies on another all along.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import dist
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn, as_line, as_lines
from armorplan.geometry.brought.near import SAME_MM, Nearby
from armorplan.kernel.stopping import ShouldStop, go_on

if TYPE_CHECKING:
    import shapely

    from armorplan.pattern.parts import Point

_STRETCH_MM = 0.3
"""An end must run along another line for so long, or most of its own length, to lie on it."""
_SHARE = 0.8
_TOO_SHORT_MM = 1.5 * SAME_MM
"""A shorter line has no direction that could be told from its neighbour's."""
_LEAST_MM = SAME_MM / 2
_SNAP_MM = 4 * SAME_MM


def trimmed(lines: Sequence[Drawn], should_stop: ShouldStop) -> tuple[list[Drawn], int]:
    """Return the lines without stretches that lie on others, and how many lost some.

    Closed lines stay as they are; of open ones the longer keeps the stretch.
    """
    rank = _ranks(lines)
    on: dict[int, set[int]] = {}
    for one, other in _overlapping(lines, should_stop):
        upper, lower = (one, other) if rank[other] < rank[one] else (other, one)
        if not lines[upper].closed:
            on.setdefault(upper, set()).add(lower)
    now: dict[int, list[Drawn]] = {n: [line] for n, line in enumerate(lines)}
    count = 0
    for upper in sorted(on, key=lambda n: rank[n]):
        go_on(should_stop)
        below = [each for n in sorted(on[upper]) for each in now[n]]
        kept = list(_rest(lines[upper], below)) if below else [lines[upper]]
        count += kept != [lines[upper]]
        now[upper] = kept
        if not kept:
            _take_over(lines[upper], on[upper], now)
    return [line for n in sorted(now) for line in now[n]], count


def _take_over(gone: Drawn, under: set[int], now: dict[int, list[Drawn]]) -> None:
    """Let the first line under one of which nothing is left take over its strokes."""
    heir = next(n for n in sorted(under) if now[n])
    first, *others = now[heir]
    now[heir] = [replace(first, strokes=(*first.strokes, *gone.strokes)), *others]


def _ranks(lines: Sequence[Drawn]) -> list[int]:
    """Return the place of each line by who keeps a stretch: closed ones, then longer ones."""
    import shapely

    lengths = shapely.length(as_lines(lines)) if lines else ()
    order = sorted(
        range(len(lines)),
        key=lambda n: (not lines[n].closed, -round(float(lengths[n]), 1), lines[n].order),
    )
    ranks = [0] * len(lines)
    for place, n in enumerate(order):
        ranks[n] = place
    return ranks


def _overlapping(lines: Sequence[Drawn], should_stop: ShouldStop) -> list[tuple[int, int]]:
    """Return open lines an end of which runs along another line, with that line."""
    import numpy as np
    import shapely

    loose = np.array([n for n, line in enumerate(lines) if not line.closed], dtype=int)
    if not len(loose):
        return []
    own = np.array(as_lines(lines))[loose]
    stretch = np.minimum(_STRETCH_MM, shapely.length(own) * _SHARE)
    asked = np.flatnonzero(stretch > _TOO_SHORT_MM)
    own, stretch, loose = own[asked], stretch[asked], loose[asked]
    nearby = Nearby(lines, should_stop)
    found = [np.empty(0, dtype=int)]
    for near_end in (False, True):
        # A negative distance counts from the end.
        ends = shapely.get_point(own, -1 if near_end else 0)
        along = shapely.line_interpolate_point(own, -stretch if near_end else stretch)
        beginning, further = (
            at * len(lines) + other
            for at, other in (
                nearby.near(shapely.get_coordinates(spots), loose) for spots in (ends, along)
            )
        )
        both = np.intersect1d(beginning, further)
        found.append(loose[both // len(lines)] * len(lines) + both % len(lines))
    pairs = np.unique(np.concatenate(found))
    return list(zip((pairs // len(lines)).tolist(), (pairs % len(lines)).tolist(), strict=True))


def _rest(line: Drawn, below: Sequence[Drawn]) -> Iterator[Drawn]:
    """Yield what is left of a line beside those below it."""
    import shapely

    cover = shapely.union_all([each.buffer(SAME_MM) for each in as_lines(below)])
    left = shapely.get_parts(as_line(line).difference(cover))
    pieces = [piece for piece in left if piece.length > _LEAST_MM]
    if len(pieces) == 1 and (pieces[0].coords[0], pieces[0].coords[-1]) == _ends(line):
        yield line
        return
    ends = [spot for each in below if not each.closed for spot in _ends(each)]
    lower = shapely.union_all(as_lines(below))
    for n, piece in enumerate(pieces):
        points = [(float(x), float(y)) for x, y in piece.coords]
        for at in (0, -1):
            if points[at] not in _ends(line):
                points[at] = _snapped(points[at], ends, lower)
        if points[0] == points[-1]:
            continue
        # Each piece has a name of its own; the first keeps the line's.
        strokes = line.strokes if n == 0 else (f"{line.key}/{n + 1}", *line.strokes)
        yield replace(line, strokes=strokes, points=tuple(points))


def _ends(line: Drawn) -> "tuple[Point, Point]":
    return line.points[0], line.points[-1]


def _snapped(spot: "Point", ends: "Sequence[Point]", lower: "shapely.Geometry") -> "Point":
    """Return the end of a line below it that was meant, or the nearest place on one."""
    import shapely

    nearest = min(ends, key=lambda end: dist(end, spot), default=None)
    if nearest is not None and dist(nearest, spot) <= _SNAP_MM:
        return nearest
    on = shapely.shortest_line(shapely.Point(spot), lower).coords[-1]
    return float(on[0]), float(on[1])
