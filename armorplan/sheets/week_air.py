"""The air along the days of a figure: a line of its warmth in a row of its own."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.axes import Axes

AirSpan = tuple[datetime, datetime, int, int]
"""From when to when the air has so many °C and so much per cent relative humidity."""
_LINE, _INK = "#8a5a00", "#222222"
_LETTER_IN = 0.075
_LEAST_SPAN_C = 4


def air_name(air: Sequence[AirSpan]) -> str:
    """Return what its row is called."""
    low, high = min(a[2] for a in air), max(a[2] for a in air)
    return f"Air {low} °C" if low == high else f"Air {low}–{high} °C"


def draw_air(
    axes: "Axes",
    air: Sequence[AirSpan],
    *,
    row: int,
    seen: tuple[datetime, datetime],
    day_in: float,
) -> None:
    """Draw the air in a row; its numbers where they fit. ``day_in``: a day's width in inches."""
    within = [(max(a[0], seen[0]), min(a[1], seen[1]), a[2], a[3]) for a in air]
    within = [a for a in within if a[0] < a[1]]
    low = min(a[2] for a in air)
    high = max(low + _LEAST_SPAN_C, *(a[2] for a in air))
    levels = [row + 0.85 - 0.7 * (a[2] - low) / (high - low) for a in within]
    axes.plot(
        [at for a in within for at in (a[0], a[1])],  # type: ignore[arg-type]
        [level for level in levels for _ in range(2)],
        color=_LINE,
        linewidth=1.4,
        zorder=2,
    )
    for start_at, end_at, warmth_c, humidity_pct in within:
        room = int((end_at - start_at) / timedelta(days=1) * day_in / _LETTER_IN)
        texts = (f"{warmth_c} °C, {humidity_pct} %", f"{warmth_c} °C", f"{warmth_c}°")
        words = next((text for text in texts if len(text) < room), "")
        if words:
            axes.text(
                start_at + (end_at - start_at) / 2,  # type: ignore[arg-type]
                row + 0.5,
                words,
                ha="center",
                va="center",
                fontsize=7,
                color=_INK,
                zorder=3,
                clip_on=True,
                bbox={"facecolor": "white", "edgecolor": "none", "pad": 1},
            )
