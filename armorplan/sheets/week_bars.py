"""What a figure of the days shows: bars, what belongs together, and the lines below it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from textwrap import wrap
from zoneinfo import ZoneInfo

from armorplan.sheets.week_air import AirSpan
from armorplan.sheets.week_marks import Mark

_ONE_STRETCH = timedelta(minutes=20)
"""Work that goes on after a shorter break is one stretch."""
_MOST_NOTES = 12
"""More notes of dryings than these below a picture nobody reads."""
_NOTE_LETTERS = 180
"""So long a line of notes is at the most: it fits below the shortest picture."""


@dataclass(frozen=True, slots=True, kw_only=True)
class DayBar:
    """One stretch of work or drying; instants are aware.

    ``surely_at``: by then a drying is surely ready; ``note``: when it is, and why it takes so long.
    """

    title: str
    lane: str
    start_at: datetime
    end_at: datetime
    drying: bool
    surely_at: datetime | None = None
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DaysFigure:
    """What the figure shows. ``lanes`` top down; ``closed`` are stretches in which nobody works.

    ``nights`` says what cold nights cost; ``air`` is the air along the days, each stretch with its
    start, its end, °C and per cent. Both are empty where the air is always the same. ``marks`` are
    due dates, hours taken and what was promised, each beside its lane. ``builds`` has a line for
    each build that has a letter: when it is due and finished.
    """

    title: str
    sentence: str
    zone: str
    bars: tuple[DayBar, ...]
    lanes: tuple[str, ...]
    closed: tuple[tuple[datetime, datetime], ...]
    now_at: datetime
    nights: str = ""
    air: tuple[AirSpan, ...] = ()
    marks: tuple[Mark, ...] = ()
    builds: tuple[str, ...] = ()


def stack(bars: Sequence[DayBar]) -> list[list[DayBar]]:
    """Return the bars of one lane in as few rows as hold them without an overlap."""
    rows: list[list[DayBar]] = []
    for bar in sorted(bars, key=lambda b: (b.start_at, b.end_at, b.title)):
        free = next((row for row in rows if row[-1].end_at <= bar.start_at), None)
        if free is None:
            rows.append([bar])
        else:
            free.append(bar)
    return rows


def gather(bars: Sequence[DayBar], *, within: timedelta) -> list[DayBar]:
    """Return bars with those that follow each other closely as one, counted in its title.

    A rivet of three minutes is a hair on a chart of days; a row of them is a stretch of work.
    """
    gathered: list[list[DayBar]] = []
    for bar in sorted(bars, key=lambda b: (b.start_at, b.end_at)):
        last = gathered[-1][-1] if gathered else None
        if last is not None and bar.start_at - last.end_at <= within:
            gathered[-1].append(bar)
        else:
            gathered.append([bar])
    return [_as_one(run) for run in gathered]


def _as_one(run: list[DayBar]) -> DayBar:
    more = f" and {len(run) - 1} more" if len(run) > 1 else ""
    return DayBar(
        title=f"{run[0].title}{more}",
        lane=run[0].lane,
        start_at=run[0].start_at,
        end_at=run[-1].end_at,
        drying=run[0].drying,
    )


def stretches(figure: DaysFigure) -> list[DayBar]:
    """Return the stretches of hands-on work, in order; the figure numbers them from 1."""
    lanes = [[b for b in figure.bars if b.lane == n and not b.drying] for n in figure.lanes]
    found = [bar for lane in lanes for bar in gather(lane, within=_ONE_STRETCH)]
    return sorted(found, key=lambda bar: (bar.start_at, bar.lane))


def legend(figure: DaysFigure) -> list[str]:
    """Return a line for each numbered stretch: when, who, what."""
    zone = ZoneInfo(figure.zone)
    lines = [*figure.builds, ""] if figure.builds else []
    for number, bar in enumerate(stretches(figure), start=1):
        start, end = bar.start_at.astimezone(zone), bar.end_at.astimezone(zone)
        lines.append(f"{number}  {start:%a %d %b %H:%M}–{end:%H:%M}  {bar.lane}: {bar.title}")
    return [*lines, *drying_lines(figure)]


def drying_lines(figure: DaysFigure) -> list[str]:
    """Return what the nights cost, and when and why what dries longest is ready."""
    told = sorted(
        (bar for bar in figure.bars if bar.drying and bar.note),
        key=lambda bar: (bar.start_at - bar.end_at, bar.start_at, bar.title),
    )[:_MOST_NOTES]
    notes = [f"{bar.title}: {bar.note}" for bar in sorted(told, key=lambda bar: bar.start_at)]
    heading = ["Longest to dry (the pale end of a bar: surely by then):"] if notes else []
    nights = wrap(figure.nights, _NOTE_LETTERS)
    said = [*nights, *heading, *notes]
    return ["", *said] if said else []
