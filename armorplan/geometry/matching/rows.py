"""Rows of holes within one part: chains of like diameter and even-ish spacing, in any direction."""

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import inf
from statistics import median

import numpy as np

from armorplan.geometry.alike.closed_lines import Reals, Spots
from armorplan.geometry.areas import rectangle_mm, ring_area_mm2, ring_length_mm
from armorplan.geometry.matching.chains import (
    FURTHEST_MM,
    Chain,
    alike_groups,
    chains,
    far_pairs,
)
from armorplan.geometry.widths import STRAP_SHAPE
from armorplan.kernel.stopping import ShouldStop, go_on, never
from armorplan.pattern.parts import Hole, Part

_PAIRED = 2
_FEWEST = 3
_AMID = 0.35
_ALL_ALONG = 0.6
_EVEN = 1.06
_ENDS = 0.55
"""Two holes at the two ends of a part lie so much of its length apart."""
_HAIR = 1e-6
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
        apart: whether it stands for itself: of two holes, each is nearer to the other than to any third.
        strap: the part is long and narrow.
        ends: they are two holes at two ends of a part that is no strap, as pivots are.
        set_row: they may be the holes of a strap that a buckle's tongue goes through.
    """

    at: int
    part: str
    holes: tuple[str, ...]
    spots: Spots
    diameter_mm: float
    edge_mm: Reals
    lean: complex = 0.0
    apart: bool = True
    strap: bool = False
    ends: bool = False
    set_row: bool = False

    @cached_property
    def spans_mm(self) -> Reals:
        """The spacings, neighbour by neighbour."""
        return np.abs(np.diff(self.spots))

    @cached_property
    def dots(self) -> tuple[complex, ...]:
        """The same centres one by one."""
        return tuple(self.spots.tolist())

    @cached_property
    def follows_edge(self) -> bool:
        """Tell whether all its holes lie as far from the edge, and near it."""
        return _follows_edge(self.edge_mm)


def rows_of(
    at: int, part: Part, taken: Collection[str] = (), should_stop: ShouldStop = never
) -> tuple[Row, ...]:
    """Return the rows of a part, longest first; a hole may lie in several of them.

    Args:
        at: number of the part among those looked at.
        part: a part with its holes; those that slide are left out.
        taken: ids of holes that are spoken for.
        should_stop: asked now and then.

    Raises:
        StoppedError: it was asked to stop.
    """
    free = [hole for hole in part.holes if not hole.travel_mm and hole.id not in taken]
    if len(free) < _PAIRED:
        return ()
    dots = [complex(*hole.centre) for hole in free]
    spots = np.array(dots)
    sizes = np.array([hole.diameter_mm for hole in free])
    ground = _Ground(part, spots)
    found: dict[Chain, bool] = {}
    for group in alike_groups(sizes):
        go_on(should_stop)
        for chain, apart in chains(group, dots):
            key = min(chain, chain[::-1])
            found[key] = apart or found.get(key, False)
        if ground.is_strap():
            found |= dict.fromkeys(ground.strap_ends(group), True)
        else:
            least_mm = max(_ENDS * ground.sides_mm[0], FURTHEST_MM / 2)
            found |= dict.fromkeys(far_pairs(group, dots, least_mm), True)
    made = [_row(at, part, free, chain, ground, apart=apart) for chain, apart in found.items()]
    set_holes = {hole for row in made if row.set_row for hole in row.holes}
    if set_holes:
        made = [replace(row, set_row=set_holes.issuperset(row.holes)) for row in made]
    return tuple(sorted(made, key=lambda row: (-len(row.holes), row.holes)))


def row_through(at: int, part: Part, holes: Sequence[str]) -> Row:
    """Return holes of a part, in the order given, as a row that stands for itself."""
    free = list(part.holes)
    numbers = {hole.id: number for number, hole in enumerate(free)}
    ground = _Ground(part, np.array([complex(*hole.centre) for hole in free]))
    return _row(at, part, free, tuple(numbers[each] for each in holes), ground)


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

    def are_ends(self, where: list[int]) -> bool:
        """Tell whether two holes lie at two ends of a part that is no strap."""
        if len(where) != _PAIRED or self.is_strap():
            return False
        return bool(abs(self.spots[where[0]] - self.spots[where[1]]) >= _ENDS * self.sides_mm[0])

    def strap_ends(self, group: Sequence[int]) -> list[Chain]:
        """Return the two outermost holes at either end of a strap: there it is riveted."""
        far = self.spots[list(group)] - self.middle
        way = far[int(np.abs(far).argmax())]
        along = (far * way.conjugate()).real
        order = [group[at] for at in np.argsort(along, kind="stable").tolist()]
        ends = (order[:_PAIRED], order[-_PAIRED:])
        near = [end for end in ends if abs(self.spots[end[0]] - self.spots[end[1]]) <= FURTHEST_MM]
        return [(min(end), max(end)) for end in near]

    def is_amid(self, where: list[int]) -> bool:
        """Tell whether holes lie in the middle of a strip, as far from both its edges."""
        far = np.abs(self.outward[where])
        return self.flat and bool((far >= self.width_mm * _AMID).all())

    def is_set_row(self, where: list[int]) -> bool:
        """Tell whether holes may be those a buckle's tongue goes through: a part of a strap's middle."""
        if len(where) < _FEWEST or not self.is_strap() or not self.is_amid(where):
            return False
        spans = np.abs(np.diff(self.spots[where]))
        return bool(spans.max() <= _EVEN * spans.min()) and bool(
            abs(self.spots[where[-1]] - self.spots[where[0]]) < _ALL_ALONG * self.sides_mm[0]
        )

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
    at: int,
    part: Part,
    free: Sequence[Hole],
    chain: Chain,
    ground: _Ground,
    *,
    apart: bool = True,
) -> Row:
    where = list(chain)
    edge_mm = np.abs(ground.outward[where])
    return Row(
        at=at,
        part=part.id,
        holes=tuple(free[i].id for i in chain),
        spots=ground.spots[where],
        diameter_mm=median(free[i].diameter_mm for i in chain),
        edge_mm=edge_mm,
        lean=ground.lean(where, on_edge=_follows_edge(edge_mm)),
        strap=ground.is_strap(),
        apart=apart,
        ends=ground.are_ends(where),
        set_row=ground.is_set_row(where),
    )


def _follows_edge(edge_mm: Reals) -> bool:
    if len(edge_mm) < _FEWEST or edge_mm.max() > _EDGE_NEAR_MM:
        return False
    return bool(edge_mm.max() - edge_mm.min() <= _EDGE_EVEN_MM)
