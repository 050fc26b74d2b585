"""One drying drawn with matplotlib, without a display: windows as bars, its curve, the air below it.

Made in any thread, as bytes for Qt to show. Nothing is told by colour alone: the likely way is a
solid line in its band, the one of another air is dashed, humidity is dotted, bars carry their words.
"""

import gc
from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime
from sys import modules
from threading import Lock
from typing import TYPE_CHECKING, Any

from armorplan.app.drying_rows import DryingPage
from armorplan.desktop.colours import Colours
from armorplan.desktop.drying_air import draw_air, name_times, shade_nights
from armorplan.desktop.drying_bars import draw_bars
from armorplan.desktop.drying_layout import DPI, PlotLayout, PlotLook, day, layout_of

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

_DRAWING = Lock()
"""matplotlib's fonts are not for two threads at a time."""
_FULL_PCT, _ABOVE_PCT = 100, 106


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


def draw_drying(page: DryingPage, other: DryingPage | None, look: PlotLook) -> DryingPlot:
    """Draw a drying, and with it the same in another air; about 100 ms.

    Args:
        page: the drying as it is.
        other: the same in the air that is asked for.
        look: size and colours.
    """
    with _DRAWING:
        return _draw(page, other, look)


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


def _draw(page: DryingPage, other: DryingPage | None, look: PlotLook) -> DryingPlot:
    figure_of, canvas_of = _loaded()
    size = (look.width_px / DPI, look.height_px / DPI)
    figure = figure_of(figsize=size, dpi=DPI * look.ratio, facecolor=look.colours.panel)
    canvas = canvas_of(figure)
    layout = layout_of(len(page.bars), look)
    until_at = max(page.until_at, other.until_at) if other else page.until_at
    span = (page.choice.start_at, until_at)
    bars = _axes(figure, layout, layout.bars, look)
    curve = _axes(figure, layout, layout.curve, look)
    air = _axes(figure, layout, layout.air, look)
    for axes in (bars, curve, air):
        axes.set_xlim(day(span[0]), day(span[1]))
        shade_nights(axes, span, look)
    draw_bars(bars, page, look, layout)
    _draw_curve(curve, page, other, look)
    draw_air(air, page, other, look)
    name_times(air, span, look, layout)
    canvas.draw()  # type: ignore[no-untyped-call]
    width, height = canvas.get_width_height()
    return DryingPlot(
        pixels=bytes(canvas.buffer_rgba()),  # type: ignore[no-untyped-call]
        width=width,
        height=height,
        ratio=look.ratio,
        left_px=layout.left,
        right_px=layout.right,
        top_px=layout.bars[0],
        foot_px=layout.air[1],
        from_at=span[0],
        until_at=span[1],
    )


def _axes(
    figure: "Figure", layout: PlotLayout, rows: tuple[float, float], look: PlotLook
) -> "Axes":
    top, foot = rows
    wide, high = look.width_px, look.height_px
    place = (
        layout.left / wide,
        1 - foot / high,
        (layout.right - layout.left) / wide,
        max(foot - top, 1) / high,
    )
    axes = figure.add_axes(place)
    axes.set_facecolor(look.colours.panel)
    axes.tick_params(length=0, labelsize=look.text_pt * 0.9, labelcolor=look.colours.quiet)
    for spine in axes.spines.values():
        spine.set_color(look.colours.line)
        spine.set_linewidth(0.6)
    axes.set_xticks([])
    return axes


def _draw_curve(axes: "Axes", page: DryingPage, other: DryingPage | None, look: PlotLook) -> None:
    colours = look.colours
    for one, colour, dashes, alpha in _ways(page, other, colours):
        curve = one.curve
        days = [day(at) for at in curve.at]
        axes.fill_between(
            days,
            curve.dry_pct_low,
            curve.dry_pct_high,
            color=colour,
            alpha=alpha,
            linewidth=0,
            zorder=1,
        )
        axes.plot(days, curve.dry_pct_likely, color=colour, linestyle=dashes, linewidth=2)
    axes.set_ylim(0, _ABOVE_PCT)
    axes.set_yticks([0, 50, _FULL_PCT], ["0 %", "50 %", "dry"])
    axes.axhline(_FULL_PCT, color=colours.line, linewidth=0.6, zorder=0)
    if other is not None:
        _name_ways(axes, look)


def _ways(
    page: DryingPage, other: DryingPage | None, colours: Colours
) -> Iterator[tuple[DryingPage, str, Any, float]]:
    yield page, colours.drying, "solid", 0.28
    if other is not None:
        yield other, colours.running, (0, (5, 2)), 0.18


def _name_ways(axes: "Axes", look: PlotLook) -> None:
    from matplotlib.lines import Line2D

    colours = look.colours
    handles = [
        Line2D([], [], color=colours.drying, linewidth=2, label="as it is"),
        Line2D([], [], color=colours.running, linewidth=2, dashes=(5, 2), label="if it were so"),
    ]
    axes.legend(
        handles=handles,
        loc="lower right",
        fontsize=look.text_pt * 0.9,
        facecolor=colours.panel,
        edgecolor=colours.line,
        labelcolor=colours.text,
        framealpha=0.9,
    )
