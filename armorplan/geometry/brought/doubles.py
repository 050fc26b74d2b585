"""Lines that lie on others: drawn twice, turned round, or laid in pieces over a closed one."""

from collections.abc import Sequence
from dataclasses import replace
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn, as_lines
from armorplan.geometry.brought.near import SAME_MM, Nearby
from armorplan.geometry.brought.straights import straightened, taken_over
from armorplan.kernel.stopping import ShouldStop, go_on
from armorplan.pattern.parts import Ring

if TYPE_CHECKING:
    import shapely
    from numpy.typing import NDArray

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
    copies = given - len(lines)
    lines, cut_back = straightened(lines, should_stop)
    if len(lines) < 2:  # noqa: PLR2004
        return lines, copies + cut_back
    shapes = np.array(as_lines(lines))
    lengths = shapely.length(shapes)
    closed = np.array([line.closed for line in lines])
    # What is preferred comes first; lengths are compared to 0.1 mm.
    ranks = np.lexsort((np.arange(len(lines)), -np.round(lengths, 1), ~closed))
    rank = np.empty(len(lines), dtype=int)
    rank[ranks] = np.arange(len(lines))
    under: dict[int, list[int]] = {}
    for upper, lower in _near_pairs(shapes, lines, should_stop):
        if rank[lower] < rank[upper] and (not closed[upper] or closed[lower]):
            under.setdefault(upper, []).append(lower)
    gone: dict[int, int] = {}
    for upper in sorted(under, key=lambda n: rank[n]):
        go_on(should_stop)
        for lower in sorted(under[upper], key=lambda n: rank[n]):
            if lower not in gone and _lies_on(shapes, upper, lower, both=bool(closed[upper])):
                gone[upper] = lower
                break
    return _without(lines, gone), copies + cut_back + len(gone)


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
    """Return the lines without some, each of which another takes over, or takes in turn."""
    heirs: dict[int, list[Drawn]] = {}
    for upper in sorted(gone):
        lower = gone[upper]
        while lower in gone:
            lower = gone[lower]
        heirs.setdefault(lower, []).append(lines[upper])
    kept = []
    for n, line in enumerate(lines):
        if n not in gone:
            circles = (line.circle, *(each.circle for each in heirs.get(n, ()) if each.closed))
            circle = next((each for each in circles if each), None)
            kept.append(replace(taken_over(line, heirs[n]), circle=circle) if n in heirs else line)
    return kept


def _near_pairs(
    shapes: "NDArray[shapely.LineString]",  # type: ignore[type-var]  # shapely's own arrays
    lines: Sequence[Drawn],
    should_stop: ShouldStop,
) -> list[tuple[int, int]]:
    """Return pairs of which all samples of the first lie on the second."""
    import numpy as np
    import shapely

    nearby = Nearby(lines, should_stop)
    own = np.arange(len(lines))
    both = np.empty(0, dtype=int)
    for n, share in enumerate(_SAMPLES):
        spots = shapely.line_interpolate_point(shapes[own], share, normalized=True)
        at, lower = nearby.near(shapely.get_coordinates(spots), own)
        keys = own[at] * len(lines) + lower
        both = np.intersect1d(both, keys) if n else np.unique(keys)
        own = np.unique(both // len(lines))
    return list(zip((both // len(lines)).tolist(), (both % len(lines)).tolist(), strict=True))


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
    shapely.prepare(lower)
    return all(
        bool(shapely.dwithin(lower, shapely.points(spots), SAME_MM).all())
        for spots in (corners, middles)
    )
