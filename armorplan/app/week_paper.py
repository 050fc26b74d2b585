"""The week as it is laid in the window, as a picture for paper and screen."""

from collections.abc import Iterator
from dataclasses import replace
from datetime import datetime
from pathlib import Path
from zoneinfo import ZoneInfo

from armorplan.app.picture_file import written_to
from armorplan.app.week_bars import pieces
from armorplan.app.week_rows import BarKind, By, LaneKind, Week, WeekBar, WeekLane
from armorplan.kernel.units import span_words
from armorplan.sheets.week_bars import DayBar, DaysFigure
from armorplan.sheets.week_chart import save_days
from armorplan.sheets.week_marks import DueMark, LoadMark, Mark, PromisedMark


def week_figure_of(week: Week, *, title: str, sentence: str, compares: bool) -> DaysFigure:
    """Return the figure of a laid week; ``compares``: with what was promised, where it has moved."""
    names = _names(week)
    bars = [bar for bar in week.bars if bar.lane in names]
    return DaysFigure(
        title=f"{title}, {week.by}",
        sentence=sentence,
        zone=week.zone,
        bars=tuple(part for bar in bars for part in _parts(bar, week.by, names)),
        lanes=tuple(names.values()),
        closed=week.closed,
        now_at=week.now_at,
        air=tuple((a.start_at, a.end_at, a.temperature_c, a.humidity_pct) for a in week.air),
        marks=tuple(_marks(week, names, compares=compares)),
        builds=tuple(_build_line(lane, ZoneInfo(week.zone)) for lane in week.builds if lane.tag),
    )


def _build_line(lane: WeekLane, zone: ZoneInfo) -> str:
    """Return whose letter it is, when its build is due, and what is to spare."""
    said = [f"{lane.tag}  {lane.name}"]
    if lane.due_at is not None:
        said.append(f"due {_short(lane.due_at, zone)}")
    if lane.finish_at is not None:
        said.append(f"finished {_short(lane.finish_at, zone)}")
    if lane.late_min is not None:
        late = lane.late_min
        said.append(f"{span_words(late)} late" if late > 0 else f"{span_words(-late)} to spare")
    return ", ".join(said)


def _short(at: datetime, zone: ZoneInfo) -> str:
    local = at.astimezone(zone)
    return f"{local:%a} {local.day} {local:%b %H:%M}"


def save_week_figure(path: Path, figure: DaysFigure) -> None:
    """Write it as a picture (png, svg or pdf by the file's ending); some seconds.

    Raises:
        ArmorplanError: the file cannot be written, or its ending is none of these.
    """
    with written_to(path):
        save_days(path, figure)


def _names(week: Week) -> dict[str, str]:
    """Return what each lane is called, no two alike."""
    names: dict[str, str] = {}
    for lane in week.lanes:
        name = f"{lane.tag}  {lane.name}" if lane.tag else lane.name
        taken = sum(known == name or known.startswith(f"{name} (") for known in names.values())
        names[lane.id] = f"{name} ({taken + 1})" if taken else name
    return names


def _parts(bar: WeekBar, by: By, names: dict[str, str]) -> Iterator[DayBar]:
    """Yield a bar, or of one that pauses while closed each stretch of it."""
    for start_at, end_at in pieces((bar.start_at, bar.end_at), bar.rests):
        yield _bar(replace(bar, start_at=start_at, end_at=end_at), by, names)


def _bar(bar: WeekBar, by: By, names: dict[str, str]) -> DayBar:
    tag = f"{bar.tag}: " if bar.tag and by is not By.BUILD else ""
    who = f" ({bar.who})" if bar.who and by is not By.PERSON else ""
    return DayBar(
        title=f"{tag}{bar.title}{who}",
        lane=names[bar.lane],
        start_at=bar.start_at,
        end_at=bar.end_at,
        drying=bar.kind is not BarKind.WORK,
        surely_at=bar.surely_at,
        note=bar.note,
    )


def _marks(week: Week, names: dict[str, str], *, compares: bool) -> Iterator[Mark]:
    for lane in week.lanes:
        if lane.kind is LaneKind.BUILD and lane.due_at is not None:
            yield _due(lane, names[lane.id])
        for load in lane.loads:
            yield LoadMark(
                lane=names[lane.id],
                start_at=load.start_at,
                end_at=load.end_at,
                share=min(1.0, load.taken_min / max(load.there_min, 1)),
                words=f"{load.taken_min / 60:.2g}/{load.there_min / 60:.2g} h",
            )
    if week.by is not By.BUILD and names:
        yield from _due_flags(week, list(names.values())[-1])
    for bar in week.bars if compares else ():
        if bar.is_moved and bar.promised is not None and bar.lane in names:
            start_at, end_at = bar.promised
            yield PromisedMark(lane=names[bar.lane], start_at=start_at, end_at=end_at)


def _due_flags(week: Week, lane: str) -> Iterator[DueMark]:
    """Yield when builds are due, by their letters, where the lanes are not builds."""
    dated = [build for build in week.builds if build.due_at is not None]
    for at in sorted({build.due_at for build in dated if build.due_at is not None}):
        due = [build for build in dated if build.due_at == at]
        tags = ", ".join(build.tag for build in due if build.tag)
        late = any((build.late_min or 0) > 0 for build in due)
        words = f"{tags} due, late" if late else f"{tags} due"
        yield DueMark(lane=lane, at=at, words=words.strip(), late=late)


def _due(lane: WeekLane, name: str) -> DueMark:
    late = lane.late_min or 0
    words = f"due, {span_words(late)} late" if late > 0 else f"due, {span_words(-late)} to spare"
    at = lane.due_at
    assert at is not None  # noqa: S101 - only asked of lanes that are due
    return DueMark(lane=name, at=at, words=words, late=late > 0)
