from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from armorplan.sheets.time_axis import time_ticks

LISBON = ZoneInfo("Europe/Lisbon")
EVENING = datetime(2026, 11, 30, 17, tzinfo=UTC)


@pytest.mark.parametrize(
    ("span", "first"),
    [
        (timedelta(minutes=40), "17:00\nMon 30 Nov"),
        (timedelta(hours=5), "17:00\nMon 30 Nov"),
        (timedelta(hours=30), "18:00\nMon 30 Nov"),
        (timedelta(days=5), "Tue 1 Dec"),
        (timedelta(days=28), "Wed 2 Dec"),
    ],
)
def test_ticks_are_round_and_few(span, first):
    ticks = time_ticks(EVENING, EVENING + span, "Europe/Lisbon", most=9)
    assert 2 <= len(ticks) <= 10
    assert all(at.astimezone(LISBON).minute % 5 == 0 for at, _ in ticks)
    words = [words for _, words in ticks]
    assert words[0] == first or span.days == 28
    days = [w.rpartition("\n")[2] for w in words if w[:1].isalpha() or "\n" in w]
    assert len(days) == len(set(days))


def test_ticks_stay_on_round_hours_when_clocks_change():
    begin = datetime(2026, 10, 24, 22, tzinfo=UTC)
    ticks = time_ticks(begin, begin + timedelta(hours=30), "Europe/Lisbon", most=9)
    assert {at.astimezone(LISBON).hour % 6 for at, _ in ticks} == {0}


@pytest.mark.parametrize("most", [3, 6, 12])
def test_where_less_can_be_written_there_are_fewer(most):
    ticks = time_ticks(EVENING, EVENING + timedelta(hours=30), "Europe/Lisbon", most=most)
    assert most / 3 <= len(ticks) <= most + 1
