"""The plan of some builds on paper: dates of the builds, then each day with who does what. PDF."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from functools import partial
from io import BytesIO
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape
from zoneinfo import ZoneInfo

from armorplan.kernel.units import span_words
from armorplan.sheets.bench_sheet_letters import BOLD, SANS, register_faces
from armorplan.sheets.week_table import BuildLine, PlanLine, WeekTable

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas
    from reportlab.platypus import BaseDocTemplate, Flowable

_ONE_STRETCH = timedelta(minutes=20)
"""Work of one person at one build that goes on after a shorter break is one stretch."""
_MOST_TITLES = 8
_SIZE_PT, _LEAD_PT = 8.5, 10.5
_EDGE_MM = 15.0
_COSTUME = (
    "Armour made with Armorplan is costume, not protective equipment. Labels, local codes and "
    "licensed practice rule over this sheet."
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stretch:
    """What one person does at one build without a longer break, or what dries from one time on."""

    start_at: datetime
    end_at: datetime
    who: str
    build: str
    text: str


def stretches(table: WeekTable) -> list[Stretch]:
    """Return the stretches of a plan, in order."""
    zone = ZoneInfo(table.zone)
    found = list(_hands_on([line for line in table.lines if line.who], zone))
    found += [
        Stretch(
            start_at=line.start_at,
            end_at=line.end_at,
            who="",
            build=line.build_title,
            text=line.title,
        )
        for line in table.lines
        if not line.who
    ]
    return sorted(found, key=lambda one: (one.start_at, one.who == "", one.who, one.end_at))


def _hands_on(lines: list[PlanLine], zone: ZoneInfo) -> Iterator[Stretch]:
    mine = sorted(lines, key=lambda line: (line.at_bench, line.start_at, line.end_at))
    for _, of_one in groupby(mine, key=lambda line: line.at_bench):
        run: list[PlanLine] = []
        for line in of_one:
            if run and not _goes_on(run, line):
                yield _as_one(run, zone)
                run = []
            run.append(line)
        yield _as_one(run, zone)


def _goes_on(run: list[PlanLine], line: PlanLine) -> bool:
    end_at = max(one.end_at for one in run)
    return line.build == run[0].build and line.start_at - end_at <= _ONE_STRETCH


def _as_one(run: list[PlanLine], zone: ZoneInfo) -> Stretch:
    titles = list(dict.fromkeys(_titled(line, zone) for line in run))
    more = len(titles) - _MOST_TITLES
    told = titles if more <= 0 else [*titles[:_MOST_TITLES], f"and {more} more"]
    return Stretch(
        start_at=run[0].start_at,
        end_at=max(line.end_at for line in run),
        who=run[0].at_bench,
        build=run[0].build_title,
        text="; ".join(told),
    )


def _titled(line: PlanLine, zone: ZoneInfo) -> str:
    where = f" ({line.bath})" if line.bath else ""
    there = f" with {' and '.join(line.comes)}" if line.comes else ""
    by_at = line.begin_by_at.astimezone(zone) if line.begin_by_at else None
    by = f", begin by {by_at:%a %H:%M}" if by_at else ""
    return f"{line.title}{where}{there}{by}"


def save_week(path: Path, table: WeekTable, *, printed_at: datetime) -> None:
    """Write the sheet as a PDF of A4 pages.

    Raises:
        OSError: the file cannot be written.
    """
    path.write_bytes(week_pdf(table, printed_at=printed_at))


def week_pdf(table: WeekTable, *, printed_at: datetime) -> bytes:
    """Return the sheet as a PDF of A4 pages."""
    from reportlab.lib.pagesizes import A4
    from reportlab.lib.units import mm
    from reportlab.platypus import SimpleDocTemplate

    register_faces()
    held = BytesIO()
    document = SimpleDocTemplate(
        held,
        pagesize=A4,
        leftMargin=_EDGE_MM * mm,
        rightMargin=_EDGE_MM * mm,
        topMargin=_EDGE_MM * mm,
        bottomMargin=_EDGE_MM * mm,
        title=table.title,
        creator="Armorplan",
    )
    foot = partial(_foot, f"{table.title}, printed {_local(printed_at, table):%d %b %Y %H:%M}")
    document.build(list(_flow(table)), onFirstPage=foot, onLaterPages=foot)
    return held.getvalue()


def _foot(text: str, canvas: "Canvas", document: "BaseDocTemplate") -> None:
    from reportlab.lib.units import mm

    canvas.saveState()
    canvas.setFont(SANS, 7)
    width, _ = document.pagesize
    canvas.drawString(_EDGE_MM * mm, 8 * mm, text)
    canvas.drawRightString(width - _EDGE_MM * mm, 8 * mm, f"Page {canvas.getPageNumber()}")
    canvas.restoreState()


def _local(at: datetime, table: WeekTable) -> datetime:
    return at.astimezone(ZoneInfo(table.zone))


def _flow(table: WeekTable) -> Iterator["Flowable"]:
    yield _paragraph(table.title, size_pt=15, bold=True)
    yield _paragraph(table.sentence)
    yield _builds(table)
    for note in table.notes:
        yield _paragraph(note)
    for day, found in groupby(
        stretches(table), key=lambda one: _local(one.start_at, table).date()
    ):
        yield _day(table, day, list(found))
    yield _paragraph(_COSTUME)


def _paragraph(text: str, *, size_pt: float = _SIZE_PT, bold: bool = False) -> "Flowable":
    from reportlab.lib.styles import ParagraphStyle
    from reportlab.platypus import Paragraph

    style = ParagraphStyle(
        name="line",
        fontName=BOLD if bold else SANS,
        fontSize=size_pt,
        leading=size_pt * _LEAD_PT / _SIZE_PT,
        spaceBefore=6 if bold else 2,
        spaceAfter=3,
    )
    return Paragraph(escape(text), style)


def _rows(rows: list[list[str]], widths_mm: tuple[float, ...]) -> "Flowable":
    from reportlab.lib import colors
    from reportlab.lib.units import mm
    from reportlab.platypus import Table, TableStyle

    lines = TableStyle(
        [
            ("VALIGN", (0, 0), (-1, -1), "TOP"),
            ("LINEBELOW", (0, 0), (-1, -1), 0.3, colors.Color(0.6, 0.6, 0.6)),
            ("TOPPADDING", (0, 0), (-1, -1), 1),
            ("BOTTOMPADDING", (0, 0), (-1, -1), 1),
        ]
    )
    cells = [[_paragraph(cell, bold=at == 0) for cell in row] for at, row in enumerate(rows)]
    return Table(cells, colWidths=[width * mm for width in widths_mm], style=lines, repeatRows=1)


def _builds(table: WeekTable) -> "Flowable":
    head = ["Build", "Due", "Finished", ""]
    rows = [head, *(_build_row(build, table) for build in table.builds)]
    return _rows(rows, (70.0, 38.0, 38.0, 34.0))


def _build_row(build: BuildLine, table: WeekTable) -> list[str]:
    def at(instant: datetime | None) -> str:
        return "" if instant is None else f"{_local(instant, table):%a %d %b %H:%M}"

    return [build.title, at(build.due_at), at(build.finish_at), spare_words(build)]


def spare_words(build: BuildLine) -> str:
    """Return how late a build is, or how much time is left; empty where nothing is due."""
    if build.due_at is None or build.finish_at is None:
        return ""
    if build.late_min:
        return f"late by {span_words(build.late_min)}"
    spare_min = int((build.due_at - build.finish_at).total_seconds() // 60)
    return f"{span_words(spare_min)} to spare" if spare_min else "just in time"


def _day(table: WeekTable, day: date, found: list[Stretch]) -> "Flowable":
    rows = [["When", "Who", "Build", f"{day:%A}, {day.day} {day:%B %Y}"]]
    for one in found:
        start, end = _local(one.start_at, table), _local(one.end_at, table)
        till = f"{end:%H:%M}" if end.date() == day else f"{end:%a %H:%M}"
        who = f"\u2610 {one.who}" if one.who else "dries"
        rows.append([f"{start:%H:%M}\u2013{till}", who, one.build, one.text])
    return _rows(rows, (34.0, 26.0, 40.0, 80.0))
