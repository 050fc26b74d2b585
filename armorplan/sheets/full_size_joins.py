"""What makes one of tiles: their frame, the strips they share, crosses to lay on each other, maps."""

from collections.abc import Iterator

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_ink import Ink
from armorplan.sheets.bench_sheet_letters import (
    BLUE,
    INK,
    LINE,
    PALE,
    QUIET,
    TINT,
    WHITE,
    Style,
    fitted,
    wrapped,
)
from armorplan.sheets.bench_sheet_model import FullPart
from armorplan.sheets.full_size_marks import NAME, WORDS, window_of
from armorplan.sheets.full_size_tiles import OVERLAP_MM, Tile, Tiling, Window, size_of

MAP_MM = (58.0, 46.0)
"""Room for the map of one part."""
_JOIN = Style(size_pt=6.4, lead_mm=3.0, colour=BLUE)
_SHARES = (0.25, 0.75)
_TOO_LARGE = "too large to be tiled. Print it from the drawing on a wide roll."


def full_name(part: FullPart) -> str:
    """Return a part's name with its side."""
    return f"{part.name}, {part.side}" if part.side else part.name


def tile_title(tile: Tile, tiling: Tiling) -> str:
    """Return what a page holds: a part, or a tile of it."""
    name, count = full_name(tile.placed.part), len(tiling.tiles)
    return f"{name}: tile {tile.name} of {count}" if count > 1 else name


def draw_joins(ink: Ink, tile: Tile, window: Window) -> None:
    """Draw the frame, shade what the tile shares with those before it, and set crosses on strips."""
    (x, y), (wide, high) = window.corner, window.size
    left, above, right, below = tile.neighbours
    half = OVERLAP_MM / 2
    if left:
        ink.box((x, y), (OVERLAP_MM, high), fill=PALE, thick_pt=0)
    if above:
        ink.box((x, y), (wide, OVERLAP_MM), fill=PALE, thick_pt=0)
    ring = ((x, y), (x + wide, y), (x + wide, y + high), (x, y + high))
    ink.ring(ring, thick_pt=0.4, colour=QUIET, dash_mm=(2.0, 1.5))
    for spot in crosses(tile, window):
        _draw_cross(ink, spot)
    for name, spot, turn in (
        (left, (x + half + 1, y + high * 0.18), 90.0),
        (above, (x + wide * 0.12, y + half + 1), 0.0),
        (right, (x + wide - half + 1, y + high * 0.18), 90.0),
        (below, (x + wide * 0.12, y + high - half + 1), 0.0),
    ):
        if name:
            ink.turned(spot, f"joins {name}", _JOIN, turn)


def crosses(tile: Tile, window: Window) -> Iterator[Point]:
    """Yield spots in the middle of shared strips: the same ones of the part on both tiles."""
    (x, y), (wide, high) = window.corner, window.size
    half = OVERLAP_MM / 2
    left, above, right, below = tile.neighbours
    for name, across in ((left, x + half), (right, x + wide - half)):
        if name:
            yield from ((across, y + high * share) for share in _SHARES)
    for name, along in ((above, y + half), (below, y + high - half)):
        if name:
            yield from ((x + wide * share, along) for share in _SHARES)


def _draw_cross(ink: Ink, spot: Point) -> None:
    x, y = spot
    ink.line((x - 3, y), (x + 3, y), thick_pt=0.4, colour=BLUE)
    ink.line((x, y - 3), (x, y + 3), thick_pt=0.4, colour=BLUE)
    ink.circle(spot, 1.5, thick_pt=0.4, colour=BLUE)


def draw_tile_label(ink: Ink, tile: Tile, tiling: Tiling, window: Window) -> None:
    """Write above a tile what it is of, and draw where it lies among the others."""
    x, y = window.corner
    part = tile.placed.part
    ink.text((x, y - 5.5), tile_title(tile, tiling), NAME)
    ink.text((x, y - 2.2), fitted("; ".join(part.words), WORDS, window.size[0] - 40), WORDS)
    if len(tiling.tiles) == 1:
        return
    cell = min(9.0 / tiling.rows, 34.0 / tiling.columns)
    corner = (x + window.size[0] - cell * tiling.columns, y - 1.2 - cell * tiling.rows)
    for one in tiling.tiles:
        at = (corner[0] + one.column * cell, corner[1] + one.row * cell)
        fill = BLUE if one.name == tile.name else WHITE
        ink.box(at, (cell, cell), fill=fill, thick_pt=0.4)


def draw_map(ink: Ink, part: FullPart, tiling: Tiling | None, at: Point) -> None:
    """Draw which tile of a part goes where, the part over them; or that it is not tiled."""
    x, y = at
    ink.text((x, y + 3), fitted(full_name(part), NAME, MAP_MM[0] - 2), NAME)
    wide, high = size_of(part.outline)
    size = f"{wide:,.0f} × {high:,.0f} mm"
    told = f"{size}: {_TOO_LARGE}" if tiling is None else f"{size}, {len(tiling.tiles)} tiles"
    for row, line in enumerate(wrapped(told, WORDS, MAP_MM[0] - 4)):
        ink.text((x, y + 6.6 + WORDS.lead_mm * row), line, WORDS)
    if tiling is not None:
        _draw_tiles(ink, tiling, (x, y + 9.0))


def _draw_tiles(ink: Ink, tiling: Tiling, at: Point) -> None:
    window = window_of(ink.paper)
    step = (window.size[0] - OVERLAP_MM, window.size[1] - OVERLAP_MM)
    rows, columns = tiling.rows, tiling.columns
    scale = min(32.0 / (rows * step[1]), 54.0 / (columns * step[0]), 16.0 / step[0])
    cell = (step[0] * scale, step[1] * scale)
    first = tiling.tiles[0]
    corner = tuple(
        start - number * long
        for start, number, long in zip(window.corner, (first.column, first.row), step, strict=True)
    )
    for tile in tiling.tiles:
        spot = (at[0] + tile.column * cell[0], at[1] + tile.row * cell[1])
        ink.box(spot, cell, fill=TINT, thick_pt=0.4, colour=LINE)
    places = map(first.placed.place, tiling.part.outline)
    ring = tuple(
        (at[0] + (px - corner[0]) * scale, at[1] + (py - corner[1]) * scale) for px, py in places
    )
    ink.ring(ring, thick_pt=0.6, colour=INK)
    for tile in tiling.tiles:
        spot = (at[0] + tile.column * cell[0] + 0.8, at[1] + tile.row * cell[1] + 3.0)
        ink.text(spot, tile.name, WORDS)
