"""The day of an exercise on paper: a strip with its hours, to draw the work in with a pencil."""

from collections.abc import Callable

from armorplan.pattern.parts import Point
from armorplan.sheets.bench_sheet_flow import Bit, gap
from armorplan.sheets.bench_sheet_ink import Ink
from armorplan.sheets.bench_sheet_letters import BLUE, INK, LINE, QUIET, TINT, Style, fitted
from armorplan.sheets.worksheet_model import DayStrip

_HOUR, _QUARTER = 60, 15
_ROW_MM, _NAMES_MM = 7.0, 44.0
_WORD = Style(size_pt=6.8, lead_mm=3.2, colour=QUIET)


def day_bits(day: DayStrip, wide: float) -> list[Bit]:
    """Return a strip with a row for each thing to be done, hours above, quarters within."""
    high = 6.0 + _ROW_MM * len(day.rows)
    left = min(_NAMES_MM, wide / 3)

    def across(minute: int) -> float:
        return left + (wide - left) * (minute - day.from_min) / (day.to_min - day.from_min)

    def draw(ink: Ink, at: Point) -> None:
        _draw_hours(ink, at, day, across)
        for row, name in enumerate(day.rows):
            y = at[1] + 6.0 + _ROW_MM * row
            ink.text((at[0], y + 4.6), fitted(name, _WORD, left - 2), _WORD)
            ink.box((at[0] + left, y), (wide - left, _ROW_MM), thick_pt=0.4, colour=LINE)

    return [gap(1.5, keep=True), Bit(high_mm=high, draw=draw), gap(2.0)]


def _draw_hours(ink: Ink, at: Point, day: DayStrip, across: Callable[[int], float]) -> None:
    top, foot = at[1] + 6.0, at[1] + 6.0 + _ROW_MM * len(day.rows)
    for begin, end in day.closed:
        x = at[0] + across(begin)
        ink.box((x, top), (at[0] + across(end) - x, foot - top), fill=TINT, thick_pt=0)
    first = -(-day.from_min // _QUARTER) * _QUARTER
    for minute in range(first, day.to_min + 1, _QUARTER):
        is_hour = minute % _HOUR == 0
        x = at[0] + across(minute)
        ink.line(
            (x, top - (1.6 if is_hour else 0.0)),
            (x, foot),
            thick_pt=0.4 if is_hour else 0.2,
            colour=LINE,
        )
        if is_hour:
            ink.text_middle((x, at[1] + 3.4), f"{minute // _HOUR}:00", _WORD)
    x = at[0] + across(day.ends_by_min)
    ink.line((x, top - 2.0), (x, foot), thick_pt=1.4, colour=BLUE)
    ink.line(
        (at[0] + across(day.from_min), top),
        (at[0] + across(day.to_min), top),
        thick_pt=0.6,
        colour=INK,
    )
