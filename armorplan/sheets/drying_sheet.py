"""The figure of one drying by itself: title, windows, curve, air, notes; light or dark."""

from pathlib import Path
from typing import TYPE_CHECKING

from armorplan.sheets.chart_colours import LIGHT, ChartColours
from armorplan.sheets.drying_chart import draw_drying
from armorplan.sheets.drying_figure import DryingPaper
from armorplan.sheets.drying_layout import PX_AN_INCH, ChartLook, height_px

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_WIDTH_IN, _LINE_IN, _HEAD_IN, _FOOT_IN = 9.6, 0.2, 0.62, 0.3
_TEXT_PT, _DPI = 9.2, 130


def save_drying(path: Path, paper: DryingPaper, colours: ChartColours = LIGHT) -> None:
    """Write the figure as a picture; the kind follows from the file's ending (png, svg, pdf).

    Raises:
        OSError: the file cannot be written.
        ValueError: matplotlib knows no such ending.
    """
    drying_sheet(paper, colours).savefig(path, facecolor=colours.ground)


def drying_sheet(paper: DryingPaper, colours: ChartColours = LIGHT) -> "Figure":
    """Return the whole figure: title, windows, curve, air, notes."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    bars, text_px = len(paper.figure.windows), _TEXT_PT * PX_AN_INCH / 72
    look = ChartLook(
        width_px=_WIDTH_IN * PX_AN_INCH,
        height_px=height_px(bars, text_px),
        text_pt=_TEXT_PT,
        colours=colours,
    )
    head_in = _HEAD_IN + _LINE_IN * len(paper.sentences)
    foot_in = _FOOT_IN + _LINE_IN * len(paper.notes)
    total_in = head_in + look.height_px / PX_AN_INCH + foot_in
    sheet = Figure(figsize=(_WIDTH_IN, total_in), dpi=_DPI, facecolor=colours.ground)
    FigureCanvasAgg(sheet)
    _write_head(sheet, paper, colours, total_in)
    draw_drying(sheet, paper.figure, look, top_px=head_in * PX_AN_INCH)
    for row, note in enumerate(reversed(paper.notes)):
        at = (0.14 + _LINE_IN * row) / total_in
        sheet.text(0.02, at, note, fontsize=7.5, color=colours.quiet, va="bottom")
    return sheet


def _write_head(
    sheet: "Figure", paper: DryingPaper, colours: ChartColours, total_in: float
) -> None:
    sheet.text(
        0.02,
        1 - 0.16 / total_in,
        paper.title,
        fontsize=14,
        weight="bold",
        color=colours.ink,
        va="top",
    )
    for row, sentence in enumerate(paper.sentences):
        at = 1 - (0.5 + _LINE_IN * row) / total_in
        sheet.text(0.02, at, sentence, fontsize=9, color=colours.ink, va="top")
