"""Shapes for the sample patterns: curves, rows of holes and the SVG they are written to."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, field
from math import cos, hypot, pi, sin

Point = tuple[float, float]
Curve = Callable[[float], Point]


def number(value: float) -> str:
    """Write a length in mm to a thousandth, without trailing noughts."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def place(point: Point, at: Point, turn_deg: float = 0.0) -> Point:
    """Turn a point about the origin (y downwards), then move it."""
    angle = turn_deg * pi / 180
    x, y = point
    return (
        x * cos(angle) - y * sin(angle) + at[0],
        x * sin(angle) + y * cos(angle) + at[1],
    )


def polar(radius_mm: float, angle: float) -> Point:
    """Return a point on an arc whose centre lies above the part; 0 is straight down."""
    return radius_mm * sin(angle), radius_mm * cos(angle)


def offset(curve: Curve, margin_mm: float) -> Curve:
    """Return the curve moved to its left by a margin (to the right for a curve running down)."""

    def moved(t: float) -> Point:
        (x, y), (dx, dy) = curve(t), slope(curve, t)
        size = hypot(dx, dy)
        return x + margin_mm * dy / size, y - margin_mm * dx / size

    return moved


def slope(curve: Curve, t: float) -> Point:
    """Return the tangent of a curve at a parameter."""
    step = 1e-4
    (ax, ay), (bx, by) = curve(t - step), curve(t + step)
    return (bx - ax) / (2 * step), (by - ay) / (2 * step)


def next_at(curve: Curve, start: float, chord_mm: float) -> float:
    """Return the parameter beyond ``start`` whose point lies a chord away, by halving."""
    sx, sy = curve(start)
    low, high = start, start + 2 * chord_mm
    for _ in range(80):
        middle = (low + high) / 2
        x, y = curve(middle)
        if hypot(x - sx, y - sy) < chord_mm:
            low = middle
        else:
            high = middle
    return high


def row_about_middle(curve: Curve, *, chord_mm: float, each_side: int) -> tuple[Point, ...]:
    """Return points with equal chords along a curve symmetric about 0, in its direction."""
    spots = [0.0]
    for _ in range(each_side):
        spots.append(next_at(curve, spots[-1], chord_mm))
    return tuple(curve(s) for s in [-s for s in reversed(spots[1:])] + spots)


@dataclass
class Path:
    """A closed path under construction, in the part's own millimetres."""

    commands: list[tuple[str, tuple[Point, ...]]] = field(default_factory=list)

    def move(self, to: Point) -> Path:
        self.commands.append(("M", (to,)))
        return self

    def line(self, to: Point) -> Path:
        self.commands.append(("L", (to,)))
        return self

    def bend(self, control: Point, to: Point) -> Path:
        """Draw a quadratic curve: a cut or rounded corner."""
        self.commands.append(("Q", (control, to)))
        return self

    def sweep(self, first: Point, second: Point, to: Point) -> Path:
        self.commands.append(("C", (first, second, to)))
        return self

    def arc(self, radius_mm: float, to: Point, *, clockwise: bool) -> Path:
        self.commands.append((f"A {number(radius_mm)} {int(clockwise)}", (to,)))
        return self

    def along(self, curve: Curve, start: float, end: float, pieces: int) -> Path:
        """Follow a curve by cubics that share its points and tangents."""
        step = (end - start) / pieces
        for i in range(pieces):
            t0, t1 = start + i * step, start + (i + 1) * step
            (x0, y0), (x1, y1) = curve(t0), curve(t1)
            (u0, v0), (u1, v1) = slope(curve, t0), slope(curve, t1)
            self.sweep(
                (x0 + u0 * step / 3, y0 + v0 * step / 3),
                (x1 - u1 * step / 3, y1 - v1 * step / 3),
                (x1, y1),
            )
        return self

    def moved(self, shift: Callable[[Point], Point]) -> str:
        """Return the path data with every point shifted."""
        words = []
        for name, points in self.commands:
            spots = " ".join(f"{number(x)},{number(y)}" for x, y in map(shift, points))
            if name.startswith("A"):
                _, radius, sweep = name.split()
                words.append(f"A {radius} {radius} 0 0 {sweep} {spots}")
            else:
                words.append(f"{name} {spots}")
        return " ".join(words) + " Z"


