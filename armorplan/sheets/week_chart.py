"""The coming days as a figure: people above, drying below, nights shaded. matplotlib, no display.

Drying is told apart from hands-on work by its place, its hatching and its own word, not by
colour alone. Hues are Okabe and Ito's, darkened so that their edges reach 3:1 on white.
"""

from datetime import datetime, timedelta
from pathlib import Path
from typing import TYPE_CHECKING
from zoneinfo import ZoneInfo

from armorplan.sheets.week_air import air_name, draw_air
from armorplan.sheets.week_bars import DayBar, DaysFigure, legend, stack, stretches
from armorplan.sheets.week_marks import DueMark, draw_marks

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_HANDS_ON, _HANDS_ON_EDGE = "#bfdcef", "#00507f"
_DRYING, _DRYING_EDGE = "#fdf3dc", "#8a5a00"
_BAND = "#fffaf0"
_CLOSED, _INK = "#ececec", "#222222"
_ROW_IN, _LEAST_WIDTH_IN, _DAY_IN, _MOST_WIDTH_IN = 0.34, 8.0, 2.6, 30.0
_LETTER_IN = 0.075
"""About the width of a letter at the size used: decides whether a title fits its bar."""
_LEGEND_IN, _EDGE_IN = 0.19, 1.2
_LEAST_LETTERS = 8
_EARLY_HOUR, _LATE_HOUR = 6, 18


def _rows(figure: DaysFigure) -> list[tuple[str, list[DayBar]]]:
    rows: list[tuple[str, list[DayBar]]] = []
    for lane in figure.lanes:
        drying = [bar for bar in figure.bars if bar.lane == lane and bar.drying]
        found = stack([*(bar for bar in stretches(figure) if bar.lane == lane), *drying])
        rows += [(lane if at == 0 else "", row) for at, row in enumerate(found or [[]])]
        if any(mark.lane == lane for mark in figure.marks):
            rows.append(("", []))
    return rows


def _lane_rows(rows: list[tuple[str, list[DayBar]]]) -> dict[str, tuple[int, int]]:
    """Return which rows each lane takes; one that has marks has a free one for them at its foot."""
    firsts = [(at, lane) for at, (lane, _) in enumerate(rows) if lane]
    ends = [at for at, _ in firsts[1:]] + [len(rows)]
    return {lane: (at, end) for (at, lane), end in zip(firsts, ends, strict=True)}


def _span(figure: DaysFigure) -> tuple[datetime, datetime]:
    """Return whole local days around all bars."""
    zone = ZoneInfo(figure.zone)
    first = min((b.start_at for b in figure.bars), default=figure.now_at).astimezone(zone)
    ends = [max(b.end_at, b.surely_at or b.end_at) for b in figure.bars]
    ends += [mark.at for mark in figure.marks if isinstance(mark, DueMark)]
    last = max(ends, default=figure.now_at).astimezone(zone)
    start = first.replace(hour=0, minute=0, second=0, microsecond=0)
    end = last.replace(hour=0, minute=0, second=0, microsecond=0) + timedelta(days=1)
    return start, end


def draw_days(axes: "Axes", figure: DaysFigure, *, day_in: float = _DAY_IN) -> None:
    """Draw the figure's days on given axes; ``day_in`` is the width of a day in inches."""
    from matplotlib.dates import DateFormatter, HourLocator

    zone, rows = ZoneInfo(figure.zone), _rows(figure)
    start, end = _span(figure)
    axes.set_xlim(start, end)  # type: ignore[arg-type]
    air_rows = 1 if figure.air else 0
    axes.set_ylim(len(rows) + air_rows, 0)
    for since, until in figure.closed:
        axes.axvspan(since, until, color=_CLOSED, linewidth=0, zorder=0)  # type: ignore[arg-type]
    numbers = {bar: number for number, bar in enumerate(stretches(figure), start=1)}
    for at, (_, bars) in enumerate(rows):
        for bar in bars:
            _draw_band(axes, bar, at)
            _draw_bar(axes, bar, at)
            if bar.drying:
                _write_drying(axes, bar, at, day_in=day_in)
            else:
                _write_number(axes, bar, at, numbers[bar])
    draw_marks(axes, figure.marks, _lane_rows(rows), day_in=day_in)
    if start <= figure.now_at <= end:
        _draw_now(axes, figure.now_at)
    names = [lane for lane, _ in rows]
    if figure.air:
        draw_air(axes, figure.air, row=len(rows), seen=(start, end), day_in=day_in)
        names.append(air_name(figure.air))
    axes.set_yticks([at + 0.5 for at in range(len(names))], names)
    # Not the day the figure ends at: its name would stand outside.
    axes.set_xticks([start + timedelta(days=n) for n in range(_days(start, end))])  # type: ignore[arg-type]
    axes.xaxis.set_major_formatter(DateFormatter("\n%a %d %b", tz=zone))  # type: ignore[no-untyped-call]
    axes.xaxis.set_minor_locator(HourLocator(byhour=(_EARLY_HOUR, 12, _LATE_HOUR), tz=zone))  # type: ignore[no-untyped-call]
    axes.xaxis.set_minor_formatter(DateFormatter("%H", tz=zone))  # type: ignore[no-untyped-call]
    for label in axes.get_xticklabels():
        label.set_horizontalalignment("left")
    axes.grid(visible=True, axis="x", which="major", color="#999999", linewidth=0.8)
    axes.tick_params(axis="y", length=0)
    axes.set_title(figure.title, loc="left", fontsize=13, color=_INK, pad=28)
    axes.annotate(
        figure.sentence,
        (0, 1),
        xycoords="axes fraction",
        xytext=(0, 11),
        textcoords="offset points",
        fontsize=9,
        color=_INK,
    )


