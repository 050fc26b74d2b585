"""The holes and slots of a part, to be compared with those of another of the same outline."""

import numpy as np
from numpy.typing import NDArray

from armorplan.geometry.alike.closed_lines import Spots
from armorplan.geometry.alike.outline_fit import Pose
from armorplan.pattern.parts import Part, Slot

_MID_MM = 2.0
"""Holes nearer to the middle than this tell no turn."""
_MANY = 300
"""So many holes are a pattern of their own, whose turn the outline's fit must tell."""
_MOST_TURNS = 50
_FEW_PAIRS = 100_000
_CORNERS = 4


class Punched:
    """Holes, and slots as their two ends, from the outline's centroid; the widest first."""

    def __init__(self, part: Part, centre: complex) -> None:
        holes = [(complex(*hole.centre), hole.diameter_mm) for hole in part.holes]
        holes += [
            (end, slot.width_mm) for slot in part.slots if slot.outline for end in _ends(slot)
        ]
        # Holes punched twice in one place are one hole, and would unbalance a tree of spots.
        holes = list(dict.fromkeys((_rounded(at - centre), round(wide, 3)) for at, wide in holes))
        self.at: Spots = np.array([at for at, _ in holes], dtype=np.complex128)
        self.wide_mm = np.array([wide for _, wide in holes], dtype=np.float64)

    def may_be(self, other: "Punched", within_mm: float) -> bool:
        """Tell whether the holes of both may lie within some mm: as many, as far from the middle."""
        if len(self.at) != len(other.at):
            return False
        far, theirs = np.sort(np.abs(self.at)), np.sort(np.abs(other.at))
        return bool((np.abs(far - theirs) <= within_mm).all())

    def miss_mm(self, other: "Punched", pose: Pose) -> float:
        """Return the largest difference in mm between the holes of both, the other laid by a pose.

        A hole is as far off as its nearest like: distance and difference of width squared and
        added, and the root of it; but no more than its own width.
        """
        mine, theirs = self.wide_mm, other.wide_mm
        if not len(mine) or not len(theirs):
            return float(max(mine.max(initial=0.0), theirs.max(initial=0.0)))
        here, there = _spots(self.at, mine), _spots(pose.lay(other.at), theirs)
        lone = np.minimum(_nearest(here, there), mine).max()
        return float(max(lone, np.minimum(_nearest(there, here), theirs).max()))

    def turns_onto(self, other: "Punched", pose: Pose) -> list[Pose]:
        """Return the pose turned so that the outermost hole meets each of the other's in turn.

        A round part may lie on its like in every turn; its holes tell in which.
        """
        if not 0 < len(self.at) <= _MANY or not len(other.at):
            return []
        outermost = self.at[np.argmax(np.abs(self.at))]
        laid = pose.lay(other.at) - pose.shift
        alike = np.abs(np.abs(laid) - abs(outermost)) < _MID_MM
        if abs(outermost) < _MID_MM:
            return []
        turns = outermost / laid[alike & (np.abs(laid) >= _MID_MM)]
        return [pose.turned(complex(turn / abs(turn))) for turn in turns[:_MOST_TURNS]]


def _rounded(at: complex) -> complex:
    return complex(round(at.real, 3), round(at.imag, 3))


def _spots(at: Spots, wide_mm: NDArray[np.float64]) -> NDArray[np.float64]:
    return np.stack((at.real, at.imag, wide_mm), axis=1)


def _nearest(here: NDArray[np.float64], there: NDArray[np.float64]) -> NDArray[np.float64]:
    if len(here) * len(there) <= _FEW_PAIRS:
        away = np.linalg.norm(here[:, None, :] - there[None, :, :], axis=2)
        return np.asarray(away.min(axis=1), dtype=np.float64)
    from scipy.spatial import KDTree

    return np.asarray(KDTree(there).query(here)[0], dtype=np.float64)


def _ends(slot: Slot) -> tuple[complex, complex]:
    """Return the middles of the two short sides of the smallest rectangle round a slot.

    Wherever its outline begins: of two corners farthest apart a rectangle has two pairs.
    """
    from shapely import MultiPoint, get_coordinates, oriented_envelope

    box = [complex(x, y) for x, y in get_coordinates(oriented_envelope(MultiPoint(slot.outline)))]
    if len(box) < _CORNERS:
        return box[0], box[-1]
    a, b, c, d = box[:_CORNERS]
    if abs(b - a) < abs(c - b):
        return (a + b) / 2, (c + d) / 2
    return (b + c) / 2, (d + a) / 2
