"""Cover, tables and dry fits of the bench sheet."""

from collections.abc import Sequence
from dataclasses import dataclass

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_figures import scene_bits
from armorplan.sheets.bench_sheet_flow import LEFT_MM, RIGHT_MM, Bit, gap, kept, text_bits
from armorplan.sheets.bench_sheet_ink import Ink
from armorplan.sheets.bench_sheet_letters import (
    BLUE,
    BODY,
    BOLD,
    INK,
    LINE,
    PALE,
    QUIET,
    SERIF,
    SMALL,
    STRONG,
    WHITE,
    Style,
    wide_mm,
    wrapped,
)
from armorplan.sheets.bench_sheet_model import BenchSheet, SheetRow, SheetTable
from armorplan.sheets.bench_sheet_runs import HEAD

COSTUME = (
    "Armour made from this sheet is costume, not protective equipment. Labels, local codes and "
    "licensed practice rule over every caution in it."
)
_KIND = Style(face=BOLD, size_pt=9.0, lead_mm=4.4, colour=BLUE)
_TITLE = Style(face=SERIF, size_pt=25.0, lead_mm=10.5)
CHAPTER = Style(face=SERIF, size_pt=15.0, lead_mm=7.0)
_CELL = Style(size_pt=8.0, lead_mm=3.8)
_CELL_HEAD = Style(face=BOLD, size_pt=7.4, lead_mm=3.6, colour=QUIET)
_LAST_LINES = 6
_COSTUME = Style(face=BOLD, size_pt=7.2, lead_mm=3.4)
_LEGEND = (
    "A box is ticked when the step is done; L and R stand for left and right.",
    "A clock marks what time alone does: drying, curing.",
    "Beside the work stands why it comes where it does. Numbers at holes are those of the steps.",
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A line of the contents: what it leads to, and on which page that begins.

    ``is_first``: nothing stands above it there.
    """

    title: str
    page: int
    key: str
    is_first: bool = True


def draw_cover(ink: Ink, sheet: BenchSheet, entries: Sequence[Entry]) -> None:
    """Draw the first page."""
    paper = ink.paper
    room = paper.wide_mm - LEFT_MM - RIGHT_MM
    y = 24.0
    ink.line((LEFT_MM, y), (LEFT_MM + room, y), thick_pt=2.2, colour=BLUE)
    ink.text((LEFT_MM, y + 7), "BENCH SHEET", _KIND)
    ink.text_right((LEFT_MM + room, y + 7), sheet.version, _KIND)
    y += 10
    for line in wrapped(sheet.title, _TITLE, room)[:3]:
        y += _TITLE.lead_mm
        ink.text((LEFT_MM, y), line, _TITLE)
    y += 7
    y = _draw_notes(ink, sheet.notes, y, room)
    foot = paper.high_mm - 35.0
    low = max(5.2 * len(entries) + 8, 5.0 * len(sheet.facts) + 8, 40.0)
    picture = scene_bits(sheet.cover, room, max(foot - low - y - 14, 40.0))
    high = sum(bit.high_mm for bit in picture)
    top = y + max((foot - low - y - high) / 2, 0)
    for bit in picture:
        bit.draw(ink, (LEFT_MM, top))
        top += bit.high_mm
    half = room / 2
    _draw_facts(ink, sheet.facts, (LEFT_MM, foot - low), half - 6)
    _draw_contents(ink, entries, (LEFT_MM + half + 4, foot - low), half - 4)
    _draw_foot(ink, foot + 4, room)


def _draw_notes(ink: Ink, notes: str, y: float, room: float) -> float:
    for line in wrapped(notes, BODY, room)[:5]:
        ink.text((LEFT_MM, y), line, BODY)
        y += BODY.lead_mm
    return y


def _draw_facts(ink: Ink, facts: Sequence[tuple[str, str]], at: Point, room: float) -> None:
    x, y = at
    ink.text((x, y), "At a glance", STRONG)
    for word, told in facts:
        y += 5.0
        ink.line((x, y + 1.4), (x + room, y + 1.4), thick_pt=0.3, colour=LINE)
        ink.text((x, y), word, SMALL)
        ink.text_right((x + room, y), told, BODY)


def _draw_contents(ink: Ink, entries: Sequence[Entry], at: Point, room: float) -> None:
    x, y = at
    ink.text((x, y), "Contents", STRONG)
    for entry in entries:
        y += 5.0
        number = str(entry.page)
        ink.text((x, y), entry.title, BODY)
        ink.text_right((x + room, y), number, BODY)
        begun = x + wide_mm(entry.title, BODY) + 2
        ink.line((begun, y), (x + room - 6, y), thick_pt=0.5, colour=LINE, dash_mm=(0.1, 1.4))
        ink.link(entry.key, (x, y - 3.6, x + room, y + 1.2))


def _draw_foot(ink: Ink, y: float, room: float) -> None:
    ink.box((LEFT_MM, y), (room, 22.5), fill=PALE, thick_pt=0)
    ink.box((LEFT_MM + 3.0, y + 2.6), (2.6, 2.6), fill=WHITE, thick_pt=0.7)
    for row, line in enumerate(_LEGEND):
        ink.text((LEFT_MM + 9, y + 4.8 + 3.6 * row), line, SMALL)
    for row, line in enumerate(wrapped(COSTUME, _COSTUME, room - 14)):
        ink.text((LEFT_MM + 9, y + 16.4 + _COSTUME.lead_mm * row), line, _COSTUME)


def chapter_bits(title: str, intro: str, room_mm: float) -> list[Bit]:
    """Return the heading of a chapter."""

    def rule(ink: Ink, at: Point) -> None:
        ink.line((at[0], at[1] + 1), (at[0] + room_mm, at[1] + 1), thick_pt=1.2, colour=BLUE)

    bits = [gap(2.0), *text_bits(title, CHAPTER, room_mm), Bit(high_mm=3.0, draw=rule)]
    if intro:
        bits += [gap(1.0), *text_bits(intro, BODY, room_mm)]
    return kept((*bits, gap(3.0)))


def table_bits(table: SheetTable, room_mm: float) -> list[Bit]:
    """Return a table: its first column takes half, the others share the rest."""
    others = len(table.heads) - 1
    first = room_mm * (0.5 if others > 1 else 0.55 if others else 1.0)
    widths = [first, *[(room_mm - first) / max(others, 1)] * others]
    if table.shares:
        widths = [share * room_mm for share in table.shares]
    bits = [_row(table.heads, widths, _CELL_HEAD, thick_pt=0.8)]
    follows = [row.under for row in table.rows[1:]]
    for row, goes_on in zip(table.rows, [*follows, False], strict=True):
        bits += _whole_row(row, widths, room_mm, goes_on=goes_on)
    for note in table.notes:
        bits += [gap(0.8), *text_bits(note, SMALL, room_mm)]
    head = text_bits(table.title, HEAD, room_mm) if table.title else []
    # No line of a table stands alone on a page.
    bits = [*bits[:-_LAST_LINES], *kept(bits[-_LAST_LINES:-1]), *bits[-1:]]
    top = kept((*head, *bits[:1]))
    return [*top, *bits[1:], gap(6.0)]


def _whole_row(
    row: SheetRow, widths: Sequence[float], room_mm: float, *, goes_on: bool
) -> list[Bit]:
    """Return a row with its sentences; ``goes_on``: rows that belong to it follow."""
    inset = 3.0 if row.under else 0.0
    style = SMALL if row.under else _CELL
    bits = [_row(row.cells, widths, style, inset_mm=inset)] if any(row.cells) else []
    for remark in row.remarks:
        bits += text_bits(remark, SMALL, room_mm - 6, indent_mm=3.0)
    return [*kept(bits), *([] if goes_on else [_rule(room_mm)])]


def _rule(room_mm: float) -> Bit:
    def draw(ink: Ink, at: Point) -> None:
        y = at[1] + 0.3
        ink.line((at[0], y), (at[0] + room_mm, y), thick_pt=0.3, colour=LINE)

    return Bit(high_mm=0.9, draw=draw)


def _row(
    cells: Sequence[str],
    widths: Sequence[float],
    style: Style,
    *,
    thick_pt: float = 0.0,
    inset_mm: float = 0.0,
) -> Bit:
    columns = [
        wrapped(cell, style, wide - 3 - inset_mm)
        for cell, wide in zip(cells, widths, strict=False)
    ]
    high = style.lead_mm * max((len(lines) for lines in columns), default=1) + 0.4

    def draw(ink: Ink, at: Point) -> None:
        x, y = at
        for number, (lines, wide) in enumerate(zip(columns, widths, strict=False)):
            left = x if number else x + inset_mm
            for row, line in enumerate(lines):
                ink.text((left, y + style.lead_mm * (row + 0.78)), line, style)
            x += wide
        if thick_pt:
            ink.line((at[0], y + high), (x, y + high), thick_pt=thick_pt, colour=INK)

    return Bit(high_mm=high + 0.3, draw=draw)
