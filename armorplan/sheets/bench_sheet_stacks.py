"""Sections through fasteners and their layers, twice as large as they are."""

from math import cos, pi, sin

from armorplan.geometry.pictures import StackPicture
from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_flow import Bit
from armorplan.sheets.bench_sheet_ink import Ink
from armorplan.sheets.bench_sheet_letters import (
    BOLD,
    INK,
    LINE,
    PALE,
    QUIET,
    TINT,
    WHITE,
    Grey,
    Style,
    wrapped,
)
from armorplan.sheets.bench_sheet_model import StackDrawing

_LARGER = 2.0
_SLAB_MM = 23.0
"""So wide are the layers drawn."""
_CELL_MM, _MOST_ACROSS = 62.0, 3
_NAME = Style(size_pt=6.6, lead_mm=3.0)
_TITLE = Style(face=BOLD, size_pt=6.8, lead_mm=3.1)
_QUIET = Style(size_pt=6.4, lead_mm=2.9, colour=QUIET)
_WASHER = "washer"
_HEAD_MM, _FOOT_MM = 2.4, 2.0
_STEEL: Grey = (0.42, 0.46, 0.51)
_BEND = 12


def stack_bits(stacks: tuple[StackDrawing, ...], room_mm: float) -> list[Bit]:
    """Return rows of sections, as many beside each other as there is room for."""
    if not stacks:
        return []
    across = max(1, min(_MOST_ACROSS, int(room_mm // _CELL_MM)))
    cell = room_mm / across
    return [_row(stacks[first : first + across], cell) for first in range(0, len(stacks), across)]


def _row(stacks: tuple[StackDrawing, ...], cell: float) -> Bit:
    titles = [wrapped(_title(one), _TITLE, cell - 4) for one in stacks]
    places = [wrapped(one.where, _QUIET, cell - 4) for one in stacks]
    names = [_names(one.picture, cell - _SLAB_MM - 8) for one in stacks]
    slabs = max(
        max(_deep(one.picture), 3.0 * n) for one, n in zip(stacks, map(_rows, names), strict=True)
    )
    title_high = _TITLE.lead_mm * max(map(len, titles))
    place_high = _QUIET.lead_mm * max(map(len, places))
    top = title_high + place_high + _HEAD_MM * 1.4 + 1.5

    def draw(ink: Ink, at: Point) -> None:
        for number, one in enumerate(stacks):
            x, y = at[0] + number * cell, at[1]
            for row, words in enumerate(titles[number]):
                ink.text((x, y + _TITLE.lead_mm * (row + 0.75)), words, _TITLE)
            below = y + _TITLE.lead_mm * len(titles[number])
            for row, words in enumerate(places[number]):
                ink.text((x, below + _QUIET.lead_mm * (row + 0.75)), words, _QUIET)
            _draw(ink, one.picture, (x, y + top), names[number])

    return Bit(high_mm=top + slabs + _FOOT_MM * 1.6 + 2.5, draw=draw, keep=True)


def _title(one: StackDrawing) -> str:
    post = one.picture.post_mm
    return f"{one.title}, post {post:g} mm" if post is not None else f"{one.title}, no post fits"


def _deep(picture: StackPicture) -> float:
    return _LARGER * sum(layer.thick_mm for layer in picture.layers)


def _rows(names: list[list[str]]) -> int:
    return sum(map(len, names))


def _names(picture: StackPicture, room_mm: float) -> list[list[str]]:
    return [
        wrapped(f"{round(layer.thick_mm, 1):g} mm {layer.name}", _NAME, room_mm)[:2]
        for layer in picture.layers
    ]


def _draw(ink: Ink, picture: StackPicture, corner: Point, names: list[list[str]]) -> None:
    x, y = corner
    middle = x + _SLAB_MM / 2
    shank = picture.hole_mm * _LARGER / 2
    words_y = y
    for number, (layer, lines) in enumerate(zip(picture.layers, names, strict=True)):
        high = layer.thick_mm * _LARGER
        fill = LINE if layer.kind == _WASHER else (TINT, PALE)[number % 2]
        ink.box((x, y), (_SLAB_MM, high), fill=fill, thick_pt=0.4)
        words_y = max(words_y, y + high / 2 - _NAME.lead_mm * len(lines) / 2)
        ink.line((x + _SLAB_MM, y + high / 2), (x + _SLAB_MM + 2, words_y + 1.5), thick_pt=0.25)
        for line in lines:
            ink.text((x + _SLAB_MM + 2.6, words_y + _NAME.lead_mm * 0.75), line, _NAME)
            words_y += _NAME.lead_mm
        y += high
    ink.box((middle - shank / 2, corner[1]), (shank, y - corner[1]), fill=_STEEL, thick_pt=0.4)
    _dome(ink, (middle, corner[1]), picture.head_mm * _LARGER / 2, -_HEAD_MM)
    _draw_foot(ink, picture, (middle, y), shank)


def _dome(ink: Ink, at: Point, half_mm: float, high_mm: float) -> None:
    """Draw a cap: half an ellipse, above the point where its height is below nought."""
    half_mm = min(half_mm, _SLAB_MM / 2)
    turns = (pi * step / _BEND for step in range(_BEND + 1))
    ring = tuple((at[0] + half_mm * cos(t), at[1] + high_mm * sin(t)) for t in turns)
    ink.ring(ring, fill=_STEEL, thick_pt=0.5, colour=INK)


def _draw_foot(ink: Ink, picture: StackPicture, at: Point, shank: float) -> None:
    head = min(picture.head_mm * _LARGER, _SLAB_MM)
    if picture.foot == "cap":
        _dome(ink, at, head / 2 * 0.9, _FOOT_MM)
    elif picture.foot == "bent":
        for side in (-1, 1):
            tip = (at[0] + side * head / 2.4, at[1] + _FOOT_MM * 0.4)
            ink.line((at[0] + side * shank / 3, at[1]), tip, thick_pt=2.2, colour=_STEEL)
    else:
        wide = head * (0.8 if picture.foot == "burr" else 0.9)
        ink.box((at[0] - wide / 2, at[1]), (wide, _FOOT_MM * 0.6), fill=_STEEL)
        ink.box((at[0] - shank / 2, at[1] + _FOOT_MM * 0.6), (shank, 0.8), fill=WHITE)
