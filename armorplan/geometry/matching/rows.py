"""Rows of holes within one part: chains of like diameter and even-ish spacing, in any direction."""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations, pairwise
from math import inf, pi
from statistics import median

import numpy as np

from armorplan.geometry.alike.closed_lines import Reals, Spots
from armorplan.geometry.areas import rectangle_mm, ring_area_mm2, ring_length_mm
from armorplan.geometry.widths import STRAP_SHAPE
from armorplan.pattern.parts import Hole, Part

LIKE_MM = 0.6
"""Holes for one fastener differ by no more than this: half a millimetre between two punches of a
set, and what a drawing rounds (common practice, no source)."""
FURTHEST_MM = 80.0
"""Rivets of a row stand no farther apart; two holes farther apart are a pair, not a row."""
_NEIGHBOURS = 8
_TURN_DEG = 50.0
_UNEVEN = 1.8
"""A spacing may be so many times the one before it."""
_BREAK = 1.15
"""Where spacings change by more, a row may end and the next begin."""
_PAIR = 1.1
"""Two holes are a pair where every other is so many times farther off."""
_PAIRED = 2
_FEWEST = 3
_HAIR = 1e-6
_AMID = 0.35
_ALL_ALONG = 0.6
_EDGE_EVEN_MM = 2.0
_EDGE_NEAR_MM = 16.0


@dataclass(frozen=True, kw_only=True)
class Row:
    """Holes of one part in their order along a row.

    Attributes:
        at: number of the part among those looked at.
        part: its id.
        holes: ids of its holes.
        spots: their centres in mm, as complex numbers.
        diameter_mm: the middle one of their diameters.
        edge_mm: how far each hole's centre lies from the part's outline.
        lean: a vector from the row into the leather: of length 1 where the row follows an edge, else
            towards the part's middle, as a share of half its extent.
        alone: no other hole of like diameter lies in the part.
        apart: whether it stands for itself: of two holes, each is nearer to the other than to any third.
        strap: the part is long and narrow.
        set_row: they may be the holes of a strap that a buckle's tongue goes through.
    """

    at: int
    part: str
    holes: tuple[str, ...]
    spots: Spots
    diameter_mm: float
    edge_mm: Reals
    lean: complex = 0.0
    alone: bool = False
    apart: bool = True
    strap: bool = False
    set_row: bool = False

    @cached_property
    def spans_mm(self) -> Reals:
        """The spacings, neighbour by neighbour."""
        return np.abs(np.diff(self.spots))

    @property
    def follows_edge(self) -> bool:
        """Tell whether all its holes lie as far from the edge, and near it."""
        return _follows_edge(self.edge_mm)


def rows_of(at: int, part: Part, taken: Collection[str] = ()) -> tuple[Row, ...]:
    """Return the rows of a part, longest first; a hole may lie in several of them.

    Args:
        at: number of the part among those looked at.
        part: a part with its holes; those that slide are left out.
        taken: ids of holes that are spoken for.
    """
    free = [hole for hole in part.holes if not hole.travel_mm and hole.id not in taken]
    if len(free) < _PAIRED:
        return ()
    spots = np.array([complex(*hole.centre) for hole in free])
    sizes = np.array([hole.diameter_mm for hole in free])
    ground = _Ground(part, spots)
    found: dict[tuple[int, ...], bool] = {}
    for group in _alike(sizes):
        for chain, apart in _chains(group, spots):
            key = min(chain, chain[::-1])
            found[key] = apart or found.get(key, False)
    made = [
        replace(_row(at, part, free, chain, ground), apart=apart) for chain, apart in found.items()
    ]
    return tuple(sorted(made, key=lambda row: (-len(row.holes), row.holes)))


class _Ground:
    """Where the holes of one part lie in it."""

    def __init__(self, part: Part, spots: Spots) -> None:
        import shapely

        self.spots = spots
        self.flat = ring_area_mm2(part.outline) > 0
        self.sides_mm = rectangle_mm(part.outline) if self.flat else (0.0, 0.0)
        edge_mm = ring_length_mm(part.outline)
        self.width_mm = 2 * ring_area_mm2(part.outline) / edge_mm if self.flat else 0.0
        self.outward: Spots = np.full(len(spots), complex(inf, 0.0))
        self.middle = complex(spots.mean())
        if self.flat:
            ring = shapely.LinearRing(part.outline)
            dots = shapely.points(np.column_stack((spots.real, spots.imag)))
            near = shapely.line_interpolate_point(ring, shapely.line_locate_point(ring, dots))
            self.outward = shapely.get_x(near) + 1j * shapely.get_y(near) - spots
            middle = shapely.Polygon(part.outline).centroid
            self.middle = complex(middle.x, middle.y)

    def is_strap(self) -> bool:
        """Tell whether the part is long and narrow."""
        return self.flat and self.sides_mm[0] >= STRAP_SHAPE * self.sides_mm[1]

    def is_amid(self, where: list[int]) -> bool:
        """Tell whether holes lie in the middle of a strip, as far from both its edges."""
        far = np.abs(self.outward[where])
        return self.flat and bool((far >= self.width_mm * _AMID).all())

    def is_set_row(self, where: list[int]) -> bool:
        """Tell whether holes may be those a buckle's tongue goes through: a part of a strap's middle."""
        if len(where) < _FEWEST or not self.is_strap() or not self.is_amid(where):
            return False
        return bool(abs(self.spots[where[-1]] - self.spots[where[0]]) < _ALL_ALONG * self.sides_mm[0])

    def lean(self, where: list[int], *, on_edge: bool) -> complex:
        """Return which way leather lies from the holes."""
        if not self.flat or (self.is_amid(where) and len(where) >= _FEWEST):
            return 0.0
        if on_edge:
            out = complex(self.outward[where].mean())
            return -out / abs(out) if abs(out) > _HAIR else 0.0
        way = (self.middle - complex(self.spots[where].mean())) / (self.sides_mm[0] / 2)
        return way if abs(way) <= 1 else way / abs(way)


