"""The bench sheet as a PDF: cover, needs, steps with boxes and reasons, days, parts at full size."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass
from io import BytesIO

from armorplan.sheets.bench_sheet_flow import FOOT_MM, LEFT_MM, RIGHT_MM, Flow, Page
from armorplan.sheets.bench_sheet_front import (
    COSTUME,
    Entry,
    chapter_bits,
    draw_cover,
    fit_bits,
    table_bits,
)
from armorplan.sheets.bench_sheet_ink import (
    LINE,
    QUIET,
    Ink,
    Paper,
    Style,
    fitted,
    not_printable,
    printable,
    register_faces,
)
from armorplan.sheets.bench_sheet_model import BenchSheet
from armorplan.sheets.bench_sheet_runs import reason_bits, run_bits
from armorplan.sheets.full_size_pages import FullPage, full_size_pages

_FOOT = Style(size_pt=6.8, lead_mm=3.2, colour=QUIET)
NEEDS, FITS, DAYS, FULL = "What it takes", "Dry fit in rounds", "Day by day", "Parts at full size"


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


def bench_sheet_pdf(sheet: BenchSheet, paper: Paper) -> Printed:
    """Return the sheet as a PDF on such paper."""
    from reportlab.pdfgen.canvas import Canvas

    register_faces()
    laid = _laid_out(sheet, paper)
    held = BytesIO()
    size = (paper.wide_mm * 72 / 25.4, paper.high_mm * 72 / 25.4)
    canvas = Canvas(held, pagesize=size, pageCompression=1)
    canvas.setTitle(printable(f"{sheet.title}, bench sheet"))
    canvas.setSubject(printable(f"{sheet.version}. {COSTUME}"))
    canvas.setCreator("Armorplan")
    ink = Ink(canvas, paper)
    _draw(ink, sheet, laid)
    canvas.save()
    pages = 1 + len(laid.flow.pages) + len(laid.full)
    return Printed(data=held.getvalue(), pages=pages, missing=_missing(sheet))


def _missing(sheet: BenchSheet) -> str:
    return "".join(sorted(frozenset().union(*map(not_printable, frozenset(_texts(sheet))))))


def _texts(value: object) -> Iterator[str]:
    """Yield every text in a frozen value."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, tuple):
        for each in value:
            yield from _texts(each)
    elif is_dataclass(value):
        for each in fields(value):
            yield from _texts(getattr(value, each.name))


def _laid_out(sheet: BenchSheet, paper: Paper) -> _Laid:
    flow, entries = Flow(paper), []

    def begin(title: str, intro: str = "", room_mm: float = 0.0) -> None:
        flow.new_page(title)
        # The cover is page 1.
        entries.append(Entry(title=title, page=flow.number + 1, key=f"chapter-{len(entries)}"))
        flow.put(chapter_bits(title, intro, room_mm or flow.whole_mm))

    if sheet.needs:
        begin(NEEDS)
        for table in sheet.needs:
            flow.put(table_bits(table, flow.whole_mm))
    for chapter in sheet.chapters:
        begin(chapter.title, chapter.intro)
        for run in chapter.runs:
            flow.put(run_bits(run, flow.wide_mm), reason_bits(run))
    if sheet.fits:
        begin(FITS)
        for fit in sheet.fits:
            flow.put(fit_bits(fit, flow.whole_mm))
    if sheet.days:
        begin(DAYS)
        for day in sheet.days:
            flow.put(table_bits(day, flow.whole_mm))
    full = full_size_pages(sheet.full, paper)
    if full:
        entries.append(Entry(title=FULL, page=flow.number + 2, key=f"chapter-{len(entries)}"))
    return _Laid(flow=flow, entries=tuple(entries), full=full)


def _draw(ink: Ink, sheet: BenchSheet, laid: _Laid) -> None:
    pages = 1 + len(laid.flow.pages) + len(laid.full)
    marks = {entry.page: entry for entry in laid.entries}
    ink.begin_page()
    ink.mark("cover", sheet.title)
    draw_cover(ink, sheet, laid.entries)
    ink.end_page()
    for number, page in enumerate(laid.flow.pages, start=2):
        ink.begin_page()
        _mark(ink, marks.get(number))
        _draw_page(ink, sheet, page, (number, pages))
        ink.end_page()
    for number, full in enumerate(laid.full, start=2 + len(laid.flow.pages)):
        ink.begin_page()
        _mark(ink, marks.get(number))
        full.draw(ink, _named(sheet), (number, pages))
        ink.end_page()


def _mark(ink: Ink, entry: Entry | None) -> None:
    if entry is not None:
        ink.mark(entry.key, entry.title)


def _named(sheet: BenchSheet) -> str:
    return f"{sheet.title}, {sheet.version}"


def _draw_page(ink: Ink, sheet: BenchSheet, page: Page, number: tuple[int, int]) -> None:
    paper = ink.paper
    right = paper.wide_mm - RIGHT_MM
    room = right - LEFT_MM
    ink.text((LEFT_MM, 13.0), fitted(_named(sheet), _FOOT, room * 0.62), _FOOT)
    ink.text_right((right, 13.0), fitted(page.chapter, _FOOT, room * 0.34), _FOOT)
    ink.line((LEFT_MM, 15.0), (right, 15.0), thick_pt=0.4, colour=LINE)
    for bit, at in page.placed:
        bit.draw(ink, at)
    y = paper.high_mm - FOOT_MM + 8.0
    ink.text((LEFT_MM, y), fitted(COSTUME, _FOOT, room - 22), _FOOT)
    ink.text_right((right, y), f"Page {number[0]} of {number[1]}", _FOOT)
