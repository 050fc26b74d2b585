"""One drying as a picture for paper and screen."""

from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from textwrap import wrap
from zoneinfo import ZoneInfo

from armorplan.app.drying_nights import shades_of
from armorplan.app.drying_report import DryReport
from armorplan.app.drying_rows import DryBar, DryingPage
from armorplan.app.picture_file import written_to
from armorplan.app.rough_instants import rough
from armorplan.drying.spans import Verdict
from armorplan.sheets.chart_colours import DARK, LIGHT
from armorplan.sheets.drying_figure import DryingFigure, DryingPaper, WindowBar
from armorplan.sheets.drying_sheet import save_drying
from armorplan.workshop.shop import Person

_MOST_LETTERS, _MOST_NOTE_LETTERS = 118, 150


def figure_of(
    page: DryingPage, other: DryingPage | None = None, *, people: Sequence[Person] = ()
) -> DryingFigure:
    """Return the figure of a drying, for paper and window.

    Args:
        page: the drying as it is.
        other: the same in another air or leather, to be drawn beside it.
        people: of the shop: it is closed while none of them works.
    """
    start_at = page.choice.start_at
    until_at = max(page.until_at, other.until_at) if other else page.until_at
    return DryingFigure(
        trouble="" if page.verdict is Verdict.DRIES else page.verdict.value,
        zone=page.room.zone,
        start_at=start_at,
        until_at=until_at,
        windows=tuple(_window(bar, page) for bar in page.bars),
        curve=page.curve,
        other=other.curve if other else None,
        film_c=page.choice.entry.film_from_c,
        shades=shades_of(page.room, people, start_at, until_at),
        look_at=page.choice.damp.at if page.choice.damp else None,
    )


def paper_of(page: DryingPage, report: DryReport, *, people: Sequence[Person]) -> DryingPaper:
    """Return the figure of a drying for itself, with its words."""
    local = page.choice.start_at.astimezone(ZoneInfo(page.room.zone))
    sentences = (report.trouble, report.remedy, report.why, f"Air: {report.air.words}")
    return DryingPaper(
        title=f"{page.choice.title}, wet from {local:%A} {local.day} {local:%B}, {local:%H:%M}",
        sentences=tuple(line for each in sentences for line in wrap(each, _MOST_LETTERS)),
        figure=figure_of(page, people=people),
        notes=tuple(line for each in report.sources for line in wrap(each, _MOST_NOTE_LETTERS)),
    )


def _window(bar: DryBar, page: DryingPage) -> WindowBar:
    return WindowBar(
        name=bar.name,
        words=_words(bar, page),
        opens=bar.opens,
        closes=bar.closes,
    )


def _words(bar: DryBar, page: DryingPage) -> str:
    zone = ZoneInfo(page.room.zone)

    def clock(at: datetime | None) -> str:
        if at is None:
            return "never"
        known = rough(at, page.choice.start_at, zone)
        if known.part:
            return f"{known.at:%a} {known.at.day} {known.at:%b}, {known.part}"
        return f"{known.at:%a %H:%M}"

    opens = clock(bar.opens.likely_at)
    if bar.closes is None or bar.opens.likely_at is None:
        return opens
    closes = clock(bar.closes.likely_at)
    same_day = closes.rpartition(" ")[0] == opens.rpartition(" ")[0]
    return f"{opens} \N{EN DASH} {closes.rpartition(' ')[2] if same_day else closes}"


def save_drying_picture(path: Path, paper: DryingPaper, *, dark: bool = False) -> None:
    """Write a drying as a picture (png, svg or pdf by the file's ending).

    Raises:
        ArmorplanError: the file cannot be written, or its ending is none of these.
    """
    with written_to(path):
        save_drying(path, paper, DARK if dark else LIGHT)
