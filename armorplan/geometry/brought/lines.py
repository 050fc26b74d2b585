"""The lines of a drawing in mm while they are cleared and joined."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from itertools import chain
from math import dist
from typing import TYPE_CHECKING

from armorplan.geometry.brought.model import LooseDrawing, Stroke
from armorplan.geometry.brought.rounds import rounds_of
from armorplan.kernel.stopping import ShouldStop, go_on
from armorplan.pattern.parts import Point, Ring

if TYPE_CHECKING:
    import shapely
    from numpy import float64, int64
    from numpy.typing import NDArray

HOLE_MM = 16.0
"""A round line in a part is a hole up to this diameter, a cut-out above it."""
LONG_MM = 20.0
"""Shorter lines have small boxes and no sure direction; they are found by place."""
_CORNERS_OF_AREA = 3
_SAME_MM = 0.02
_ENDS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One line in mm, made of one stroke or of several.

    ``order`` is the place of its first stroke in the drawing; ``name`` the file's name for it,
    ``group`` that of its group; ``round_by`` says by what it is round where that was found out.
    """

    order: int
    strokes: tuple[str, ...]
    points: Ring
    closed: bool
    circle: tuple[Point, float] | None = None
    layer: str = ""
    colour: str = ""
    name: str = ""
    group: str = ""
    round_by: str = ""

    @property
    def key(self) -> str:
        """Its name: that of the first stroke."""
        return self.strokes[0]


def is_hole(line: Drawn) -> bool:
    """Tell whether a line is round and no wider than a hole."""
    return line.circle is not None and line.circle[1] <= HOLE_MM


def is_straight(line: Drawn) -> bool:
    """Tell whether a line is open, long, and straight from its first to its last corner."""
    return not line.closed and len(line.points) == _ENDS and dist(*line.points) >= LONG_MM


def scaled(drawing: LooseDrawing, mm_each: float, should_stop: ShouldStop) -> list[Drawn]:
    """Return the strokes of a drawing in mm, each gone along once."""
    found: list[Drawn] = []
    for order, stroke in enumerate(drawing.strokes):
        go_on(should_stop)
        found.append(once_round(as_drawn(order, stroke, mm_each)))
    return found


def as_drawn(order: int, stroke: Stroke, mm_each: float = 1.0) -> Drawn:
    """Return one stroke, scaled."""
    circle = stroke.circle
    if circle is not None:
        (x, y), wide = circle
        circle = (x * mm_each, y * mm_each), wide * mm_each
    return Drawn(
        order=order,
        strokes=(stroke.key,),
        points=tuple((x * mm_each, y * mm_each) for x, y in stroke.points),
        closed=stroke.closed and len(stroke.points) >= _CORNERS_OF_AREA,
        circle=circle,
        layer=stroke.layer,
        colour=stroke.colour,
        name=stroke.label,
        group=stroke.group,
    )


def once_round(line: Drawn) -> Drawn:
    """Return a line without the second round of one drawn twice over, or the way back upon itself."""
    points, count = line.points, len(line.points)
    half = count // 2
    if line.circle is not None or count < _CORNERS_OF_AREA:
        return line
    if count % 2 and not line.closed and _same(points[:half], points[:half:-1]):
        return replace(line, points=points[: half + 1])
    if count % 2 or not line.closed:
        return line
    if _same(points[1:half], points[:half:-1]):
        return replace(line, points=points[: half + 1], closed=False)
    if half >= _CORNERS_OF_AREA and _same(points[:half], points[half:]):
        return replace(line, points=points[:half])
    return line


def _same(one: Ring, other: Ring) -> bool:
    return all(
        abs(x - u) <= _SAME_MM and abs(y - v) <= _SAME_MM
        for (x, y), (u, v) in zip(one, other, strict=True)
    )


def rounded(lines: Sequence[Drawn], should_stop: ShouldStop) -> list[Drawn]:
    """Return the lines, those that are round with their circle."""
    asked = [n for n, line in enumerate(lines) if line.closed and line.circle is None]
    found = list(lines)
    fits = rounds_of([lines[n].points for n in asked], should_stop=should_stop)
    for n, fit in zip(asked, fits, strict=True):
        if fit is not None:
            by = f"its {fit.corners} corners lie within {fit.off:.2f} mm of a circle"
            found[n] = replace(lines[n], circle=(fit.centre, fit.diameter), round_by=by)
    return found


def as_lines(lines: Iterable[Drawn]) -> "list[shapely.LineString]":
    """Return them for shapely, closed ones as rings that end where they begin."""
    import numpy as np
    import shapely

    corners, owner = corners_of(lines)
    return list(np.asarray(shapely.linestrings(corners, indices=owner), dtype=object))


def corners_of(lines: Iterable[Drawn]) -> "tuple[NDArray[float64], NDArray[int64]]":
    """Return all corners one after the other, and for each the place of its line.

    Closed lines end where they begin.
    """
    return _corners(
        [(*line.points, line.points[0]) if line.closed else line.points for line in lines]
    )


def _corners(given: Sequence[Ring]) -> "tuple[NDArray[float64], NDArray[int64]]":
    """Return all corners one after the other, and for each the place of its line."""
    import numpy as np

    owner = np.repeat(np.arange(len(given)), [len(points) for points in given])
    numbers = chain.from_iterable(chain.from_iterable(given))
    return np.fromiter(numbers, dtype=float, count=2 * len(owner)).reshape(-1, 2), owner


def as_line(line: Drawn) -> "shapely.LineString":
    """Return one line for shapely."""
    import shapely

    return shapely.LineString((*line.points, line.points[0]) if line.closed else line.points)


def as_areas(lines: Sequence[Drawn]) -> "list[shapely.Polygon]":
    """Return the areas of closed lines; those that cross themselves made sound for it."""
    import numpy as np
    import shapely

    corners, owner = _corners([line.points for line in lines])
    areas = np.asarray(shapely.polygons(shapely.linearrings(corners, indices=owner)), dtype=object)
    crossed = ~shapely.is_valid(areas)
    if crossed.any():
        areas[crossed] = shapely.make_valid(
            areas[crossed], method="structure", keep_collapsed=False
        )
    return list(areas)
