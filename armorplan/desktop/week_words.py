"""What the bars and lanes of the week say."""

from collections.abc import Container, Iterator
from datetime import datetime, tzinfo
from zoneinfo import ZoneInfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.week_rows import BarKind, By, DayLoad, LaneKind, Week, WeekBar, WeekLane
from armorplan.desktop.glyphs import state_word
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.week_layout import Block
from armorplan.desktop.wording import clock_text, day_text, minutes_text
from armorplan.kernel.units import span_words

_COUNTED = 20
"""A place with room for more than this is measured, in mm or dm², and not counted."""
_NAME_LETTERS = 24
"""So that the letters of five builds stand in two lines below a narrow week."""
DOT = " \N{MIDDLE DOT} "


def _tr(text: str) -> str:
    return QCoreApplication.translate("WeekWords", text)


def family_words(family: str) -> str:
    """Return what a bath holds as a maker says it: the colour, then what it is."""
    return " ".join(part for part in reversed(family.replace("_", " ").split("|")) if part)


def block_title(block: Block, chosen: Container[str] = ()) -> str:
    """Return a block's title; of several bars the chosen one's or the first, and how many more."""
    first = next((bar for bar in block.bars if bar.step in chosen), block.bars[0])
    more = len(block.bars) - 1
    title = first.title
    if first.kind is BarKind.WORK and first.family and first.key.endswith(f"@{first.lane}"):
        title = f"{family_words(first.family)}: {title}"
    return _tr("{title} and {n} more").format(title=title, n=more) if more else title


def block_clock(block: Block, zone: tzinfo) -> str:
    """Return from when to when, as clock times; the day is told where another one ends it."""
    start, end = block.start_at.astimezone(zone), block.end_at.astimezone(zone)
    return f"{start:%H:%M}\N{EN DASH}{clock_text(block.end_at, block.start_at, zone) if end.date() != start.date() else f'{end:%H:%M}'}"


def block_sentence(
    block: Block, lane: WeekLane, zone: tzinfo, *, chosen: Container[str] = ()
) -> str:
    """Return what the line below the chart says of a block."""
    said = (
        whose(block.bars),
        block_title(block, chosen),
        f"{day_text(block.start_at, zone)} {block_clock(block, zone)}",
        _where(block, lane),
        *{company_words(bar): None for bar in block.bars},
        state_word(block.state),
        *_more(block, zone),
        _held(block.note),
    )
    return DOT.join(text for text in said if text)


def whose(bars: tuple[WeekBar, ...]) -> str:
    """Return of which other build something is; empty for the open one's alone."""
    titles = list(dict.fromkeys(bar.build_title for bar in bars))
    if len(titles) > 1:
        return _tr("{n} builds").format(n=len(titles))
    return _tr("of {build}").format(build=titles[0]) if titles and titles[0] else ""


def _where(block: Block, lane: WeekLane) -> str:
    first = block.bars[0]
    taken = sum(bar.amount for bar in block.bars)
    if lane.capacity and taken:
        says = _tr("{place}, takes {share}")
        return says.format(place=lane.name, share=share_words(taken, lane.capacity))
    if lane.kind is LaneKind.BUILD:
        return first.who
    return lane.name


def company_words(bar: WeekBar) -> str:
    """Return who is beside whoever does it, or whom this person is beside; empty for nobody."""
    if bar.helps:
        return _tr("beside {who}").format(who=bar.helps)
    if bar.beside:
        return _tr("with {who} beside").format(who=_tr(" and ").join(bar.beside))
    return ""


def _more(block: Block, zone: tzinfo) -> Iterator[str]:
    first = block.bars[0]
    if first.free_at:
        yield _tr("dry {clock}, then it only hangs").format(
            clock=clock_text(first.free_at, block.start_at, zone)
        )
    if first.rests and len(block.bars) == 1:
        yield _tr("pauses while closed")
    if first.window:
        yield _tr("has to begin by {clock}").format(
            clock=clock_text(first.window[1], block.start_at, zone)
        )
    lay = block.promised
    if lay:
        yield _tr("promised {day} {clock}").format(
            day=day_text(lay[0], zone), clock=f"{lay[0].astimezone(zone):%H:%M}"
        )


def _held(note: str) -> str:
    """Return a note whose numbers stay on one line with their units."""
    return note.replace(" %", "\N{NO-BREAK SPACE}%").replace(" °C", "\N{NO-BREAK SPACE}°C")


def lane_lines(lane: WeekLane, zone: tzinfo) -> tuple[str, ...]:
    """Return what stands below the name of a lane."""
    if lane.kind is LaneKind.BUILD:
        return tuple(filter(None, (due_words(lane, zone), spare_words(lane))))
    if lane.kind is LaneKind.BATH:
        held = family_words(lane.holds)
        return (_tr("holds {family}").format(family=held),) if held else ()
    if lane.kind is LaneKind.PLACE and lane.capacity:
        return (_tr("at most {share} taken").format(share=share_words(lane.most, lane.capacity)),)
    return ()


def share_words(taken: int, capacity: int) -> str:
    """Return how much of a place is taken: counted where it is few, else in per cent of its size."""
    if capacity <= _COUNTED:
        return _tr("{n} of {all}").format(n=taken, all=capacity)
    return f"{taken * 100 / capacity:.0f}\N{NO-BREAK SPACE}%"


