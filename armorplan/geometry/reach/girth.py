"""The largest girth of a shell seen from a mouth: the longest line that lies equally far from it.

Each plate is laid out in triangles; in each of them the distance from the mouth is taken as even,
so that its level lines are straight. A lap counts on one of its plates only; what is doubtful
counts twice, which makes a girth larger and what a tool needs at least smaller: the safe side.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import pi, sqrt
from typing import TYPE_CHECKING

from armorplan.geometry.reach.distances import ShellNet
from armorplan.geometry.reach.part_net import edge_spots, leather
from armorplan.geometry.reach.shells import Cut, ShellCut
from armorplan.pattern.parts import Ring

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray
    from shapely.geometry.base import BaseGeometry

    Reals = NDArray[np.float64]
    Whole = NDArray[np.int64]

_MESH_MM = 9.0
_MOST_SPOTS = 450
_LEVELS = 48
_LOOKS = 6
_SLACK_MM = 0.5
MORE = 1.01
"""Level lines are straight in each triangle, and not every level is looked at: so much they miss."""
_WAVES = (0.02, 0.04)
"""Level lines so far in, as shares of the mouth's edge, are free of its waves and scallops."""


@dataclass(frozen=True, slots=True, eq=False)
class Mesh:
    """Spots inside a part and triangles between them; ``area`` only where it is not convex."""

    spots: "Reals"
    triangles: "Whole"
    area: "BaseGeometry | None"


def mesh(ring: Ring, kept: "BaseGeometry") -> Mesh | None:
    """Return what is kept of a part in triangles of some 9 mm; ``None`` where it has no area."""
    whole = leather(ring)
    if whole is None or kept.is_empty:
        return None
    area = None if whole.convex else whole.area.buffer(_SLACK_MM, join_style="mitre")
    spots, triangles = _laid_out(kept.wkb)
    return Mesh(spots, triangles, area)


@lru_cache(maxsize=1024)
def _laid_out(kept: bytes) -> "tuple[Reals, Whole]":
    import numpy as np
    from scipy.spatial import Delaunay, QhullError
    from shapely import contains_xy, from_wkb, get_coordinates, get_parts, get_rings

    area = from_wkb(kept)
    step_mm = max(_MESH_MM, sqrt(area.area / _MOST_SPOTS))
    left, top, right, bottom = area.bounds
    xs, ys = np.meshgrid(
        np.arange(left + step_mm / 2, right, step_mm),
        np.arange(top + step_mm / 2, bottom, step_mm * 0.866),
    )
    xs[1::2] += step_mm / 2
    grid = np.column_stack([xs.ravel(), ys.ravel()])
    inner = area.buffer(-step_mm / 3)
    grid = grid[contains_xy(inner, grid[:, 0], grid[:, 1])]
    pieces = [piece for piece in get_parts(area) if piece.area > 0]
    rings = [get_coordinates(ring)[:-1].tolist() for ring in get_rings(pieces)]
    edges = [spot for ring in rings for spot in edge_spots(tuple((x, y) for x, y in ring))]
    spots = np.vstack([np.array(edges).reshape(-1, 2), grid])
    try:
        triangles = Delaunay(spots).simplices
    except (QhullError, ValueError):
        return spots, np.empty((0, 3), dtype=np.int64)
    middles = spots[triangles].mean(axis=1)
    return spots, triangles[contains_xy(area, middles[:, 0], middles[:, 1])]


def girths(
    cut: ShellCut,
    kept: "dict[str, BaseGeometry]",
    net: ShellNet,
    seen: "tuple[float, dict[str, Whole], Reals]",
) -> "Girths":
    """Return the girths of a shell from a rim.

    ``kept`` is by plate what makes up the surface once, ``seen`` the length of the rim, its spots
    by plate and the lengths from it to every spot of the net.
    """
    import numpy as np

    length_mm, rim, far = seen
    corners, heights = [], []
    for part in cut.parts:
        laid = mesh(part.ring, kept[part.part]) if part.part in kept else None
        if laid is not None and len(laid.triangles):
            height = _heights(laid, part, net, rim.get(part.part), far)
            corners.append(laid.spots[laid.triangles])
            heights.append(height[laid.triangles])
    if not corners:
        return Girths(most_mm=0.0, near_mm=())
    spots, height = np.concatenate(corners), np.concatenate(heights)
    sound = np.isfinite(height).all(axis=1)
    return _levels(spots[sound], height[sound], length_mm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Girths:
    """The longest level line in mm, and how long those are that lie just inside the mouth."""

    most_mm: float
    near_mm: tuple[float, ...]


def _heights(laid: Mesh, part: Cut, net: ShellNet, on: "Whole | None", far: "Reals") -> "Reals":
    """Return the distance from the rim at every spot of a mesh, over chords that stay inside."""
    import numpy as np
    from shapely import covers, linestrings

    held = net.nets[part.part]
    starts, before = held.inner, far[net.spots[part.part]]
    if on is not None and len(on):
        starts = np.vstack([starts, held.edge[on]])
        before = np.concatenate([before, np.zeros(len(on))])
    if not len(starts):
        return np.full(len(laid.spots), np.inf)
    ways = before[None, :] + np.hypot(
        laid.spots[:, None, 0] - starts[None, :, 0], laid.spots[:, None, 1] - starts[None, :, 1]
    )
    asked = np.arange(len(laid.spots))
    for _ in range(_LOOKS if laid.area is not None else 0):
        best = ways[asked].argmin(axis=1)
        lines = linestrings(np.stack([laid.spots[asked], starts[best]], axis=1))
        hidden = ~covers(laid.area, lines)
        asked, best = asked[hidden], best[hidden]
        ways[asked, best] = np.inf
        if not len(asked):
            break
    found: Reals = ways.min(axis=1)
    return found


def _levels(spots: "Reals", height: "Reals", rim_mm: float) -> Girths:
    import numpy as np

    if not len(spots):
        return Girths(most_mm=0.0, near_mm=())
    order = np.argsort(height, axis=1)
    height = np.take_along_axis(height, order, axis=1)
    spots = np.take_along_axis(spots, order[:, :, None], axis=1)
    low, middle, high = height.T
    rise = np.maximum(high - low, 1e-9)
    foot = spots[:, 0] + ((middle - low) / rise)[:, None] * (spots[:, 2] - spots[:, 0])
    widest = np.hypot(*(spots[:, 1] - foot).T)
    top = float(high.max())

    def length_mm(level: float) -> float:
        up = np.clip((level - low) / np.maximum(middle - low, 1e-9), 0.0, None)
        down = np.clip((high - level) / np.maximum(high - middle, 1e-9), 0.0, None)
        crossed = (level > low) & (level < high)
        return float((widest * np.minimum(np.minimum(up, down), 1.0))[crossed].sum())

    levels = [top * (step + 0.5) / _LEVELS for step in range(_LEVELS)]
    return Girths(
        most_mm=MORE * max(map(length_mm, levels)),
        near_mm=tuple(length_mm(share * rim_mm) for share in _WAVES if share * rim_mm < top / 2),
    )


def least_mm(along_mm: float, girth_mm: float, mouth_mm: float | None = None) -> float:
    """Return the least length in mm that a straight tool needs in a shell that curves outwards.

    A line over the leather from the mouth is no longer than its depth and its way out to the
    girth and back: ``along - (2G - P)/2π``. A row has no width of its own: ``P`` is 0. ``mouth_mm`` is
    that of a mouth without its waves.
    """
    return max(0.0, along_mm - (2 * girth_mm - min(mouth_mm or 0.0, girth_mm)) / (2 * pi))
