"""The windows of a drying as bars, drawn with matplotlib; each carries its words."""

from datetime import datetime
from typing import TYPE_CHECKING

from armorplan.app.drying_rows import DryBar, DryingPage
from armorplan.desktop.drying_layout import LETTER, PlotLayout, PlotLook, day, day_or
from armorplan.desktop.wording import clock_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_MIDDLE, _RANGE = 0.42, 0.88
"""Where in its row a bar lies, and below it the range of its ends."""


def draw_bars(axes: "Axes", page: DryingPage, look: PlotLook, layout: PlotLayout) -> None:
    """Draw a row for each window."""
    axes.set_ylim(len(page.bars), 0)
    axes.set_yticks([])
    for spine in axes.spines.values():
        spine.set_visible(False)
    for row, bar in enumerate(page.bars):
        _draw_bar(axes, bar, row, look)
        _name_bar(axes, bar, row, (look, layout))


def _draw_bar(axes: "Axes", bar: DryBar, row: int, look: PlotLook) -> None:
    """Draw from when to when it holds likely, and how far either end may lie to both sides."""
    colours, (first, last) = look.colours, axes.get_xlim()
    since = day_or(bar.opens.likely_at, last)
    if since < last:
        stop = min(day_or(bar.closes.likely_at if bar.closes else None, last), last)
        axes.barh(
            row + _MIDDLE,
            max(stop - since, 0.0),
            left=since,
            height=0.7,
            color=colours.chosen,
            edgecolor=colours.drying,
            linewidth=1.0,
            zorder=2,
        )
    for ends in (bar.opens, bar.closes):
        if ends is None or ends.soonest_at is None:
            continue
        low, high = max(day(ends.soonest_at), first), min(day_or(ends.latest_at, last), last)
        if high > low:
            axes.plot(
                [low, high],
                [row + _RANGE, row + _RANGE],
                color=colours.drying,
                linewidth=1.8,
                marker="|",
                markersize=look.text_px * 0.4,
                zorder=6,
            )


def _name_bar(axes: "Axes", bar: DryBar, row: int, where: tuple[PlotLook, PlotLayout]) -> None:
    """Write what a bar is and when, where there is most room for it."""
    look, layout = where
    text = _bar_words(bar, look)
    first, last = axes.get_xlim()
    at = min(max(day_or(bar.opens.likely_at, last), first), last)
    wide = (layout.right - layout.left) / (last - first)
    needed = len(text) * look.text_px * LETTER + 12
    is_right = (last - at) * wide >= needed or (last - at) >= (at - first)
    axes.annotate(
        text,
        (at, row + _MIDDLE),
        xytext=(6 if is_right else -6, 0),
        textcoords="offset points",
        ha="left" if is_right else "right",
        va="center",
        fontsize=look.text_pt * 0.95,
        color=look.colours.text,
        zorder=5,
        bbox={"facecolor": look.colours.panel, "edgecolor": "none", "pad": 1.2, "alpha": 0.88},
    )


def _bar_words(bar: DryBar, look: PlotLook) -> str:
    def when(at: datetime | None) -> str:
        return clock_text(at, look.now_at, look.zone) if at else "never"

    if bar.closes is None:
        return f"{bar.name}: {when(bar.opens.likely_at)}"
    return f"{bar.name}: {when(bar.opens.likely_at)}\N{EN DASH}{when(bar.closes.likely_at)}"
