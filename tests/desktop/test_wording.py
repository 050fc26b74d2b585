"""Durations and clock times as a maker reads them."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from armorplan.desktop.wording import clock_text, countdown_text, day_text, minutes_text, over_text

NOW = datetime(2026, 5, 4, 9, 0, tzinfo=UTC)
LONDON = ZoneInfo("Europe/London")


@pytest.mark.parametrize(
    ("minutes", "text"), [(0, "0 min"), (45, "45 min"), (120, "2 h"), (80, "1 h 20 min")]
)
def test_minutes(minutes, text):
    assert minutes_text(minutes) == text


@pytest.mark.parametrize(
    ("seconds", "text"),
    [
        (0, "0:00"),
        (-5, "0:00"),
        (0.2, "0:01"),
        (245, "4:05"),
        (3600, "1:00:00"),
        (7800, "2:10:00"),
        (86400 + 7800, "1 d 2:10:00"),
    ],
)
def test_a_countdown_rounds_up_so_that_zero_means_due(seconds, text):
    assert countdown_text(seconds) == text


@pytest.mark.parametrize(
    ("later", "text"),
    [
        (timedelta(hours=2), "12:00"),
        (timedelta(days=2), "Wed 10:00"),
        (timedelta(hours=14, minutes=30), "Tue 00:30"),
        (timedelta(days=9), "13 May 10:00"),
        (timedelta(days=-1), "3 May 10:00"),
    ],
)
def test_clock_times_are_local_and_name_the_day_where_needed(later, text):
    assert clock_text(NOW + later, NOW, LONDON) == text


def test_a_day_is_the_workshops_own():
    assert day_text(datetime(2026, 5, 4, 23, 30, tzinfo=UTC), LONDON) == "Tue 5 May"


@pytest.mark.parametrize(
    ("seconds", "text"), [(0, "due now"), (59, "due now"), (185, "due for 3 min")]
)
def test_past_its_time(seconds, text):
    assert over_text(seconds) == text
