"""The mouths of a finished shell: edges that lie on no other plate, chained into loops.

The free stretches of the plates' outlines end where one plate runs under its neighbour. An end is
chained to the end that lies nearest to it by the spacings of the rows; where both edges lie flush
the short way between two ends belongs to the mouth too.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import dist
from typing import TYPE_CHECKING, NamedTuple

from armorplan.geometry.reach.dished import ball_mm
from armorplan.geometry.reach.frames import Frame, covered, frames
from armorplan.geometry.reach.model import Rim
from armorplan.geometry.reach.part_net import EDGE_STEP_MM, leather
from armorplan.geometry.reach.shells import Leg, Rung, ShellCut
from armorplan.pattern.parts import Point

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

SLIVER = 0.006
"""A free stretch shorter than this share of its plate's edge is where two edges do not quite follow
each other."""
LEAST_RIM_MM = 20.0
"""A loop shorter than this is no mouth, however large the shell: a tool's opening is not drawn."""
_NEAR = 4.0
"""An end is chained along a row no more than so many of its spacings away."""
_OWN_EDGE = 0.25
"""The straight way to an end of the same plate counts longer by this share of a spacing."""
_CLOSED_MM = 1e-6
_TIP_SPOTS = 2
_OUTSIDE = 0.05
"""Of a tip no more than this lies beside its plate's straightened outline."""


class Arc(NamedTuple):
    """A free stretch of a plate's outline."""

    part: str
    spots: tuple[Point, ...]

    @property
    def length_mm(self) -> float:
        """Return how long it is."""
        return sum(dist(a, b) for a, b in zip(self.spots, self.spots[1:], strict=False))


class Bridge(NamedTuple):
    """The short way from the end of one stretch to the end of another, on both their plates."""

    length_mm: float
    ways: tuple[tuple[str, Point, Point], ...]


_UNKNOWN = Bridge(0.0, ())


@dataclass(frozen=True, slots=True, kw_only=True)
class Mouth:
    """A rim with the stretches and bridges that it is made of, by plate."""

    rim: Rim
    arcs: tuple[Arc, ...]
    bridges: tuple[Bridge, ...]


_End = tuple[int, bool]
"""An arc's number, and whether it is its last spot."""


def mouths(cut: ShellCut) -> tuple[Mouth, ...]:
    """Return the mouths of a shell, the longest first; none where every edge lies on a plate."""
    held = frames(cut)
    arcs = list(_arcs(cut, covered(cut, held)))
    every = list(_loops(arcs, held))
    loops = [loop for loop in every if not _is_flap(cut, *loop)] or every
    rings = {part.part: part.ring for part in cut.parts}
    loops.sort(key=lambda loop: -_length_mm(*loop))
    return tuple(
        Mouth(
            rim=Rim(
                id=f"rim-{at}",
                length_mm=_length_mm(around, bridges),
                spots=_spots(around),
                ball_mm=ball_mm({a.part: rings[a.part] for a in around}, dict(cut.balls)),
            ),
            arcs=tuple(around),
            bridges=tuple(bridges),
        )
        for at, (around, bridges) in enumerate(loops, start=1)
        if _length_mm(around, bridges) >= LEAST_RIM_MM
    )


def _is_flap(cut: ShellCut, arcs: Sequence[Arc], bridges: Sequence[Bridge]) -> bool:
    """Tell whether a loop goes round the tip of one plate that hangs over the others: no mouth.

    What the loop goes round has to be leather of that one plate, less than half of it, and hold no
    joint: a disc that hangs by its chord alone. The edge of a mouth goes round hollow instead: its
    stretch and chord hold no leather (a notch), or the plate's own joints (its whole edge but for a
    tab), or more than half of the plate.
    """
    from shapely import MultiPoint, Polygon

    if len(arcs) != 1 or not bridges or len(bridges[0].ways) != 1:
        return False
    (arc,) = arcs
    ring = next(part.ring for part in cut.parts if part.part == arc.part)
    whole = leather(ring)
    if len(arc.spots) <= _TIP_SPOTS or whole is None:
        return False
    tip = Polygon(arc.spots).buffer(0)
    if tip.area >= whole.area.area / 2 or tip.difference(whole.area).area > _OUTSIDE * tip.area:
        return False
    held = [spot for line in cut.lines for rung in line.rungs for _, spot in _on(rung, arc.part)]
    return not MultiPoint(held).intersects(tip)


def _on(rung: Rung, part: str) -> list[tuple[Leg, Point]]:
    return [(leg, spot) for leg, spot in rung.legs if leg[0] == part]


def _length_mm(arcs: Sequence[Arc], bridges: Sequence[Bridge]) -> float:
    return sum(arc.length_mm for arc in arcs) + sum(bridge.length_mm for bridge in bridges)


def _spots(arcs: Sequence[Arc]) -> tuple[tuple[str, Point], ...]:
    """Return spots round a rim for the picture, no denser than the net's own."""
    found: list[tuple[str, Point]] = []
    for arc in arcs:
        last: Point | None = None
        for spot in arc.spots:
            if last is None or spot == arc.spots[-1] or dist(last, spot) >= EDGE_STEP_MM:
                found.append((arc.part, spot))
                last = spot
    return tuple(found)


