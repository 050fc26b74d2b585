"""Pictures of parts: as the drawing lays them, or side by side at one scale."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import cos, dist, sin

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_flow import Bit
from armorplan.sheets.bench_sheet_ink import Ink, turn_of
from armorplan.sheets.bench_sheet_letters import (
    BLUE,
    INK,
    QUIET,
    SMALL,
    TINT,
    WHITE,
    Style,
    fitted,
    wide_mm,
    wrapped,
)
from armorplan.sheets.bench_sheet_model import DrawnPart, Scene

_SCALES = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0, 40.0)
_GAP_MM = 5.0
_NAME = Style(size_pt=6.4, lead_mm=2.9, colour=QUIET)
_MARK = Style(face="DejaVuSans-Bold", size_pt=5.2, lead_mm=2.2, colour=BLUE)
_LEAST_RADIUS_MM = 0.35
_ARROW_MM = 3.2
_ENOUGH_MM = 2.6
"""A number so far from all else is legible."""
_LEGIBLE = 3.0
"""Drawn smaller than this, parts as they are laid have no room for their names."""

Box = tuple[float, float, float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """A part where it is drawn: its corner on the drawing goes to ``at``, in mm of the picture."""

    part: DrawnPart
    corner: Point
    at: Point
    size: Point


def box_of(points: tuple[Point, ...]) -> Box:
    """Return the least and the most of points: left, top, right, foot."""
    across, along = [x for x, _ in points], [y for _, y in points]
    return min(across), min(along), max(across), max(along)


def scene_bits(scene: Scene, room_mm: float, high_mm: float) -> list[Bit]:
    """Return a picture no wider and no higher than that, with its scale and caption below."""
    if not scene.parts:
        return []
    scale, laid, high = (_as_laid if scene.as_laid else _side_by_side)(scene, room_mm, high_mm)
    named = not scene.as_laid or scale <= _LEGIBLE
    caption = f"Drawn 1 : {scale:g}. {scene.caption}".strip()
    lines = wrapped(caption, SMALL, room_mm)

    def draw(ink: Ink, at: Point) -> None:
        for one in laid:
            _draw_part(ink, one, at, scale, named=named)

    def tell(ink: Ink, at: Point) -> None:
        for row, line in enumerate(lines):
            ink.text((at[0], at[1] + SMALL.lead_mm * (row + 0.75)), line, SMALL)

    return [
        Bit(high_mm=high, draw=draw, keep=True),
        Bit(high_mm=SMALL.lead_mm * len(lines) + 1.0, draw=tell, keep=True),
    ]


def _as_laid(scene: Scene, room_mm: float, high_mm: float) -> tuple[float, list[_Laid], float]:
    left, top, right, foot = box_of(tuple(p for part in scene.parts for p in part.outline))
    least = max((right - left) / room_mm, (foot - top) / (high_mm - _NAME.lead_mm))
    scale = next((one for one in _SCALES if one >= least), least)
    inset = (room_mm - (right - left) / scale) / 2
    laid = []
    for part in scene.parts:
        box = box_of(part.outline)
        at = (inset + (box[0] - left) / scale, _NAME.lead_mm + (box[1] - top) / scale)
        laid.append(_laid(part, box, at, scale))
    return scale, laid, _NAME.lead_mm + (foot - top) / scale + 1.5


def _laid(part: DrawnPart, box: Box, at: Point, scale: float) -> _Laid:
    size = ((box[2] - box[0]) / scale, (box[3] - box[1]) / scale)
    return _Laid(part=part, corner=(box[0], box[1]), at=at, size=size)


def _side_by_side(
    scene: Scene, room_mm: float, high_mm: float
) -> tuple[float, list[_Laid], float]:
    """Return the parts in rows, at the largest scale at which they fit."""
    for scale in _SCALES[1:]:
        laid, high = _rows(scene, room_mm, scale)
        if high <= high_mm and all(one.size[0] <= room_mm for one in laid):
            return scale, laid, high
    widest = max(box_of(p.outline)[2] - box_of(p.outline)[0] for p in scene.parts)
    scale = max(_SCALES[-1], widest / room_mm)
    laid, high = _rows(scene, room_mm, scale)
    return scale, laid, high


def _rows(scene: Scene, room_mm: float, scale: float) -> tuple[list[_Laid], float]:
    laid: list[_Laid] = []
    x = y = row_high = 0.0
    for part in scene.parts:
        box = box_of(part.outline)
        wide, high = (box[2] - box[0]) / scale, (box[3] - box[1]) / scale
        cell = max(wide, min(wide_mm(part.name, _NAME) + _ARROW_MM + 1, room_mm / 3))
        if x and x + cell > room_mm:
            x, y, row_high = 0.0, y + row_high + _GAP_MM, 0.0
        laid.append(_laid(part, box, (x + (cell - wide) / 2, y + _NAME.lead_mm), scale))
        x += cell + _GAP_MM
        row_high = max(row_high, high + _NAME.lead_mm)
    return laid, y + row_high + 1.5


def _draw_part(ink: Ink, one: _Laid, origin: Point, scale: float, *, named: bool) -> None:
    def at(point: Point) -> Point:
        return (
            origin[0] + one.at[0] + (point[0] - one.corner[0]) / scale,
            origin[1] + one.at[1] + (point[1] - one.corner[1]) / scale,
        )

    part = one.part
    fill = TINT if part.lit else WHITE
    ink.ring(tuple(map(at, part.outline)), fill=fill, thick_pt=0.9 if part.lit else 0.45)
    for slot in part.slots:
        ink.ring(tuple(map(at, slot)), fill=WHITE, thick_pt=0.4)
    for hole in part.holes:
        radius = max(hole.diameter_mm / 2 / scale, _LEAST_RADIUS_MM)
        spot = at(hole.centre)
        if hole.mark:
            ink.circle(spot, radius + 0.25, fill=BLUE, thick_pt=0)
        else:
            ink.circle(spot, radius, fill=WHITE, thick_pt=0.35, colour=INK)
    _draw_marks(ink, [(hole.mark, at(hole.centre)) for hole in part.holes], at(_middle(part)))
    if named:
        _draw_name(ink, one, origin)


def _middle(part: DrawnPart) -> Point:
    left, top, right, foot = box_of(part.outline)
    return (left + right) / 2, (top + foot) / 2


def _draw_marks(ink: Ink, holes: list[tuple[str, Point]], middle: Point) -> None:
    """Write the numbers beside their holes, where other holes and numbers leave most room."""
    taken = [spot for _, spot in holes]
    for mark, spot in holes:
        if not mark:
            continue
        half = wide_mm(mark, _MARK) / 2
        spots = [
            (spot[0] + cos(turn) * (1.1 + half), spot[1] - sin(turn) * 1.9)
            for turn in (turn_of(45.0 * step) for step in range(8))
        ]
        best = max(spots, key=lambda one: _room_at(one, spot, taken, middle))
        taken.append(best)
        ink.text_middle((best[0], best[1] + 0.65), mark, _MARK)


def _room_at(at: Point, spot: Point, taken: list[Point], middle: Point) -> float:
    """Return how much room there is; on a tie towards the middle, away from the edge."""
    near = min((dist(at, one) for one in taken if one != spot), default=_ENOUGH_MM)
    return min(near, _ENOUGH_MM) - dist(at, middle) * 0.02


def _draw_name(ink: Ink, one: _Laid, origin: Point) -> None:
    x, y = origin[0] + one.at[0], origin[1] + one.at[1]
    middle = x + one.size[0] / 2
    room = max(one.size[0], 30.0)
    words = fitted(one.part.name, _NAME, room)
    wide = wide_mm(words, _NAME)
    left = middle - (wide + _ARROW_MM) / 2
    draw_up(ink, (left + 1.0, y - 1.5), one.part.up_deg, 2.2)
    ink.text((left + _ARROW_MM, y - 0.8), words, _NAME)


def draw_up(ink: Ink, middle: Point, up_deg: float, long_mm: float) -> None:
    """Draw an arrow that points up on the wearer, about its middle."""
    arrow(ink, middle, up_deg, long_mm, heads=1)


def arrow(ink: Ink, middle: Point, deg: float, long_mm: float, *, heads: int) -> None:
    """Draw an arrow about its middle, with one head or two."""
    turn = turn_of(deg)
    dx, dy = cos(turn) * long_mm / 2, -sin(turn) * long_mm / 2
    ends = [(middle[0] + dx, middle[1] + dy), (middle[0] - dx, middle[1] - dy)]
    ink.line(ends[1], ends[0], thick_pt=0.6)
    for tip, way in zip(ends[:heads], (turn, turn + turn_of(180)), strict=False):
        ink.ring(tuple(_head(tip, way, min(long_mm * 0.4, 3.0))), fill=INK, thick_pt=0)


def _head(tip: Point, way: float, long_mm: float) -> Iterator[Point]:
    yield tip
    for side in (-0.4, 0.4):
        yield tip[0] - cos(way + side) * long_mm, tip[1] + sin(way + side) * long_mm
