"""How far something has dried: likely as a line, the band around it; dashed how it were otherwise."""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Any

from armorplan.drying.curve import DRY_PCT, Curve
from armorplan.sheets.drying_figure import DryingFigure, day
from armorplan.sheets.drying_layout import ChartLook, ChartPlace

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_ABOVE_PCT = 107
_DASHES = (5, 2)
_MIDDLE = 0.5


def draw_curve(axes: "Axes", figure: DryingFigure, look: ChartLook, place: ChartPlace) -> None:
    """Draw the way of a drying, and beside it the one that is asked for."""
    for way, colour, dashes, alpha in _ways(figure, look):
        days = [day(at) for at in way.at]
        axes.fill_between(
            days,
            way.dry_pct_low,
            way.dry_pct_high,
            color=colour,
            alpha=alpha,
            linewidth=0,
            zorder=1,
        )
        axes.plot(days, way.dry_pct_likely, color=colour, linestyle=dashes, linewidth=2.1)
    axes.set_ylim(0, _ABOVE_PCT)
    axes.set_yticks(
        [0, 25, 50, 75, DRY_PCT],
        ["wet", "25 %", "50 %", "75 %", "to handle"]
        if place.beside
        else ["wet", "", "50 %", "", "dry"],
    )
    axes.axhline(DRY_PCT, color=look.colours.line, linewidth=0.7, zorder=0)
    if figure.look_at is not None:
        _mark_look(axes, figure, look)
    if figure.other is not None:
        _name_ways(axes, look)
    if figure.trouble:
        _write_trouble(axes, figure.trouble, look)


def _ways(figure: DryingFigure, look: ChartLook) -> Iterator[tuple[Curve, str, Any, float]]:
    yield figure.curve, look.colours.drying, "solid", 0.24
    if figure.other is not None:
        yield figure.other, look.colours.damp, (0, _DASHES), 0.16


def _mark_look(axes: "Axes", figure: DryingFigure, look: ChartLook) -> None:
    """Ring the look that found it damp, and say so where the curve leaves room."""
    from bisect import bisect_left

    at, curve = figure.look_at, figure.curve
    assert at is not None  # noqa: S101 - marked where there was one
    there = min(bisect_left(curve.at, at), len(curve.at) - 1)
    x, y = day(at), curve.dry_pct_likely[there]
    colours = look.colours
    axes.plot(
        [x],
        [y],
        marker="o",
        markersize=look.text_px * 0.5,
        markerfacecolor=colours.ground,
        markeredgecolor=colours.drying,
        markeredgewidth=1.8,
        zorder=6,
        clip_on=False,
    )
    first, last = axes.get_xlim()
    is_late = x - first > _MIDDLE * (last - first)
    axes.annotate(
        "found still damp",
        (x, y),
        xytext=(-9, 3) if is_late else (9, -3),
        textcoords="offset points",
        ha="right" if is_late else "left",
        va="bottom" if is_late else "top",
        fontsize=look.small_pt,
        color=colours.ink,
        zorder=6,
        bbox={"facecolor": colours.ground, "edgecolor": "none", "pad": 1, "alpha": 0.8},
    )


def _name_ways(axes: "Axes", look: ChartLook) -> None:
    from matplotlib.lines import Line2D

    colours = look.colours
    handles = [
        Line2D([], [], color=colours.drying, linewidth=2, label="as it is"),
        Line2D([], [], color=colours.damp, linewidth=2, dashes=_DASHES, label="if it were so"),
    ]
    axes.legend(
        handles=handles,
        loc="lower right",
        fontsize=look.small_pt,
        facecolor=colours.ground,
        edgecolor=colours.line,
        labelcolor=colours.ink,
        framealpha=0.9,
    )


def _write_trouble(axes: "Axes", trouble: str, look: ChartLook) -> None:
    """Write it where the curves have not come yet."""
    colours = look.colours
    axes.text(
        0.02,
        0.88,
        trouble,
        transform=axes.transAxes,
        ha="left",
        va="top",
        fontsize=look.text_pt * 1.3,
        weight="bold",
        color=colours.alarm,
        zorder=7,
        bbox={"facecolor": colours.ground, "edgecolor": colours.alarm, "pad": 6},
    )