def _arcs(cut: ShellCut, lying: dict[str, "BaseGeometry"]) -> Iterator[Arc]:
    """Yield the free stretches of every plate's outline; slivers are left out."""
    from shapely import LinearRing, LineString, get_coordinates, get_parts, line_merge

    for part in cut.parts:
        whole = leather(part.ring)
        if whole is None:
            continue
        closed = LineString((*whole.ring, whole.ring[0]))
        over = lying.get(part.part)
        if over is None or not over.intersects(LinearRing(whole.ring)):
            yield Arc(part.part, (*whole.ring, whole.ring[0]))
            continue
        for piece in get_parts(line_merge(closed.difference(over))):
            spots = tuple((x, y) for x, y in get_coordinates(piece).tolist())
            if len(spots) > 1 and piece.length >= SLIVER * closed.length:
                yield Arc(part.part, spots)


def _loops(arcs: list[Arc], held: tuple[Frame, ...]) -> Iterator[tuple[list[Arc], list[Bridge]]]:
    whole = [dist(arc.spots[0], arc.spots[-1]) <= _CLOSED_MM for arc in arcs]
    yield from (([arc], []) for arc, closed in zip(arcs, whole, strict=True) if closed)
    open_arcs = [arc for arc, closed in zip(arcs, whole, strict=True) if not closed]
    partner = _matched(open_arcs, held)
    seen: set[int] = set()
    for start in range(len(open_arcs)):
        if start in seen:
            continue
        around: list[Arc] = []
        bridges: list[Bridge] = []
        at, last = start, True
        while at not in seen:
            seen.add(at)
            arc = open_arcs[at]
            around.append(arc if last else Arc(arc.part, arc.spots[::-1]))
            (at, end), bridge = partner[at, last]
            bridges.append(bridge)
            last = not end
        yield around, bridges


def _matched(arcs: list[Arc], held: tuple[Frame, ...]) -> dict[_End, tuple[_End, Bridge]]:
    """Return by end the end it is chained to: the nearest first, until none is left."""
    ends: list[_End] = [(at, last) for at in range(len(arcs)) for last in (False, True)]
    near = {end: _near(arcs[end[0]].part, _spot(arcs, end), held) for end in ends}
    on_part: dict[str, list[_End]] = {}
    for end in ends:
        on_part.setdefault(arcs[end[0]].part, []).append(end)
    found = [
        (*_bridge(arcs, one, other, near), one, other)
        for one in ends
        for there in sorted({arcs[one[0]].part, *near[one]})
        for other in on_part.get(there, ())
        if other != one
    ]
    partner: dict[_End, tuple[_End, Bridge]] = {}
    for _, bridge, one, other in sorted(found, key=lambda each: (each[0], each[2:])):
        if one not in partner and other not in partner:
            partner[one], partner[other] = (other, bridge), (one, bridge)
    left = [end for end in ends if end not in partner]
    for one, other in zip(left[::2], left[1::2], strict=True):
        partner[one], partner[other] = (other, _UNKNOWN), (one, _UNKNOWN)
    return partner


def _spot(arcs: list[Arc], end: _End) -> Point:
    return arcs[end[0]].spots[-1 if end[1] else 0]


def _near(part: str, spot: Point, held: tuple[Frame, ...]) -> dict[str, Frame]:
    """Return by neighbour (and leg) the spacing nearest to a spot, where one is near."""
    best: dict[str, tuple[float, Frame]] = {}
    for frame in held:
        if frame.here[0] == part:
            from_mm, near_mm = frame.from_mm(spot), _NEAR * frame.usual_mm
            if from_mm < best.get(frame.there[0], (near_mm, frame))[0]:
                best[frame.there[0]] = from_mm, frame
    return {there: frame for there, (_, frame) in best.items()}


def _bridge(
    arcs: list[Arc], one: _End, other: _End, near: dict[_End, dict[str, Frame]]
) -> tuple[float, Bridge]:
    """Return the short way between two ends with what it counts in choosing, both in mm."""
    parts = arcs[one[0]].part, arcs[other[0]].part
    spots = _spot(arcs, one), _spot(arcs, other)
    found = []
    if parts[0] == parts[1]:
        length_mm = dist(*spots)
        more_mm = _OWN_EDGE * min((each.usual_mm for each in near[one].values()), default=0.0)
        found.append((length_mm + more_mm, Bridge(length_mm, ((parts[0], *spots),))))
    for end, at in ((one, 0), (other, 1)):
        frame = near[end].get(parts[1 - at])
        if frame is not None:
            mine, its = spots[at], spots[1 - at]
            ways = (
                (parts[at], mine, frame.back().across(its)),
                (parts[1 - at], frame.across(mine), its),
            )
            length_mm = dist(frame.across(mine), its)
            found.append((length_mm, Bridge(length_mm, ways)))
    return min(found, key=lambda each: each[0])
