"""How one plate of a shell lies on its neighbour beside a row: by each spacing of the row.

Beside a spacing a spot keeps its place along the row and its distance across it on both plates.
That holds near the row, which is where the edges of overlaps lie.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import dist, hypot
from statistics import median
from typing import TYPE_CHECKING, NamedTuple

from armorplan.geometry.reach.part_net import leather
from armorplan.geometry.reach.shells import Leg, Line, ShellCut, span_mm
from armorplan.pattern.parts import Point, Ring

if TYPE_CHECKING:
    from shapely.geometry.base import BaseGeometry

ACROSS = 3.0
"""So many of a row's spacings beside it an overlap is followed, but at least half the row's length."""
BEYOND = 3.0
"""So many spacings beyond the end of a row an overlap is followed: further on it is a slit."""
_JOINED = 0.2
"""So much of a spacing those beside it are followed on, where a row turns."""
_SLACK_MM = 0.3
_LEAST_MM = 0.5
_EDGE = 0.5
"""Where less than so much of the leather on one side lies on the other, a row runs along an edge."""


class Frame(NamedTuple):
    """A spacing of a row on two of its plates, each as where it starts and ends in mm.

    ``unlike``: the two are drawn from unlike faces. ``first`` and ``last`` tell of ends of a row.
    ``usual_mm`` is the usual spacing of its row, ``wide_mm`` how far beside it it is followed: what
    is near a row goes by its own measure, so that the same shape drawn larger is read alike.
    """

    here: Leg
    there: Leg
    on_here: tuple[Point, Point]
    on_there: tuple[Point, Point]
    unlike: bool
    first: bool
    last: bool
    usual_mm: float
    wide_mm: float

    def across(self, spot: Point) -> Point:
        """Return a spot of this plate's drawing in the drawing of the other."""
        a, b, c, d, x, y = self.matrix
        return a * spot[0] + b * spot[1] + x, c * spot[0] + d * spot[1] + y

    @property
    def matrix(self) -> tuple[float, float, float, float, float, float]:
        """Return the way from this drawing into the other: turned, turned over, shifted."""
        (ux, uy), (wx, wy) = _way(self.on_here), _way(self.on_there)
        face = -1.0 if self.unlike else 1.0
        # Along the row u goes to w; across it the normal (-uy, ux) goes to face * (-wy, wx).
        a, b = wx * ux + face * wy * uy, wx * uy - face * wy * ux
        c, d = wy * ux - face * wx * uy, wy * uy + face * wx * ux
        (mx, my), (nx, ny) = _middle(self.on_here), _middle(self.on_there)
        return a, b, c, d, nx - a * mx - b * my, ny - c * mx - d * my

    def back(self) -> "Frame":
        """Return the same spacing seen from the other plate."""
        return self._replace(
            here=self.there, there=self.here, on_here=self.on_there, on_there=self.on_here
        )

    def from_mm(self, spot: Point) -> float:
        """Return how far a spot of this plate lies from the spacing."""
        (x0, y0), (x1, y1) = self.on_here
        length = dist(*self.on_here)
        share = ((spot[0] - x0) * (x1 - x0) + (spot[1] - y0) * (y1 - y0)) / length**2
        share = min(1.0, max(0.0, share))
        return hypot(spot[0] - x0 - share * (x1 - x0), spot[1] - y0 - share * (y1 - y0))


def _way(ends: tuple[Point, Point]) -> Point:
    length = dist(*ends)
    return (ends[1][0] - ends[0][0]) / length, (ends[1][1] - ends[0][1]) / length


def _middle(ends: tuple[Point, Point]) -> Point:
    return (ends[0][0] + ends[1][0]) / 2, (ends[0][1] + ends[1][1]) / 2


def frames(cut: ShellCut) -> tuple[Frame, ...]:
    """Return the spacings of all rows of a shell, from both plates; none where holes coincide."""
    turned = {part.part: part.turned for part in cut.parts}
    return tuple(frame for line in cut.lines for frame in of_line(line, turned))


def of_line(line: Line, turned: dict[str, bool]) -> tuple[Frame, ...]:
    """Return the spacings of one row, from both plates; ``turned`` tells each plate's face."""
    return tuple(each for frame in _of_line(line, turned) for each in (frame, frame.back()))


