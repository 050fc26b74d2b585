"""Flattens lines, curves and arcs to corners in mm, no chord farther than told off."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import acos, atan2, ceil, cos, hypot, inf, isfinite, pi, radians, sin, sqrt

from fontTools.misc.transform import Transform

from armorplan.files.budget import Budget
from armorplan.files.limits import LENGTH_MM
from armorplan.files.transforms import ShapeFaultError, not_a_number
from armorplan.pattern.parts import Point

FLATTEN_MM = 0.05
"""Most distance between a curve and the chords that stand for it."""
FARTHEST_MM = float(LENGTH_MM)
"""Coordinates beyond ten metres are taken for a mistake."""
_LEAST_REACH = 1e-9
"""Half the distance of an arc's ends, in radii, below which they are one point."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Fineness:
    """How near chords keep to their curve, and how far out a corner may lie, both in ``unit``."""

    flat: float = FLATTEN_MM
    farthest: float = FARTHEST_MM
    unit: str = "mm"


IN_MM = Fineness()


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """One line of a path in mm: its corners, and whether the path data closes it."""

    corners: tuple[Point, ...]
    closed: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Arc:
    """An elliptical arc: the point at angle a is centre + cos a · across + sin a · down."""

    centre: Point
    across: Point
    down: Point
    start: float
    sweep: float

    def at(self, angle: float) -> Point:
        """Return the point at an angle in radians."""
        c, s = cos(angle), sin(angle)
        return (
            self.centre[0] + c * self.across[0] + s * self.down[0],
            self.centre[1] + c * self.across[1] + s * self.down[1],
        )


class Tracer:
    """A pen that moves user units to mm and keeps the lines drawn with it."""

    def __init__(self, to_mm: Transform, budget: Budget, fine: Fineness = IN_MM) -> None:
        self._to_mm = to_mm
        self._budget = budget
        self._fine = fine
        self._corners: list[Point] = []
        self._at: Point = (0.0, 0.0)
        self.lines: list[Line] = []

    def moveTo(self, to: Point) -> None:  # noqa: N802 - the pen's name
        """Begin a line."""
        self._corners = []
        self._add([self._mm(to)])
        self._at = to

    def lineTo(self, to: Point) -> None:  # noqa: N802 - the pen's name
        """Draw a straight line."""
        self._add([self._mm(to)])
        self._at = to

    def curveTo(self, first: Point, second: Point, to: Point) -> None:  # noqa: N802
        """Draw a cubic Bézier curve; an affine map of its control points maps the curve."""
        curve = (self._corners[-1], self._mm(first), self._mm(second), self._mm(to))
        self._add(_halve(curve, self._fine.flat))
        self._at = to

    def qCurveTo(self, control: Point, to: Point) -> None:  # noqa: N802 - the pen's name
        """Draw a quadratic Bézier curve, raised to a cubic without error."""
        start = self._at
        first = _between(start, control, 2 / 3)
        second = _between(to, control, 2 / 3)
        self.curveTo(first, second, to)

    def arcTo(  # noqa: N802 - the pen's name
        self,
        rx: float,
        ry: float,
        turn_deg: float,
        large: bool,  # noqa: FBT001 - the pen's signature
        sweep: bool,  # noqa: FBT001 - the pen's signature
        to: Point,
    ) -> None:
        """Draw an elliptical arc; with a radius of 0 it is a straight line (SVG 1.1, F.6.2)."""
        end = self._mm(to)
        arc = _centred(self._at, to, (rx, ry, turn_deg), large=large, sweep=sweep)
        if arc is not None:
            self._add(_arc_corners(self._moved(arc), self._fine.flat))
        self._add([end])
        self._at = to

    def closePath(self) -> None:  # noqa: N802 - the pen's name
        """Close the line."""
        self._keep(closed=True)

    def endPath(self) -> None:  # noqa: N802 - the pen's name
        """Leave the line open."""
        self._keep(closed=False)

    def _keep(self, *, closed: bool) -> None:
        if len(self._corners) > 1:
            self.lines.append(Line(corners=tuple(self._corners), closed=closed))
        self._corners = []

    def _add(self, corners: "list[Point] | Iterator[Point]") -> None:
        for corner in corners:
            self._budget.corner()
            self._corners.append(corner)

    def _mm(self, point: Point) -> Point:
        return checked(self._to_mm.transformPoint(point), self._fine)

    def _moved(self, arc: Arc) -> Arc:
        across = self._to_mm.transformVector(arc.across)
        down = self._to_mm.transformVector(arc.down)
        return Arc(
            centre=checked(self._to_mm.transformPoint(arc.centre), self._fine),
            across=checked(across, self._fine),
            down=checked(down, self._fine),
            start=arc.start,
            sweep=arc.sweep,
        )