def _days(start: datetime, end: datetime) -> int:
    return (end.date() - start.date()).days


def _draw_now(axes: "Axes", now_at: datetime) -> None:
    axes.axvline(now_at, color=_INK, linewidth=1.5, zorder=4)  # type: ignore[arg-type]
    axes.annotate(
        "now",
        (now_at, 0.0),
        ha="center",
        va="center",
        fontsize=8,
        color=_INK,
        zorder=5,
        bbox={"facecolor": "white", "edgecolor": _INK, "linewidth": 0.8, "pad": 1.5},
    )


def _draw_bar(axes: "Axes", bar: DayBar, row: int) -> None:
    axes.barh(
        row + 0.5,
        bar.end_at - bar.start_at,  # type: ignore[arg-type]
        left=bar.start_at,  # type: ignore[arg-type]
        height=0.72,
        color=_DRYING if bar.drying else _HANDS_ON,
        edgecolor=_DRYING_EDGE if bar.drying else _HANDS_ON_EDGE,
        hatch="//" if bar.drying else None,
        linewidth=0.9,
        zorder=2,
    )


def _draw_band(axes: "Axes", bar: DayBar, row: int) -> None:
    """A paler, lower end: likely ready before it, surely by its own end."""
    if bar.surely_at is None or bar.surely_at <= bar.end_at:
        return
    axes.barh(
        row + 0.36,
        bar.surely_at - bar.end_at,  # type: ignore[arg-type]
        left=bar.end_at,  # type: ignore[arg-type]
        height=0.36,
        color=_BAND,
        edgecolor=_DRYING_EDGE,
        linestyle="--",
        linewidth=0.6,
        zorder=1,
    )


def _write_number(axes: "Axes", bar: DayBar, row: int, number: int) -> None:
    middle = bar.start_at + (bar.end_at - bar.start_at) / 2
    ground = {"boxstyle": "circle,pad=0.15", "facecolor": "white", "edgecolor": _HANDS_ON_EDGE}
    axes.text(
        middle,  # type: ignore[arg-type]
        row + 0.5,
        str(number),
        ha="center",
        va="center",
        fontsize=8,
        color=_INK,
        zorder=3,
        bbox=ground,
    )


def _write_drying(axes: "Axes", bar: DayBar, row: int, *, day_in: float) -> None:
    room = int((bar.end_at - bar.start_at) / timedelta(days=1) * day_in / _LETTER_IN)
    words = bar.title if len(bar.title) <= room else f"{bar.title[: max(0, room - 1)]}…"
    if room >= _LEAST_LETTERS:
        axes.text(
            bar.start_at + timedelta(minutes=15),  # type: ignore[arg-type]
            row + 0.5,
            words,
            va="center",
            fontsize=8,
            color=_INK,
            zorder=3,
            clip_on=True,
            bbox={"facecolor": _DRYING, "edgecolor": "none", "pad": 1},
        )


def save_days(path: Path, figure: DaysFigure) -> None:
    """Write the figure as a picture; the kind follows from the file's ending (png, svg, pdf).

    Raises:
        OSError: the file cannot be written.
        ValueError: matplotlib knows no such ending.
    """
    from matplotlib.backends.backend_agg import FigureCanvasAgg
    from matplotlib.figure import Figure

    start, end = _span(figure)
    days = _days(start, end)
    lines = legend(figure)
    width = min(_MOST_WIDTH_IN, max(_LEAST_WIDTH_IN, _EDGE_IN + days * _DAY_IN))
    below = _LEGEND_IN * (len(lines) + 1)
    air_rows = 1 if figure.air else 0
    height = 1.6 + _ROW_IN * (len(_rows(figure)) + air_rows) + below
    sheet = Figure(figsize=(width, height), dpi=110)
    FigureCanvasAgg(sheet)
    axes = sheet.add_subplot()
    draw_days(axes, figure, day_in=(width - _EDGE_IN) / days)
    sheet.tight_layout(rect=(0, below / height, 1, 1))
    sheet.text(0.02, (below - _LEGEND_IN / 2) / height, "\n".join(lines), va="top", fontsize=9)
    sheet.savefig(path)
