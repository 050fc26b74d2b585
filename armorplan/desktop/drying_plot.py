"""One drying drawn with matplotlib, without a display: windows as bars, its curve, the air below it.

Made in any thread, as bytes for Qt to show. Nothing is told by colour alone: the likely way is a
solid line in its band, the one of another air is dashed, humidity is dotted, bars carry their words.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from datetime import datetime, timedelta, tzinfo
from threading import Lock
from typing import TYPE_CHECKING, Any

from armorplan.app.drying_rows import DryBar, DryingPage
from armorplan.desktop.colours import Colours
from armorplan.desktop.week_layout import midnights
from armorplan.desktop.wording import clock_text, day_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes
    from matplotlib.figure import Figure

DPI = 96
POINTS_AN_INCH = 72
_DRAWING = Lock()
"""matplotlib's fonts are not for two threads at a time."""
_LETTER = 0.6
"""About the width of a letter, in its height."""
_NIGHT_H = (22, 5)
_FULL_PCT, _ABOVE_PCT = 100, 106
_HOUR_STEPS = (1, 2, 3, 6, 12)
_MIDDLE, _RANGE = 0.42, 0.88
"""Where in its row a bar lies, and below it the range of its ends."""
_APART_C, _APART_PCT = 1.0, 12.0
"""Two ticks of the air are written so far apart at least."""


@dataclass(frozen=True, slots=True, kw_only=True)
class PlotLook:
    """How large the picture is (logical pixels, at a ratio of device pixels), and how it looks."""

    width_px: int
    height_px: int
    ratio: float
    text_pt: float
    colours: Colours
    zone: tzinfo
    now_at: datetime

    @property
    def text_px(self) -> float:
        """Height of its text."""
        return self.text_pt * DPI / POINTS_AN_INCH

    @property
    def row_px(self) -> float:
        """Height of a bar."""
        return self.text_px + 8


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


@dataclass(frozen=True, slots=True, kw_only=True)
class _Layout:
    """Where things lie, in logical pixels from the left and from the top."""

    left: float
    right: float
    bars: tuple[float, float]
    curve: tuple[float, float]
    air: tuple[float, float]


def draw_drying(page: DryingPage, other: DryingPage | None, look: PlotLook) -> DryingPlot:
    """Draw a drying, and with it the same in another air; about 100 ms.

    Args:
        page: the drying as it is.
        other: the same in the air that is asked for.
        look: size and colours.
    """
    with _DRAWING:
        return _draw(page, other, look)


def _draw(page: DryingPage, other: DryingPage | None, look: PlotLook) -> DryingPlot:
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    size = (look.width_px / DPI, look.height_px / DPI)
    figure = Figure(figsize=size, dpi=DPI * look.ratio, facecolor=look.colours.panel)
    canvas = FigureCanvasAgg(figure)
    layout = _layout(page, look)
    until_at = max(page.until_at, other.until_at) if other else page.until_at
    span = (page.choice.start_at, until_at)
    bars = _axes(figure, layout, layout.bars, look)
    curve = _axes(figure, layout, layout.curve, look)
    air = _axes(figure, layout, layout.air, look)
    for axes in (bars, curve, air):
        axes.set_xlim(_day(span[0]), _day(span[1]))
        _shade_nights(axes, span, look)
    _draw_bars(bars, page, look, layout)
    _draw_curve(curve, page, other, look)
    _draw_air(air, page, other, look)
    _name_times(air, span, look, layout)
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


def _day(at: datetime) -> float:
    """Return an instant as a number along the axis of time: in days."""
    return at.timestamp() / (24 * 3600)


def _day_or(at: datetime | None, never: float) -> float:
    return never if at is None else _day(at)


def _layout(page: DryingPage, look: PlotLook) -> _Layout:
    margin = 3.4 * look.text_px
    gap = look.text_px * 0.6
    bars = len(page.bars) * look.row_px
    foot = look.height_px - 2.9 * look.text_px
    rest = foot - bars - 2 * gap - 4
    air = max(rest * 0.36, 3 * look.text_px)
    return _Layout(
        left=margin,
        right=look.width_px - margin,
        bars=(4, 4 + bars),
        curve=(4 + bars + gap, foot - air - gap),
        air=(foot - air, foot),
    )


def _axes(figure: "Figure", layout: _Layout, rows: tuple[float, float], look: PlotLook) -> "Axes":
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


def _shade_nights(axes: "Axes", span: tuple[datetime, datetime], look: PlotLook) -> None:
    falls_h, ends_h = _NIGHT_H
    before = timedelta(hours=24 - falls_h)
    for midnight in midnights(span[0], span[1] + timedelta(days=1), look.zone):
        since, until = midnight - before, midnight + timedelta(hours=ends_h)
        if until > span[0] and since < span[1]:
            axes.axvspan(_day(since), _day(until), color=look.colours.night, linewidth=0, zorder=0)