def due_words(lane: WeekLane, zone: tzinfo) -> str:
    """Return when a build is due; empty where it is not."""
    if lane.due_at is None:
        return ""
    due = lane.due_at.astimezone(zone)
    return _tr("due {day} {clock}").format(day=day_text(lane.due_at, zone), clock=f"{due:%H:%M}")


def spare_words(lane: WeekLane) -> str:
    """Return how long before it is due a build is ready, or how late; empty where nothing is due."""
    late = lane.late_min
    if late is None:
        return ""
    if late > 0:
        return _tr("{span} late").format(span=span_words(late))
    return _tr("{span} to spare").format(span=span_words(-late)) if late else _tr("just in time")


def load_words(load: DayLoad) -> tuple[str, str]:
    """Return how much of a day's hours is taken, long and short."""
    there, taken = load.there_min / 60, load.taken_min / 60
    short = f"{taken:.2g}/{there:.2g}"
    return _tr("{taken} of {there} h").format(taken=f"{taken:.2g}", there=f"{there:.2g}"), short


def week_rows(week: Week) -> tuple[TwinRow, ...]:
    """Return every bar by its start, with due dates and the load of each day among them."""
    rows = [*_rows(week), *_due_rows(week), *_load_rows(week)]
    return tuple(row for _, row in sorted(rows, key=lambda item: (item[0], item[1].key)))


Dated = tuple[datetime, TwinRow]


def _rows(week: Week) -> Iterator[Dated]:
    zone = ZoneInfo(week.zone)
    names = {lane.id: lane.name for lane in week.lanes}
    days: dict[datetime, str] = {}
    for bar in week.bars:
        start, end = _moment(bar.start_at, zone, days), _moment(bar.end_at, zone, days)
        lane = bar.who if bar.attended and week.by is By.BUILD else names.get(bar.lane, bar.lane)
        company = company_words(bar)
        cells = (
            start,
            end,
            bar.title,
            f"{lane}, {company}" if company else lane,
            state_word(bar.state),
            bar.build_title,
            bar.note,
        )
        yield bar.start_at, TwinRow(key=bar.key, cells=cells, spoken=_spoken(bar, cells))


def letters_words(week: Week) -> str:
    """Return which letter is which build's; empty where there is one, or its lanes say it."""
    told = [lane for lane in week.builds if lane.tag]
    if not told or week.by is By.BUILD:
        return ""
    named = ", ".join(f"{lane.tag}\N{NO-BREAK SPACE}{_shortened(lane.name)}" for lane in told)
    return _tr("{named}. Filled: open here; +: and others.").format(named=named)


def _shortened(name: str) -> str:
    """Return a long name without the words in its middle: builds alike are told apart at their ends."""
    if len(name) <= _NAME_LETTERS:
        return name
    half = _NAME_LETTERS // 2
    head, tail = name[:half], name[1 - half :]
    whole = head.rpartition(" ")[0] or head, tail.partition(" ")[2] or tail
    return "\N{HORIZONTAL ELLIPSIS}".join(whole)


def _moment(at: datetime, zone: tzinfo, days: dict[datetime, str]) -> str:
    local = at.astimezone(zone)
    day = local.replace(hour=0, minute=0, second=0, microsecond=0)
    if day not in days:
        days[day] = day_text(at, zone)
    return f"{days[day]} {local.hour:02d}:{local.minute:02d}"


def _spoken(bar: WeekBar, cells: tuple[str, ...]) -> str:
    says = _tr("{start} to {end}: {title}, {who}, {state}")
    said = says.format(start=cells[0], end=cells[1], title=bar.title, who=cells[3], state=cells[4])
    build = _tr("of {build}").format(build=bar.build_title) if bar.build_title else ""
    return "; ".join(text for text in (said, build, bar.note) if text)


def _due_rows(week: Week) -> Iterator[Dated]:
    zone = ZoneInfo(week.zone)
    for lane in week.lanes:
        if lane.due_at is None:
            continue
        due, spare = due_words(lane, zone), spare_words(lane)
        cells = (
            _moment(lane.due_at, zone, {}),
            "",
            f"{lane.name}: {due}",
            "",
            spare,
            lane.name,
            "",
        )
        row = TwinRow(key=f"due:{lane.id}", cells=cells, spoken=f"{lane.name}, {due}, {spare}")
        yield lane.due_at, row


def _load_rows(week: Week) -> Iterator[Dated]:
    zone = ZoneInfo(week.zone)
    for lane in week.lanes:
        for load in lane.loads:
            start, end = _moment(load.start_at, zone, {}), _moment(load.end_at, zone, {})
            there, taken = minutes_text(load.there_min), minutes_text(load.taken_min)
            taken_words = _tr("{taken} of {there} taken").format(taken=taken, there=there)
            cells = (start, end, taken_words, lane.name, "", "", "")
            key = f"load:{lane.id}:{load.start_at.isoformat()}"
            spoken = f"{day_text(load.start_at, zone)}, {lane.name}: {taken_words}"
            yield load.start_at, TwinRow(key=key, cells=cells, spoken=spoken)
