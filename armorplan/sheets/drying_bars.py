"""The windows of a drying as bars: from when on likely, and how far either end may lie."""

from datetime import datetime
from typing import TYPE_CHECKING

from armorplan.sheets.drying_figure import DryingFigure, WindowBar, day
from armorplan.sheets.drying_layout import LETTER, SMALL, ChartLook, ChartPlace

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_MIDDLE, _HIGH, _RANGE = 0.42, 0.62, 0.87
"""Where in its row a bar lies, how high it is, and where below it the range of its ends."""
_PAD_PX = 14.0
_SHIFT_PT = 5


def draw_windows(axes: "Axes", figure: DryingFigure, look: ChartLook, place: ChartPlace) -> None:
    """Draw a row for each window; its name stands beside it or in it, as there is room."""
    axes.set_ylim(max(len(figure.windows), 1), 0)
    axes.set_yticks([])
    if place.beside:
        rows = [row + _MIDDLE for row in range(len(figure.windows))]
        axes.set_yticks(rows, [bar.name for bar in figure.windows])
        axes.tick_params(axis="y", labelsize=look.text_pt, labelcolor=look.colours.ink)
    for spine in axes.spines.values():
        spine.set_visible(False)
    for row, bar in enumerate(figure.windows):
        _draw_bar(axes, figure, bar, row, look)
        _write_words(axes, figure, bar, row, (look, place))


def _within(figure: DryingFigure, at: datetime | None) -> float:
    return day(figure.until_at if at is None else min(max(at, figure.start_at), figure.until_at))


def _ends(figure: DryingFigure, bar: WindowBar) -> tuple[float, float]:
    closes_at = bar.closes.likely_at if bar.closes else None
    return _within(figure, bar.opens.likely_at), _within(figure, closes_at)


def _draw_bar(
    axes: "Axes", figure: DryingFigure, bar: WindowBar, row: int, look: ChartLook
) -> None:
    colours, (since, until) = look.colours, _ends(figure, bar)
    if bar.opens.likely_at is not None and until > since:
        axes.barh(
            row + _MIDDLE,
            until - since,
            left=since,
            height=_HIGH,
            color=colours.holds,
            edgecolor=colours.drying,
            linewidth=0.9,
            zorder=2,
        )
    for edge in (bar.opens, bar.closes):
        if edge is None or edge.soonest_at is None:
            continue
        ends = [_within(figure, edge.soonest_at), _within(figure, edge.latest_at)]
        if ends[1] > ends[0]:
            axes.plot(
                ends,
                [row + _RANGE] * 2,
                color=colours.drying,
                linewidth=1.5,
                marker="|",
                markersize=look.text_px * 0.42,
                markeredgewidth=1.5,
                solid_capstyle="butt",
                zorder=4,
                clip_on=False,
            )


def _write_words(
    axes: "Axes",
    figure: DryingFigure,
    bar: WindowBar,
    row: int,
    where: tuple[ChartLook, ChartPlace],
) -> None:
    """Write the words in the bar where they fit; else behind it, or before it at the right end."""
    look, place = where
    since, until = _ends(figure, bar)
    end = day(figure.until_at)
    text = bar.words if place.beside else f"{bar.name}: {bar.words}"
    a_px = (end - day(figure.start_at)) / place.wide_px
    needed = (len(text) * LETTER * SMALL * look.text_px + _PAD_PX) * a_px
    if until - since >= needed:
        at, shift, side = since, _SHIFT_PT, "left"
    elif end - until >= needed:
        at, shift, side = until, _SHIFT_PT, "left"
    elif since - day(figure.start_at) >= needed:
        at, shift, side = since, -_SHIFT_PT, "right"
    else:
        at, shift, side = day(figure.start_at), _SHIFT_PT, "left"
    is_after = bar.opens.likely_at is not None and bar.opens.likely_at >= figure.until_at
    axes.annotate(
        f"{text} \N{RIGHTWARDS ARROW}" if is_after else text,
        (at, row + _MIDDLE),
        xytext=(shift, 0),
        textcoords="offset points",
        ha=side,
        va="center_baseline",
        fontsize=look.small_pt,
        color=look.colours.ink,
        zorder=5,
    )
