"""What is asked of a week in one line: read, said in words, and refused with what would be fine."""

from dataclasses import replace
from datetime import UTC, datetime

import pytest
from schedule.hand_shops import DAY, HOUR, racks

from armorplan.app.what_if_plan import asked_of, usual_asks
from armorplan.kernel.errors import ArmorplanError
from armorplan.schedule.problem import Bath, Resource
from armorplan.schedule.what_if import AnotherBath, AnotherPair, Away, ExtraHours, MorePlaces
from armorplan.workshop.places import DipBath, Rack, Station
from armorplan.workshop.shop import Person, Shop, usual_hours

SHOP = Shop(
    zone="Europe/Lisbon",
    people=(Person(id="m", name="Mestre", hours=usual_hours()),),
    racks=(Rack(id="rack", name="Drying line", line_mm=1),),
    baths=(DipBath(id="vat", name="Zinc vat", area_dm2=40),),
    stations=(Station(id="press", name="Press", kinds=("form",)),),
)
BENCH = replace(
    racks(),
    baths=(Bath(id="vat", capacity=40),),
    resources=(Resource(id="rack", capacity=1), Resource(id="press", capacity=1)),
)


@pytest.mark.parametrize(
    ("text", "title", "what"),
    [
        ("rack:+1", "one more like Drying line", MorePlaces(resource="rack", amount=1)),
        ("zinc vat:+1", "one more like Zinc vat", AnotherBath(bath="vat")),
        ("press:+1", "one more like Press", MorePlaces(resource="press", amount=1)),
        ("m:+1", "one more like Mestre", AnotherPair(who="m")),
        (
            "extra:m:2025-03-04T18:00-21:00",
            "Mestre also there Tuesday 18:00–21:00",
            ExtraHours(who="m", window=(DAY + 10 * HOUR, DAY + 13 * HOUR)),
        ),
        (
            "away:mestre:2025-03-04..2025-03-05",
            "Mestre away Tuesday to Wednesday",
            Away(who="m", window=(16 * HOUR, 16 * HOUR + 2 * DAY)),
        ),
        (
            "away:m:2025-03-04T13:00..2025-03-05T12:00",
            "Mestre away Tuesday 13:00 to Wednesday 12:00",
            Away(who="m", window=(DAY + 5 * HOUR, 2 * DAY + 4 * HOUR)),
        ),
        (
            "extra:m:2025-03-04T22:00-01:00",
            "Mestre also there Tuesday 22:00 to Wednesday 01:00",
            ExtraHours(who="m", window=(DAY + 14 * HOUR, DAY + 17 * HOUR)),
        ),
    ],
)
def test_a_change_is_read_and_said(text, title, what):
    asked = asked_of(text, BENCH, SHOP)
    assert (asked.title, asked.whats) == (title, (what,))
    asked.of(BENCH)


def test_changes_joined_by_a_comma_are_made_together():
    asked = asked_of("rack:+2, m:+1", BENCH, SHOP)
    assert asked.title == "2 more like Drying line and one more like Mestre"
    assert asked.of(BENCH).resources[0].capacity == 3
    assert len(asked.of(BENCH).workers) == 2


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("shelf:+1", "'shelf' is not in this shop, or in no plan. There is: rack, vat, press, m."),
        ("rack:+0", "asks for 0 more. Ask for 1 to 9."),
        ("rack", "is not read. Write NAME:+N"),
        ("", "asks nothing"),
        ("away:bo:2025-03-04", "nobody here is called 'bo'. There is: m."),
        ("away:m:tomorrow", "'tomorrow' is no stretch of time"),
        ("away:m:2025-02-30", "day is out of range"),
        ("away:m:2025-03-06..2025-03-04", "ends before it begins"),
        ("away:m:2031-03-04", "outside the days that are planned"),
        ("extra:m:2025-03-04T25:00-26:00", "hour must be in 0..23"),
    ],
)
def test_what_cannot_be_read_says_what_would_be_fine(text, said):
    with pytest.raises(ArmorplanError) as refused:
        asked_of(text, BENCH, SHOP)
    assert said in str(refused.value)


def test_a_time_that_the_clock_leaves_out_is_no_time():
    """Lisbon put its clocks forward at 01:00 on 30 March 2025 (IANA time zone database)."""
    bench = replace(BENCH, origin_at=datetime(2025, 3, 24, 8, tzinfo=UTC))
    with pytest.raises(ArmorplanError, match="put forward over 2025-03-30 01:30"):
        asked_of("extra:m:2025-03-30T01:30-03:00", bench, SHOP)
    day = asked_of("away:m:2025-03-30", bench, SHOP).whats[0]
    assert day.window[1] - day.window[0] == 23 * HOUR


def test_what_is_worth_asking_can_be_read_again():
    texts = usual_asks(BENCH, SHOP)
    assert texts == (
        "rack:+1",
        "vat:+1",
        "press:+1",
        "m:+1",
        "extra:m:2025-03-04T18:00-21:00",
        "away:m:2025-03-04",
    )
    for text in texts:
        assert asked_of(text, BENCH, SHOP).text == text