def _of_line(line: Line, turned: dict[str, bool]) -> Iterator[Frame]:
    spans = list(pairwise(line.rungs))
    if line.closed:
        spans.append((line.rungs[-1], line.rungs[0]))
    lengths = [length for one, other in spans if (length := span_mm(one, other))]
    usual_mm = median(lengths) if lengths else 0.0
    for at, (one, other) in enumerate(spans):
        there = dict(other.legs)
        both = [(leg, (spot, there[leg])) for leg, spot in one.legs if leg in there]
        both = [(leg, ends) for leg, ends in both if dist(*ends) > _LEAST_MM]
        for (leg, ends), (other_leg, other_ends) in _pairs(both):
            yield Frame(
                here=leg,
                there=other_leg,
                on_here=ends,
                on_there=other_ends,
                unlike=turned[leg[0]] != turned[other_leg[0]],
                first=at == 0 and not line.closed,
                last=at == len(spans) - 1 and not line.closed,
                usual_mm=usual_mm,
                wide_mm=max(ACROSS * usual_mm, sum(lengths) / 2),
            )


_Ends = tuple[Leg, tuple[Point, Point]]


def _pairs(both: list[_Ends]) -> Iterator[tuple[_Ends, _Ends]]:
    for at, one in enumerate(both):
        for other in both[at + 1 :]:
            yield one, other


@lru_cache(maxsize=4096)
def lain_on(ring: Ring, other: Ring, frame: Frame) -> "BaseGeometry | None":
    """Return where the plate there comes to lie on the plate here beside a spacing of their row."""
    mine, its = leather(ring), leather(other)
    if mine is None or its is None:
        return None
    return laid_beside(its.area, frame)


def laid_beside(area: "BaseGeometry", frame: Frame) -> "BaseGeometry":
    """Return an area of the plate there in the drawing of the plate here, so far as it lies beside."""
    from shapely import Polygon, intersection
    from shapely.affinity import affine_transform

    (ux, uy), (x0, y0), (x1, y1) = _way(frame.on_here), *frame.on_here
    before = (BEYOND if frame.first else _JOINED) * frame.usual_mm
    after = (BEYOND if frame.last else _JOINED) * frame.usual_mm
    x0, y0, x1, y1 = x0 - before * ux, y0 - before * uy, x1 + after * ux, y1 + after * uy
    nx, ny = -uy * frame.wide_mm, ux * frame.wide_mm
    strip = Polygon(
        [(x0 + nx, y0 + ny), (x1 + nx, y1 + ny), (x1 - nx, y1 - ny), (x0 - nx, y0 - ny)]
    )
    return intersection(affine_transform(area, frame.back().matrix), strip)


@lru_cache(maxsize=4096)
def is_same_side(ring: Ring, other: Ring, frame: Frame) -> bool:
    """Tell whether both plates lie on one side of a spacing of their row, with an edge beyond it.

    Holes on the very edge have no edges beyond them that lie on each other.
    """
    mine, its = leather(ring), leather(other)
    if mine is None or its is None:
        return False
    sides = (
        _beside(mine.area, frame.on_here, frame.wide_mm),
        _beside(its.area, frame.on_there, frame.wide_mm),
    )
    if frame.unlike:
        sides = sides[0], sides[1][::-1]
    least_mm2 = _LEAST_MM * dist(*frame.on_here)
    return any(
        all(least_mm2 <= side[1 - way] <= _EDGE * side[way] for side in sides) for way in (0, 1)
    )


def _beside(
    area: "BaseGeometry", ends: tuple[Point, Point], wide_mm: float
) -> tuple[float, float]:
    """Return how much leather in mm² lies on either side of a spacing, near it."""
    from shapely import Polygon, intersection

    (ux, uy), (x0, y0), (x1, y1) = _way(ends), *ends
    nx, ny = -uy * wide_mm, ux * wide_mm
    strips = (
        Polygon([(x0, y0), (x1, y1), (x1 + s * nx, y1 + s * ny), (x0 + s * nx, y0 + s * ny)])
        for s in (1, -1)
    )
    left, right = (float(intersection(area, strip).area) for strip in strips)
    return left, right


def covered(cut: ShellCut, held: tuple[Frame, ...]) -> dict[str, "BaseGeometry"]:
    """Return by plate what of it lies on its neighbours beside their rows, a hair's breadth more.

    Plates on the same side of a row, as two layers or two flanges are, cover no edge of each other:
    a tool goes in between them there.
    """
    from shapely import union_all

    rings = {part.part: part.ring for part in cut.parts}
    found: dict[str, list[BaseGeometry]] = {}
    for frame in held:
        if is_same_side(rings[frame.here[0]], rings[frame.there[0]], frame):
            continue
        area = lain_on(rings[frame.here[0]], rings[frame.there[0]], frame)
        if area is not None and not area.is_empty:
            found.setdefault(frame.here[0], []).append(area)
    return {part: union_all(areas).buffer(_SLACK_MM) for part, areas in found.items()}
