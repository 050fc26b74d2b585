"""Pages of parts at full size: a bar to measure on each, and marks by which tiles are joined."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from math import cos, sin

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_figures import arrow, box_of
from armorplan.sheets.bench_sheet_ink import (
    BLUE,
    BODY,
    BOLD,
    INK,
    LINE,
    QUIET,
    SERIF,
    SMALL,
    TINT,
    WHITE,
    Ink,
    Paper,
    Style,
    fitted,
    turn_of,
    wide_mm,
    wrapped,
)
from armorplan.sheets.bench_sheet_model import FullPart
from armorplan.sheets.full_size_tiles import (
    OVERLAP_MM,
    Placed,
    Tile,
    Tiling,
    Window,
    packed,
    size_of,
    tiled,
)

BAR_MM = 100.0
_EDGE_MM, _TOP_MM, _BELOW_MM = 12.0, 14.0, 27.0
_NAME = Style(face=BOLD, size_pt=8.5, lead_mm=3.8)
_WORDS = Style(size_pt=6.8, lead_mm=3.1, colour=QUIET)
_FOOT = Style(size_pt=6.8, lead_mm=3.2, colour=QUIET)
_TITLE = Style(face=SERIF, size_pt=15.0, lead_mm=7.0)
_JOIN = Style(size_pt=6.4, lead_mm=3.0, colour=BLUE)
_CUT_PT = 0.7
_HOW = (
    "Print these pages at 100 % ('actual size'), never fitted to the page. Lay a ruler on the bar of "
    "each page, along and up: it is 100 mm long. Where it is not, the parts are wrong as well.",
    "Cut a tile along its dashed frame at the right and below, lay it over the shaded strip of the "
    "next, crosses on crosses, and glue. The strips are 10 mm wide.",
    "Parts are drawn as the face shows that is named at each; the right one of a pair is drawn "
    "mirrored, so that every print is cut as it lies.",
)

Number = tuple[int, int]
"""A page, and how many there are."""


@dataclass(frozen=True, slots=True, kw_only=True)
class FullPage:
    """A page at full size."""

    draw: Callable[[Ink, str, Number], None]


def window_of(paper: Paper) -> Window:
    """Return what of a page is for parts."""
    wide = paper.wide_mm - 2 * _EDGE_MM
    return Window(corner=(_EDGE_MM, _TOP_MM), size=(wide, paper.high_mm - _TOP_MM - _BELOW_MM))


def full_size_pages(parts: tuple[FullPart, ...], paper: Paper) -> tuple[FullPage, ...]:
    """Return the pages of parts at full size, after one that tells how they go together."""
    if not parts:
        return ()
    window = window_of(paper)
    groups: dict[tuple[str, str], list[FullPart]] = {}
    for part in parts:
        groups.setdefault((part.piece, part.side), []).append(part)
    pages, told = [], []
    for of_one in groups.values():
        for page in packed(of_one, window):
            pages.append(_packed_page(page, window))
        for part in of_one:
            if any(_fits(one, part) for one in packed((part,), window)):
                continue
            tiling = tiled(part, window)
            told.append((part, tiling))
            pages += (
                [] if tiling is None else [_tile_page(t, tiling, window) for t in tiling.tiles]
            )
    return (_map_page(told, len(parts)), *pages)


def _fits(page: tuple[Placed, ...], part: FullPart) -> bool:
    return any(one.part is part for one in page)


def _packed_page(page: tuple[Placed, ...], window: Window) -> FullPage:
    def draw(ink: Ink, named: str, number: Number) -> None:
        for one in page:
            _draw_part(ink, one)
            _draw_label(ink, one, (one.at[0], one.at[1] - 4.6), max(one.size[0], 34.0))
        piece = page[0].part
        about = ", ".join(bit for bit in (piece.piece, piece.side) if bit)
        _draw_frame(ink, (named, about), number, window)

    return FullPage(draw=draw)


def _draw_label(ink: Ink, one: Placed, at: Point, room: float) -> None:
    part = one.part
    name = f"{part.name}, {part.side}" if part.side else part.name
    ink.text(at, fitted(name, _NAME, room), _NAME)
    ink.text((at[0], at[1] + 3.2), fitted("; ".join(part.words), _WORDS, room + 5), _WORDS)


def _draw_part(ink: Ink, one: Placed) -> None:
    part = one.part
    ink.ring(tuple(map(one.place, part.outline)), thick_pt=_CUT_PT)
    for slot in part.slots:
        ink.ring(tuple(map(one.place, slot)), thick_pt=0.5)
    for hole in part.holes:
        _draw_hole(ink, one.place(hole.centre), hole.diameter_mm / 2)
    for line in part.lines:
        begin, end = map(one.place, line.ends)
        ink.line(begin, end, thick_pt=0.5, colour=BLUE, dash_mm=(4.0, 1.2, 0.8, 1.2))
        ink.text((begin[0] + 1, begin[1] - 1), line.label, _JOIN)
    _draw_arrows(ink, one)


def _draw_hole(ink: Ink, centre: Point, radius: float) -> None:
    ink.circle(centre, radius, thick_pt=0.5)
    (x, y), arm = centre, radius + 0.9
    ink.line((x - arm, y), (x + arm, y), thick_pt=0.25)
    ink.line((x, y - arm), (x, y + arm), thick_pt=0.25)


def _draw_arrows(ink: Ink, one: Placed) -> None:
    """Draw where up is, and the backbone where it matters, about the middle of the part."""
    middle = one.place(_inside(one.part))
    room = min(one.size)
    long = max(min(room * 0.5, 22.0), 6.0)
    up = one.direction(one.part.up_deg)
    arrow(ink, middle, up, long, heads=1)
    _beside(ink, middle, up, "up")
    if one.part.backbone_deg is not None:
        way = one.direction(one.part.backbone_deg)
        turn = turn_of(up)
        off = (middle[0] + sin(turn) * 7.0, middle[1] + cos(turn) * 7.0)
        spot = (
            off
            if room > 24
            else (
                middle[0] + 22.0 * abs(cos(turn_of(way))),
                middle[1] + 22.0 * abs(sin(turn_of(way))),
            )
        )
        arrow(ink, spot, way, long, heads=2)
        _beside(ink, spot, way, "backbone")


def _beside(ink: Ink, middle: Point, deg: float, words: str) -> None:
    """Write words along an arrow, so that they read from below or from the right."""
    turn = (deg + 90.0) % 180.0 - 90.0
    way = turn_of(turn)
    at = (middle[0] - sin(way) * 1.0, middle[1] - cos(way) * 1.0)
    ink.turned(at, words, _WORDS, turn)


def _inside(part: FullPart) -> Point:
    from shapely import Polygon
    from shapely.ops import polylabel

    shape = Polygon(part.outline, [hole for hole in part.slots if len(hole) > 2])  # noqa: PLR2004
    spot = polylabel(shape, 2.0) if shape.is_valid and shape.area else shape.representative_point()
    return spot.x, spot.y


def _draw_frame(ink: Ink, named: tuple[str, str], number: Number, window: Window) -> None:
    """Draw what stands on every page: the bar both ways, what it is of, the page's number."""
    paper = ink.paper
    right = window.corner[0] + window.size[0]
    y = paper.high_mm - 14.0
    draw_bar(ink, (window.corner[0], y))
    _draw_upright_bar(ink, (paper.wide_mm - 5.0, paper.high_mm - 14.0))
    words = window.corner[0] + BAR_MM + 8
    room = right - words
    ink.text((words, y - 5.2), fitted(named[0], _NAME, room), _NAME)
    ink.text((words, y - 1.6), fitted(named[1], _FOOT, room), _FOOT)
    ink.text((words, y + 2.0), "Full size. Print at 100 %; costume, not", _FOOT)
    ink.text((words, y + 5.2), "protective equipment.", _FOOT)
    ink.text_right((right, y + 5.2), f"Page {number[0]} of {number[1]}", _FOOT)