# --- windows --------------------------------------------------------------------------------


def _draw_bars(axes: "Axes", page: DryingPage, look: PlotLook, layout: _Layout) -> None:
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
    since = _day_or(bar.opens.likely_at, last)
    if since < last:
        stop = min(_day_or(bar.closes.likely_at if bar.closes else None, last), last)
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
        low, high = max(_day(ends.soonest_at), first), min(_day_or(ends.latest_at, last), last)
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


def _name_bar(axes: "Axes", bar: DryBar, row: int, where: tuple[PlotLook, _Layout]) -> None:
    """Write what a bar is and when, where there is most room for it."""
    look, layout = where
    text = _bar_words(bar, look)
    first, last = axes.get_xlim()
    at = min(max(_day_or(bar.opens.likely_at, last), first), last)
    wide = (layout.right - layout.left) / (last - first)
    needed = len(text) * look.text_px * _LETTER + 12
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


# --- curve and air --------------------------------------------------------------------------


def _draw_curve(axes: "Axes", page: DryingPage, other: DryingPage | None, look: PlotLook) -> None:
    colours = look.colours
    for one, colour, dashes, alpha in _ways(page, other, colours):
        curve = one.curve
        days = [_day(at) for at in curve.at]
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


def _draw_air(axes: "Axes", page: DryingPage, other: DryingPage | None, look: PlotLook) -> None:
    colours = look.colours
    damp = axes.twinx()
    damp.tick_params(length=0, labelsize=look.text_pt * 0.9, labelcolor=colours.running)
    axes.tick_params(axis="y", labelcolor=colours.alarm)
    for side in damp.spines.values():
        side.set_visible(False)
    warm: list[float] = []
    humid: list[float] = []
    for one in (page, other):
        if one is None:
            continue
        curve, thin = one.curve, 1.8 if one is page else 1.1
        days = [_day(at) for at in curve.at]
        axes.plot(days, curve.temperature_c, color=colours.alarm, linewidth=thin)
        damp.plot(
            days, curve.humidity_pct, color=colours.running, linewidth=thin, dashes=(1.2, 1.4)
        )
        warm += curve.temperature_c
        humid += curve.humidity_pct
    low, high = min(warm), max(warm)
    film_c = page.choice.entry.film_from_c
    if film_c is not None:
        low, high = min(low, film_c), max(high, film_c)
        axes.axhline(film_c, color=colours.alarm, linewidth=1, dashes=(6, 3, 1, 3))
    room_c = max((high - low) * 0.25, 2.0)
    axes.set_ylim(low - room_c, high + room_c)
    damp.set_ylim(-4, 104)
    ticks = _ends(low, high, _APART_C)
    axes.set_yticks(ticks, [f"{tick:.0f} °C" for tick in ticks])
    ticks = _ends(min(humid), max(humid), _APART_PCT)
    damp.set_yticks(ticks, [f"{tick:.0f} %" for tick in ticks])


def _ends(low: float, high: float, apart: float) -> list[float]:
    return [low, high] if high - low >= apart else [(low + high) / 2]


def _name_times(
    axes: "Axes", span: tuple[datetime, datetime], look: PlotLook, layout: _Layout
) -> None:
    """Write hours, and below them the days, so far apart that they can be read."""
    hours = (span[1] - span[0]).total_seconds() / 3600
    px_an_hour = (layout.right - layout.left) / hours
    label_px = look.text_px * 3.6
    step = next((h for h in _HOUR_STEPS if h * px_an_hour >= label_px), 24)
    ticks = [
        at for at in _whole_hours(span, look.zone) if at.astimezone(look.zone).hour % step == 0
    ]
    days: set[object] = set()
    words = []
    for at in ticks:
        local = at.astimezone(look.zone)
        day_name = day_text(at, look.zone)
        is_new = local.date() not in days and (
            span[1] - at
        ).total_seconds() / 3600 * px_an_hour > (0.3 * len(day_name) * look.text_px)
        if is_new:
            days.add(local.date())
        words.append(f"{local:%H:%M}" + (f"\n{day_name}" if is_new else ""))
    axes.set_xticks([_day(at) for at in ticks], words)
    axes.grid(visible=True, axis="x", color=look.colours.line, linewidth=0.4, alpha=0.6)


def _whole_hours(span: tuple[datetime, datetime], zone: tzinfo) -> Iterator[datetime]:
    at = span[0].replace(minute=0, second=0, microsecond=0)
    while at <= span[1]:
        if at >= span[0] and at.astimezone(zone).minute == 0:
            yield at
        at += timedelta(hours=1)
