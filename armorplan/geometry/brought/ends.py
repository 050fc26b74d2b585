"""Which open ends meet: pairs within the tolerance, the exact ones first, then the nearest.

Where three or more meet, what leads nowhere else comes last, then what lies on another layer or
has another colour, then what turns off: a line of engraving that ends on an outline must not
open it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from armorplan.geometry.brought.lines import Drawn
from armorplan.pattern.parts import Point

if TYPE_CHECKING:
    from numpy import bool_, float64, int64
    from numpy.typing import NDArray

    Numbers = NDArray[float64]
    Whole = NDArray[int64]

EXACT_MM = 0.01
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


def meeting(lines: Sequence[Drawn], tolerance_mm: float) -> Met:
    """Return how the ends of open lines meet."""
    import numpy as np
    from scipy.spatial import cKDTree

    ends = np.array([spot for line in lines for spot in (line.points[0], line.points[-1])])
    if not len(ends):
        return Met(partner={}, apart_mm={}, junctions=())
    pairs = cKDTree(ends).query_pairs(tolerance_mm, output_type="ndarray")
    pairs = pairs[_may_meet(pairs, lines, tolerance_mm)]
    apart = np.hypot(*(ends[pairs[:, 0]] - ends[pairs[:, 1]]).T)
    meets = _clusters(pairs, len(ends))
    through = _leads_on(meets, len(lines))
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
    partner: dict[int, int] = {}
    gap: dict[int, float] = {}
    for at in order:
        a, b = int(pairs[at, 0]), int(pairs[at, 1])
        if a not in partner and b not in partner:
            partner[a], partner[b] = b, a
            gap[a] = gap[b] = float(apart[at])
    return Met(partner=partner, apart_mm=gap, junctions=tuple(_junctions(meets, ends)))


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

    left = np.ones(count, dtype=bool)
    begin, end = meets[0::2], meets[1::2]
    while True:
        met = np.bincount(np.concatenate((begin[left], end[left])), minlength=int(meets.max()) + 1)
        still = left & (met[begin] > 1) & (met[end] > 1)
        if (still == left).all():
            return left
        left = still


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
