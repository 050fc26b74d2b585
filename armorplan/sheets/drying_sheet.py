"""The whole figure of one drying: title, windows, curve, air, notes; light or dark."""

from pathlib import Path
from typing import TYPE_CHECKING

from armorplan.sheets.chart_colours import LIGHT, ChartColours
from armorplan.sheets.drying_chart import (
    LEFT_IN,
    RIGHT_IN,
    WIDTH_IN,
    DryingFigure,
    draw_curve,
    draw_humidity,
    draw_temperature,
    draw_windows,
    name_times,
)

if TYPE_CHECKING:
    from matplotlib.figure import Figure

_ROW_IN, _CURVE_IN, _AIR_IN = 0.46, 2.3, 0.8
_LINE_IN, _HEAD_IN, _FOOT_IN, _GAP_IN = 0.2, 0.62, 0.62, 0.2
_DPI = 130


def save_drying(path: Path, figure: DryingFigure, colours: ChartColours = LIGHT) -> None:
    """Write the figure as a picture; the kind follows from the file's ending (png, svg, pdf).

    Raises:
        OSError: the file cannot be written.
        ValueError: matplotlib knows no such ending.
    """
    drying_sheet(figure, colours).savefig(path, facecolor=colours.ground)


def drying_sheet(figure: DryingFigure, colours: ChartColours = LIGHT) -> "Figure":
    """Return the whole figure: title, windows, curve, air, notes."""
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    windows_in = _ROW_IN * len(figure.windows)
    head_in = _HEAD_IN + _LINE_IN * len(figure.sentences)
    foot_in = _FOOT_IN + _LINE_IN * len(figure.notes)
    heights = (windows_in, _CURVE_IN, _AIR_IN, _AIR_IN)
    gaps = (_GAP_IN, _GAP_IN, _GAP_IN)
    total = head_in + sum(heights) + sum(gaps) + foot_in
    sheet = Figure(figsize=(WIDTH_IN, total), dpi=_DPI, facecolor=colours.ground)
    FigureCanvasAgg(sheet)
    draws = (draw_windows, draw_curve, draw_temperature, draw_humidity)
    top = total - head_in
    axes = None
    for draw, high, gap in zip(draws, heights, (*gaps, 0.0), strict=True):
        wide = (WIDTH_IN - LEFT_IN - RIGHT_IN) / WIDTH_IN
        axes = sheet.add_axes((LEFT_IN / WIDTH_IN, (top - high) / total, wide, high / total))
        draw(axes, figure, colours)
        top -= high + gap
    if axes is not None:
        name_times(axes, figure, colours)
    _write_head(sheet, figure, colours, total)
    for row, note in enumerate(reversed(figure.notes)):
        at = (0.14 + _LINE_IN * row) / total
        sheet.text(0.02, at, note, fontsize=7.5, color=colours.quiet, va="bottom")
    return sheet


def _write_head(
    sheet: "Figure", figure: DryingFigure, colours: ChartColours, total: float
) -> None:
    sheet.text(
        0.02,
        1 - 0.16 / total,
        figure.title,
        fontsize=14,
        weight="bold",
        color=colours.ink,
        va="top",
    )
    for row, sentence in enumerate(figure.sentences):
        at = 1 - (0.5 + _LINE_IN * row) / total
        sheet.text(0.02, at, sentence, fontsize=9, color=colours.ink, va="top")
