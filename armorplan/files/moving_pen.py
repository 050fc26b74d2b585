"""A pen that writes down path data as it is drawn, every spot moved to its new place."""

from collections.abc import Callable, Iterable, Iterator

from fontTools.misc.transform import Transform
from fontTools.svgLib.path.arc import EllipticalArc

from armorplan.pattern.parts import Point, Ring

Moved = Callable[[Point], Point]


class MovingPen:
    """A pen that moves what is drawn to its new place and writes it down; its names are fontTools'."""

    def __init__(self, to_mm: Transform, moved: Moved = lambda spot: spot) -> None:
        self._to_mm, self._moved = to_mm, moved
        self._at: Point = (0.0, 0.0)
        self.words: list[str] = []
        self.spots: list[Point] = []

    def _put(self, word: str, *points: Point) -> None:
        self._at = points[-1]
        self._write(word, [self._moved(self._to_mm.transformPoint(point)) for point in points])

    def _write(self, word: str, spots: list[Point]) -> None:
        self.spots += spots
        self.words.append(" ".join([word, *(f"{plain(x)},{plain(y)}" for x, y in spots)]))

    def moveTo(self, to: Point) -> None:  # noqa: N802
        """Begin a line at a point."""
        self._put("M", to)

    def lineTo(self, to: Point) -> None:  # noqa: N802
        """Draw a straight line."""
        self._put("L", to)

    def curveTo(self, first: Point, second: Point, to: Point) -> None:  # noqa: N802
        """Draw a cubic Bézier curve."""
        self._put("C", first, second, to)

    def qCurveTo(self, control: Point, to: Point) -> None:  # noqa: N802
        """Draw a quadratic Bézier curve."""
        self._put("Q", control, to)

    def arcTo(  # noqa: N802
        self,
        rx: float,
        ry: float,
        turn_deg: float,
        large: bool,  # noqa: FBT001 - fontTools' signature
        sweep: bool,  # noqa: FBT001
        to: Point,
    ) -> None:
        """Draw an elliptical arc as curves, which any move of the spots leaves curves."""
        if not rx or not ry or to == self._at:
            self.lineTo(to)
            return
        EllipticalArc(complex(*self._at), rx, ry, turn_deg, large, sweep, complex(*to)).draw(self)

    def closePath(self) -> None:  # noqa: N802
        """Close the line."""
        self.words.append("Z")

    def endPath(self) -> None:  # noqa: N802
        """Leave the line open."""

    def polyline(self, points: Iterable[Point], *, closed: bool) -> None:
        """Draw straight lines from point to point."""
        for word, point in zip(_begun(), points, strict=False):
            self._put(word, point)
        if closed:
            self.closePath()

    def in_mm(self, ring: Ring) -> None:
        """Draw a closed outline whose corners are mm already."""
        for word, corner in zip(_begun(), ring, strict=False):
            self._write(word, [self._moved(corner)])
        self.closePath()


def _begun() -> Iterator[str]:
    yield "M"
    while True:
        yield "L"


def plain(value: float) -> str:
    """Write a length in mm to a thousandth."""
    return f"{round(value, 3) + 0.0:.10g}"
