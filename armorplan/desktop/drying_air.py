"""The air below the curve of a drying, its nights and its hours, drawn with matplotlib."""

from collections.abc import Iterator
from datetime import date, datetime, timedelta, tzinfo
from typing import TYPE_CHECKING

from armorplan.app.drying_rows import DryingPage
from armorplan.desktop.drying_layout import LETTER, PlotLayout, PlotLook, day
from armorplan.desktop.week_layout import midnights
from armorplan.desktop.wording import day_text

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_NIGHT_H = (22, 5)
_HOUR_STEPS = (1, 2, 3, 6, 12)
_APART_C, _APART_PCT = 1.0, 12.0
"""Two ticks of the air are written so far apart at least."""


def shade_nights(axes: "Axes", span: tuple[datetime, datetime], look: PlotLook) -> None:
    """Shade the hours of the night."""
    falls_h, ends_h = _NIGHT_H
    before = timedelta(hours=24 - falls_h)
    for midnight in midnights(span[0], span[1] + timedelta(days=1), look.zone):
        since, until = midnight - before, midnight + timedelta(hours=ends_h)
        if until > span[0] and since < span[1]:
            axes.axvspan(day(since), day(until), color=look.colours.night, linewidth=0, zorder=0)


def draw_air(axes: "Axes", page: DryingPage, other: DryingPage | None, look: PlotLook) -> None:
    """Draw temperature, and dotted the humidity; of another air thinner."""
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
        days = [day(at) for at in curve.at]
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
    # What hardly changes lies apart: the temperature above, the humidity below.
    axes.set_ylim(low - 1.7 * room_c, high + 0.6 * room_c)
    ticks = _ends(low, high, _APART_C)
    axes.set_yticks(ticks, [f"{tick:.0f} °C" for tick in ticks])
    least, most = min(humid), max(humid)
    room_pct = max((most - least) * 0.25, 10.0)
    damp.set_ylim(least - 0.6 * room_pct, most + 1.7 * room_pct)
    ticks = _ends(least, most, _APART_PCT)
    damp.set_yticks(ticks, [f"{tick:.0f} %" for tick in ticks])


def _ends(low: float, high: float, apart: float) -> list[float]:
    return [low, high] if high - low >= apart else [(low + high) / 2]


def name_times(
    axes: "Axes", span: tuple[datetime, datetime], look: PlotLook, layout: PlotLayout
) -> None:
    """Write hours, and below them the days, so far apart that they can be read."""
    hours = (span[1] - span[0]).total_seconds() / 3600
    px_an_hour = (layout.right - layout.left) / hours
    label_px = look.text_px * 3.6
    step = next((h for h in _HOUR_STEPS if h * px_an_hour >= label_px), 24)
    ticks = [
        at for at in _whole_hours(span, look.zone) if at.astimezone(look.zone).hour % step == 0
    ]
    days: set[date] = set()
    words = []
    letter_px, whole_px = LETTER * look.text_px * 0.9, hours * px_an_hour
    free_px = -layout.left
    for at in ticks:
        local, day_name = at.astimezone(look.zone), day_text(at, look.zone)
        x, half = px_an_hour * (at - span[0]).total_seconds() / 3600, len(day_name) * letter_px / 2
        is_new = local.date() not in days and free_px <= x - half <= whole_px - half
        if is_new:
            days.add(local.date())
            free_px = x + half + letter_px
        words.append(f"{local:%H:%M}" + (f"\n{day_name}" if is_new else ""))
    axes.set_xticks([day(at) for at in ticks], words)
    axes.grid(visible=True, axis="x", color=look.colours.line, linewidth=0.4, alpha=0.6)


def _whole_hours(span: tuple[datetime, datetime], zone: tzinfo) -> Iterator[datetime]:
    at = span[0].replace(minute=0, second=0, microsecond=0)
    while at <= span[1]:
        if at >= span[0] and at.astimezone(zone).minute == 0:
            yield at
        at += timedelta(hours=1)
