"""The calendar file: RFC 5545 through icalendar and through vobject, and what a second import does."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

import icalendar
import pytest
import vobject
from sheets.week_scene import CASE, DRY, FIT, FORM, NOW_AT, PAIR, later, table

from armorplan.kernel.errors import ArmorplanError
from armorplan.sheets.week_ics import uid_of, week_ics


def read(data: bytes) -> dict[str, icalendar.Event]:
    calendar = icalendar.Calendar.from_ical(data)
    return {str(event["uid"]): event for event in calendar.walk("VEVENT")}


def imported(store: dict[str, tuple[int, datetime, str]], data: bytes) -> None:
    """Take events in as RFC 5546 section 2.1.5 has it: by UID, the higher SEQUENCE wins."""
    for component in vobject.readOne(data.decode("utf-8")).vevent_list:
        uid, sequence = component.uid.value, int(component.sequence.value)
        if uid not in store or store[uid][0] <= sequence:
            store[uid] = sequence, component.dtstart.value, component.status.value


def test_every_line_comes_back_through_icalendar():
    events = read(week_ics(table(), now_at=NOW_AT))
    assert len(events) == 4
    for line in (CASE, FORM, DRY, FIT):
        event = events[uid_of(line)]
        assert event.decoded("dtstart") == line.start_at
        assert event.decoded("dtend") == line.end_at
        assert event.decoded("dtstamp") == NOW_AT
        assert str(event["summary"]) == f"{line.title} ({line.build_title})"
    assert str(events[uid_of(DRY)]["transp"]) == "TRANSPARENT"
    assert str(events[uid_of(FIT)]["location"]) == "Blue tray"
    assert "Maker and Captain" in str(events[uid_of(FIT)]["description"])


def test_an_event_names_who_is_beside_whom():
    event = read(week_ics(table(PAIR), now_at=NOW_AT))[uid_of(PAIR)]
    assert str(event["description"]).startswith("Apprentice, with Maker beside\n")


def test_every_line_comes_back_through_a_second_parser():
    data = week_ics(table(), now_at=NOW_AT).decode("utf-8")
    calendar = vobject.readOne(data)
    assert calendar.version.value == "2.0"
    assert calendar.prodid.value.startswith("-//Armorplan")
    events = {event.uid.value: event for event in calendar.vevent_list}
    for line in (CASE, FORM, DRY, FIT):
        event = events[uid_of(line)]
        assert event.dtstart.value == line.start_at
        assert event.dtend.value == line.end_at
        assert event.summary.value == f"{line.title} ({line.build_title})"


def test_lines_end_and_fold_as_rfc_5545_section_3_1_asks():
    data = week_ics(table(), now_at=NOW_AT)
    assert data.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert max(map(len, data.split(b"\r\n"))) <= 75


def test_instants_are_utc_so_that_no_hour_is_there_twice():
    data = week_ics(table(), now_at=NOW_AT)
    starts = [line for line in data.split(b"\r\n") if line.startswith((b"DTSTART", b"DTEND"))]
    assert len(starts) == 8
    assert all(line.endswith(b"Z") for line in starts)


def test_what_has_a_window_rings_before_it_and_once_more_at_the_last():
    events = read(week_ics(table(), now_at=NOW_AT))
    alarms = events[uid_of(FORM)].walk("VALARM")
    assert [alarm.decoded("trigger") for alarm in alarms] == [
        FORM.start_at - timedelta(minutes=10),
        FORM.begin_by_at - timedelta(minutes=5),
    ]
    assert all(str(alarm["action"]) == "DISPLAY" for alarm in alarms)
    assert "It bends only while damp." in str(alarms[0]["description"])
    assert not events[uid_of(CASE)].walk("VALARM")
    assert not events[uid_of(DRY)].walk("VALARM")


def test_a_second_import_moves_events_and_adds_none():
    store: dict[str, tuple[int, datetime, str]] = {}
    first = week_ics(table(), now_at=NOW_AT)
    imported(store, first)
    moved = later(FORM, 90)
    second = week_ics(
        table(CASE, moved, DRY, FIT), now_at=NOW_AT + timedelta(hours=2), before=first
    )
    imported(store, second)
    assert len(store) == 4
    assert store[uid_of(FORM)][1] == moved.start_at
    # The former file imported late changes nothing any more.
    imported(store, first)
    assert store[uid_of(FORM)][1] == moved.start_at


def test_what_is_planned_no_more_is_cancelled_and_stays_so():
    store: dict[str, tuple[int, datetime, str]] = {}
    first = week_ics(table(), now_at=NOW_AT)
    second = week_ics(table(CASE), now_at=NOW_AT + timedelta(hours=1), before=first)
    third = week_ics(table(CASE), now_at=NOW_AT + timedelta(hours=2), before=second)
    for data in (first, second, third):
        imported(store, data)
    assert store[uid_of(FIT)][2] == "CANCELLED"
    assert store[uid_of(CASE)][2] == "CONFIRMED"
    assert len(read(third)) == 4


def test_an_event_planned_again_is_cancelled_no_more():
    first = week_ics(table(), now_at=NOW_AT)
    second = week_ics(table(CASE), now_at=NOW_AT + timedelta(hours=1), before=first)
    third = week_ics(table(), now_at=NOW_AT + timedelta(hours=2), before=second)
    assert {str(event["status"]) for event in read(third).values()} == {"CONFIRMED"}


def calendar_of_others(*lines):
    head = ("BEGIN:VCALENDAR", "VERSION:2.0", "PRODID:-//Harbour//Tides//EN")
    return "\r\n".join((*head, *lines, "END:VCALENDAR", "")).encode()


TIDE = (
    "BEGIN:VEVENT",
    "UID:tide@harbour",
    "DTSTAMP:20270301T000000Z",
    "DTSTART:20270301T000000Z",
    "SUMMARY:High water",
    "END:VEVENT",
)
DUES = ("BEGIN:VTODO", "UID:dues@harbour", "SUMMARY:High water dues", "END:VTODO")


@pytest.mark.parametrize("event", [TIDE, DUES, TIDE[:1] + TIDE[2:]])
def test_a_calendar_with_something_of_others_is_not_written_over(event):
    with pytest.raises(ArmorplanError, match=r"“High water.*Choose another file"):
        week_ics(table(), now_at=NOW_AT, before=calendar_of_others(*event))


def test_an_empty_calendar_is_written_over():
    assert len(read(week_ics(table(), now_at=NOW_AT, before=calendar_of_others()))) == 4


def test_the_same_step_of_two_shops_is_two_events():
    here = replace(FORM, known_as="here/shell/form")
    there = replace(FORM, known_as="there/shell/form")
    renamed = replace(here, id="cop-2/shell/left/form/shell", build="cop-2")
    assert uid_of(here) != uid_of(there)
    assert uid_of(here) == uid_of(renamed)


@pytest.mark.parametrize("before", [b"not a calendar", b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\n"])
def test_a_file_that_is_no_calendar_is_told(before):
    with pytest.raises(ArmorplanError, match="no calendar"):
        week_ics(table(), now_at=NOW_AT, before=before)


def test_the_sequence_fits_the_32_bits_of_rfc_5545():
    event = read(week_ics(table(), now_at=datetime(2400, 1, 1, tzinfo=UTC)))[uid_of(CASE)]
    assert int(event["sequence"]) < 2**31


def test_what_took_no_time_ends_after_it_starts_as_rfc_5545_section_3_6_1_asks():
    at_once = replace(CASE, end_at=CASE.start_at)
    event = read(week_ics(table(at_once), now_at=NOW_AT))[uid_of(CASE)]
    assert event.decoded("dtend") > event.decoded("dtstart") == CASE.start_at
