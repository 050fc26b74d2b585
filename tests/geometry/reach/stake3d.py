"""A rigid stake in three dimensions, reckoned apart from the net of flat leather.

A straight thin rod comes from outside through a mouth and touches a spot on the inner wall. What
lies inside of it is the stretch from the mouth to the spot; none of it may cross the wall. Mouth
spots are sampled, the stretch to each is held against the wall, and the shortest that passes is
sought again more finely. Plain analytic geometry; lengths in mm.

Walls: a ``Turned`` wall has round cross-sections, or those of a polygon (a cup of gores: each gore
bends only across its middle line, so its flat shape is exact), over a meridian; a ``Rolled`` wall
is a part of a cylinder. The mouth of a turned wall lies in the plane z = 0.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, inf, pi, sin

import numpy as np

GRID = 33
FINER = 7
STRETCH = 40
TOUCH_MM = 0.02
ROUND_SIDES = 180


@dataclass(frozen=True, slots=True, kw_only=True)
class Turned:
    """Round the z axis; ``far_mm`` is how far its wall (a gore's middle) lies from it at each z.

    Attributes:
        s_mm, far_mm, z_mm: along the meridian from the mouth: its length, distance, depth.
        sides: of a polygon: how many gores; 0: round.
        shut: a flat lid closes its deep end.
    """

    s_mm: np.ndarray
    far_mm: np.ndarray
    z_mm: np.ndarray
    sides: int = 0
    shut: bool = False

    @property
    def depth_mm(self) -> float:
        return float(self.z_mm[-1])

    def far_at(self, s_mm: float) -> float:
        return float(np.interp(s_mm, self.s_mm, self.far_mm))

    def depth_at(self, s_mm: float) -> float:
        return float(np.interp(s_mm, self.s_mm, self.z_mm))

    def holds(self, spots: np.ndarray, clear_mm: float = 0.0) -> np.ndarray:
        """Tell of spots (…, 3) whether they lie in the hollow, so far from its wall at least."""
        x, y, z = spots[..., 0], spots[..., 1], spots[..., 2]
        far = np.interp(z, self.z_mm, self.far_mm) - clear_mm + TOUCH_MM
        deep = self.depth_mm - (clear_mm if self.shut else 0.0) + TOUCH_MM
        return (self._out(x, y) <= far) & (z <= deep) & (z >= -TOUCH_MM)

    def _out(self, x: np.ndarray, y: np.ndarray) -> np.ndarray:
        if not self.sides:
            return np.hypot(x, y)
        turns = [2 * pi * k / self.sides for k in range(self.sides)]
        return np.max([x * cos(t) + y * sin(t) for t in turns], axis=0)

    def mouths(self) -> dict[str, tuple[np.ndarray, ...]]:
        """Return the flat faces of each mouth by name, each as its corners."""
        near = {"mouth": (self._ring(0),)}
        return near if self.shut else near | {"far": (self._ring(-1),)}

    def _ring(self, at: int) -> np.ndarray:
        sides = self.sides or ROUND_SIDES
        half = pi / sides
        far = self.far_mm[at] / (cos(half) if self.sides else 1.0)
        turns = [(2 * k + 1) * half for k in range(sides)]
        return np.array([(far * cos(t), far * sin(t), self.z_mm[at]) for t in turns])


@dataclass(frozen=True, slots=True, kw_only=True)
class Rolled:
    """A part of a cylinder about the z axis, open along one side: its middle lies at angle 0."""

    radius_mm: float
    angle: float
    long_mm: float

    def holds(self, spots: np.ndarray, clear_mm: float = 0.0) -> np.ndarray:
        """Tell of spots whether they lie between the wall and the flat faces over its edges."""
        x, y, z = spots[..., 0], spots[..., 1], spots[..., 2]
        inside = np.hypot(x, y) <= self.radius_mm - clear_mm + TOUCH_MM
        behind = x >= self.radius_mm * cos(self.angle / 2) - TOUCH_MM
        return inside & behind & (z >= -TOUCH_MM) & (z <= self.long_mm + TOUCH_MM)

    def mouths(self) -> dict[str, tuple[np.ndarray, ...]]:
        """One mouth of three faces: over the long edges, and both ends."""
        turns = np.linspace(-self.angle / 2, self.angle / 2, ROUND_SIDES)
        x, y = self.radius_mm * np.cos(turns), self.radius_mm * np.sin(turns)
        ends = [np.stack([x, y, np.full_like(x, z)], axis=1) for z in (0.0, self.long_mm)]
        front = np.array([ends[0][0], ends[0][-1], ends[1][-1], ends[1][0]])
        return {"mouth": (front, *ends)}


Wall = Turned | Rolled


def mouth_at(wall: Wall, z_mm: float) -> str:
    """Return the mouth that lies nearest a depth."""
    far = "far" in wall.mouths() and isinstance(wall, Turned) and z_mm > wall.depth_mm / 2
    return "far" if far else "mouth"


def straight_mm(
    wall: Wall, faces: tuple[np.ndarray, ...], spot: np.ndarray, clear_mm: float = 0.0
) -> float:
    """Return the shortest inside length of a straight rod to a spot; inf where none gets there."""
    return min(_through(wall, face, spot, clear_mm) for face in faces)


def _through(wall: Wall, face: np.ndarray, spot: np.ndarray, clear_mm: float) -> float:
    middle = face.mean(axis=0)
    one = face[0] - middle
    one = one / np.linalg.norm(one)
    up = np.cross(face[1] - face[0], middle - face[0])
    other = np.cross(up / np.linalg.norm(up), one)
    flat = np.stack([(face - middle) @ one, (face - middle) @ other], axis=1)
    low, high = flat.min(axis=0), flat.max(axis=0)
    best, at = inf, None
    tries = np.concatenate([_grid(low, high), flat, _edges(flat), _foot(spot, middle, one, other)])
    for _ in range(FINER):
        tries = tries[_within(flat, tries)]
        spots = middle + tries[:, :1] * one + tries[:, 1:] * other
        found, place = _nearest(wall, spots, spot, clear_mm)
        if found < best:
            best, at = found, tries[place]
        if at is None:
            return inf
        step = (high - low) / GRID
        low, high = at - step, at + step
        tries = _grid(low, high)
    return best


def _foot(spot, middle, one, other) -> np.ndarray:
    return np.array([[(spot - middle) @ one, (spot - middle) @ other]])


def _grid(low: np.ndarray, high: np.ndarray) -> np.ndarray:
    across, along = (np.linspace(low[k], high[k], GRID) for k in (0, 1))
    return np.stack(np.meshgrid(across, along), axis=-1).reshape(-1, 2)


def _edges(flat: np.ndarray) -> np.ndarray:
    """Return spots along the outline of a face."""
    nexts = np.roll(flat, -1, axis=0)
    shares = np.linspace(0, 1, max(2, 400 // len(flat)), endpoint=False)
    return np.concatenate([flat + share * (nexts - flat) for share in shares])


def _within(flat: np.ndarray, tries: np.ndarray) -> np.ndarray:
    """Tell which tries lie in a convex face, its edge too."""
    ways = np.roll(flat, -1, axis=0) - flat
    ways = ways / np.linalg.norm(ways, axis=1, keepdims=True)
    off = tries[:, None, :] - flat[None]
    sides = ways[:, 0] * off[..., 1] - ways[:, 1] * off[..., 0]
    return np.all(sides >= -1e-6, axis=1) | np.all(sides <= 1e-6, axis=1)


def _nearest(wall: Wall, spots: np.ndarray, spot: np.ndarray, clear_mm: float):
    """Return the length and the number of the nearest mouth spot with a free way to the spot."""
    lengths = np.linalg.norm(spots - spot, axis=1)
    order = np.argsort(lengths)
    shares = np.linspace(0, 1, STRETCH)[1:-1, None]
    for chunk in np.array_split(order, max(1, len(order) // 64)):
        ways = spot + shares[None] * (spots[chunk] - spot)[:, None, :]
        free = wall.holds(ways) if not clear_mm else _clear(wall, ways, spot, clear_mm)
        passing = np.flatnonzero(np.all(free, axis=1))
        if len(passing):
            return float(lengths[chunk[passing[0]]]), chunk[passing[0]]
    return inf, 0


def _clear(wall: Wall, ways: np.ndarray, spot: np.ndarray, clear_mm: float) -> np.ndarray:
    """A thick rod is pointed: within four of its radii from the spot only its axis counts."""
    tip = np.linalg.norm(ways - spot, axis=-1) <= 4 * clear_mm
    return np.where(tip, wall.holds(ways), wall.holds(ways, clear_mm))
