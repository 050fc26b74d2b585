"""Lines that lie on others: drawn twice, turned round, or laid in pieces over a closed one."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn, as_lines
from armorplan.kernel.stopping import ShouldStop, go_on
from armorplan.pattern.parts import Ring

if TYPE_CHECKING:
    import shapely
    from numpy import int64
    from numpy.typing import NDArray

SAME_MM = 0.08
"""Lines no farther apart are one: two ways of flattening a curve differ by 0.05 mm each at most."""
_SAMPLES = (0.13, 0.5, 0.87)


def undoubled(lines: Sequence[Drawn], should_stop: ShouldStop) -> tuple[list[Drawn], int]:
    """Return the lines without those that lie on another all along, and how many went.

    Of two that are the same the closed one stays, then the longer, then the one drawn first. What
    stays takes over the strokes of what went.
    """
    import numpy as np
    import shapely

    given = len(lines)
    lines = _without(lines, _copies(lines))
    if len(lines) < 2:  # noqa: PLR2004
        return list(lines), given - len(lines)
    shapes = np.array(as_lines(lines))
    lengths = shapely.length(shapes)
    closed = np.array([line.closed for line in lines])
    # What is preferred comes first; lengths are compared to 0.1 mm.
    ranks = np.lexsort((np.arange(len(lines)), -np.round(lengths, 1), ~closed))
    rank = np.empty(len(lines), dtype=int)
    rank[ranks] = np.arange(len(lines))
    under: dict[int, list[int]] = {}
    for upper, lower in _near_pairs(shapes, should_stop):
        if rank[lower] < rank[upper] and (not closed[upper] or closed[lower]):
            under.setdefault(int(upper), []).append(int(lower))
    gone: dict[int, int] = {}
    for upper in sorted(under, key=lambda n: rank[n]):
        go_on(should_stop)
        for lower in sorted(under[upper], key=lambda n: rank[n]):
            if lower not in gone and _lies_on(shapes, upper, lower, both=bool(closed[upper])):
                gone[upper] = lower
                break
    return _without(lines, gone), given - len(lines) + len(gone)


def _copies(lines: Sequence[Drawn]) -> dict[int, int]:
    """Return lines that are corner for corner one drawn before, with that one."""
    first: dict[tuple[Ring, bool], int] = {}
    found: dict[int, int] = {}
    for n, line in enumerate(lines):
        at = first.setdefault((line.points, line.closed), n)
        if at != n:
            found[n] = at
    return found


def _without(lines: Sequence[Drawn], gone: dict[int, int]) -> list[Drawn]:
    kept = {n: line for n, line in enumerate(lines) if n not in gone}
    for upper, lower in sorted(gone.items()):
        one, other = kept[lower], lines[upper]
        kept[lower] = replace(
            one,
            strokes=(*one.strokes, *other.strokes),
            circle=one.circle or (other.circle if other.closed else None),
            name=one.name or other.name,
            group=one.group or other.group,
        )
    return list(kept.values())


def _near_pairs(
    shapes: "NDArray[shapely.LineString]",  # type: ignore[type-var]  # shapely's own arrays
    should_stop: ShouldStop,
) -> "NDArray[int64]":
    """Return pairs of which all samples of the first lie on the second."""
    import numpy as np
    import shapely

    tree = shapely.STRtree(shapes)
    spots = [shapely.line_interpolate_point(shapes, s, normalized=True) for s in _SAMPLES]
    go_on(should_stop)
    upper, lower = tree.query(spots[0], predicate="dwithin", distance=SAME_MM)
    keep = upper != lower
    for each in spots[1:]:
        go_on(should_stop)
        upper, lower = upper[keep], lower[keep]
        keep = shapely.distance(each[upper], shapes[lower]) <= SAME_MM
    return np.stack((upper[keep], lower[keep]), axis=1)


def _lies_on(
    shapes: "NDArray[shapely.LineString]",  # type: ignore[type-var]
    upper: int,
    lower: int,
    *,
    both: bool,
) -> bool:
    """Tell whether a line lies on another all along, and where asked the other on it as well."""
    return _covers(shapes[lower], shapes[upper]) and (
        not both or _covers(shapes[upper], shapes[lower])
    )


def _covers(lower: "shapely.LineString", upper: "shapely.LineString") -> bool:
    import shapely

    corners = shapely.get_coordinates(upper)
    middles = (corners[1:] + corners[:-1]) / 2
    return all(
        bool((shapely.distance(shapely.points(spots), lower) <= SAME_MM).all())
        for spots in (corners, middles)
    )
