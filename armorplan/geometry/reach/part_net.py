"""Distances over the leather inside one flat part, from spots in it to spots along its edge.

Chords are straight and stay inside the outline; between two spots that do not see each other a way
leads over its reflex corners. Slots and holes are no hindrance: a tool lies over them.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, dist, isfinite
from typing import TYPE_CHECKING

from armorplan.geometry.areas import ring_length_mm
from armorplan.pattern.parts import Point, Ring

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from shapely.geometry.base import BaseGeometry

    Reals = NDArray[np.float64]

EDGE_STEP_MM = 8.0
"""Spots along an edge lie no further apart than this."""
MOST_SPOTS = 500
"""A long edge has its spots further apart, so that it has no more than about these."""
NEAR_MM = 45.0
"""To an edge nearer than this, the spot that lies square to a hole counts too."""
SMOOTH_MM = 0.25
"""An edge is straightened by no more than this."""
_SLACK_MM = 0.4
_LEAST_CORNERS = 3


@dataclass(frozen=True, slots=True, eq=False)
class PartNet:
    """Spots of a part in mm and the chords between them; infinite where one leaves the part.

    ``inner`` are the row spots as given, and then reflex corners; ``ends`` the spots of seats, as
    given; ``edge`` those along the outline.
    """

    inner: "Reals"
    ends: "Reals"
    edge: "Reals"
    across: "Reals"
    to_ends: "Reals"
    to_edge: "Reals"
    ends_to_edge: "Reals"


@dataclass(frozen=True, slots=True, eq=False)
class Leather:
    """An outline as an area: straightened a little, its reflex corners, whether it is convex."""

    area: "BaseGeometry"
    ring: Ring
    reflex: tuple[Point, ...]
    convex: bool


@lru_cache(maxsize=2048)
def leather(ring: Ring) -> Leather | None:
    """Return the area in an outline; ``None`` where it has none."""
    from shapely import LinearRing, Polygon, get_coordinates, get_parts, hausdorff_distance

    sound = tuple(spot for spot in ring if isfinite(spot[0]) and isfinite(spot[1]))
    if len(sound) < _LEAST_CORNERS or ring_length_mm(sound) <= 0:
        return None
    pieces = get_parts(Polygon(sound).buffer(0).simplify(SMOOTH_MM)).tolist()
    straight = max(pieces, key=lambda piece: piece.area, default=None)
    if straight is None or straight.area <= 0:
        return None
    outer = LinearRing(straight.exterior)
    corners = tuple((x, y) for x, y in get_coordinates(outer)[:-1].tolist())
    hull = LinearRing(straight.convex_hull.exterior)
    reflex = () if hausdorff_distance(outer, hull) < _SLACK_MM else tuple(reflex_corners(corners))
    return Leather(Polygon(outer), corners, reflex, not reflex)


def reflex_corners(ring: Ring) -> list[Point]:
    """Return the corners of an outline that point into it."""
    doubled = sum(
        a[0] * b[1] - b[0] * a[1] for a, b in zip(ring, (*ring[1:], ring[0]), strict=True)
    )
    found = []
    for before, here, after in zip(
        (ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True
    ):
        cross = (here[0] - before[0]) * (after[1] - here[1]) - (here[1] - before[1]) * (
            after[0] - here[0]
        )
        if cross * doubled < 0 and abs(cross) > 1e-3 * dist(before, here) * dist(here, after):
            found.append(here)
    return found


def edge_spots(ring: Ring, near: Sequence[Point] = ()) -> list[Point]:
    """Return spots along an outline, its corners too, and those square to spots near it."""
    step_mm = max(EDGE_STEP_MM, ring_length_mm(ring) / MOST_SPOTS)
    found: list[Point] = []
    for start, end in zip(ring, (*ring[1:], ring[0]), strict=True):
        length_mm = dist(start, end)
        if length_mm <= 0:
            continue
        count = max(1, ceil(length_mm / step_mm - 1e-9))
        shares = {step / count for step in range(count)}
        if count > 1:
            shares |= set(_square(start, end, length_mm, near))
        found += [
            (start[0] + s * (end[0] - start[0]), start[1] + s * (end[1] - start[1]))
            for s in sorted(shares)
        ]
    return found


def _square(start: Point, end: Point, length_mm: float, near: Sequence[Point]) -> list[float]:
    ux, uy = (end[0] - start[0]) / length_mm, (end[1] - start[1]) / length_mm
    found = []
    for x, y in near:
        along, off = (
            (x - start[0]) * ux + (y - start[1]) * uy,
            (x - start[0]) * uy - (y - start[1]) * ux,
        )
        if 0 < along < length_mm and abs(off) < NEAR_MM:
            found.append(round(along / length_mm, 6))
    return found


@lru_cache(maxsize=1024)
def part_net(
    ring: Ring, inner: tuple[Point, ...], ends: tuple[Point, ...], near: tuple[Point, ...]
) -> PartNet:
    """Return the net of one part: rows' spots and reflex corners, seats, and its edge.

    ``near`` are the holes to whose places the edge has a spot square to them. A part without an
    area has no edge, and all its spots see each other.
    """
    import numpy as np

    whole = leather(ring)
    rim = edge_spots(whole.ring, near) if whole else []
    transit = _spots((*inner, *(whole.reflex if whole else ())))
    seats, edge = _spots(ends), _spots(tuple(rim))
    area = (
        None if whole is None or whole.convex else whole.area.buffer(_SLACK_MM, join_style="mitre")
    )
    return PartNet(
        inner=transit,
        ends=seats,
        edge=edge,
        across=chords(area, transit, transit, twice=True),
        to_ends=chords(area, transit, seats),
        to_edge=chords(area, transit, edge).astype(np.float32),
        ends_to_edge=chords(area, seats, edge),
    )


def _spots(spots: Sequence[Point]) -> "Reals":
    import numpy as np

    return np.array(spots, dtype=float).reshape(-1, 2)


def chords(
    area: "BaseGeometry | None", one: "Reals", other: "Reals", *, twice: bool = False
) -> "Reals":
    """Return the lengths of the chords between spots in mm; infinite where one leaves the area.

    A spot that lies outside the area itself is seen from anywhere: its drawing is at fault, which
    is told elsewhere. ``twice``: both are the same spots, and each chord is looked at once.
    """
    import numpy as np
    from shapely import covers, linestrings, points, prepare

    found: Reals = np.hypot(
        one[:, None, 0] - other[None, :, 0], one[:, None, 1] - other[None, :, 1]
    )
    if area is None or not found.size:
        return found
    prepare(area)
    inside = [np.asarray(covers(area, points(each))) for each in (one, other)]
    asked = inside[0][:, None] & inside[1][None, :]
    if twice:
        asked &= np.triu(np.ones_like(asked), 1)
    rows, cols = np.nonzero(asked)
    lines = linestrings(np.stack([one[rows], other[cols]], axis=1))
    hidden = ~np.asarray(covers(area, lines))
    found[rows[hidden], cols[hidden]] = np.inf
    if twice:
        found[cols[hidden], rows[hidden]] = np.inf
    return found
