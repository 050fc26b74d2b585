from datetime import UTC, datetime
from zoneinfo import ZoneInfo

import pytest

from armorplan.app.order_form import date_text, typed_date

LISBON = ZoneInfo("Europe/Lisbon")


def at(text, *, ends=True):
    return typed_date(text, LISBON, ends=ends).at


def test_a_date_is_local_time_of_the_shop():
    assert at("2026-07-01 17:30") == datetime(2026, 7, 1, 16, 30, tzinfo=UTC)
    assert at("1.7.2026  17:30") == at("2026-07-01T17:30") == at("2026-07-01 17:30")


def test_a_day_is_due_at_its_end_and_begun_at_its_beginning():
    assert at("2026-12-16") == datetime(2026, 12, 17, tzinfo=UTC)
    assert at("2026-12-16", ends=False) == datetime(2026, 12, 16, tzinfo=UTC)


def test_nothing_typed_is_no_date_and_no_fault():
    found = typed_date("  ", LISBON, ends=True)
    assert (found.at, found.fault) == (None, "")


def test_what_is_shown_can_be_typed_again():
    shown = datetime(2026, 7, 1, 16, 30, tzinfo=UTC)
    assert date_text(shown, LISBON) == "2026-07-01 17:30"
    assert at(date_text(shown, LISBON)) == shown
    assert date_text(None, LISBON) == ""


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("soon", "'soon' is no date. Write a day, 2026-12-16"),
        ("2026-02-30", "'2026-02-30' is no date."),
        ("1926-02-03", "is no date"),
        ("2026-03-29 01:30", "The clocks go over 2026-03-29 01:30 here"),
    ],
)
def test_a_fault_is_told_with_how_to_mend_it(text, words):
    found = typed_date(text, LISBON, ends=True)
    assert found.at is None
    assert words in found.fault
