"""Which part at full size goes on which page, and how large ones are cut into tiles."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from math import ceil

from armorplan.pattern.parts import Point, Ring
from armorplan.sheets.bench_sheet_figures import box_of
from armorplan.sheets.bench_sheet_model import FullPart

OVERLAP_MM = 10.0
"""Tiles that belong together show this much of each other."""
GAP_MM = 7.0
LABEL_MM, LEAST_WIDE_MM = 8.0, 34.0
"""Room above a part for its name and a line of words, and so wide at the least."""
MOST_TILES = 60
"""A part that takes more pages is not tiled: nobody glues it together."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What of a page is for parts: its upper left corner and its size in mm."""

    corner: Point
    size: Point


@dataclass(frozen=True, slots=True, kw_only=True)
class Placed:
    """A part on a page: ``turned`` a quarter, its box's upper left corner at ``at`` of the page.

    ``turned`` parts read up the page; a turn keeps left and right apart.
    """

    part: FullPart
    at: Point
    turned: bool = False

    @property
    def size(self) -> Point:
        """Width and height of its box as it lies on the page."""
        wide, high = size_of(self.part.outline)
        return (high, wide) if self.turned else (wide, high)

    def place(self, point: Point) -> Point:
        """Return where a point of the part lies on the page, in mm."""
        left, top, right, _ = box_of(self.part.outline)
        x, y = point
        if self.turned:
            return self.at[0] + (y - top), self.at[1] + (right - x)
        return self.at[0] + (x - left), self.at[1] + (y - top)

    def direction(self, deg: float) -> float:
        """Return an angle of the part as it lies on the page; 0 is right, 90 is up the page."""
        return (deg + 90.0) % 360.0 if self.turned else deg