def draw_bar(ink: Ink, at: Point) -> None:
    """Draw the bar of 100 mm from a point to the right, a tick each 10 mm."""
    x, y = at
    ink.line((x, y), (x + BAR_MM, y), thick_pt=0.8)
    for mm in range(0, int(BAR_MM) + 1, 10):
        high = 4.0 if mm % 50 == 0 else 2.2
        ink.line((x + mm, y), (x + mm, y - high), thick_pt=0.5)
    ink.text((x + 1.0, y + 3.4), "100 mm: measure it before you cut", _FOOT)


def _draw_upright_bar(ink: Ink, at: Point) -> None:
    x, y = at
    ink.line((x, y), (x, y - BAR_MM), thick_pt=0.8)
    for mm in range(0, int(BAR_MM) + 1, 10):
        ink.line((x, y - mm), (x - (3.0 if mm % 50 == 0 else 1.8), y - mm), thick_pt=0.5)
    ink.turned((x - 3.4, y - 25.0), "100 mm", _FOOT, 90)


def _tile_page(tile: Tile, tiling: Tiling, window: Window) -> FullPage:
    def draw(ink: Ink, named: str, number: Number) -> None:
        _draw_joins(ink, tile, window)
        ink.clip(window.corner, window.size)
        _draw_part(ink, tile.placed)
        ink.unclip()
        part = tile.placed.part
        name = f"{part.name}, {part.side}" if part.side else part.name
        about = f"{name}: tile {tile.name} of {len(tiling.tiles)}"
        _draw_tile_label(ink, tile, tiling, window)
        _draw_frame(ink, (named, about), number, window)

    return FullPage(draw=draw)


