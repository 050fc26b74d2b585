"""How far somebody is with the reasons, on paper: a bar for each piece, then every reason in a table."""

from collections.abc import Iterator
from datetime import datetime
from zoneinfo import ZoneInfo

from armorplan.pattern.parts import Point
from armorplan.practice.grades import ReasonState
from armorplan.practice.progress import PieceProgress, Progress, ReasonRow
from armorplan.sheets.bench_sheet_flow import (
    FOOT_MM,
    LEFT_MM,
    RIGHT_MM,
    Bit,
    Flow,
    beside,
    gap,
    kept,
    text_bits,
)
from armorplan.sheets.bench_sheet_front import COSTUME, chapter_bits, table_bits
from armorplan.sheets.bench_sheet_ink import Ink, Paper
from armorplan.sheets.bench_sheet_letters import (
    BLUE,
    BODY,
    INK,
    LINE,
    QUIET,
    SMALL,
    STRONG,
    TINT,
    Style,
    fitted,
    register_faces,
)
from armorplan.sheets.bench_sheet_model import SheetRow, SheetTable
from armorplan.sheets.pdf_file import pdf_of

SIGNS = {ReasonState.MASTERED: "■", ReasonState.SHAKY: "▨", ReasonState.UNSEEN: "□"}
"""A shape for each state, so that no colour is needed."""
_FOOT = Style(size_pt=6.8, lead_mm=3.2, colour=QUIET)
_BAR_MM, _HATCH_MM, _NAMES_MM = 6.0, 1.8, 52.0
_HEADS = ("Reason", "How it sits", "Last met", "Comes back")
_SHARES = (0.42, 0.18, 0.2, 0.2)
_NO_SKILL = (
    "This page says which reasons were known in exercises. It is no certificate: who may do what "
    "at the bench is for the maker, local rules and licensed practice to say."
)


def progress_pdf(progress: Progress, zone: str, paper: Paper) -> bytes:
    """Return the page as a PDF.

    Args:
        progress: how far somebody is.
        zone: IANA name; days are said in it.
        paper: what it is printed on.
    """
    register_faces()
    title = f"Reasons known: {progress.name}"
    flow = Flow(paper)
    flow.new_page()
    local = ZoneInfo(zone)
    flow.put(list(_head(progress, title, local, flow.whole_mm)))
    for piece in progress.pieces:
        flow.put(table_bits(_table(piece, progress.at, local), flow.whole_mm))
    return pdf_of(paper, title, _NO_SKILL, lambda canvas: _draw(Ink(canvas, paper), flow, title))


def _draw(ink: Ink, flow: Flow, title: str) -> None:
    for number, page in enumerate(flow.pages, start=1):
        ink.begin_page()
        for bit, at in page.placed:
            bit.draw(ink, at)
        _draw_edges(ink, title, (number, len(flow.pages)))
        ink.end_page()


def _head(progress: Progress, title: str, local: ZoneInfo, wide: float) -> Iterator[Bit]:
    said = f"As of {_day(progress.at, local)}."
    yield from chapter_bits(title, said, wide)
    for sentence in progress.sentences:
        yield from text_bits(sentence, BODY, wide)
    yield gap(3.0)
    signs = "    ".join(f"{SIGNS[state]} {state.value}" for state in ReasonState)
    yield from text_bits(signs, STRONG, wide)
    yield gap(2.0)
    for piece in progress.pieces:
        yield from kept((_bar(piece, wide), gap(2.0)))
    yield from text_bits(_NO_SKILL, SMALL, wide)
    yield gap(6.0)


def _bar(piece: PieceProgress, wide: float) -> Bit:
    """Return a piece's bar: what is mastered solid, what is shaky hatched, what is unseen empty."""
    counts = [(state, piece.count(state)) for state in ReasonState]
    whole = sum(count for _, count in counts)
    room = wide - _NAMES_MM

    def draw(ink: Ink, at: Point) -> None:
        x = at[0]
        for state, count in counts:
            share = room * count / max(whole, 1)
            if count:
                _fill(ink, (x, at[1]), share, state)
            x += share

    told = ", ".join(f"{count} {state.value}" for state, count in counts if count)
    names = [*text_bits(fitted(piece.name, STRONG, _NAMES_MM - 3), STRONG, _NAMES_MM)]
    bars = [Bit(high_mm=_BAR_MM, draw=draw), *text_bits(told or "no reasons", SMALL, room)]
    return beside(names, bars, _NAMES_MM)


def _fill(ink: Ink, corner: Point, wide: float, state: ReasonState) -> None:
    fill = {ReasonState.MASTERED: BLUE, ReasonState.SHAKY: TINT}.get(state)
    ink.box(corner, (wide, _BAR_MM), fill=fill, thick_pt=0.6, colour=INK)
    if state is ReasonState.SHAKY:
        ink.clip(corner, (wide, _BAR_MM))
        steps = int((wide + _BAR_MM) / _HATCH_MM) + 1
        for step in range(steps):
            x = corner[0] + step * _HATCH_MM
            ink.line((x, corner[1]), (x - _BAR_MM, corner[1] + _BAR_MM), thick_pt=0.5)
        ink.unclip()


def _table(piece: PieceProgress, at: datetime, local: ZoneInfo) -> SheetTable:
    return SheetTable(
        title=piece.name,
        heads=_HEADS,
        rows=tuple(_row(reason, at, local) for reason in piece.reasons),
        shares=_SHARES,
        notes=(piece.sentence,) if piece.sentence else (),
    )


def _row(reason: ReasonRow, at: datetime, local: ZoneInfo) -> SheetRow:
    last = f" ({reason.last.value})" if reason.last else ""
    return SheetRow(
        cells=(
            reason.name,
            f"{SIGNS[reason.state]} {reason.state.value}",
            f"{_day(reason.last_at, local)}{last}" if reason.last_at else "–",
            _comes_back(reason, at, local),
        )
    )


def _comes_back(reason: ReasonRow, at: datetime, local: ZoneInfo) -> str:
    if reason.due_at is None:
        return "–"
    if reason.is_due:
        return "now"
    is_today = reason.due_at.astimezone(local).date() == at.astimezone(local).date()
    return "later today" if is_today else _day(reason.due_at, local)


def _day(at: datetime, local: ZoneInfo) -> str:
    there = at.astimezone(local)
    return f"{there.day} {there:%b %Y}"


def _draw_edges(ink: Ink, title: str, number: tuple[int, int]) -> None:
    right = ink.paper.wide_mm - RIGHT_MM
    ink.text((LEFT_MM, 13.0), fitted(title, _FOOT, right - LEFT_MM), _FOOT)
    ink.line((LEFT_MM, 15.0), (right, 15.0), thick_pt=0.4, colour=LINE)
    y = ink.paper.high_mm - FOOT_MM + 8.0
    ink.text((LEFT_MM, y), fitted(COSTUME, _FOOT, right - LEFT_MM - 22), _FOOT)
    ink.text_right((right, y), f"Page {number[0]} of {number[1]}", _FOOT)