@dataclass(frozen=True, slots=True, kw_only=True)
class Tile:
    """One tile of a part too large for a page.

    Attributes:
        name: a letter for the row and a number for the column.
        row, column: counted from 0.
        neighbours: names of the tiles to the left, above, to the right and below; empty: none.
    """

    placed: Placed
    name: str
    row: int
    column: int
    neighbours: tuple[str, str, str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Tiling:
    """A part in tiles: how many rows and columns, and those that hold anything of it."""

    part: FullPart
    rows: int
    columns: int
    tiles: tuple[Tile, ...]


def size_of(ring: Ring) -> Point:
    """Return width and height of an outline."""
    left, top, right, foot = box_of(ring)
    return right - left, foot - top


LabelMm = Callable[[Placed], float]
"""How high what is written above a part is, as it lies."""


def _label_mm(_one: Placed) -> float:
    return LABEL_MM


@dataclass(frozen=True, slots=True, kw_only=True)
class Packed:
    """Parts on pages, and those too large for one."""

    pages: tuple[tuple[Placed, ...], ...]
    too_large: tuple[FullPart, ...]


@dataclass(slots=True, kw_only=True)
class _Row:
    """A row of parts on a page, as it fills."""

    top: float
    high: float
    wide: float = 0.0


class _Sheet:
    """A page as it fills with rows, the highest part of each first."""

    def __init__(self, window: Window, label_mm: LabelMm) -> None:
        self._window = window
        self._label_mm = label_mm
        self._rows: list[_Row] = []
        self.placed: list[Placed] = []

    def takes(self, one: Placed) -> bool:
        """Lay a part in the first row that has room, or in a new one; tell whether there is any."""
        label = self._label_mm(one)
        wide, high = max(one.size[0], LEAST_WIDE_MM), one.size[1] + label
        row = next((r for r in self._rows if self._has_room(r, wide, high)), None)
        if row is None:
            top = self._rows[-1].top + self._rows[-1].high + GAP_MM if self._rows else 0.0
            if top + high > self._window.size[1]:
                return False
            row = _Row(top=top, high=high)
            self._rows.append(row)
        x, y = self._window.corner
        at = (x + row.wide, y + row.top + label)
        self.placed.append(Placed(part=one.part, at=at, turned=one.turned))
        row.wide += wide + GAP_MM
        return True

    def _has_room(self, row: _Row, wide: float, high: float) -> bool:
        return high <= row.high and row.wide + wide <= self._window.size[0]


def packed(parts: Iterable[FullPart], window: Window, label_mm: LabelMm = _label_mm) -> Packed:
    """Return parts on as few pages as rows allow: the highest first, each in the first that has room.

    Next-fit by falling height wastes what lies under low parts; first-fit (Coffman, Garey, Johnson
    and Tarjan 1980) uses rows that are begun.

    Args:
        parts: to be laid.
        window: what of a page is theirs.
        label_mm: room for what is written above each.
    """
    ready, too_large = [], []
    for part in parts:
        one = _upright(part, window, label_mm)
        if one is None:
            too_large.append(part)
        else:
            ready.append(one)
    pages: list[_Sheet] = []
    for one in sorted(ready, key=lambda one: -one.size[1] - label_mm(one)):
        if not any(page.takes(one) for page in pages):
            pages.append(_Sheet(window, label_mm))
            pages[-1].takes(one)
    return Packed(pages=tuple(tuple(page.placed) for page in pages), too_large=tuple(too_large))


def _upright(part: FullPart, window: Window, label_mm: LabelMm) -> Placed | None:
    """Return how a part lies that fits on a page, as drawn if it can; ``None``: it does not fit."""
    for turned in (False, True):
        one = Placed(part=part, at=(0.0, 0.0), turned=turned)
        wide, high = one.size
        if wide <= window.size[0] and high + label_mm(one) <= window.size[1]:
            return one
    return None


def tiled(part: FullPart, window: Window) -> Tiling | None:
    """Return a part in tiles, turned where that saves pages; ``None``: it takes too many."""
    turned = min((False, True), key=lambda turn: _count(part, window, turned=turn))
    rows, columns = _grid(part, window, turned=turned)
    if rows * columns > MOST_TILES:
        return None
    step = (window.size[0] - OVERLAP_MM, window.size[1] - OVERLAP_MM)
    wide, high = Placed(part=part, at=(0.0, 0.0), turned=turned).size
    inset = (
        (columns * step[0] + OVERLAP_MM - wide) / 2,
        (rows * step[1] + OVERLAP_MM - high) / 2,
    )
    found = {}
    for row in range(rows):
        for column in range(columns):
            at = (
                window.corner[0] + inset[0] - column * step[0],
                window.corner[1] + inset[1] - row * step[1],
            )
            placed = Placed(part=part, at=at, turned=turned)
            if _shows(placed, window):
                found[row, column] = placed
    return Tiling(part=part, rows=rows, columns=columns, tiles=tuple(_tiles(found)))


def _tiles(found: dict[tuple[int, int], Placed]) -> Iterator[Tile]:
    names = {spot: tile_name(*spot) for spot in found}
    for (row, column), placed in found.items():
        beside = ((row, column - 1), (row - 1, column), (row, column + 1), (row + 1, column))
        left, above, right, below = (names.get(spot, "") for spot in beside)
        yield Tile(
            placed=placed,
            name=names[row, column],
            row=row,
            column=column,
            neighbours=(left, above, right, below),
        )


def tile_name(row: int, column: int) -> str:
    """Return a tile's name: ``A1`` is the upper left one, ``B1`` lies below it."""
    letters = ""
    row += 1
    while row:
        row, rest = divmod(row - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return f"{letters}{column + 1}"


def _grid(part: FullPart, window: Window, *, turned: bool) -> tuple[int, int]:
    wide, high = Placed(part=part, at=(0.0, 0.0), turned=turned).size
    columns, rows = (
        max(1, ceil((long - OVERLAP_MM) / (room - OVERLAP_MM)))
        for long, room in zip((wide, high), window.size, strict=True)
    )
    return rows, columns


def _count(part: FullPart, window: Window, *, turned: bool) -> int:
    rows, columns = _grid(part, window, turned=turned)
    return rows * columns


def _shows(placed: Placed, window: Window) -> bool:
    """Tell whether anything of a part lies in the window."""
    from shapely import Polygon, box

    (left, top), (wide, high) = window.corner, window.size
    shape = Polygon([placed.place(point) for point in placed.part.outline])
    return bool(shape.intersects(box(left, top, left + wide, top + high)))
