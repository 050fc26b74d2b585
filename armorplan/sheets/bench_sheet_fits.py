"""Dry fits on the bench sheet: laid out first, then round by round, with boxes to tick."""

from collections.abc import Sequence

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_flow import Bit, gap, kept, text_bits
from armorplan.sheets.bench_sheet_ink import Ink
from armorplan.sheets.bench_sheet_letters import BODY, STRONG, WHITE, Style
from armorplan.sheets.bench_sheet_model import FitRound, SheetFit
from armorplan.sheets.bench_sheet_runs import HEAD, LETTER

_LINE = Style(size_pt=8.0, lead_mm=3.8)
_BOX_MM, _BOX_GAP_MM = 2.9, 1.0
_ACROSS = 2
"""So many short lines stand beside each other."""


def fit_bits(fit: SheetFit, room_mm: float) -> list[Bit]:
    """Return the dry fit of a piece: laid out first, then round by round."""
    bits = text_bits(fit.title, HEAD, room_mm)
    for words in fit.words:
        bits += text_bits(words, BODY, room_mm)
    bits = kept(bits)
    if fit.lay_out:
        bits += [gap(1.5, keep=True), *_head("Lay it out first, without pins", room_mm)]
        bits += _in_columns(fit.lay_out, fit.boxes, room_mm)
    for one in fit.rounds:
        bits += [gap(2.5), *_round(one, fit.boxes, room_mm)]
    return [*bits, gap(8.0)]


def fit_again_bits(fit: SheetFit, room_mm: float) -> list[Bit]:
    """Return what stands above a dry fit that goes on on another page."""
    return _head(f"{fit.title}, goes on", room_mm)


def _round(one: FitRound, boxes: Sequence[str], room_mm: float) -> list[Bit]:
    bits = [*_head(one.title, room_mm), *_in_columns(one.pins, boxes, room_mm)]
    if one.looks:
        bits += [gap(1.0), *_head("Look", room_mm)]
        for look in one.looks:
            bits += _ticked(look, boxes, room_mm)
    return bits


def _head(title: str, room_mm: float) -> list[Bit]:
    return kept(text_bits(title, STRONG, room_mm))


def _indent(boxes: Sequence[str]) -> float:
    return len(boxes) * (_BOX_MM + _BOX_GAP_MM) + 1.2


def _ticked(words: str, boxes: Sequence[str], room_mm: float) -> list[Bit]:
    first, *others = text_bits(words, _LINE, room_mm, indent_mm=_indent(boxes)) or [gap(4.0)]

    def draw(ink: Ink, at: Point) -> None:
        for number, letter in enumerate(boxes):
            x = at[0] + number * (_BOX_MM + _BOX_GAP_MM)
            ink.box((x, at[1] + 0.3), (_BOX_MM, _BOX_MM), fill=WHITE, thick_pt=0.7)
            ink.text_middle((x + _BOX_MM / 2, at[1] + 2.4), letter, LETTER)
        first.draw(ink, at)

    return [Bit(high_mm=first.high_mm, draw=draw, keep=first.keep), *others, gap(0.3)]


def _in_columns(lines: Sequence[str], boxes: Sequence[str], room_mm: float) -> list[Bit]:
    """Return lines in two columns, read from left to right."""
    wide = room_mm / _ACROSS
    cells = [_ticked(line, boxes, wide - 3) for line in lines]
    rows = [cells[at : at + _ACROSS] for at in range(0, len(cells), _ACROSS)]
    return [_beside(row, wide) for row in rows]


def _beside(cells: list[list[Bit]], wide: float) -> Bit:
    def draw(ink: Ink, at: Point) -> None:
        for number, bits in enumerate(cells):
            y = at[1]
            for bit in bits:
                bit.draw(ink, (at[0] + number * wide, y))
                y += bit.high_mm

    return Bit(high_mm=max(sum(bit.high_mm for bit in bits) for bits in cells), draw=draw)
