"""The air below the curve of a drying: how warm and how damp it is, on one stretch of paper."""

from typing import TYPE_CHECKING

from armorplan.drying.curve import Curve
from armorplan.sheets.drying_figure import DryingFigure, day
from armorplan.sheets.drying_layout import ChartLook

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_APART_C, _APART_PCT = 1.0, 12.0
"""Two ticks of the air are written so far apart at least."""
_LEAST_C, _LEAST_PCT = 8.0, 40.0
"""What hardly changes should look so."""
_THICK, _THIN = 1.8, 1.1


def draw_air(axes: "Axes", figure: DryingFigure, look: ChartLook) -> "Axes":
    """Draw temperature, and dashed the humidity; of another air thinner. Return the axes of damp."""
    colours = look.colours
    damp = axes.twinx()
    damp.tick_params(length=0, labelsize=look.small_pt, labelcolor=colours.damp)
    axes.tick_params(axis="y", labelcolor=colours.warm)
    for side in damp.spines.values():
        side.set_visible(False)
    ways = [way for way in (figure.curve, figure.other) if way is not None]
    for way in ways:
        days, wide = [day(at) for at in way.at], _THICK if way is figure.curve else _THIN
        axes.plot(days, way.temperature_c, color=colours.warm, linewidth=wide)
        damp.plot(days, way.humidity_pct, color=colours.damp, linewidth=wide, dashes=(2.6, 1.4))
    _set_warmth(axes, ways, figure.film_c)
    _set_damp(damp, ways)
    if figure.film_c is not None:
        is_lowest = all(figure.film_c <= min(way.temperature_c) for way in ways)
        _draw_film(axes, figure.film_c, look, below=is_lowest)
    return damp


def _set_warmth(axes: "Axes", ways: list[Curve], film_c: float | None) -> None:
    """What hardly changes lies apart: the temperature above, the humidity below."""
    warm = [value for way in ways for value in way.temperature_c]
    low, high = min(warm), max(warm)
    least, most = (low, high) if film_c is None else (min(low, film_c), max(high, film_c))
    room_c = max(most - least, _LEAST_C) * 0.25
    axes.set_ylim(least - 1.7 * room_c, most + 0.6 * room_c)
    ticks = _ticks(low, high, _APART_C)
    axes.set_yticks(ticks, [f"{tick:.0f} °C" for tick in ticks])


def _set_damp(axes: "Axes", ways: list[Curve]) -> None:
    damp = [value for way in ways for value in way.humidity_pct]
    least, most = min(damp), max(damp)
    room_pct = max(most - least, _LEAST_PCT) * 0.25
    axes.set_ylim(least - 0.6 * room_pct, most + 1.7 * room_pct)
    ticks = _ticks(least, most, _APART_PCT)
    axes.set_yticks(ticks, [f"{tick:.0f} %" for tick in ticks])


def _ticks(low: float, high: float, apart: float) -> list[float]:
    return [low, high] if high - low >= apart else [(low + high) / 2]


def _draw_film(axes: "Axes", film_c: float, look: ChartLook, *, below: bool) -> None:
    """Draw below what no film forms; its words stand where the temperature is not."""
    colours = look.colours
    axes.axhline(film_c, color=colours.alarm, linewidth=1.1, dashes=(6, 3, 1, 3))
    axes.annotate(
        f"no film below {film_c:g} °C",
        (1, film_c),
        xycoords=("axes fraction", "data"),
        xytext=(-4, -2 if below else 2),
        textcoords="offset points",
        ha="right",
        va="top" if below else "bottom",
        fontsize=look.small_pt,
        color=colours.alarm,
        zorder=5,
        bbox={"facecolor": colours.ground, "edgecolor": "none", "pad": 0.8, "alpha": 0.8},
    )
