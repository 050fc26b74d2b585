"""What stands on every page at full size: the bar to measure, both ways, and what the page is of."""

from dataclasses import dataclass

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_ink import Ink, Paper
from armorplan.sheets.bench_sheet_letters import BOLD, QUIET, Style, fitted
from armorplan.sheets.full_size_tiles import Window
from armorplan.sheets.printer_scale import BAR_MM, TRUE_SCALE, PrinterScale, scale_words

NAME = Style(face=BOLD, size_pt=8.5, lead_mm=3.8)
WORDS = Style(size_pt=6.8, lead_mm=3.1, colour=QUIET)
_EDGE_MM, _TOP_MM, _BELOW_MM = 12.0, 14.0, 27.0
_BAR_UP_MM, _BAR_EDGE_MM = 14.0, 6.0
"""How far from the lower and from the right edge the bars lie: printers reach so far."""
_TICK_MM, _LONG_TICK_MM = 10, 50
_NAMED_MM = 22.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PageWords:
    """What a page says of itself: the pattern, what is on it, its number and how many there are.

    ``scale``: of the printer it is drawn for.
    """

    sheet: str
    about: str
    number: int
    pages: int
    scale: PrinterScale = TRUE_SCALE


def window_of(paper: Paper) -> Window:
    """Return what of a page is for parts."""
    wide = paper.wide_mm - 2 * _EDGE_MM
    return Window(corner=(_EDGE_MM, _TOP_MM), size=(wide, paper.high_mm - _TOP_MM - _BELOW_MM))


def draw_frame(ink: Ink, words: PageWords) -> None:
    """Draw the bars and the words of a page."""
    window = window_of(ink.paper)
    y = ink.paper.high_mm - _BAR_UP_MM
    right = window.corner[0] + window.size[0]
    draw_bar(ink, (window.corner[0], y))
    _draw_upright_bar(ink, (ink.paper.wide_mm - _BAR_EDGE_MM, y))
    left = window.corner[0] + BAR_MM + 8
    room = right - left
    ink.text((left, y - 5.2), fitted(words.sheet, NAME, room), NAME)
    ink.text((left, y - 1.6), fitted(words.about, WORDS, room), WORDS)
    ink.text((left, y + 2.0), fitted(_how_printed(words.scale), WORDS, room), WORDS)
    ink.text((left, y + 5.2), "Costume, not protective equipment.", WORDS)
    ink.text_right((right, y + 5.2), f"Page {words.number} of {words.pages}", WORDS)


def _how_printed(scale: PrinterScale) -> str:
    """Return how a page is printed, and on which printer where it is drawn for one."""
    if scale.is_true:
        return "Print at 100 %, never fitted to the page."
    named = fitted(scale.printer, WORDS, _NAMED_MM) if scale.printer else "the printer with"
    return f"Print at 100 %, on {named}: {scale_words(scale)}."


def draw_bar(ink: Ink, at: Point) -> None:
    """Draw the bar of 100 mm from a point to the right, with a tick each 10 mm."""
    x, y = at
    ink.line((x, y), (x + BAR_MM, y), thick_pt=0.8)
    for mm in range(0, int(BAR_MM) + 1, _TICK_MM):
        high = 2.2 if mm % _LONG_TICK_MM else 4.0
        ink.line((x + mm, y), (x + mm, y - high), thick_pt=0.5)
    ink.text((x + 1.0, y + 3.4), "100 mm: measure it before you cut", WORDS)


def _draw_upright_bar(ink: Ink, at: Point) -> None:
    x, y = at
    ink.line((x, y), (x, y - BAR_MM), thick_pt=0.8)
    for mm in range(0, int(BAR_MM) + 1, _TICK_MM):
        wide = 1.8 if mm % _LONG_TICK_MM else 3.0
        ink.line((x, y - mm), (x - wide, y - mm), thick_pt=0.5)
    ink.turned((x - 2.4, y - 25.0), "100 mm", WORDS, 90)
