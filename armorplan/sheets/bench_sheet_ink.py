"""Paper, lines and text of the bench sheet: millimetres from the upper left, y down the page."""

from dataclasses import dataclass
from math import pi
from typing import TYPE_CHECKING

from armorplan.pattern.parts import Point, Ring
from armorplan.sheets.bench_sheet_letters import (
    BODY,
    INK,
    NARROW_PCT,
    PT_PER_MM,
    Grey,
    Style,
    face_of,
    printable,
    wide_mm,
)

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A size of paper, upright."""

    name: str
    wide_mm: float
    high_mm: float


A4 = Paper(name="A4", wide_mm=210.0, high_mm=297.0)
LETTER = Paper(name="Letter", wide_mm=215.9, high_mm=279.4)
"""ISO 216 and ANSI/ASME Y14.1 (8.5 by 11 inches)."""
PAPERS = {"a4": A4, "letter": LETTER}


class Ink:
    """Draws on the pages of one PDF, all of it stretched along and up where a printer asks for it."""

    def __init__(
        self, canvas: "Canvas", paper: Paper, stretch: tuple[float, float] = (1.0, 1.0)
    ) -> None:
        self._canvas = canvas
        self._stretch = stretch
        self._high_pt = paper.high_mm * PT_PER_MM
        self.paper = paper

    def begin_page(self) -> None:
        """Set what holds for a whole page."""
        if self._stretch != (1.0, 1.0):
            self._canvas.scale(*self._stretch)
        narrow = self._canvas.beginText()
        narrow.setHorizScale(NARROW_PCT)
        self._canvas.drawText(narrow)
        self._canvas.setLineJoin(1)
        self._canvas.setLineCap(1)

    def end_page(self) -> None:
        """Go on to the next page."""
        self._canvas.showPage()

    def mark(self, key: str, title: str, *, level: int = 0) -> None:
        """Let contents and a reader's outline lead here."""
        self._canvas.bookmarkPage(key)
        self._canvas.addOutlineEntry(printable(title), key, level, closed=level > 0)

    def link(self, key: str, box_mm: tuple[float, float, float, float]) -> None:
        """Let a click into a box (left, top, right, foot) lead to a mark."""
        left, top, right, foot = box_mm
        self._canvas.linkAbsolute("", key, Rect=(*self._at((left, foot)), *self._at((right, top))))

    def _at(self, point: Point) -> Point:
        return point[0] * PT_PER_MM, self._high_pt - point[1] * PT_PER_MM

    def text(self, at: Point, words: str, style: Style = BODY) -> None:
        """Write a line that begins at a point of its baseline."""
        if not words:
            return
        self._write(self._at(at), words, style)

    def text_right(self, at: Point, words: str, style: Style = BODY) -> None:
        """Write a line that ends at a point."""
        self.text((at[0] - wide_mm(words, style), at[1]), words, style)

    def text_middle(self, at: Point, words: str, style: Style = BODY) -> None:
        """Write a line about a point."""
        self.text((at[0] - wide_mm(words, style) / 2, at[1]), words, style)

    def turned(self, at: Point, words: str, style: Style, turn_deg: float) -> None:
        """Write a line about a point, turned: 90 reads up the page."""
        canvas = self._canvas
        canvas.saveState()
        canvas.translate(*self._at(at))
        canvas.rotate(turn_deg)
        self._write((-wide_mm(words, style) / 2 * PT_PER_MM, 0.0), words, style)
        canvas.restoreState()

    def _write(self, at_pt: Point, words: str, style: Style) -> None:
        seen = printable(words)
        self._canvas.setFillColorRGB(*style.colour)
        self._canvas.setFont(face_of(seen, style.face), style.size_pt)
        self._canvas.drawString(*at_pt, seen)

    def line(
        self,
        begin: Point,
        end: Point,
        *,
        thick_pt: float = 0.5,
        colour: Grey = INK,
        dash_mm: tuple[float, ...] = (),
    ) -> None:
        """Draw a line."""
        self._pen(thick_pt, colour, dash_mm)
        self._canvas.line(*self._at(begin), *self._at(end))

    def ring(
        self,
        ring: Ring,
        *,
        fill: Grey | None = None,
        thick_pt: float = 0.5,
        colour: Grey = INK,
        dash_mm: tuple[float, ...] = (),
    ) -> None:
        """Draw a closed outline; ``thick_pt`` 0: filled only."""
        self._pen(thick_pt, colour, dash_mm)
        path = self._canvas.beginPath()
        path.moveTo(*self._at(ring[0]))
        for point in ring[1:]:
            path.lineTo(*self._at(point))
        path.close()
        if fill is not None:
            self._canvas.setFillColorRGB(*fill)
        self._canvas.drawPath(path, stroke=int(thick_pt > 0), fill=int(fill is not None))

    def box(
        self,
        corner: Point,
        size_mm: Point,
        *,
        fill: Grey | None = None,
        thick_pt: float = 0.5,
        colour: Grey = INK,
    ) -> None:
        """Draw a rectangle from its upper left corner."""
        (x, y), (wide, high) = corner, size_mm
        ring = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
        self.ring(ring, fill=fill, thick_pt=thick_pt, colour=colour)

    def circle(
        self,
        centre: Point,
        radius_mm: float,
        *,
        fill: Grey | None = None,
        thick_pt: float = 0.5,
        colour: Grey = INK,
    ) -> None:
        """Draw a circle."""
        self._pen(thick_pt, colour, ())
        if fill is not None:
            self._canvas.setFillColorRGB(*fill)
        self._canvas.circle(
            *self._at(centre),
            radius_mm * PT_PER_MM,
            stroke=int(thick_pt > 0),
            fill=int(fill is not None),
        )

    def clip(self, corner: Point, size_mm: Point) -> None:
        """Draw only within a rectangle, until ``unclip``."""
        self._canvas.saveState()
        path = self._canvas.beginPath()
        x, y = self._at((corner[0], corner[1] + size_mm[1]))
        path.rect(x, y, size_mm[0] * PT_PER_MM, size_mm[1] * PT_PER_MM)
        self._canvas.clipPath(path, stroke=0, fill=0)

    def unclip(self) -> None:
        """Draw everywhere again."""
        self._canvas.restoreState()

    def _pen(self, thick_pt: float, colour: Grey, dash_mm: tuple[float, ...]) -> None:
        self._canvas.setLineWidth(thick_pt)
        self._canvas.setStrokeColorRGB(*colour)
        self._canvas.setDash([mm * PT_PER_MM for mm in dash_mm] or [], 0)


def turn_of(deg: float) -> float:
    """Return an angle in radians, counted as drawings do: 0 right, 90 up the page."""
    return deg * pi / 180
