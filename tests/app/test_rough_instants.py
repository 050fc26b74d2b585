"""What is foretold far ahead is told to the hour, then to the part of a day."""

from datetime import UTC, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from armorplan.app.rough_instants import rough

SINCE_AT = datetime(2026, 11, 30, 10, 3, tzinfo=UTC)


@pytest.mark.parametrize(
    ("hours", "told"),
    [
        (0.5, "Mon 10:33"),
        (24, "Tue 10:03"),
        (24.5, "Tue 11:00"),
        (37.4, "Tue 23:00"),
        (37.5, "Wed 00:00"),
        (72, "Thu 10:00"),
        (73, "Thu morning"),
        (90, "Fri early morning"),
        (98, "Fri afternoon"),
        (106, "Fri evening"),
    ],
)
def test_the_further_ahead_the_coarser(hours, told):
    found = rough(SINCE_AT + timedelta(hours=hours), SINCE_AT, UTC)
    assert f"{found.at:%a} {found.part or f'{found.at:%H:%M}'}" == told


def test_hours_are_those_of_the_zone():
    there = rough(SINCE_AT + timedelta(hours=30), SINCE_AT, ZoneInfo("Asia/Kolkata"))
    assert f"{there.at:%a %H:%M}" == "Tue 22:00"
