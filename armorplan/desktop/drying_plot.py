"""The picture of a drying for the window: the figure of the sheets in its palette, as bytes for Qt.

Made in any thread, without a display.
"""

import gc
from dataclasses import dataclass, field
from datetime import datetime
from sys import modules
from threading import Lock
from typing import TYPE_CHECKING

from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import mixed
from armorplan.sheets.chart_colours import ChartColours
from armorplan.sheets.drying_chart import draw_drying
from armorplan.sheets.drying_figure import DryingFigure
from armorplan.sheets.drying_layout import PX_AN_INCH, ChartLook

if TYPE_CHECKING:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

_DRAWING = Lock()
"""matplotlib's fonts are not for two threads at a time."""
_HOLDS_SHARE, _NIGHT_SHARE = 0.24, 0.65


@dataclass(frozen=True, slots=True, kw_only=True)
class PlotLook:
    """How large the picture is (logical pixels, at a ratio of device pixels), and how it looks."""

    width_px: int
    height_px: int
    ratio: float
    text_pt: float
    colours: Colours


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingPlot:
    """A drawn picture: RGBA bytes, and where its time axis lies, in logical pixels."""

    pixels: bytes = field(repr=False)
    width: int
    height: int
    ratio: float
    left_px: float
    right_px: float
    top_px: float
    foot_px: float
    from_at: datetime
    until_at: datetime

    def x(self, at: datetime) -> float | None:
        """Return where an instant lies; ``None`` outside the picture."""
        share = (at - self.from_at) / (self.until_at - self.from_at)
        return self.left_px + share * (self.right_px - self.left_px) if 0 <= share <= 1 else None


def chart_colours(colours: Colours) -> ChartColours:
    """Return a theme's colours as a figure has them."""
    return ChartColours(
        ground=colours.panel,
        ink=colours.text,
        quiet=colours.quiet,
        line=colours.line,
        night=mixed(colours.panel, colours.night, _NIGHT_SHARE),
        drying=colours.drying,
        holds=mixed(colours.panel, colours.drying, _HOLDS_SHARE),
        warm=colours.alarm,
        damp=colours.running,
        alarm=colours.alarm,
    )


def plot_drying(figure: DryingFigure, look: PlotLook) -> DryingPlot:
    """Draw a drying; 100 to 250 ms."""
    with _DRAWING:
        return _plot(figure, look)


def _loaded() -> "tuple[type[Figure], type[FigureCanvasAgg]]":
    """Load matplotlib, the first time with the collection of garbage put off.

    So much is made new then that all of a build would be looked through for garbage, which was
    seen to hold up the window for 150 to 250 ms.
    """
    is_first, was_on = "matplotlib.figure" not in modules, gc.isenabled()
    if is_first:
        gc.disable()
    try:
        from matplotlib.backends.backend_agg import FigureCanvasAgg
        from matplotlib.figure import Figure
    finally:
        if is_first and was_on:
            gc.enable()
    return Figure, FigureCanvasAgg


def _plot(figure: DryingFigure, look: PlotLook) -> DryingPlot:
    figure_of, canvas_of = _loaded()
    colours = chart_colours(look.colours)
    size = (look.width_px / PX_AN_INCH, look.height_px / PX_AN_INCH)
    sheet = figure_of(figsize=size, dpi=PX_AN_INCH * look.ratio, facecolor=colours.ground)
    canvas = canvas_of(sheet)
    chart = ChartLook(
        width_px=look.width_px,
        height_px=look.height_px,
        text_pt=look.text_pt,
        colours=colours,
    )
    place = draw_drying(sheet, figure, chart)
    canvas.draw()  # type: ignore[no-untyped-call]
    width, height = canvas.get_width_height()
    return DryingPlot(
        pixels=bytes(canvas.buffer_rgba()),  # type: ignore[no-untyped-call]
        width=width,
        height=height,
        ratio=look.ratio,
        left_px=place.left,
        right_px=place.right,
        top_px=place.bars[0],
        foot_px=place.air[1],
        from_at=figure.start_at,
        until_at=figure.until_at,
    )
