"""How a part differs from what it was before its pattern was changed: outline, holes and slots."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from armorplan.geometry.alike.closed_lines import Spots
from armorplan.geometry.alike.likeness import TWIN_MM
from armorplan.geometry.alike.outline_fit import Contour, Pose, fits
from armorplan.pattern.parts import Hole, Part, Slot

_STEP_MM = 0.01
"""Moves of corners and holes nearer than this are one move."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reshaped:
    """What differs, of that which a knife or a punch can hold; a part moved on its page does not.

    Attributes:
        outline_mm: the largest distance between the two outlines; 0.0 where they are one.
        moved: ids of the holes and slots that lie elsewhere, or are of other size, with how far
            in mm; the largest first.
        added, gone: ids of holes and slots that only the one or the other has.
    """

    outline_mm: float = 0.0
    moved: tuple[tuple[str, float], ...] = ()
    added: tuple[str, ...] = ()
    gone: tuple[str, ...] = ()

    @property
    def most_mm(self) -> float:
        """The largest of all differences in mm."""
        return max((self.outline_mm, *(far_mm for _, far_mm in self.moved)))


def reshaped(was: Part, now: Part) -> Reshaped:
    """Return how a part's shape differs from what it was.

    The two are laid on each other as they are drawn. Where most of the part was moved on its page,
    or all of it turned, it is laid back first.
    """
    if (was.outline, was.holes, was.slots) == (now.outline, now.holes, now.slots):
        return Reshaped()
    pair = _Pair(was, now)
    best = Reshaped(outline_mm=float("inf"))
    for pose in pair.poses():
        found = pair.compared(pose)
        if found.most_mm < best.most_mm - TWIN_MM / 2:
            best = found
        if best.most_mm <= TWIN_MM:
            break
    return best


class _Pair:
    """A part as it was and as it is; poses lay the former outline on the present one."""

    def __init__(self, was: Part, now: Part) -> None:
        self._rings = (was.outline, now.outline)
        self._was, self._now = Contour(was.outline), Contour(now.outline)
        self._spots_was, self._spots_now = _by_id(was), _by_id(now)
        self._both = [id_ for id_ in self._spots_now if id_ in self._spots_was]

    def poses(self) -> Iterator[Pose]:
        """Yield likely poses: as drawn, moved as most of it was, turned onto its like."""
        drawn = self._was.centre - self._now.centre
        yield Pose(turn=1.0, shift=drawn)
        yield Pose(turn=1.0, shift=drawn + self._usual_move())
        yield from fits(self._now, self._was, TWIN_MM, mirrored=False)

    def _usual_move(self) -> complex:
        old, new = self._rings
        ends = list(zip(old, new, strict=True)) if len(old) == len(new) else []
        moves = [complex(x1 - x0, y1 - y0) for (x0, y0), (x1, y1) in ends]
        moves += [self._spots_now[id_].at - self._spots_was[id_].at for id_ in self._both]
        steps = Counter((round(m.real / _STEP_MM), round(m.imag / _STEP_MM)) for m in moves)
        (across, down), _ = (steps or Counter([(0, 0)])).most_common(1)[0]
        return complex(across, down) * _STEP_MM

    def compared(self, pose: Pose) -> Reshaped:
        """Return what differs where the former part is laid so."""
        far_mm = {id_: self._missed(id_, pose) for id_ in self._both}
        moved = [(id_, far) for id_, far in far_mm.items() if far > TWIN_MM]
        outline_mm = self._now.laid(self._was, pose).miss_mm
        return Reshaped(
            outline_mm=outline_mm if outline_mm > TWIN_MM else 0.0,
            moved=tuple(sorted(moved, key=lambda one: -one[1])),
            added=tuple(id_ for id_ in self._spots_now if id_ not in self._spots_was),
            gone=tuple(id_ for id_ in self._spots_was if id_ not in self._spots_now),
        )

    def _missed(self, id_: str, pose: Pose) -> float:
        was, now = self._spots_was[id_], self._spots_now[id_]
        laid = pose.lay(was.ends - self._was.centre) + self._now.centre
        away = np.abs(laid[:, None] - now.ends[None, :])
        far_mm = max(away.min(axis=0).max(), away.min(axis=1).max())
        return float(max(far_mm, abs(was.wide_mm - now.wide_mm)))


@dataclass(frozen=True, slots=True, eq=False)
class _Spot:
    """A hole as its middle, or a slot as the ends of its middle line; ``wide_mm`` is its width."""

    ends: Spots
    wide_mm: float

    @property
    def at(self) -> complex:
        return complex(self.ends.mean())


def _by_id(part: Part) -> dict[str, _Spot]:
    holes = {hole.id: _hole(hole) for hole in part.holes}
    return holes | {slot.id: _slot(slot) for slot in part.slots}


def _hole(hole: Hole) -> _Spot:
    return _Spot(np.array([complex(*end) for end in hole.ends]), hole.diameter_mm)


def _slot(slot: Slot) -> _Spot:
    from shapely import Polygon, get_coordinates, oriented_envelope

    box = oriented_envelope(Polygon(slot.outline))
    corners = get_coordinates(box)[:4] @ np.array([1.0, 1.0j])
    sides = np.roll(corners, -1) - corners
    middles = corners + sides / 2
    short = int(abs(sides[0]) > abs(sides[1]))
    return _Spot(middles[[short, short + 2]], slot.width_mm)
