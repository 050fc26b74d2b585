"""Pages of parts at full size: small ones side by side, large ones in tiles, and how they join."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass

from armorplan.sheets.bench_sheet_ink import Ink, Paper
from armorplan.sheets.bench_sheet_letters import BLUE, BODY, SERIF, SMALL, Style, wrapped
from armorplan.sheets.bench_sheet_model import FullPart
from armorplan.sheets.full_size_joins import (
    MAP_MM,
    draw_joins,
    draw_map,
    draw_tile_label,
    full_name,
    tile_title,
)
from armorplan.sheets.full_size_marks import NAME, WORDS, PageWords, draw_frame, window_of
from armorplan.sheets.full_size_parts import draw_part
from armorplan.sheets.full_size_tiles import (
    LABEL_MM,
    LEAST_WIDE_MM,
    OVERLAP_MM,
    Placed,
    Tile,
    Tiling,
    Window,
    packed,
    tiled,
)
from armorplan.sheets.printer_scale import TRUE_SCALE, PrinterScale, scale_words

_TITLE = Style(face=SERIF, size_pt=15.0, lead_mm=7.0)
_SCALE = (
    "Print these pages at 100 % ('actual size'), never fitted to the page. Lay a ruler on the bars "
    "of each page, along and up: they are 100 mm long. Where they are not, the parts are wrong too: "
    "type the two lengths in where the sheet is saved, and it makes up for the printer."
)
_JOINS = (
    "Cut a tile along its dashed frame at the right and below, lay it over the shaded strip of the "
    f"next, crosses on crosses, and glue. The strips are {OVERLAP_MM:g} mm wide."
)
_FACES = (
    "Each part shows the face that is named at it, and lies on the leather that way. The right one "
    "of a pair is drawn mirrored: nothing has to be turned over."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class FullPage:
    """A page at full size: what is on it, in words, and what draws it."""

    about: str
    draw: Callable[[Ink], None]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Large:
    """A part too large for a page, in tiles; ``None``: in more than anybody glues together."""

    part: FullPart
    tiling: Tiling | None


def draw_full_page(ink: Ink, page: FullPage, words: PageWords) -> None:
    """Draw a page with its bars and words."""
    page.draw(ink)
    draw_frame(ink, words)


def full_size_pages(
    parts: Sequence[FullPart], paper: Paper, scale: PrinterScale = TRUE_SCALE
) -> tuple[FullPage, ...]:
    """Return the pages of parts at full size, after one that tells how they go together.

    ``paper`` is as it comes out of the printer whose scale this is.
    """
    if not parts:
        return ()
    window = window_of(paper)
    groups: dict[tuple[str, str], list[FullPart]] = {}
    for part in parts:
        groups.setdefault((part.piece, part.side), []).append(part)
    pages: list[FullPage] = []
    large: list[_Large] = []
    for of_one in groups.values():
        small = packed(of_one, window, label_mm)
        pages.extend(_packed_page(page) for page in small.pages)
        more = [_Large(part=part, tiling=tiled(part, window)) for part in small.too_large]
        pages.extend(page for one in more for page in _tile_pages(one, window))
        large += [one for one in more if one.tiling is None or len(one.tiling.tiles) > 1]
    return (*_how_pages(large, _words(len(parts), large, scale), window), *pages)


def _packed_page(page: tuple[Placed, ...]) -> FullPage:
    def draw(ink: Ink) -> None:
        for one in page:
            draw_part(ink, one)
            _draw_label(ink, one)

    first = page[0].part
    about = ", ".join(bit for bit in (first.piece, first.side) if bit)
    return FullPage(about=about, draw=draw)


def _label(one: Placed) -> tuple[list[str], list[str]]:
    """Return the lines of a part's name, and of what is to know of it, as wide as it lies."""
    room = max(one.size[0], LEAST_WIDE_MM)
    words = "; ".join(one.part.words)
    return wrapped(full_name(one.part), NAME, room), wrapped(words, WORDS, room)


def label_mm(one: Placed) -> float:
    """Return how high what is written above a part is."""
    names, words = _label(one)
    more = NAME.lead_mm * max(len(names) - 1, 0) + WORDS.lead_mm * max(len(words) - 1, 0)
    return LABEL_MM + more


def _draw_label(ink: Ink, one: Placed) -> None:
    """Write above a part what it is."""
    names, words = _label(one)
    x, below = one.at
    y = below - 1.4 - WORDS.lead_mm * len(words) - NAME.lead_mm * (len(names) - 1)
    for line in names:
        ink.text((x, y), line, NAME)
        y += NAME.lead_mm
    y = below - 1.4 - WORDS.lead_mm * (len(words) - 1)
    for line in words:
        ink.text((x, y), line, WORDS)
        y += WORDS.lead_mm


def _tile_pages(large: _Large, window: Window) -> Iterator[FullPage]:
    if large.tiling is not None:
        for tile in large.tiling.tiles:
            yield _tile_page(tile, large.tiling, window)


def _tile_page(tile: Tile, tiling: Tiling, window: Window) -> FullPage:
    def draw(ink: Ink) -> None:
        if len(tiling.tiles) > 1:
            draw_joins(ink, tile, window)
        ink.clip(window.corner, window.size)
        draw_part(ink, tile.placed)
        ink.unclip()
        draw_tile_label(ink, tile, tiling, window)

    return FullPage(about=tile_title(tile, tiling), draw=draw)


def _words(parts: int, large: Sequence[_Large], scale: PrinterScale) -> list[str]:
    """Return what there is to know of the pages, a paragraph each."""
    counted = "1 part" if parts == 1 else f"{parts} parts"
    words = [f"{counted}, to be cut in card first for the mock-up.", _SCALE, _FACES]
    if not scale.is_true:
        who = scale.printer or "a printer"
        words.insert(
            2,
            f"They are drawn for {who}, on which bars of 100 mm came out as {scale_words(scale)}: "
            "there they come out true now, on another printer wrong.",
        )
    return [*words, _JOINS] if large else words


def _how_pages(
    large: Sequence[_Large], words: Sequence[str], window: Window
) -> Iterator[FullPage]:
    """Yield the pages that tell how the following are printed and put together."""
    across = int((window.size[0] + 4) // MAP_MM[0])
    down = int((window.size[1] - 75) // MAP_MM[1])
    for first in range(0, max(len(large), 1), across * down):
        maps = large[first : first + across * down]
        yield FullPage(about="How the parts are printed", draw=_how(words, maps, window))


def _how(words: Sequence[str], maps: Sequence[_Large], window: Window) -> Callable[[Ink], None]:
    across = int((window.size[0] + 4) // MAP_MM[0])

    def draw(ink: Ink) -> None:
        x, y = window.corner
        room = window.size[0]
        ink.text((x, y + 6), "Parts at full size", _TITLE)
        ink.line((x, y + 9), (x + room, y + 9), thick_pt=1.2, colour=BLUE)
        y += 15
        for paragraph in words:
            for line in wrapped(paragraph, BODY, room):
                ink.text((x, y), line, BODY)
                y += BODY.lead_mm
            y += 1.6
        if maps:
            ink.text((x, y + 3), "Which tile goes where", SMALL)
        for number, one in enumerate(maps):
            row, column = divmod(number, across)
            at = (x + column * (MAP_MM[0] + 4), y + 5 + row * MAP_MM[1])
            draw_map(ink, one.part, one.tiling, at)

    return draw
