"""The bench sheet as a PDF: cover, needs, steps with boxes and reasons, days, parts at full size."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, fields, is_dataclass
from typing import TYPE_CHECKING

from armorplan.sheets.bench_sheet_fits import fit_again_bits, fit_bits
from armorplan.sheets.bench_sheet_flow import (
    FOOT_MM,
    LEFT_MM,
    RIGHT_MM,
    Bit,
    Flow,
    Page,
    gap,
    high_of,
)
from armorplan.sheets.bench_sheet_front import (
    COSTUME,
    Entry,
    chapter_bits,
    draw_cover,
    table_bits,
)
from armorplan.sheets.bench_sheet_ink import Ink, Paper
from armorplan.sheets.bench_sheet_letters import (
    LINE,
    QUIET,
    Style,
    fitted,
    not_printable,
    register_faces,
)
from armorplan.sheets.bench_sheet_model import BenchSheet, Chapter, SheetRun
from armorplan.sheets.bench_sheet_runs import run_again_bits, run_bits, with_reasons
from armorplan.sheets.full_size_marks import PageWords
from armorplan.sheets.full_size_pages import FullPage, draw_full_page, full_size_pages
from armorplan.sheets.pdf_file import pdf_of

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

_ROOM_MM = 60.0
"""A chapter begins on a page that has so much room left."""
_FOOT = Style(size_pt=6.8, lead_mm=3.2, colour=QUIET)
NEEDS, DAYS, FULL = "What it takes", "Day by day", "Parts at full size"


@dataclass(frozen=True, slots=True, kw_only=True)
class Printed:
    """A PDF, how many pages it has, and the letters that it shows as squares."""

    data: bytes
    pages: int
    missing: str


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    flow: Flow
    entries: tuple[Entry, ...]
    full: tuple[FullPage, ...]
    cover: int

    @property
    def before_full(self) -> int:
        """How many pages come before the parts at full size."""
        return self.cover + len(self.flow.pages)

    @property
    def pages(self) -> int:
        """How many pages there are in all."""
        return self.before_full + len(self.full)

    def chapter_at(self, number: int) -> str:
        """Return the chapters of a page: that which goes on, and those that begin on it."""
        begun = [entry for entry in self.entries if entry.page == number]
        before = [entry for entry in self.entries if entry.page < number]
        goes_on = [] if begun and begun[0].is_first else before[-1:]
        return " · ".join(entry.title for entry in (*goes_on, *begun))


def bench_sheet_pdf(sheet: BenchSheet, paper: Paper) -> Printed:
    """Return the sheet as a PDF on such paper."""
    register_faces()
    laid = _laid_out(sheet, paper)
    true_paper = sheet.scale.comes_out(paper)

    def draw(canvas: "Canvas") -> None:
        if not sheet.parts_only:
            _draw(Ink(canvas, paper), sheet, laid)
        _draw_full(Ink(canvas, true_paper, sheet.scale.stretch), sheet, laid)

    subject = f"{sheet.version}. {COSTUME}"
    data = pdf_of(paper, f"{sheet.title}, bench sheet", subject, draw)
    return Printed(data=data, pages=laid.pages, missing=_missing(sheet))


def _missing(sheet: BenchSheet) -> str:
    return "".join(sorted(frozenset().union(*map(not_printable, frozenset(_texts(sheet))))))


def _texts(value: object) -> Iterator[str]:
    """Yield every text in a frozen value."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        # A point, or a ring of points: most of a sheet's values, and no words.
        for each in value if not _is_drawn(value) else ():
            yield from _texts(each)
    elif is_dataclass(value):
        for each in fields(value):
            yield from _texts(getattr(value, each.name))


def _is_drawn(values: tuple[object, ...]) -> bool:
    first = values[0] if values else None
    return isinstance(first, float) or (isinstance(first, tuple) and _is_drawn(first))


