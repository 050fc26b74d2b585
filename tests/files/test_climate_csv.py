"""A logger's file: forms it may have, and what is told of one that is not right."""

import random
from datetime import UTC, datetime, timedelta
from time import perf_counter

import pytest

from armorplan.files import climate_csv
from armorplan.files.climate_csv import air_log, read_air_log
from armorplan.files.log_units import Meant
from armorplan.kernel.findings import Severity
from armorplan.workshop.air import AirReading, Climate

TEN = datetime(2026, 1, 5, 10, tzinfo=UTC)
"""Ten o'clock in Lisbon's winter."""


def _log(text, zone="Europe/Lisbon", **meant):
    data = text if isinstance(text, bytes) else text.encode()
    return air_log("air.csv", data, zone=zone, **meant)


def _codes(log):
    return [finding.code for finding in log.findings]


@pytest.mark.parametrize(
    "text",
    [
        "time,temperature,humidity\n2026-01-05 10:00,18.5,55\n",
        "time,temperature,humidity\n2026-01-05T10:00:00Z,18.5,55\n",
        "timestamp;T;RH\n2026-01-05 11:00+01:00;18,5;55,0\n",
        "Timestamp\tTemp °C\t%RH\n05.01.2026 10:00\t18,5\t55 %\n",
        "Date;Time;Temp (°C);Rel. humidity (%)\n05.01.2026;10:00;18,5;55\n",
        "Date,Time,Humidity,Temperature\n2026-01-05,10:00:00,55,18.5 °C\n",
        '"Date Time, GMT+01:00","Temp, °C","RH, %"\n"05/01/2026 11:00","18,5","55"\n',
        "time,temperature °F,humidity\n2026-01-05 10:00,65.3,55\n",
        "time,temp,rh\n2026-01-05 10:00,65.3°F,55\n",
        "time,temp_f,rh\n2026-01-05 10:00,65.3,55\n",
        "time,temp,rh\n,°F,%\n2026-01-05 10:00,65.3,55\n",
        "time,temp,rh\n1767607200,18.5,55\n",
        "time,temp,rh\n1767607200000,18.5,55\n",
        "time,temp,rh\n5 Jan 2026 10:00 AM,18.5,55\n",
        "serial 12\n\nmodel of no name\ntime,temp,rh\n2026-01-05 10:00,18.5,55,\n\n",
        "time,dew point temp,temp,battery %,rh\n2026-01-05 10:00,9,18.5,100,55\n",
        "2026-01-05 10:00;18,5;55\n",
        "2026-01-05,10:00,18.5,55\n",
        "time,temp,rh\r2026-01-05 10:00,18.5,55\r",
    ],
)
@pytest.mark.parametrize("coding", ["utf-8-sig", "utf-16", "utf-16-le", "latin-1"])
def test_forms_that_are_read(text, coding):
    log = _log(text.encode(coding))
    reading = AirReading(at=TEN, climate=Climate(temperature_c=18.5, humidity_pct=55.0))
    assert log.readings == (reading,)
    assert [f for f in log.findings if f.code != "log-doubtful-day"] == []


def test_air_speed_is_read_in_its_unit_and_is_the_usual_where_it_is_not_told():
    told = _log("time,temp,rh,wind km/h\n2026-01-05 10:00,18,55,3.6\n2026-01-05 10:10,18,55,\n")
    assert [r.climate.air_m_s for r in told.readings] == [1.0, 0.1]
    usual = air_log("a.csv", b"time,temp,rh\n2026-01-05 10:00,18,55\n", zone="UTC", air_m_s=0.4)
    assert usual.readings[0].climate.air_m_s == 0.4


