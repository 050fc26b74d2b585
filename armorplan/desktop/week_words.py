"""What the bars of the coming days say."""

from collections.abc import Iterator
from datetime import tzinfo
from zoneinfo import ZoneInfo

from PySide6.QtCore import QCoreApplication

from armorplan.app.rows import Chart, ChartBar
from armorplan.desktop.glyphs import state_word
from armorplan.desktop.twin_model import TwinRow
from armorplan.desktop.week_layout import Block
from armorplan.desktop.wording import clock_text, day_text


def _tr(text: str) -> str:
    return QCoreApplication.translate("WeekWords", text)


def block_title(block: Block) -> str:
    """Return a block's title; of several bars the first, and how many more."""
    first, more = block.bars[0].title, len(block.bars) - 1
    if not more:
        return first
    return _tr("{title} and {n} more").format(title=first, n=more)


def block_clock(block: Block, zone: tzinfo) -> str:
    """Return from when to when, as clock times; the day is told where another one ends it."""
    start, end = block.start_at.astimezone(zone), block.end_at.astimezone(zone)
    return f"{start:%H:%M}\N{EN DASH}{clock_text(block.end_at, block.start_at, zone) if end.date() != start.date() else f'{end:%H:%M}'}"


def block_sentence(block: Block, zone: tzinfo) -> str:
    """Return what the line below the chart says of a block."""
    said = (
        block_title(block),
        f"{day_text(block.start_at, zone)} {block_clock(block, zone)}",
        block.bars[0].lane,
        state_word(block.state),
        _held(block.note),
    )
    return " \N{MIDDLE DOT} ".join(text for text in said if text)


def _held(note: str) -> str:
    """Return a note whose numbers stay on one line with their units."""
    return note.replace(" %", "\N{NO-BREAK SPACE}%").replace(" °C", "\N{NO-BREAK SPACE}°C")


def week_rows(chart: Chart) -> tuple[TwinRow, ...]:
    """Return every bar by its start, with the present among them."""
    return tuple(_rows(chart))


def _rows(chart: Chart) -> Iterator[TwinRow]:
    zone = ZoneInfo(chart.zone)
    for bar in sorted(chart.bars, key=lambda b: (b.start_at, b.end_at, b.step)):
        start = f"{day_text(bar.start_at, zone)} {bar.start_at.astimezone(zone):%H:%M}"
        end = f"{day_text(bar.end_at, zone)} {bar.end_at.astimezone(zone):%H:%M}"
        cells = (start, end, bar.title, bar.lane, state_word(bar.state), bar.note)
        yield TwinRow(key=bar.step, cells=cells, spoken=_spoken(bar, cells))


def _spoken(bar: ChartBar, cells: tuple[str, ...]) -> str:
    says = _tr("{start} to {end}: {title}, {who}, {state}")
    said = says.format(start=cells[0], end=cells[1], title=bar.title, who=bar.lane, state=cells[4])
    return f"{said}; {bar.note}" if bar.note else said
