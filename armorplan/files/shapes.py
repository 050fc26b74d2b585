"""From one SVG element to a circle or lines in mm."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from math import dist

from fontTools.misc.transform import Transform

from armorplan.files.budget import Budget
from armorplan.files.flatten import (
    FLATTEN_MM,
    IN_MM,
    Fineness,
    Line,
    Tracer,
    checked,
    half_axes,
)
from armorplan.files.path_data import draw_path
from armorplan.files.svg_tree import Element
from armorplan.files.transforms import ShapeFaultError, numbers, plain_length
from armorplan.kernel.units import NEAR_MM
from armorplan.pattern.parts import Point, Ring

ROUND_MM = 0.02
"""An ellipse whose diameters differ by no more is a circle: a punch is not truer."""
CLOSED_MM = 0.01
"""A path whose ends lie no farther apart is closed: programs round coordinates to about that."""
_LEAST_CORNERS = 3
_ENDS = 2
_Attrs = dict[str, str]
_Oval = tuple[float, float, float, float]
_KEPT_CHARS = 4_000
"""Path data up to this length is drawn once: its corners are far from any limit."""
_RADII = {"circle": ("r", "r"), "ellipse": ("rx", "ry")}


@dataclass(frozen=True, slots=True, kw_only=True)
class Round:
    """A circle in mm."""

    centre: Point
    diameter_mm: float


class OpenLineError(ShapeFaultError):
    """It is a straight line: no outline, but it may be what a form bends about."""

    def __init__(self, fault: ShapeFaultError, ends: tuple[Point, Point]) -> None:
        self.ends = ends
        super().__init__(fault.code, fault.text, fault.mend)


def trace(element: Element, to_mm: Transform, budget: Budget) -> Round | Ring | None:
    """Return what an element draws: a circle, a closed outline, or nothing.

    Raises:
        OpenLineError: it is one straight open line, of two points.
        ShapeFaultError: it is open, of several lines, or its numbers cannot be used.
        OverBudgetError: the drawings ask for too much.
    """
    found = drawn(element, to_mm, budget)
    return found if isinstance(found, Round) else _ring(found)


def drawn(
    element: Element, to_mm: Transform, budget: Budget, fine: Fineness = IN_MM
) -> Round | list[Line]:
    """Return all that an element draws: one circle, or lines, which may be open.

    Raises:
        ShapeFaultError: its numbers cannot be used.
        OverBudgetError: the drawings ask for too much.
    """
    if element.tag in _RADII:
        circle = _round(_oval(element.attrs, element.tag), to_mm, fine)
        if circle is not None:
            return circle if circle.diameter_mm > NEAR_MM else []
    data = element.attrs.get("d", "")
    budget.path(len(data) + len(element.attrs.get("points", "")))
    if element.tag == "path" and len(data) <= _KEPT_CHARS:
        return _kept(data, to_mm, budget, fine)
    pen = Tracer(to_mm, budget, fine)
    _DRAW[element.tag](element.attrs, pen)
    return pen.lines


def _kept(data: str, to_mm: Transform, budget: Budget, fine: Fineness) -> list[Line]:
    """Return the lines of path data, drawn once for all readings of it."""
    lines = _path_lines(data, to_mm, fine)
    for _ in range(sum(len(line.corners) for line in lines)):
        budget.corner()
    return list(lines)


@lru_cache(maxsize=2048)
def _path_lines(data: str, to_mm: Transform, fine: Fineness) -> tuple[Line, ...]:
    pen = Tracer(to_mm, Budget(), fine)
    draw_path(data, pen)
    return tuple(pen.lines)


def _ring(lines: list[Line]) -> Ring | None:
    """Return the one closed line among those drawn."""
    if not lines:
        return None
    if len(lines) > 1:
        raise ShapeFaultError(
            "several-lines",
            f"It is one path of {len(lines)} separate lines.",
            "Break it apart, so that each outline is a path with an id of its own.",
        )
    line = lines[0]
    first, last = line.corners[0], line.corners[-1]
    gap_mm = dist(first, last)
    if not line.closed and gap_mm > CLOSED_MM:
        fault = ShapeFaultError(
            "open-path",
            f"It is open by {gap_mm:.1f} mm between ({first[0]:.1f}, {first[1]:.1f}) and "
            f"({last[0]:.1f}, {last[1]:.1f}).",
            "Join the two ends, so that the outline is closed.",
        )
        straight = len(_distinct(line.corners)) == _ENDS
        raise OpenLineError(fault, (first, last)) if straight else fault
    return _without_repeats(line.corners)


def _without_repeats(corners: tuple[Point, ...]) -> Ring:
    kept = _distinct(corners)
    while len(kept) > 1 and dist(kept[0], kept[-1]) <= CLOSED_MM:
        kept.pop()
    if len(kept) < _LEAST_CORNERS:
        raise ShapeFaultError(
            "no-area", "Its outline encloses no area.", "Draw an outline of three corners or more."
        )
    return tuple(kept)


def _distinct(corners: tuple[Point, ...]) -> list[Point]:
    """Return the corners without those that repeat the one before."""
    return [corners[0], *(to for at, to in pairwise(corners) if dist(at, to) > NEAR_MM)]


def _radii(attrs: _Attrs, tag_keys: tuple[str, str]) -> tuple[float, float]:
    radii = plain_length(attrs, tag_keys[0]), plain_length(attrs, tag_keys[1])
    if min(radii) < 0:
        raise ShapeFaultError(
            "negative-size", f"Its radius is {min(radii):g}.", "Give it a radius above 0."
        )
    return radii


def _oval(attrs: _Attrs, tag: str) -> _Oval:
    centre = plain_length(attrs, "cx"), plain_length(attrs, "cy")
    return (*centre, *_radii(attrs, _RADII[tag]))


def _round(oval: _Oval, to_mm: Transform, fine: Fineness) -> Round | None:
    """Return the circle in mm, or ``None`` where it is an ellipse there."""
    x, y, rx, ry = oval
    across = checked(to_mm.transformVector((rx, 0.0)), fine)
    down = checked(to_mm.transformVector((0.0, ry)), fine)
    longer, shorter = half_axes(across, down)
    if 2 * (longer - shorter) > ROUND_MM * fine.flat / FLATTEN_MM:
        return None
    centre = checked(to_mm.transformPoint((x, y)), fine)
    return Round(centre=centre, diameter_mm=longer + shorter)


def _draw_ellipse(attrs: _Attrs, pen: Tracer) -> None:
    x, y, rx, ry = _oval(attrs, "ellipse")
    if min(rx, ry) == 0:
        return
    pen.moveTo((x + rx, y))
    pen.arcTo(rx, ry, 0.0, large=False, sweep=True, to=(x - rx, y))
    pen.arcTo(rx, ry, 0.0, large=False, sweep=True, to=(x + rx, y))
    pen.closePath()


def _draw_circle(attrs: _Attrs, pen: Tracer) -> None:
    """Draw a circle that its groups have stretched to an ellipse."""
    radius = attrs.get("r", "0")
    _draw_ellipse({**attrs, "rx": radius, "ry": radius}, pen)


def _draw_rect(attrs: _Attrs, pen: Tracer) -> None:
    x, y, width, height = (plain_length(attrs, key) for key in ("x", "y", "width", "height"))
    if min(width, height) < 0:
        raise ShapeFaultError(
            "negative-size",
            f"It is {width:g} wide and {height:g} high.",
            "Give it a width and height above 0.",
        )
    if min(width, height) == 0:
        return
    # One radius alone stands for both.
    keys = ("rx" if "rx" in attrs else "ry", "ry" if "ry" in attrs else "rx")
    rx, ry = _radii(attrs, keys)
    rx, ry = min(rx, width / 2), min(ry, height / 2)
    right, bottom = x + width, y + height
    pen.moveTo((x + rx, y))
    for edge, corner in (
        ((right - rx, y), (right, y + ry)),
        ((right, bottom - ry), (right - rx, bottom)),
        ((x + rx, bottom), (x, bottom - ry)),
        ((x, y + ry), (x + rx, y)),
    ):
        pen.lineTo(edge)
        pen.arcTo(rx, ry, 0.0, large=False, sweep=True, to=corner)
    pen.closePath()


def _draw_points(attrs: _Attrs, pen: Tracer, *, closed: bool) -> None:
    flat = numbers(attrs.get("points", ""), "points")
    if len(flat) % 2:
        raise ShapeFaultError(
            "odd-points", f"Its points are {len(flat)} numbers.", "Give each point an x and a y."
        )
    points = list(zip(flat[::2], flat[1::2], strict=True))
    if not points:
        return
    pen.moveTo(points[0])
    for point in points[1:]:
        pen.lineTo(point)
    if closed:
        pen.closePath()
    else:
        pen.endPath()


def _draw_line(attrs: _Attrs, pen: Tracer) -> None:
    pen.moveTo((plain_length(attrs, "x1"), plain_length(attrs, "y1")))
    pen.lineTo((plain_length(attrs, "x2"), plain_length(attrs, "y2")))
    pen.endPath()


def _draw_path(attrs: _Attrs, pen: Tracer) -> None:
    draw_path(attrs.get("d", ""), pen)


_DRAW: dict[str, Callable[[_Attrs, Tracer], None]] = {
    "path": _draw_path,
    "rect": _draw_rect,
    "circle": _draw_circle,
    "ellipse": _draw_ellipse,
    "polygon": lambda attrs, pen: _draw_points(attrs, pen, closed=True),
    "polyline": lambda attrs, pen: _draw_points(attrs, pen, closed=False),
    "line": _draw_line,
}
SHAPE_TAGS = frozenset(_DRAW)
