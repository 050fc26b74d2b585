from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from armorplan.sheets.time_axis import nights, time_ticks

LISBON = ZoneInfo("Europe/Lisbon")
EVENING = datetime(2026, 11, 30, 17, tzinfo=UTC)


def test_nights_run_from_eight_to_eight_and_are_cut_at_the_ends():
    found = nights(EVENING, EVENING + timedelta(hours=28), "Europe/Lisbon")
    assert [(f"{a:%d %H}", f"{b:%d %H}") for a, b in found] == [
        ("30 20", "01 08"),
        ("01 20", "01 21"),
    ]
    late = datetime(2026, 11, 30, 23, tzinfo=UTC)
    (night,) = nights(late, late + timedelta(hours=2), "Europe/Lisbon")
    assert night == (late, late + timedelta(hours=2))


def test_a_night_in_which_clocks_change_is_an_hour_longer():
    begin = datetime(2026, 10, 24, 12, tzinfo=UTC)
    ((falls, ends), *_) = nights(begin, begin + timedelta(days=1), "Europe/Lisbon")
    assert ends.astimezone(UTC) - falls.astimezone(UTC) == timedelta(hours=13)


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
    ticks = time_ticks(EVENING, EVENING + span, "Europe/Lisbon")
    assert 2 <= len(ticks) <= 10
    assert all(at.astimezone(LISBON).minute % 5 == 0 for at, _ in ticks)
    words = [words for _, words in ticks]
    assert words[0] == first or span.days == 28
    days = [w.rpartition("\n")[2] for w in words if w[:1].isalpha() or "\n" in w]
    assert len(days) == len(set(days))


def test_ticks_stay_on_round_hours_when_clocks_change():
    begin = datetime(2026, 10, 24, 22, tzinfo=UTC)
    ticks = time_ticks(begin, begin + timedelta(hours=30), "Europe/Lisbon")
    assert {at.astimezone(LISBON).hour % 6 for at, _ in ticks} == {0}
