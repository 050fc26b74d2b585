"""Marks beside the bars of a figure of the days: due dates, hours taken, what was promised."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matplotlib.axes import Axes

_INK, _LATE, _PROMISED, _STRAP = "#222222", "#a33a00", "#8a3467", "#c9a98a"
_LETTER_IN = 0.075


@dataclass(frozen=True, slots=True, kw_only=True)
class DueMark:
    """When the build of a lane is due, in words, and whether it is late."""

    lane: str
    at: datetime
    words: str
    late: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadMark:
    """How much of a person's hours of a day is taken: a share from 0 to 1, and in words."""

    lane: str
    start_at: datetime
    end_at: datetime
    share: float
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PromisedMark:
    """Where something lay in the plan that was promised."""

    lane: str
    start_at: datetime
    end_at: datetime


Mark = DueMark | LoadMark | PromisedMark
Rows = Mapping[str, tuple[int, int]]
"""The rows that each lane takes: from, and to before which."""


def draw_marks(axes: "Axes", marks: tuple[Mark, ...], rows: Rows, *, day_in: float) -> None:
    """Draw the marks; ``day_in`` is the width of a day in inches."""
    for mark in marks:
        if mark.lane not in rows:
            continue
        first, after = rows[mark.lane]
        match mark:
            case DueMark():
                _draw_due(axes, mark, first, after)
            case LoadMark():
                _draw_load(axes, mark, after, day_in)
            case PromisedMark():
                axes.plot(
                    [mark.start_at, mark.end_at],  # type: ignore[arg-type]
                    [after - 0.07, after - 0.07],
                    color=_PROMISED,
                    linewidth=1.6,
                    linestyle=(0, (3, 1.5)),
                    zorder=4,
                )


def _draw_due(axes: "Axes", mark: DueMark, first: int, after: int) -> None:
    colour = _LATE if mark.late else _INK
    axes.vlines(mark.at, first, after, color=colour, linewidth=1.6, zorder=4)  # type: ignore[arg-type]
    axes.annotate(
        mark.words,
        (mark.at, after - 0.5),
        xytext=(4, 0),
        textcoords="offset points",
        ha="left",
        va="center",
        fontsize=7,
        color=colour,
        zorder=5,
        annotation_clip=True,
        bbox={"facecolor": "white", "edgecolor": colour, "linewidth": 0.7, "pad": 1.5},
    )


def _draw_load(axes: "Axes", mark: LoadMark, after: int, day_in: float) -> None:
    wide = mark.end_at - mark.start_at
    for share, colour in ((1.0, _STRAP), (mark.share, _INK)):
        axes.barh(
            after - 0.09,
            wide * share,  # type: ignore[arg-type]
            left=mark.start_at,  # type: ignore[arg-type]
            height=0.1 if colour == _STRAP else 0.05,
            color=colour,
            linewidth=0,
            zorder=3,
        )
    room = int(wide / timedelta(days=1) * day_in / _LETTER_IN)
    if len(mark.words) <= room + 4:
        axes.text(
            mark.start_at + wide / 2,  # type: ignore[arg-type]
            after - 0.17,
            mark.words,
            ha="center",
            va="bottom",
            fontsize=6,
            color=_INK,
            zorder=3,
            clip_on=True,
        )
