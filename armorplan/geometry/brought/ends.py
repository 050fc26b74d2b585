"""Which open ends meet: pairs within the tolerance, the exact ones first, then the nearest.

Where three or more meet, what leads nowhere else comes last, then what lies on another layer or
has another colour, then what turns off: a line of engraving that ends on an outline must not
open it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn
from armorplan.geometry.brought.near import too_dense
from armorplan.kernel.stopping import ShouldStop, go_on
from armorplan.pattern.parts import Point

if TYPE_CHECKING:
    from numpy import bool_, float64, int64
    from numpy.typing import NDArray

    Numbers = NDArray[float64]
    Whole = NDArray[int64]

EXACT_MM = 0.01
MANY = 50
"""So many ends in one point are rays; which of them belong together nobody could tell."""
MAX_PAIRS = 3_000_000
_JUNCTION = 3
_LONG = 3.0
"""A line shorter than this many tolerances is not bent back upon itself."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Met:
    """Ends that meet. End ``2n`` is where line n begins, ``2n + 1`` where it ends.

    ``partner`` gives each end that with which it is joined, ``apart_mm`` how far they are apart;
    ``junctions`` are places where three or more meet.
    """

    partner: dict[int, int]
    apart_mm: dict[int, float]
    junctions: tuple[Point, ...]


def meeting(lines: Sequence[Drawn], tolerance_mm: float, should_stop: ShouldStop) -> Met:
    """Return how the ends of open lines meet.

    Where very many meet in one point, as rays do, none of them is joined there.

    Raises:
        UnreadableError: too many ends lie within the tolerance of one another.
    """
    import numpy as np
    from scipy.spatial import cKDTree

    ends = np.array([spot for line in lines for spot in (line.points[0], line.points[-1])])
    if not len(ends):
        return Met(partner={}, apart_mm={}, junctions=())
    few = np.flatnonzero(_few_meet(ends))
    tree = cKDTree(ends[few])
    if tree.count_neighbors(tree, tolerance_mm) > MAX_PAIRS:
        raise too_dense("ends of lines")
    go_on(should_stop)
    pairs = few[tree.query_pairs(tolerance_mm, output_type="ndarray")]
    pairs = pairs[_may_meet(pairs, lines, tolerance_mm)]
    apart = np.hypot(*(ends[pairs[:, 0]] - ends[pairs[:, 1]]).T)
    meets = _clusters(pairs, len(ends))
    through = _leads_on(meets, len(lines))
    go_on(should_stop)
    looks = _looks(lines)
    one, other = pairs[:, 0] // 2, pairs[:, 1] // 2
    order = np.lexsort(
        (
            pairs[:, 1],
            pairs[:, 0],
            np.round(_turns(pairs, _headings(lines)), 3),
            np.round(apart, 3),
            looks[one] != looks[other],
            ~(through[one] & through[other]),
            apart > EXACT_MM,
        )
    )
    go_on(should_stop)
    partner: dict[int, int] = {}
    gap: dict[int, float] = {}
    for at in order:
        a, b = int(pairs[at, 0]), int(pairs[at, 1])
        if a not in partner and b not in partner:
            partner[a], partner[b] = b, a
            gap[a] = gap[b] = float(apart[at])
    return Met(partner=partner, apart_mm=gap, junctions=tuple(_junctions(meets, ends)))


def _few_meet(ends: "Numbers") -> "NDArray[bool_]":
    """Tell of each end whether not more than a few lie in its very place."""
    import numpy as np

    cells = np.round(ends / EXACT_MM)
    _, cell, counts = np.unique(cells, axis=0, return_inverse=True, return_counts=True)
    return np.asarray(counts[cell] <= MANY, dtype=bool)


def _may_meet(pairs: "Whole", lines: Sequence[Drawn], tolerance_mm: float) -> "Whole":
    """Return which pairs may be joined: all but the two ends of one short line."""
    import numpy as np
    import shapely

    from armorplan.geometry.brought.lines import as_lines

    own = pairs[:, 0] // 2 == pairs[:, 1] // 2
    if not own.any():
        return np.flatnonzero(~own)
    asked = np.flatnonzero(own)
    lengths = shapely.length(as_lines([lines[pairs[n, 0] // 2] for n in asked]))
    own[asked[lengths > _LONG * tolerance_mm]] = False
    return np.flatnonzero(~own)


def _clusters(pairs: "Whole", count: int) -> "Whole":
    """Return for each end the number of the place where it meets others."""
    import numpy as np
    from scipy.sparse import coo_array
    from scipy.sparse.csgraph import connected_components

    links = coo_array((np.ones(len(pairs)), (pairs[:, 0], pairs[:, 1])), shape=(count, count))
    return connected_components(links, directed=False)[1].astype(int)


def _leads_on(meets: "Whole", count: int) -> "NDArray[bool_]":
    """Tell of each line whether both its ends lead on, ever on, or round."""
    import numpy as np

    at = meets.tolist()
    by_place: dict[int, list[int]] = {}
    for end, place in enumerate(at):
        by_place.setdefault(place, []).append(end)
    left = {place: len(ends) for place, ends in by_place.items()}
    on = [True] * count
    waiting = [ends[0] for ends in by_place.values() if len(ends) == 1]
    while waiting:
        line = waiting.pop() // 2
        if not on[line]:
            continue
        on[line] = False
        for place in at[2 * line : 2 * line + 2]:
            left[place] -= 1
            if left[place] == 1:
                waiting += [end for end in by_place[place] if on[end // 2]]
    return np.array(on, dtype=bool)


def _looks(lines: Sequence[Drawn]) -> "Whole":
    import numpy as np

    known: dict[tuple[str, str], int] = {}
    return np.array([known.setdefault((each.layer, each.colour), len(known)) for each in lines])


def _headings(lines: Sequence[Drawn]) -> "Numbers":
    """Return the direction in which each end leaves its line."""
    import numpy as np

    ways = []
    for line in lines:
        (x0, y0), (x1, y1) = line.points[1], line.points[0]
        ways.append((x1 - x0, y1 - y0))
        (x0, y0), (x1, y1) = line.points[-2], line.points[-1]
        ways.append((x1 - x0, y1 - y0))
    found = np.array(ways)
    length = np.hypot(*found.T)
    return found / np.where(length > 0, length, 1.0)[:, None]


def _turns(pairs: "Whole", headings: "Numbers") -> "Numbers":
    """Return how much the way turns at each pair: 0 straight on, 2 back."""
    import numpy as np

    one, other = headings[pairs[:, 0]], headings[pairs[:, 1]]
    return np.asarray(1 + np.einsum("ij,ij->i", one, other), dtype=float)


def _junctions(meets: "Whole", ends: "Numbers") -> Iterator[Point]:
    import numpy as np

    count = np.bincount(meets)
    first = np.full(len(count), len(meets))
    np.minimum.at(first, meets, np.arange(len(meets)))
    for n in np.flatnonzero(count >= _JUNCTION):
        x, y = ends[first[n]]
        yield float(x), float(y)