@pytest.mark.parametrize(
    ("days", "first", "doubtful"),
    [
        (("03/04/2026", "13/04/2026"), datetime(2026, 4, 3, 10, tzinfo=UTC), False),
        (("03/04/2026", "03/14/2026"), datetime(2026, 3, 4, 10, tzinfo=UTC), False),
        (("03.04.2026", "04.04.2026"), datetime(2026, 4, 3, 10, tzinfo=UTC), False),
        (("3/4/26", "4/4/26"), datetime(2026, 4, 3, 10, tzinfo=UTC), True),
    ],
)
def test_day_and_month_are_told_apart_or_asked_for(days, first, doubtful):
    rows = "".join(f"{day} 10:00,18,55\n" for day in days)
    log = _log(f"time,temp,rh\n{rows}", zone="UTC")
    assert log.readings[0].at == first
    assert ("log-doubtful-day" in _codes(log)) == doubtful
    if doubtful:
        assert "read as 3 April 2026" in str(log.findings[0])


def test_the_hour_that_comes_twice_is_told_apart_by_the_order_of_rows():
    clocks = ["00:00", "00:30", "01:00", "01:30", "01:00", "01:30", "02:00"]
    log = _log("time,temp,rh\n" + "".join(f"2026-10-25 {c},15,60\n" for c in clocks))
    begins = datetime(2026, 10, 24, 23, tzinfo=UTC)
    assert [r.at for r in log.readings] == [begins + timedelta(minutes=30 * n) for n in range(7)]
    assert _codes(log) == ["log-repeated-hour"]


def test_the_hour_left_out_in_spring_is_told_and_mended_by_an_offset_in_the_header():
    clocks = ["00:30", "01:00", "01:30", "02:00"]
    rows = "".join(f"2026-03-29 {c},15,60\n" for c in clocks)
    log = _log(f"time,temp,rh\n{rows}")
    assert [f"{r.at:%H:%M}" for r in log.readings] == ["00:30", "01:00"]
    assert _codes(log) == ["log-skipped-hour"]
    assert "lines 3, 4" in str(log.findings[0])
    assert "time (UTC+0000)" in log.findings[0].remedy
    mended = _log(f"time (UTC+0000),temp,rh\n{rows}")
    assert [f"{r.at:%H:%M}" for r in mended.readings] == clocks
    assert mended.findings == ()


def test_newest_first_is_read_without_a_word():
    rows = "".join(f"2026-01-05 {hour:02}:00,{hour},60\n" for hour in range(12, 2, -1))
    log = _log(f"time,temp,rh\n{rows}")
    assert [r.climate.temperature_c for r in log.readings] == list(range(3, 13))
    assert log.findings == ()


def test_backward_and_double_times_are_put_right_and_told():
    rows = [("10:00", 15), ("09:00", 14), ("11:00", 16), ("11:00", 17), ("12:00", 18)]
    log = _log("time,temp,rh\n" + "".join(f"2026-01-05 {c},{t},60\n" for c, t in rows))
    assert [r.climate.temperature_c for r in log.readings] == [14, 15, 17, 18]
    assert [(f.code, f.place.line) for f in log.findings] == [
        ("log-backward", 3),
        ("log-twice", 5),
    ]


def test_gaps_are_told_once_with_the_longest():
    rows = "".join(f"2026-01-05 {hour:02}:00,15,60\n" for hour in (0, 3, 7, 12, 13))
    log = _log(f"time,temp,rh\n{rows}")
    assert _codes(log) == ["log-gap"]
    assert "2 gaps, the longest of 5 h from 2026-01-05 07:00" in str(log.findings[0])


def test_rows_that_cannot_be_are_left_out_told_once_a_kind_and_the_rest_goes_on():
    good = "".join(f"2026-01-05 {hour:02}:00,15,60,0.2\n" for hour in range(10, 18))
    bad = "".join(f"2026-01-05 18:{minute:02},15,{100 + minute},0.2\n" for minute in range(1, 10))
    others = "soon,15,60,0.2\n2026-01-05 19:00,--,60,0.2\n2026-01-05 19:00,15,60,-0.2\n2026-13-05 19:00,1\n"
    log = _log(f"time,temp,rh,air speed\n{good}{bad}{others}")
    assert len(log.readings) == 8
    told = {finding.code: finding for finding in log.findings}
    assert set(told) == {"log-humidity", "log-time", "log-temperature", "log-air-speed"}
    assert "9 rows" in told["log-humidity"].text
    assert "lines 10, 11, 12, 13 and 5 more" in told["log-humidity"].text
    assert '"101"' in told["log-humidity"].text
    assert '"-0.2"' in told["log-air-speed"].text
    assert all(finding.severity is Severity.WARNING for finding in log.findings)


