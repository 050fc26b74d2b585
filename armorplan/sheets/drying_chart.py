"""One drying as a figure: its windows as bars, its curve with the band, the air below. No display.

Nothing is told by colour alone: windows carry their words, humidity is dashed, nights are shaded
and the axis tells their hours. Hues are Okabe and Ito's, darkened or lightened for their ground.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import TYPE_CHECKING, Any

from armorplan.drying.curve import DRY_PCT, Curve
from armorplan.sheets.chart_colours import ChartColours
from armorplan.sheets.time_axis import nights, time_ticks

if TYPE_CHECKING:
    from matplotlib.axes import Axes

WIDTH_IN, LEFT_IN, RIGHT_IN = 9.6, 1.5, 0.35
"""Of the whole figure, and what is left of and right of its axes."""
_LETTER_IN = 0.078
"""About the width of a letter of a window's words."""
_LEAST_C, _LEAST_PCT = 4.0, 20.0
"""No axis of the air is shorter than that: what hardly changes should look so."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Edge:
    """When a window begins or ends: soonest, likely, latest; ``None`` for never."""

    soonest_at: datetime | None
    likely_at: datetime | None
    latest_at: datetime | None


@dataclass(frozen=True, slots=True, kw_only=True)
class WindowBar:
    """A window with its name at its left and its words within; without an end it stays open."""

    name: str
    words: str
    opens: Edge
    closes: Edge | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class DryingFigure:
    """What the figure shows, from ``start_at`` to ``until_at``.

    Attributes:
        sentences: lines below the title.
        trouble: that it does not dry or would spoil, written across the curve; empty: it dries.
        film_c: the coldest air that its film forms in; ``None`` where that does not matter.
        notes: lines at the foot.
        now_at: marked where it lies within the figure.
    """

    title: str
    sentences: tuple[str, ...]
    trouble: str
    zone: str
    start_at: datetime
    until_at: datetime
    windows: tuple[WindowBar, ...]
    curve: Curve
    film_c: float | None = None
    notes: tuple[str, ...] = ()
    now_at: datetime | None = None


def draw_windows(axes: "Axes", figure: DryingFigure, colours: ChartColours) -> None:
    """Draw the windows as bars: from when on likely, and how far either end may lie."""
    _frame(axes, figure, colours)
    axes.set_ylim(len(figure.windows), 0)
    names = [bar.name for bar in figure.windows]
    axes.set_yticks([row + 0.5 for row in range(len(names))], names)
    axes.tick_params(axis="y", length=0, labelsize=9.5, labelcolor=colours.ink)
    for side in ("top", "right", "left"):
        axes.spines[side].set_visible(False)
    for row, bar in enumerate(figure.windows):
        _draw_bar(axes, figure, bar, row, colours)
        _write_words(axes, figure, bar, row, colours)


def _within(figure: DryingFigure, at: datetime | None) -> datetime:
    return figure.until_at if at is None else min(max(at, figure.start_at), figure.until_at)


def _draw_bar(
    axes: "Axes", figure: DryingFigure, bar: WindowBar, row: int, colours: ChartColours
) -> None:
    since = _within(figure, bar.opens.likely_at)
    until = _within(figure, bar.closes.likely_at if bar.closes else None)
    if bar.opens.likely_at is not None and until > since:
        axes.barh(
            row + 0.42,
            until - since,  # type: ignore[arg-type]
            left=since,  # type: ignore[arg-type]
            height=0.52,
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
                ends,  # type: ignore[arg-type]
                [row + 0.83] * 2,
                color=colours.drying,
                linewidth=1.6,
                marker="|",
                markersize=6,
                markeredgewidth=1.6,
                solid_capstyle="butt",
                zorder=4,
                clip_on=False,
            )


def _write_words(
    axes: "Axes", figure: DryingFigure, bar: WindowBar, row: int, colours: ChartColours
) -> None:
    """Write the words in the bar where they fit; else behind it, or before it at the right end."""
    since = _within(figure, bar.opens.likely_at)
    until = _within(figure, bar.closes.likely_at if bar.closes else None)
    an_inch = (figure.until_at - figure.start_at) / (WIDTH_IN - LEFT_IN - RIGHT_IN)
    needed = len(bar.words) * _LETTER_IN * an_inch
    after = bar.opens.likely_at is not None and bar.opens.likely_at >= figure.until_at
    if until - since >= needed:
        at, shift, side = since, 6, "left"
    elif figure.until_at - until >= needed:
        at, shift, side = until, 6, "left"
    else:
        at, shift, side = since, -6, "right"
    axes.annotate(
        f"{bar.words} \N{RIGHTWARDS ARROW}" if after else bar.words,
        (at, row + 0.42),
        xytext=(shift, 0),
        textcoords="offset points",
        ha=side,
        va="center",
        fontsize=8.5,
        color=colours.ink,
        zorder=5,
    )


def draw_curve(axes: "Axes", figure: DryingFigure, colours: ChartColours) -> None:
    """Draw how far it has dried: likely as a line, the band around it."""
    _frame(axes, figure, colours)
    curve = figure.curve
    axes.fill_between(
        curve.at,  # type: ignore[arg-type]
        curve.dry_pct_low,
        curve.dry_pct_high,
        color=colours.drying,
        alpha=0.2,
        linewidth=0,
        zorder=1,
    )
    _line(axes, curve.at, curve.dry_pct_likely, color=colours.drying, linewidth=2.2)
    axes.axhline(DRY_PCT, color=colours.line, linewidth=0.8, zorder=1)
    axes.set_ylim(0, 108)
    axes.set_yticks([0, 25, 50, 75, 100], ["wet", "25 %", "50 %", "75 %", "to handle"])
    if figure.trouble:
        axes.text(
            0.5,
            0.5,
            figure.trouble,
            transform=axes.transAxes,
            ha="center",
            va="center",
            fontsize=13,
            weight="bold",
            color=colours.alarm,
            zorder=6,
            bbox={"facecolor": colours.ground, "edgecolor": colours.alarm, "pad": 6},
        )


def draw_temperature(axes: "Axes", figure: DryingFigure, colours: ChartColours) -> None:
    """Draw how warm the air is, and below what no film forms."""
    _frame(axes, figure, colours)
    curve = figure.curve
    _line(axes, curve.at, curve.temperature_c, color=colours.warm, linewidth=1.8)
    shown = [*curve.temperature_c, *([] if figure.film_c is None else [figure.film_c])]
    axes.set_ylim(*_room_around(shown, _LEAST_C))
    _name_values(axes, "°C", colours.warm)
    if figure.film_c is not None:
        axes.axhline(figure.film_c, color=colours.alarm, linewidth=1.1, dashes=(6, 3, 1, 3))
        axes.annotate(
            f"no film below {figure.film_c:g} °C",
            (1, figure.film_c),
            xycoords=("axes fraction", "data"),
            xytext=(-4, 2),
            textcoords="offset points",
            ha="right",
            va="bottom",
            fontsize=8.5,
            color=colours.alarm,
            zorder=5,
            bbox={"facecolor": colours.ground, "edgecolor": "none", "pad": 0.8, "alpha": 0.8},
        )


def draw_humidity(axes: "Axes", figure: DryingFigure, colours: ChartColours) -> None:
    """Draw how damp the air is, dashed."""
    _frame(axes, figure, colours)
    curve = figure.curve
    _line(axes, curve.at, curve.humidity_pct, color=colours.damp, linewidth=1.6, dashes=(4, 2))
    low, high = _room_around(curve.humidity_pct, _LEAST_PCT)
    axes.set_ylim(max(low, -2), min(high, 103))
    _name_values(axes, "%", colours.damp)


def _line(axes: "Axes", at: Sequence[datetime], values: Sequence[float], **look: Any) -> None:
    axes.plot(at, values, zorder=3, **look)  # type: ignore[arg-type]


def _name_values(axes: "Axes", unit: str, colour: str) -> None:
    from matplotlib.ticker import MaxNLocator, StrMethodFormatter

    axes.yaxis.set_major_locator(MaxNLocator(nbins=3, integer=True))
    axes.yaxis.set_major_formatter(StrMethodFormatter(f"{{x:.0f}} {unit}"))
    axes.tick_params(axis="y", labelcolor=colour)


def _room_around(values: Sequence[float], least: float) -> tuple[float, float]:
    low, high = min(values), max(values)
    wide = max(high - low, least)
    middle = (low + high) / 2
    return middle - 0.6 * wide, middle + 0.6 * wide


def _frame(axes: "Axes", figure: DryingFigure, colours: ChartColours) -> None:
    """Set the span, shade the nights, mark now; ticks of time are left to ``name_times``."""
    axes.set_facecolor(colours.ground)
    axes.set_xlim(figure.start_at, figure.until_at)  # type: ignore[arg-type]
    axes.tick_params(axis="y", length=0, labelsize=8.5, labelcolor=colours.quiet)
    axes.tick_params(axis="x", length=0, labelbottom=False)
    for spine in axes.spines.values():
        spine.set_color(colours.line)
        spine.set_linewidth(0.7)
    for since, until in nights(figure.start_at, figure.until_at, figure.zone):
        axes.axvspan(since, until, color=colours.night, linewidth=0, zorder=0)  # type: ignore[arg-type]
    at = [at for at, _ in time_ticks(figure.start_at, figure.until_at, figure.zone)]
    axes.set_xticks(at)  # type: ignore[arg-type]
    axes.grid(visible=True, axis="x", color=colours.line, linewidth=0.5, alpha=0.7)
    axes.set_axisbelow(True)
    if figure.now_at is not None and figure.start_at <= figure.now_at <= figure.until_at:
        axes.axvline(figure.now_at, color=colours.ink, linewidth=1.4, zorder=6)  # type: ignore[arg-type]


def name_times(axes: "Axes", figure: DryingFigure, colours: ChartColours) -> None:
    """Write hours and days below the lowest axes."""
    ticks = time_ticks(figure.start_at, figure.until_at, figure.zone)
    axes.set_xticks([at for at, _ in ticks], [words for _, words in ticks])  # type: ignore[arg-type]
    axes.tick_params(axis="x", labelbottom=True, labelsize=8.5, labelcolor=colours.ink)