def _draw_tile_label(ink: Ink, tile: Tile, tiling: Tiling, window: Window) -> None:
    x, y = window.corner
    part = tile.placed.part
    name = f"{part.name}, {part.side}" if part.side else part.name
    ink.text((x, y - 5.5), f"{name}: tile {tile.name}", _NAME)
    ink.text((x, y - 2.2), fitted("; ".join(part.words), _WORDS, window.size[0] - 40), _WORDS)
    _draw_map(ink, tiling, (x + window.size[0], y - 1.2), 9.0, here=tile.name)


def _draw_joins(ink: Ink, tile: Tile, window: Window) -> None:
    """Draw the frame, shade what the tile shares with its neighbours, and set crosses on it."""
    (x, y), (wide, high) = window.corner, window.size
    left, above, right, below = tile.neighbours
    strips = {
        left: ((x, y), (OVERLAP_MM, high)),
        above: ((x, y), (wide, OVERLAP_MM)),
    }
    for name, (corner, size) in strips.items():
        if name:
            ink.box(corner, size, fill=(0.94, 0.95, 0.965), thick_pt=0)
    ink.ring(
        ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high)),
        thick_pt=0.4,
        colour=QUIET,
        dash_mm=(2.0, 1.5),
    )
    for spot in _crosses(tile, window):
        _draw_cross(ink, spot)
    half = OVERLAP_MM / 2 - 1
    for name, spot, turn in (
        (left, (x + half, y + high / 2), 90.0),
        (above, (x + wide / 2, y + half + 2), 0.0),
        (right, (x + wide - half, y + high / 2), 90.0),
        (below, (x + wide / 2, y + high - half + 2), 0.0),
    ):
        if name:
            ink.turned(spot, f"joins {name}", _JOIN, turn)


def _crosses(tile: Tile, window: Window) -> Iterator[Point]:
    """Yield spots in the middle of shared strips: the same ones on both tiles."""
    (x, y), (wide, high) = window.corner, window.size
    half = OVERLAP_MM / 2
    left, above, right, below = tile.neighbours
    for name, across in ((left, x + half), (right, x + wide - half)):
        if name:
            yield from ((across, y + high * share) for share in (0.25, 0.75))
    for name, along in ((above, y + half), (below, y + high - half)):
        if name:
            yield from ((x + wide * share, along) for share in (0.25, 0.75))


def _draw_cross(ink: Ink, spot: Point) -> None:
    x, y = spot
    ink.line((x - 3, y), (x + 3, y), thick_pt=0.4, colour=BLUE)
    ink.line((x, y - 3), (x, y + 3), thick_pt=0.4, colour=BLUE)
    ink.circle(spot, 1.5, thick_pt=0.4, colour=BLUE)