def _row(
    at: int, part: Part, free: Sequence[Hole], chain: tuple[int, ...], ground: _Ground
) -> Row:
    sizes = [free[i].diameter_mm for i in chain]
    like = sum(abs(hole.diameter_mm - median(sizes)) <= LIKE_MM for hole in free)
    where = list(chain)
    edge_mm = np.abs(ground.outward[where])
    return Row(
        at=at,
        part=part.id,
        holes=tuple(free[i].id for i in chain),
        spots=ground.spots[where],
        diameter_mm=median(sizes),
        edge_mm=edge_mm,
        lean=ground.lean(where, on_edge=_follows_edge(edge_mm)),
        alone=like == len(chain),
        strap=ground.is_strap(),
        set_row=ground.is_set_row(where),
    )


def _follows_edge(edge_mm: Reals) -> bool:
    even = edge_mm.max() - edge_mm.min() <= _EDGE_EVEN_MM
    return len(edge_mm) >= _FEWEST and bool(even and edge_mm.max() <= _EDGE_NEAR_MM)


def _alike(sizes: Reals) -> Iterator[list[int]]:
    """Yield groups of holes of like size: nearly the same ones, then all within ``LIKE_MM``."""
    order = np.argsort(sizes, kind="stable")
    rising = sizes[order]
    for within_mm in (LIKE_MM / 4, LIKE_MM):
        until = np.searchsorted(rising, rising + within_mm + _HAIR, "right")
        for first, end in enumerate(until.tolist()):
            if end - first > 1 and (first == 0 or until[first - 1] < end):
                yield sorted(order[first:end].tolist())


def _chains(group: Sequence[int], spots: Spots) -> Iterator[tuple[tuple[int, ...], bool]]:
    """Yield chains of neighbours that run on without a sharp turn, and the even stretches of them.

    Any two holes are one too; whether it stands for itself is told beside each.
    """
    for one, other in combinations(group, 2):
        if _HAIR < abs(spots[one] - spots[other]) <= FURTHEST_MM:
            yield (one, other), _keeps_apart(one, other, group, spots)
    nexts: dict[int, list[int]] = {}
    for one, other in _steps(spots[list(group)]):
        nexts.setdefault(group[one], []).append(group[other])
    for one, others in nexts.items():
        for other in others:
            ahead = _onward([one, other], nexts, spots)
            whole = tuple(_onward(ahead[::-1], nexts, spots))
            if len(whole) >= _FEWEST:
                yield whole, True
                yield from ((stretch, True) for stretch in _stretches(whole, spots))


def _keeps_apart(one: int, other: int, group: Sequence[int], spots: Spots) -> bool:
    span = abs(spots[one] - spots[other])
    rest = [i for i in group if i not in (one, other)]
    near = [abs(spots[i] - spots[end]) for i in rest for end in (one, other)]
    return not near or min(near) >= _PAIR * span


def _steps(spots: Spots) -> list[tuple[int, int]]:
    """Return pairs of holes with no hole between them (relative neighbours, Toussaint 1980)."""
    from scipy.spatial import cKDTree

    flat = np.column_stack((spots.real, spots.imag))
    near = min(_NEIGHBOURS + 1, len(spots))
    far_mm, who = (np.asarray(each) for each in cKDTree(flat).query(flat, k=near))
    found = []
    for one in range(len(spots)):
        for far, other in zip(far_mm[one][1:], who[one][1:], strict=True):
            if far > FURTHEST_MM or other == one or far == 0:
                continue
            between = np.abs(spots[who[one]] - spots[other]) < far - _HAIR
            if not (between & (far_mm[one] < far - _HAIR) & (who[one] != one)).any():
                found.append((one, int(other)))
    return found


def _onward(chain: list[int], nexts: dict[int, list[int]], spots: Spots) -> list[int]:
    """Return a chain gone on from its end, each time to the hole that lies straightest ahead."""
    chain = list(chain)
    while True:
        way = spots[chain[-1]] - spots[chain[-2]]
        best, straight = None, _TURN_DEG / 180 * pi
        for other in nexts.get(chain[-1], ()):
            step = spots[other] - spots[chain[-1]]
            ratio = abs(step) / abs(way)
            turn = abs(float(np.angle(step / way)))
            if other not in chain and 1 / _UNEVEN <= ratio <= _UNEVEN and turn <= straight:
                best, straight = other, turn
        if best is None:
            return chain
        chain.append(best)


def _stretches(chain: tuple[int, ...], spots: Spots) -> Iterator[tuple[int, ...]]:
    """Yield the even stretches of a chain whose spacing changes underway."""
    spans = np.abs(np.diff(spots[list(chain)]))
    breaks = [
        at + 1
        for at, (a, b) in enumerate(pairwise(spans.tolist()))
        if max(a, b) > _BREAK * min(a, b)
    ]
    for start, end in pairwise((0, *breaks, len(chain) - 1)):
        if end - start >= _FEWEST - 1 and end - start < len(chain) - 1:
            yield chain[start : end + 1]
