"""One drying drawn: its windows as bars, its curve with the band, the air below. No display.

Paper and window draw it alike, each with its colours, size and text. Nothing is told by colour
alone: windows carry their words, humidity and what is only asked are dashed, shaded hours say what
they are and the axis tells the times.
"""

from datetime import timedelta
from typing import TYPE_CHECKING

from armorplan.sheets.drying_air import draw_air
from armorplan.sheets.drying_bars import draw_windows
from armorplan.sheets.drying_curve import draw_curve
from armorplan.sheets.drying_figure import DryingFigure, day
from armorplan.sheets.drying_layout import (
    LETTER,
    PX_AN_INCH,
    SMALL,
    ChartLook,
    ChartPlace,
    place_of,
)
from armorplan.sheets.time_axis import time_ticks

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure


def draw_drying(
    sheet: "Figure", figure: DryingFigure, look: ChartLook, *, top_px: float = 0.0
) -> ChartPlace:
    """Draw a drying across a sheet, ``top_px`` below its upper end; return where things lie."""
    place = place_of(len(figure.windows), look)
    bars, curve, air = (
        _axes(sheet, figure, look, (place.left, top_px + top, place.right, top_px + foot))
        for top, foot in (place.bars, place.curve, place.air)
    )
    minutes = (figure.until_at - figure.start_at) / timedelta(minutes=1)
    room = place.ticks(look, minutes)
    ticks = time_ticks(figure.start_at, figure.until_at, figure.zone, room)
    for axes in (bars, curve, air):
        _rule(axes, [day(at) for at, _ in ticks], look)
    bars.set_visible(bool(figure.windows))
    draw_windows(bars, figure, look, place)
    draw_curve(curve, figure, look, place)
    _name_shade(curve, figure, look, place)
    draw_air(air, figure, look)
    air.set_xticks([day(at) for at, _ in ticks], [words for _, words in ticks])
    return place


def _axes(
    sheet: "Figure",
    figure: DryingFigure,
    look: ChartLook,
    box: tuple[float, float, float, float],
) -> "Axes":
    """Return axes with their span and shades; ``box``: left, top, right and foot in pixels."""
    left, top, right, foot = box
    wide, high = (inches * PX_AN_INCH for inches in sheet.get_size_inches())
    axes = sheet.add_axes(
        (left / wide, 1 - foot / high, (right - left) / wide, max(foot - top, 1) / high)
    )
    colours = look.colours
    axes.set_facecolor(colours.ground)
    axes.set_xlim(day(figure.start_at), day(figure.until_at))
    axes.tick_params(length=0, labelsize=look.small_pt, labelcolor=colours.quiet)
    for spine in axes.spines.values():
        spine.set_color(colours.line)
        spine.set_linewidth(0.7)
    axes.broken_barh(
        [(day(since), day(until) - day(since)) for since, until in figure.shades.spans],
        (0, 1),
        transform=axes.get_xaxis_transform(),
        color=colours.night,
        linewidth=0,
        zorder=0,
    )
    axes.set_xticks([])
    return axes


def _rule(axes: "Axes", at: list[float], look: ChartLook) -> None:
    """Draw thin upright lines. A grid would make a tick for each, which takes twice the time."""
    axes.vlines(
        at,
        0,
        1,
        transform=axes.get_xaxis_transform(),
        color=look.colours.line,
        linewidth=0.5,
        alpha=0.6,
        zorder=0.5,
    )


def _name_shade(axes: "Axes", figure: DryingFigure, look: ChartLook, place: ChartPlace) -> None:
    """Write what is shaded below the curve, into a stretch about the middle with room for the word."""
    word = figure.shades.word
    a_px = (day(figure.until_at) - day(figure.start_at)) / place.wide_px
    needed = (len(word) + 1) * LETTER * SMALL * look.text_px * a_px
    wide = [s for s in figure.shades.spans if day(s[1]) - day(s[0]) >= needed]
    if not word or not wide:
        return
    middle = (day(figure.start_at) + day(figure.until_at)) / 2
    since, until = min(wide, key=lambda s: abs(day(s[0]) + day(s[1]) - 2 * middle))
    axes.annotate(
        word,
        ((day(since) + day(until)) / 2, 0),
        xytext=(0, 3),
        textcoords="offset points",
        ha="center",
        va="bottom",
        fontsize=look.small_pt,
        color=look.colours.quiet,
        zorder=2,
    )