def checked(point: Point, fine: Fineness = IN_MM) -> Point:
    """Return a point that a pattern can hold.

    Raises:
        ShapeFaultError: it is not finite, or farther out than it may lie.
    """
    x, y = point
    if not (isfinite(x) and isfinite(y)):
        raise not_a_number(f"A coordinate ({x:g}, {y:g})")
    if max(abs(x), abs(y)) > fine.farthest:
        raise ShapeFaultError(
            "far-out",
            f"A corner lies at ({x:.1f}, {y:.1f}) {fine.unit}, farther out than "
            f"{fine.farthest:.0f} {fine.unit}.",
            "Move the shape back to the page, or correct the drawing's scale.",
        )
    return (x, y)


def _between(a: Point, b: Point, share: float) -> Point:
    return (a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share)


_Cubic = tuple[Point, Point, Point, Point]


def _halve(curve: _Cubic, flat: float) -> Iterator[Point]:
    """Give the corners after the first, halving the curve until each piece is flat enough."""
    pieces = [curve]
    while pieces:
        piece = pieces.pop()
        if _is_flat(piece, flat):
            yield piece[3]
        else:
            a, b, c, d = piece
            ab, bc, cd = _between(a, b, 0.5), _between(b, c, 0.5), _between(c, d, 0.5)
            abc, bcd = _between(ab, bc, 0.5), _between(bc, cd, 0.5)
            middle = _between(abc, bcd, 0.5)
            pieces += [(middle, bcd, cd, d), (a, ab, abc, middle)]


def _is_flat(curve: _Cubic, flat: float) -> bool:
    """Tell whether the curve keeps within ``flat`` of its chord.

    The bound compares the curve with the chord walked at even speed: their difference is
    3t(1-t)²·p + 3t²(1-t)·q with p = b - (2a+d)/3 and q = c - (a+2d)/3, of which the weights sum
    to at most 3/4; scaled by 3 below. It can only overrate the distance.
    """
    a, b, c, d = curve
    p = (3 * b[0] - 2 * a[0] - d[0], 3 * b[1] - 2 * a[1] - d[1])
    q = (3 * c[0] - a[0] - 2 * d[0], 3 * c[1] - a[1] - 2 * d[1])
    return max(hypot(*p), hypot(*q)) <= 4 * flat


def _arc_corners(arc: Arc, flat: float) -> Iterator[Point]:
    """Give the corners strictly inside the arc.

    A chord over the angle s of a circle of radius r is r(1 - cos(s/2)) off; an ellipse is the
    image of a circle, so its longest half axis bounds it.
    """
    longest = half_axes(arc.across, arc.down)[0]
    most = 2 * acos(max(1 - flat / longest, 0.0)) if longest > flat else pi / 2
    count = max(ceil(abs(arc.sweep) / most), 1)
    for step in range(1, count):
        yield arc.at(arc.start + arc.sweep * step / count)


def half_axes(u: Point, v: Point) -> tuple[float, float]:
    """Return the longer and the shorter half axis of the ellipse cos a · u + sin a · v."""
    total = u[0] ** 2 + u[1] ** 2 + v[0] ** 2 + v[1] ** 2
    area = abs(u[0] * v[1] - u[1] * v[0])
    plus, minus = sqrt(total + 2 * area), sqrt(max(total - 2 * area, 0.0))
    return (plus + minus) / 2, (plus - minus) / 2


def _centred(
    start: Point, end: Point, radii: tuple[float, float, float], *, large: bool, sweep: bool
) -> Arc | None:
    """Return an arc given by its ends as centre and angles (SVG 1.1, F.6.5 and F.6.6).

    ``None`` where it is a straight line: ends that are one, or a radius of 0.
    """
    rx, ry = abs(radii[0]), abs(radii[1])
    if not all(map(isfinite, radii)):
        raise not_a_number("A radius or turn of an arc")
    if rx == 0 or ry == 0:
        return None
    c, s = cos(radians(radii[2])), sin(radians(radii[2]))
    half = ((start[0] - end[0]) / 2, (start[1] - end[1]) / 2)
    x, y = c * half[0] + s * half[1], c * half[1] - s * half[0]
    # In units of the radii the ellipse is a unit circle through (x, y) and (-x, -y).
    x, y = x / rx, y / ry
    reach = hypot(x, y)
    if not _LEAST_REACH < reach < inf:
        return None
    grow = max(reach, 1.0)
    rx, ry, x, y = rx * grow, ry * grow, x / grow, y / grow
    lift = sqrt(max(1 / (x * x + y * y) - 1, 0.0)) * (1 if large == sweep else -1)
    cx, cy = -lift * y, lift * x
    first = atan2(y - cy, x - cx)
    turn = atan2(-y - cy, -x - cx) - first
    if sweep and turn < 0:
        turn += 2 * pi
    elif not sweep and turn > 0:
        turn -= 2 * pi
    across, down = (rx * c, rx * s), (-ry * s, ry * c)
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    centre = (
        middle[0] + cx * across[0] + cy * down[0],
        middle[1] + cx * across[1] + cy * down[1],
    )
    return Arc(centre=centre, across=across, down=down, start=first, sweep=turn)
