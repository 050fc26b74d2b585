from datetime import UTC, datetime, timedelta
from itertools import pairwise
from zoneinfo import ZoneInfo

import pytest

from armorplan.sheets.time_axis import TickRoom, time_ticks

LISBON = ZoneInfo("Europe/Lisbon")
EVENING = datetime(2026, 11, 30, 17, tzinfo=UTC)


def room(span, *, px=660):
    """Axes so wide on which a time takes 45 px and a day 75 px."""
    a_px = span / timedelta(minutes=px)
    return TickRoom(clock_min=45 * a_px, day_min=75 * a_px)


@pytest.mark.parametrize(
    ("span", "first"),
    [
        (timedelta(minutes=40), "17:00\nMon 30 Nov"),
        (timedelta(hours=5), "17:00\nMon 30 Nov"),
        (timedelta(hours=30), "18:00\nMon 30 Nov"),
        (timedelta(days=5), "00:00\nTue 1 Dec"),
        (timedelta(days=9), "Wed 2 Dec"),
        (timedelta(days=28), "Fri 4 Dec"),
    ],
)
def test_ticks_are_round_and_few(span, first):
    ticks = time_ticks(EVENING, EVENING + span, "Europe/Lisbon", room(span))
    assert 2 <= len(ticks) <= 15
    assert all(at.astimezone(LISBON).minute % 5 == 0 for at, _ in ticks)
    words = [words for _, words in ticks]
    assert words[0] == first
    days = [w.rpartition("\n")[2] for w in words if w[:1].isalpha() or "\n" in w]
    assert len(days) == len(set(days))


def test_ticks_stay_on_round_hours_when_clocks_change():
    begin = datetime(2026, 10, 24, 22, tzinfo=UTC)
    span = timedelta(hours=30)
    ticks = time_ticks(begin, begin + span, "Europe/Lisbon", room(span))
    assert {at.astimezone(LISBON).hour % 3 for at, _ in ticks} == {0}


@pytest.mark.parametrize("px", [150, 400, 1200])
@pytest.mark.parametrize("hours", [1, 7, 30, 100, 600])
def test_no_words_run_into_another(px, hours):
    span = timedelta(hours=hours)
    asked = room(span, px=px)
    ticks = time_ticks(EVENING, EVENING + span, "Europe/Lisbon", asked)
    times = [at for at, words in ticks if ":" in words]
    days = [at for at, words in ticks if any(letter.isalpha() for letter in words)]
    for written, least in ((times, asked.clock_min), (days, asked.day_min)):
        gaps = [(b - a) / timedelta(minutes=1) for a, b in pairwise(written)]
        assert all(gap >= min(least, 168 * 60) for gap in gaps)
    assert px < 400 or len(ticks) >= 3