def _draw_map(ink: Ink, tiling: Tiling, corner: Point, high_mm: float, *, here: str = "") -> None:
    """Draw which tile goes where, ending at the right at a point; the one at hand is filled."""
    cell = min(high_mm / tiling.rows, 34.0 / tiling.columns, 8.0)
    x, y = corner[0] - cell * tiling.columns, corner[1] - cell * tiling.rows
    for tile in tiling.tiles:
        at = (x + tile.column * cell, y + tile.row * cell)
        fill = BLUE if tile.name == here else WHITE
        ink.box(at, (cell, cell), fill=fill, thick_pt=0.4)


def _map_page(told: list[tuple[FullPart, Tiling | None]], parts: int) -> FullPage:
    """Return the page that tells how the following are printed and put together."""

    def draw(ink: Ink, named: str, number: Number) -> None:
        window = window_of(ink.paper)
        x, y = window.corner
        room = window.size[0]
        ink.text((x, y + 6), "Parts at full size", _TITLE)
        ink.line((x, y + 9), (x + room, y + 9), thick_pt=1.2, colour=BLUE)
        y += 15
        for words in (f"{parts} parts, cut in card first for the mock-up.", *_HOW):
            for line in wrapped(words, BODY, room):
                ink.text((x, y), line, BODY)
                y += BODY.lead_mm
            y += 1.6
        _draw_maps(ink, told, (x, y + 4), window)
        _draw_frame(ink, (named, "How the parts are printed"), number, window)

    return FullPage(draw=draw)


def _draw_maps(
    ink: Ink, told: list[tuple[FullPart, Tiling | None]], at: Point, window: Window
) -> None:
    x, y = at
    left, row_high = x, 0.0
    end = window.corner[1] + window.size[1]
    for part, tiling in told:
        wide, high = 58.0, 46.0
        if x + wide > left + window.size[0]:
            x, y = left, y + row_high
        if y + high > end:
            ink.text((left, end), "The tiles of further parts show their own maps.", SMALL)
            return
        _draw_one_map(ink, part, tiling, (x, y))
        x, row_high = x + wide + 4, high


def _draw_one_map(ink: Ink, part: FullPart, tiling: Tiling | None, at: Point) -> None:
    x, y = at
    name = f"{part.name}, {part.side}" if part.side else part.name
    ink.text((x, y + 3), fitted(name, _NAME, 56), _NAME)
    wide, high = size_of(part.outline)
    size = f"{wide:,.0f} × {high:,.0f} mm"
    if tiling is None:
        for row, line in enumerate(
            wrapped(
                f"{size}: too large to be tiled. Print it from the drawing on a wide roll.",
                _WORDS,
                54,
            )
        ):
            ink.text((x, y + 7 + 3.2 * row), line, _WORDS)
        return
    ink.text((x, y + 6.6), f"{size}, {len(tiling.tiles)} tiles", _WORDS)
    cell = min(32.0 / tiling.rows, 54.0 / tiling.columns, 16.0)
    for tile in tiling.tiles:
        corner = (x + tile.column * cell, y + 9 + tile.row * cell)
        ink.box(corner, (cell, cell), fill=TINT, thick_pt=0.4, colour=LINE)
        ink.text_middle((corner[0] + cell / 2, corner[1] + cell / 2 + 1), tile.name, _WORDS)
    placed = tiling.tiles[0].placed
    _draw_small(ink, placed, tiling, (x, y + 9), cell)


def _draw_small(ink: Ink, placed: Placed, tiling: Tiling, at: Point, cell: float) -> None:
    """Draw the outline over the map of its tiles."""
    window = window_of(ink.paper)
    step = (window.size[0] - OVERLAP_MM, window.size[1] - OVERLAP_MM)
    first = tiling.tiles[0]
    corner = (
        window.corner[0] - first.column * step[0],
        window.corner[1] - first.row * step[1],
    )
    ring = []
    for point in placed.part.outline:
        px, py = placed.place(point)
        ring.append(
            (at[0] + (px - corner[0]) / step[0] * cell, at[1] + (py - corner[1]) / step[1] * cell)
        )
    ink.ring(tuple(ring), thick_pt=0.6, colour=INK)


__all__ = ["BAR_MM", "FullPage", "box_of", "draw_bar", "full_size_pages", "wide_mm", "window_of"]