class _Layout:
    """Lays a sheet out, chapter by chapter."""

    def __init__(self, paper: Paper, cover: int) -> None:
        self.flow = Flow(paper)
        self.cover = cover
        self.entries: list[Entry] = []

    def enter(self, title: str, head: Bit) -> None:
        """Enter a chapter in the contents."""
        page = self.flow.page_of(head)
        is_first = self.flow.pages[page - 1].placed[0][0] is head
        self.enter_at(title, page, is_first=is_first)

    def enter_at(self, title: str, page: int, *, is_first: bool = True) -> None:
        """Enter what begins on a page; the cover, where there is one, lies before all others."""
        key = f"chapter-{len(self.entries)}"
        self.entries.append(Entry(title=title, page=page + self.cover, key=key, is_first=is_first))

    def begin(self, title: str, intro: str) -> list[Bit]:
        """Begin a chapter, on a new page where little is left of one; return its heading."""
        if self.flow.room_mm < _ROOM_MM:
            self.flow.new_page()
        return chapter_bits(title, intro, self.flow.whole_mm)

    def section(self, title: str, blocks: Iterable[list[Bit]]) -> None:
        """Lay blocks out over the whole width, under a heading; nothing where there are none."""
        for number, block in enumerate(blocks):
            head = [] if number else self.begin(title, "")
            self.flow.put([*head, *block])
            if head:
                self.enter(title, head[0])

    def chapter(self, chapter: Chapter) -> None:
        """Lay a chapter out: work in the column, reasons in the margin."""
        for number, run in enumerate(chapter.runs):
            head = [] if number else self.begin(chapter.title, chapter.intro)
            self._run(run, head)
            if head:
                self.enter(chapter.title, head[0])
            for fit in run.fits:
                wide = self.flow.whole_mm
                self.flow.put(fit_bits(fit, wide), again=fit_again_bits(fit, wide))

    def _run(self, run: SheetRun, head: list[Bit]) -> None:
        """Lay a run out, with smaller pictures where it stays on one page then."""
        flow = self.flow
        bits, margin = self._laid(run, head, low=False)
        if not flow.takes(bits, margin):
            low = self._laid(run, head, low=True)
            bits, margin = low if flow.takes(*low) else (bits, margin)
        flow.put(bits, margin, again=run_again_bits(run, flow.wide_mm))

    def _laid(self, run: SheetRun, head: list[Bit], *, low: bool) -> tuple[list[Bit], list[Bit]]:
        """Return the work of a run below a heading, and its reasons beside it."""
        wide = self.flow.wide_mm
        bits, margin = with_reasons(run, run_bits(run, wide, low=low), wide)
        above = [gap(high_of(head), keep=True)] if head and margin else []
        return [*head, *bits], [*above, *margin]


def _laid_out(sheet: BenchSheet, paper: Paper) -> _Laid:
    layout = _Layout(paper, cover=int(not sheet.parts_only))
    wide = layout.flow.whole_mm
    layout.section(NEEDS, (table_bits(table, wide) for table in sheet.needs))
    for chapter in sheet.chapters:
        layout.chapter(chapter)
    layout.section(DAYS, (table_bits(day, wide) for day in sheet.days))
    full = full_size_pages(sheet.full, sheet.scale.comes_out(paper), sheet.scale)
    if full:
        layout.enter_at(FULL, layout.flow.number + 1)
    return _Laid(flow=layout.flow, entries=tuple(layout.entries), full=full, cover=layout.cover)


def _draw(ink: Ink, sheet: BenchSheet, laid: _Laid) -> None:
    ink.begin_page()
    ink.mark("cover", sheet.title)
    draw_cover(ink, sheet, laid.entries)
    ink.end_page()
    for number, page in enumerate(laid.flow.pages, start=2):
        ink.begin_page()
        _mark(ink, laid, number)
        _draw_page(ink, sheet, page, (number, laid.pages), laid.chapter_at(number))
        ink.end_page()


def _draw_full(ink: Ink, sheet: BenchSheet, laid: _Laid) -> None:
    """Draw the parts at full size, stretched for their printer."""
    for number, full in enumerate(laid.full, start=laid.before_full + 1):
        ink.begin_page()
        _mark(ink, laid, number)
        words = PageWords(
            sheet=_named(sheet),
            about=full.about,
            number=number,
            pages=laid.pages,
            scale=sheet.scale,
        )
        draw_full_page(ink, full, words)
        ink.end_page()


def _mark(ink: Ink, laid: _Laid, number: int) -> None:
    for entry in laid.entries:
        if entry.page == number:
            ink.mark(entry.key, entry.title)


def _named(sheet: BenchSheet) -> str:
    return f"{sheet.title}, {sheet.version}"


def _draw_page(
    ink: Ink, sheet: BenchSheet, page: Page, number: tuple[int, int], chapter: str
) -> None:
    paper = ink.paper
    right = paper.wide_mm - RIGHT_MM
    room = right - LEFT_MM
    ink.text((LEFT_MM, 13.0), fitted(_named(sheet), _FOOT, room * 0.62), _FOOT)
    ink.text_right((right, 13.0), fitted(chapter, _FOOT, room * 0.34), _FOOT)
    ink.line((LEFT_MM, 15.0), (right, 15.0), thick_pt=0.4, colour=LINE)
    for bit, at in page.placed:
        bit.draw(ink, at)
    y = paper.high_mm - FOOT_MM + 8.0
    ink.text((LEFT_MM, y), fitted(COSTUME, _FOOT, room - 22), _FOOT)
    ink.text_right((right, y), f"Page {number[0]} of {number[1]}", _FOOT)
