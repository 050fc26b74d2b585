"""Paper, letters and lines of the bench sheet: millimetres from the upper left, y down the page."""

from dataclasses import dataclass, replace
from functools import lru_cache
from math import pi
from pathlib import Path
from typing import TYPE_CHECKING
from unicodedata import category, normalize

from armorplan.pattern.parts import Point, Ring

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

PT_PER_MM = 72 / 25.4
NARROW_PCT = 90
"""Letters are set this wide: DejaVu's own condensed faces are its usual ones at 90 %."""
SANS, BOLD, SLANT, SERIF = (
    "DejaVuSans",
    "DejaVuSans-Bold",
    "DejaVuSans-Oblique",
    "DejaVuSerif-Bold",
)
_FACES = (SANS, BOLD, SLANT, SERIF)
NO_LETTER = "\N{WHITE SQUARE}"
"""Stands for a letter that the faces do not have."""
_NOT_SEEN = ("Cc", "Cf", "Cs", "Zl", "Zp")


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

Grey = tuple[float, float, float]
INK: Grey = (0.10, 0.13, 0.17)
QUIET: Grey = (0.36, 0.40, 0.45)
LINE: Grey = (0.72, 0.75, 0.79)
TINT: Grey = (0.87, 0.91, 0.95)
PALE: Grey = (0.955, 0.965, 0.975)
BLUE: Grey = (0.10, 0.27, 0.46)
WARN: Grey = (0.58, 0.18, 0.04)
WHITE: Grey = (1.0, 1.0, 1.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Style:
    """How text looks: face, height in points, line to line in mm, colour."""

    face: str = SANS
    size_pt: float = 8.5
    lead_mm: float = 4.0
    colour: Grey = INK


BODY = Style()
SMALL = Style(size_pt=7.2, lead_mm=3.4, colour=QUIET)
STRONG = replace(BODY, face=BOLD)
MARGIN = Style(face=SLANT, size_pt=7.2, lead_mm=3.3, colour=QUIET)


def register_faces() -> None:
    """Register faces that have every letter of Europe: a PDF's own know only its west."""
    import matplotlib as mpl
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    folder = Path(mpl.get_data_path()) / "fonts" / "ttf"
    known = pdfmetrics.getRegisteredFontNames()
    for name in _FACES:
        if name not in known:
            pdfmetrics.registerFont(TTFont(name, str(folder / f"{name}.ttf")))


@lru_cache(maxsize=4)
def _letters(face: str) -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    register_faces()
    font = pdfmetrics.getFont(face)
    return frozenset(font.face.charToGlyph)  # type: ignore[attr-defined]


@lru_cache(maxsize=20_000)
def printable(text: str) -> str:
    """Return a text as it can be printed: in one line, letters that no face has as squares."""
    if text.isascii() and text.isprintable():
        return text
    known = _letters(SANS)
    return "".join(_seen(letter, known) for letter in normalize("NFC", text))


def _seen(letter: str, known: frozenset[int]) -> str:
    if letter.isspace():
        return letter if letter == "\N{NO-BREAK SPACE}" else " "
    if category(letter) in _NOT_SEEN:
        return ""
    return letter if ord(letter) in known else NO_LETTER


@lru_cache(maxsize=20_000)
def _face(text: str, face: str) -> str:
    """Return the face a text is set in: the plain one, which has most letters, where it has to be."""
    is_whole = face == SANS or text.isascii() or _letters(face).issuperset(map(ord, text))
    return face if is_whole else SANS


def not_printable(text: str) -> frozenset[str]:
    """Return the letters of a text that are printed as squares."""
    known = _letters(SANS)
    return frozenset(x for x in normalize("NFC", text) if _seen(x, known) == NO_LETTER != x)


@lru_cache(maxsize=50_000)
def wide_mm(text: str, style: Style) -> float:
    """Return how wide a text is set."""
    from reportlab.pdfbase.pdfmetrics import stringWidth

    words = printable(text)
    points = stringWidth(words, _face(words, style.face), style.size_pt)
    return points * NARROW_PCT / 100 / PT_PER_MM


def wrapped(text: str, style: Style, room_mm: float) -> list[str]:
    """Return a text in lines; a word longer than a line is broken."""
    lines: list[str] = []
    line, used, space = "", 0.0, wide_mm(" ", style)
    for word in printable(text).split(" "):
        wide = wide_mm(word, style)
        if line and used + space + wide <= room_mm:
            line, used = f"{line} {word}", used + space + wide
            continue
        if line:
            lines.append(line)
        line, used = word, wide
        if wide > room_mm:
            *whole, line = _broken(word, style, room_mm)
            lines += whole
            used = wide_mm(line, style)
    return [*lines, line] if line else lines


def _broken(word: str, style: Style, room_mm: float) -> list[str]:
    found, bit = [], ""
    for letter in word:
        if bit and wide_mm(bit + letter, style) > room_mm:
            found.append(bit)
            bit = ""
        bit += letter
    return [*found, bit]


def fitted(text: str, style: Style, room_mm: float) -> str:
    """Return a text in one line, cut with dots where it is longer."""
    text = printable(text)
    if wide_mm(text, style) <= room_mm:
        return text
    while text and wide_mm(f"{text}…", style) > room_mm:
        text = text[:-1]
    return f"{text.rstrip()}…"


class Ink:
    """Draws on the pages of one PDF."""

    def __init__(self, canvas: "Canvas", paper: Paper) -> None:
        self._canvas = canvas
        self._high_pt = paper.high_mm * PT_PER_MM
        self.paper = paper

    def begin_page(self) -> None:
        """Set what holds for a whole page."""
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
        self._canvas.setFont(_face(seen, style.face), style.size_pt)
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