@dataclass(frozen=True)
class Shape:
    """A part laid on the sheet: outline, round holes (id, centre, diameter), slots and axes.

    An axis is a straight line with an id that a form bends about.
    """

    id: str
    outline: Path
    at: Point
    holes: tuple[tuple[str, Point, float], ...] = ()
    slots: tuple[tuple[str, Path], ...] = ()
    axes: tuple[tuple[str, Point, Point], ...] = ()

    def lines(self) -> Iterable[str]:
        def shift(point: Point) -> Point:
            return place(point, self.at)

        yield f'    <path id="{self.id}" d="{self.outline.moved(shift)}"/>'
        for slot_id, slot in self.slots:
            yield f'    <path id="{slot_id}" d="{slot.moved(shift)}"/>'
        for hole_id, centre, diameter in self.holes:
            x, y = (number(v) for v in shift(centre))
            yield f'    <circle id="{hole_id}" cx="{x}" cy="{y}" r="{number(diameter / 2)}"/>'
        for axis_id, start, end in self.axes:
            (x1, y1), (x2, y2) = (tuple(map(number, shift(spot))) for spot in (start, end))
            yield f'    <line id="{axis_id}" x1="{x1}" y1="{y1}" x2="{x2}" y2="{y2}"/>'


def sheet(shapes: Iterable[Shape], *, title: str, width_mm: int, height_mm: int) -> str:
    """Write the drawing; one user unit is one millimetre."""
    lines = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<svg xmlns="http://www.w3.org/2000/svg"',
        f'     width="{width_mm}mm" height="{height_mm}mm" viewBox="0 0 {width_mm} {height_mm}">',
        f"  <title>{title}</title>",
        '  <g fill="none" stroke="#000000" stroke-width="0.3">',
    ]
    for shape in shapes:
        lines.extend(shape.lines())
    return "\n".join([*lines, "  </g>", "</svg>", ""])


def strip(length_mm: float, width_mm: float, *, point_mm: float = 0.0) -> Path:
    """Draw a strap along x from a rounded end at 0 to a rounded end or a long point."""
    half = width_mm / 2
    round_mm = half * 0.55
    path = Path().move((round_mm, -half))
    if point_mm:
        path.line((length_mm - point_mm, -half))
        path.sweep(
            (length_mm - point_mm * 0.45, -half),
            (length_mm - point_mm * 0.15, -half * 0.45),
            (length_mm - 0.8, -1.2),
        )
        path.bend((length_mm, 0), (length_mm - 0.8, 1.2))
        path.sweep(
            (length_mm - point_mm * 0.15, half * 0.45),
            (length_mm - point_mm * 0.45, half),
            (length_mm - point_mm, half),
        )
    else:
        path.line((length_mm - round_mm, -half)).bend((length_mm, -half), (length_mm, 0))
        path.bend((length_mm, half), (length_mm - round_mm, half))
    path.line((round_mm, half)).bend((0, half), (0, 0))
    return path.bend((0, -half), (round_mm, -half))


def oblong(centre: Point, *, length_mm: float, width_mm: float) -> Path:
    """Draw a slot along x with round ends."""
    x, y = centre
    half, round_mm = length_mm / 2, width_mm / 2
    path = (
        Path().move((x - half + round_mm, y - round_mm)).line((x + half - round_mm, y - round_mm))
    )
    path.arc(round_mm, (x + half - round_mm, y + round_mm), clockwise=True)
    path.line((x - half + round_mm, y + round_mm))
    return path.arc(round_mm, (x - half + round_mm, y - round_mm), clockwise=True)


def turned(path: Path, at: Point, turn_deg: float = 0.0) -> Path:
    """Return a path turned about the origin and moved, as ``place`` does with a point."""
    return Path(
        [
            (name, tuple(place(point, at, turn_deg) for point in points))
            for name, points in path.commands
        ]
    )


def disc(radius_mm: float) -> Path:
    """Draw a round part."""
    path = Path().move((-radius_mm, 0)).arc(radius_mm, (radius_mm, 0), clockwise=True)
    return path.arc(radius_mm, (-radius_mm, 0), clockwise=True)
