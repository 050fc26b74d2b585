"""A curve says the same as the times: it gets to 100 % when they say it is dry to handle."""

from dataclasses import replace
from datetime import timedelta

import pytest
from drying.sample_rooms import MORNING, air, cold_nights, entry

from armorplan.drying.body import Body
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import Stage
from armorplan.workshop.air import Room

BODY = Body(thickness_mm=4.0)
ROOMS = {"steady": Room(usual=air(15.0, 60.0)), "nights": cold_nights()}


def first_dry(at, pct):
    return next(instant for instant, share in zip(at, pct, strict=True) if share > 99.999)


@pytest.mark.parametrize("room", ROOMS)
def test_each_line_is_dry_with_its_span_and_stays_so(room):
    start_at = MORNING + timedelta(minutes=7)
    asked = DryingRoom(ROOMS[room])
    curve = asked.curve(entry(), BODY, start_at, start_at + timedelta(days=8))
    span = asked.times(entry(), BODY, start_at).spans[Stage.HANDLE]
    lines = (curve.dry_pct_high, curve.dry_pct_likely, curve.dry_pct_low)
    spans = (span.soonest_min, span.likely_min, span.latest_min)
    for pct, minutes in zip(lines, spans, strict=True):
        assert list(pct) == sorted(pct)
        assert pct[0] == 0.0
        assert pct[-1] == 100.0
        late = first_dry(curve.at, pct) - (start_at + timedelta(minutes=minutes))
        assert timedelta(minutes=-1) <= late <= timedelta(seconds=1)


def test_what_dries_within_one_quarter_of_an_hour_bends_where_its_windows_lie():
    start_at = MORNING + timedelta(minutes=3)
    quick = replace(entry(), touch_min=4, handle_min=8, window_min=None)
    asked = DryingRoom(Room())
    curve = asked.curve(quick, Body(), start_at, start_at + timedelta(minutes=60))
    for stage in (Stage.TOUCH, Stage.HANDLE):
        after = start_at + timedelta(minutes=asked.minutes(quick, Body(), stage, start_at))
        share = dict(zip(curve.at, curve.dry_pct_likely, strict=True))[after]
        assert share == pytest.approx(50.0 if stage is Stage.TOUCH else 100.0)


def test_it_lies_on_the_quarters_of_an_hour_between_its_ends():
    start_at, until_at = MORNING + timedelta(minutes=7), MORNING + timedelta(minutes=50)
    curve = DryingRoom(cold_nights()).curve(entry(), BODY, start_at, until_at)
    minutes = [(at - MORNING).total_seconds() / 60 for at in curve.at]
    assert {7, 15, 30, 45, 50} <= set(minutes)
    assert minutes == sorted(minutes)
    assert DryingRoom(Room()).curve(entry(), BODY, start_at, start_at).at == (start_at,)


def test_it_shows_the_air_it_goes_through():
    evening = MORNING.replace(hour=19, minute=50)
    night = evening.replace(hour=20, minute=0)
    curve = DryingRoom(cold_nights(8.0)).curve(entry(), BODY, evening, night)
    assert curve.temperature_c == (20.0, 8.0)
    assert curve.humidity_pct == (55.0, 55.0)
    assert curve.air_m_s == (0.1, 0.1)


def test_an_end_before_the_start_is_told():
    with pytest.raises(ValueError, match="before it begins"):
        DryingRoom(Room()).curve(entry(), BODY, MORNING, MORNING - timedelta(minutes=1))
