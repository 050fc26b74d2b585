"""The air as the workshop keeps it: no reading twice, and what is damaged costs nothing else."""

import json
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest

from armorplan.app.air_texts import room_from, room_text, shortest_text, states_from
from armorplan.app.past_air import over_time
from armorplan.app.shop_air import with_reading
from armorplan.drying.room import drying_room
from armorplan.kernel.errors import WorkshopError
from armorplan.workshop.air import AirReading, Climate, Room

AT = datetime(2026, 11, 29, 14, 0, tzinfo=UTC)
DAMAGED = '{"usual": {"new": 1}}'


def reading(minutes, temperature_c=18.0):
    return AirReading(
        at=AT + timedelta(minutes=minutes), climate=Climate(temperature_c=temperature_c)
    )


MONTH = Room(readings=tuple(reading(15 * at, 10 + at % 9) for at in range(-2900, 0)), volume_m3=30)


class Book:
    """Texts as they are kept one after the other, one an hour."""

    def __init__(self):
        self.rows = []

    def keep(self, room, *, instead=False):
        last = self.rows[-1] if self.rows else None
        self.put(shortest_text(room, last, self.text, instead=instead))

    def put(self, text):
        number = len(self.rows) + 1
        self.rows.append((number, AT + timedelta(hours=number), text))

    def text(self, number):
        return self.rows[number - 1][2] if 0 < number <= len(self.rows) else None

    @property
    def kept(self):
        return states_from(self.rows, self.text)


def test_of_a_loggers_month_a_state_keeps_only_what_is_new_and_is_read_whole():
    book, rooms = Book(), [MONTH]
    for at in range(4):
        rooms.append(with_reading(rooms[-1], reading(30 * at)))
    rooms.append(replace(rooms[-1], usual=Climate(temperature_c=12), by_hour=()))
    rooms.append(replace(rooms[-1], readings=rooms[-1].readings[7:]))
    for room in rooms:
        book.keep(room)
    first, *rest = (len(text) for _, _, text in book.rows)
    assert first > 100_000
    assert max(rest) < 1_500
    assert [room for _, room in book.kept.states] == rooms


def test_readings_that_are_few_of_the_former_ones_are_told_in_full():
    book = Book()
    book.keep(MONTH)
    book.keep(replace(MONTH, readings=MONTH.readings[-5:]))
    book.keep(Room())
    assert "like" not in json.loads(book.rows[1][2])
    assert [len(room.readings) for _, room in book.kept.states] == [2900, 5, 0]


def test_former_air_that_cannot_be_read_is_passed_over_and_counted():
    book = Book()
    book.put(DAMAGED)
    book.keep(MONTH)
    book.put("no air")
    book.keep(Room(usual=Climate(temperature_c=8)))
    kept = book.kept
    assert [room.usual.temperature_c for _, room in kept.states] == [23, 8]
    assert kept.unread == 2


def test_the_last_air_that_cannot_be_read_is_told_until_it_is_kept_anew():
    book = Book()
    book.keep(MONTH)
    book.put(DAMAGED)
    with pytest.raises(WorkshopError, match="Keep the air anew"):
        book.kept  # noqa: B018 - reading it is what fails
    book.keep(MONTH)
    assert book.kept.states[-1][1] == MONTH


def test_a_state_whose_readings_stand_in_one_that_is_lost_cannot_be_read():
    book = Book()
    book.keep(MONTH)
    book.keep(with_reading(MONTH, reading(0)))
    with pytest.raises(WorkshopError):
        room_from(book.rows[1][2])
    with pytest.raises(WorkshopError):
        room_from(book.rows[1][2], lambda _: DAMAGED)


def test_readings_as_an_older_program_wrote_them_are_read():
    told = json.loads(room_text(replace(MONTH, readings=())))
    at = AT.isoformat()
    told["readings"] = [
        {"at": at, "climate": {"temperature_c": 9.5, "humidity_pct": 61.0, "air_m_s": 0.1}}
    ]
    read = room_from(json.dumps(told)).readings
    assert read == (
        AirReading(at=AT, climate=Climate(temperature_c=9.5, humidity_pct=61, air_m_s=0.1)),
    )


@pytest.mark.parametrize("told", ['["2026-11-29T14:00:00+00:00", 1, 2]', '["x", 1, 2, 3]', "[7]"])
def test_a_reading_of_another_form_is_refused(told):
    with pytest.raises(WorkshopError):
        room_from(f'{{"readings": [{told}]}}')


def test_what_was_mistyped_never_was():
    book = Book()
    book.keep(Room(usual=Climate(temperature_c=20)))
    book.keep(Room(usual=Climate(temperature_c=2)))
    book.keep(Room(usual=Climate(temperature_c=3)), instead=True)
    book.keep(Room(usual=Climate(temperature_c=12)), instead=True)
    states = book.kept.states
    assert [room.usual.temperature_c for _, room in states] == [20, 12]
    assert states[1][0] == AT + timedelta(hours=2)
    room = drying_room(over_time(states, AT + timedelta(hours=5)))
    air = [room.air(AT + timedelta(hours=h, minutes=5)).temperature_c for h in (0, 1, 2, 3, 4, 9)]
    assert air == [20, 20, 12, 12, 12, 12]


def test_air_kept_by_a_clock_that_stood_ahead_was_never_in_force():
    warm, cold, now = (Room(usual=Climate(temperature_c=t)) for t in (25, 5, 15))
    told = ((AT - timedelta(days=1), warm), (AT + timedelta(days=400), cold), (AT, now))
    room = drying_room(over_time(told, AT))
    hours = (-5, -0.2, 0, 3, 400 * 24 + 1)
    assert [room.air(AT + timedelta(hours=h)).temperature_c for h in hours] == [25, 25, 15, 15, 15]


def test_a_month_of_readings_kept_twice_a_day_is_reckoned_once_each(monkeypatch):
    told, room, asked = [(AT - timedelta(days=20), MONTH)], MONTH, []
    for half_day in range(-26, 1):
        at = AT + timedelta(hours=12 * half_day)
        room = with_reading(room, AirReading(at=at, climate=Climate(temperature_c=15)))
        told.append((at, room))
    real = drying_room(room).__class__.air_along
    monkeypatch.setattr(
        drying_room(room).__class__,
        "air_along",
        lambda self, at, cells: asked.append(cells) or real(self, at, cells),
    )
    over_time(told, AT)
    assert sum(asked) < 14 * 96 + 2 * len(told)