@pytest.mark.parametrize(
    ("mean", "severity", "kept"), [(52, Severity.WARNING, 1), (72, Severity.ERROR, 0)]
)
def test_fahrenheit_under_celsius_is_asked_for(mean, severity, kept):
    log = _log(f"time,temp °C,rh\n2026-01-05 10:00,{mean},55\n")
    assert len(log.readings) == kept
    (finding,) = log.findings
    assert (finding.code, finding.severity) == ("fahrenheit-perhaps", severity)
    # (72 - 32) / 1.8 = 22.2; (52 - 32) / 1.8 = 11.1
    assert f"it is {22 if mean == 72 else 11} °C" in finding.text


NO_UNIT = "time,temperature,humidity\n" + "".join(
    f"2026-01-05 {hour:02}:00,{61 if 8 <= hour < 20 else 50},{55}\n" for hour in range(24)
)


def test_a_file_in_fahrenheit_without_a_unit_is_asked_about_as_a_whole():
    log = _log(NO_UNIT)
    assert log.readings == ()
    (question,) = log.questions
    assert log.findings == (question.finding,)
    assert question.finding.severity is Severity.ERROR
    # (50 - 32) / 1.8 = 10; (61 - 32) / 1.8 = 16.1
    assert question.words == "10 to 16.1 °C"
    assert "Then it is 10 to 16.1 °C" in question.finding.text
    assert not question.may_stay
    taken = _log(NO_UNIT, meant=frozenset({Meant.FAHRENHEIT}))
    assert {r.climate.temperature_c for r in taken.readings} == {10, 16.11}
    assert (len(taken.readings), taken.findings) == (24, ())


@pytest.mark.parametrize(
    "head", ["time,temperature °F,humidity", "time,tempF,rh", "time,temp,rh\n,F,%"]
)
def test_a_header_that_says_the_unit_answers_the_question(head):
    rows = NO_UNIT.partition("\n")[2]
    log = _log(f"{head}\n{rows}")
    assert (len(log.readings), log.questions) == (24, ())
    assert max(r.climate.temperature_c for r in log.readings) < 17


@pytest.mark.parametrize(
    ("warm", "asked"),
    [
        ([31, 31, 30], False),  # a hot summer in °C
        ([18, 19, 20, 85, *[18] * 20], False),  # one reading of a sensor that lay in the sun
        ([35, 38, 41], True),  # a shed in winter in °F
        ([28, 30, 31, 44, 45], True),  # frost, and a warm noon
        ([250, 251], False),  # nothing in any unit
    ],
)
def test_only_what_no_shop_is_in_celsius_is_asked_about(warm, asked):
    rows = "".join(f"2026-01-05 10:{at:02},{value},55\n" for at, value in enumerate(warm))
    assert bool(_log(f"time,temp,rh\n{rows}").questions) is asked
    assert _log(f"time,temp °C,rh\n{rows}").questions == ()


def test_humidity_told_as_a_share_is_asked_about_and_taken_as_one_where_it_says_so():
    rows = "2026-01-05 10:00,16,0.65\n2026-01-05 11:00,16,0.85\n"
    log = _log(f"time,temp °C,humidity\n{rows}")
    assert log.readings == ()
    (question,) = log.questions
    assert "Is that a share? Then it is 65 to 85 %." in question.finding.text
    for told in (
        _log(f"time,temp °C,humidity (share)\n{rows}"),
        _log(f"time,temp °C,humidity\n{rows}", meant=frozenset({Meant.SHARE})),
    ):
        assert [r.climate.humidity_pct for r in told.readings] == [65, 85]


