"""Letters and colours of the bench sheet: how text looks, how wide it is, where it is broken."""

from dataclasses import dataclass, replace
from functools import lru_cache
from pathlib import Path
from unicodedata import category, normalize

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
def face_of(text: str, face: str) -> str:
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
    points = stringWidth(words, face_of(words, style.face), style.size_pt)
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
