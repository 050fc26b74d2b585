"""The day in minutes and pixels: clocks, the grid, and the windows of waits."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from desktop.drill_scene import CASED, DAMP, DAY, DRY, DYED, FORMED, hour

from armorplan.desktop.drill_day_layout import DayScale, DaySpan, Window, laid_out
from armorplan.desktop.drill_day_words import bar_times, legend, wait_times, wait_title

SPAN = DaySpan(DAY)
NARROW = "\N{NO-BREAK SPACE}"


def test_minutes_are_told_as_clocks_there_show_them():
    assert (SPAN.whole_min, SPAN.due_min, SPAN.closed) == (600, 540, ((240, 300),))
    assert [SPAN.clock(minute) for minute in (0, 75, 600)] == ["08:00", "09:15", "18:00"]


@pytest.mark.parametrize(
    ("typed", "minute"),
    [
        ("08:00", 0),
        ("9:15", 75),
        ("9.15", 75),
        ("10", 120),
        ("18:00", 600),
        ("18:01", None),
        ("07:59", None),
        ("09:75", None),
        ("", None),
        ("soon", None),
    ],
)
def test_a_time_that_is_typed_is_a_minute_of_the_day_or_none(typed, minute):
    assert SPAN.minute_at(typed) == minute


def test_a_day_across_the_change_of_the_clock_counts_the_minutes_that_pass():
    """In 2026 summer time begins on 29 March at 02:00 (Directive 2000/84/EC, article 2)."""
    from_at = datetime(2026, 3, 29, 0, 0, tzinfo=UTC)
    day = replace(DAY, from_at=from_at, to_at=from_at + timedelta(hours=4), closed=())
    span = DaySpan(day)
    assert [span.clock(minute) for minute in (0, 45, 60, 240)] == [
        "01:00",
        "01:45",
        "03:00",
        "06:00",
    ]


@pytest.mark.parametrize(
    ("row", "minute", "to"),
    [
        (CASED, -40, 0),
        (CASED, 7, 0),
        (CASED, 8, 15),
        (CASED, 1000, 555),
        (FORMED, 1000, 510),
        (replace(CASED, minutes=50), 1000, 540),
        (replace(CASED, minutes=700), 30, 0),
    ],
)
def test_bars_lie_on_the_grid_and_within_the_day(row, minute, to):
    assert SPAN.snapped(row, minute) == to


def test_a_wait_lies_behind_its_bar_and_ends_too_late_so_long_after_it():
    assert SPAN.window(DAMP, CASED, 30) == Window(start_min=75, ready_min=135, latest_min=225)
    assert SPAN.window(DRY, FORMED, 0).latest_min is None


def test_every_wait_is_laid_behind_the_bar_that_it_follows():
    lost = replace(DRY, after="elsewhere")
    rows = laid_out((DYED, FORMED, CASED, lost, DAMP, DRY))
    assert rows == (DYED, FORMED, DRY, CASED, DAMP, lost)


def test_the_day_is_shown_until_a_while_after_all_has_to_be_done():
    early = DaySpan(replace(DAY, ends_by_at=hour(2)))
    assert (early.due_min, early.whole_min) == (120, 180)
    assert SPAN.whole_min == SPAN.minute(DAY.to_at), "never beyond the end of work"


def test_places_and_minutes_are_two_sides_of_one_scale():
    scale = DayScale(span=SPAN, left=10.0, width=300.0)
    assert (scale.x(0), scale.x(300), scale.x(600)) == (10.0, 160.0, 310.0)
    assert all(scale.minute(scale.x(m)) == pytest.approx(m) for m in (0, 1, 299, 600))


@pytest.mark.parametrize(("label_px", "step"), [(20, 1), (31, 2), (100, 4), (1000, 12)])
def test_hours_are_written_as_near_as_there_is_room(label_px, step):
    scale = DayScale(span=SPAN, left=0.0, width=300.0)
    assert scale.written_hours(label_px) == tuple(range(0, 601, 60 * step))


def test_words_say_bars_and_waits():
    assert bar_times(SPAN, CASED, 30) == "08:30 to 09:15"
    assert bar_times(SPAN, DYED, None) == "no time yet"
    words = f"1{NARROW}h at least, 2{NARROW}h{NARROW}30{NARROW}min at the most; then B"
    assert wait_title(DAMP, ("A", "B")) == f"Damp, from the end of A: {words}"
    assert wait_title(replace(DRY, minutes=0), ("B", "")) == "Drying, from the end of B"
    window = SPAN.window(DAMP, CASED, 30)
    assert wait_times(SPAN, window) == "over at 10:15, too late after 11:45"
    assert wait_times(SPAN, None) == "no time yet"
    assert "17:00" in legend(SPAN)
    assert "Shaded" not in legend(DaySpan(replace(DAY, closed=())))