@pytest.mark.parametrize(
    ("data", "code"),
    [
        (b"", "log-empty"),
        (b"\n\r\n ; ;\n", "log-empty"),
        (b"\xef\xbb\xbf", "log-empty"),
        (b"PK\x03\x04rest", "log-not-text"),
        (b"ab\0\0\0cd\0", "log-not-text"),
        (b"nothing here\nof this kind\n", "log-no-header"),
        (b"time,temp\n2026-01-05 10:00,18\n", "log-lacks-column"),
        (b"temp,rh\n18,55\n", "log-lacks-column"),
        (b"time,temp,rh\n", "log-no-rows"),
        (b"time,temp,rh\nx,y,z\n", "log-no-rows"),
        (b"time,temp,rh\n2026-01-05 10:00,18,5,55,0\n", "log-two-commas"),
        (b"time,temp,rh\n0001-01-01 00:00,18,55\n9999-12-31 23:59,18,55\n", "log-no-rows"),
    ],
)
def test_what_cannot_be_used_at_all_is_one_error(data, code):
    log = _log(data)
    assert log.readings == ()
    assert log.findings[0].code == code
    assert log.findings[0].severity is Severity.ERROR


def test_files_that_are_not_there_or_too_long(tmp_path, monkeypatch):
    (missing,) = read_air_log(tmp_path / "gone.csv", zone="UTC").findings
    assert missing.code == "no-such-file"
    (tmp_path / "long.csv").write_bytes(b"time,temp,rh\n" * 9)
    monkeypatch.setattr(climate_csv, "MAX_LOG_BYTES", 100)
    (long,) = read_air_log(tmp_path / "long.csv", zone="UTC").findings
    assert long.code == "too-large"


def test_of_very_many_rows_evenly_many_are_read(monkeypatch):
    monkeypatch.setattr(climate_csv, "MAX_LOG_ROWS", 30)
    rows = "".join(f"2026-01-05 {n // 60:02}:{n % 60:02},15,60\n" for n in range(100))
    log = _log(f"time,temp,rh\n{rows}")
    assert len(log.readings) == 25
    assert log.readings[-1].at - log.readings[0].at == timedelta(minutes=96)
    assert _codes(log) == ["log-thinned"]


def test_a_year_of_ten_minutes_is_read_in_seconds():
    first = datetime(2025, 1, 1)  # noqa: DTZ001 - as a logger writes it
    rows = "".join(
        f"{first + timedelta(minutes=10 * n)},{15 + n % 9},{50 + n % 7}\n" for n in range(52_560)
    )
    since = perf_counter()
    log = _log(f"time,temp,rh\n{rows}")
    assert perf_counter() - since < 10
    # Six rows lie in the hour that Lisbon's clocks leave out.
    assert len(log.readings) == 52_560 - 6


_PIECES = ["time", "temp", "rh", "°F", "2026-01-05", "10:00", "25/10/2026 01:30", "18,5", "1e9", "-", ";",
           ",", "\t", "\n", "\r", '"', "''", "\0", "nan", "inf", "99999999999999", "é", "\ufeff", "%",
           "+25:00", "UTC+99", "24:00", "٣", "2026-02-30", "0"]  # fmt: skip


def test_no_file_however_odd_ends_in_a_fault_of_ours():
    chance = random.Random(7)  # noqa: S311
    head = "date;time;temp;rh\n"
    for _ in range(600):
        text = "".join(chance.choice(_PIECES) for _ in range(chance.randrange(80)))
        coding = chance.choice(("utf-8", "utf-16", "latin-1"))
        data = (chance.choice(("", head)) + text).encode(coding, errors="replace")
        log = _log(data, zone=chance.choice(("UTC", "Europe/Lisbon", "Australia/Lord_Howe")))
        assert log.readings or log.findings
        instants = [reading.at for reading in log.readings]
        assert instants == sorted(set(instants))
        assert all(0 <= r.climate.humidity_pct <= 100 for r in log.readings)
    for _ in range(300):
        _log(chance.randbytes(chance.randrange(200)))
