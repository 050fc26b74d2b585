"""Windows of drying: one, 500 over two weeks of readings, a table of 40 days, a day's list.

From cold means: no air reckoned before, as when a program begins. The ratio is against looking up
the air and adding up its paces minute by minute, in the same run. Seconds are those of this
process, however busy the machine is.
"""

from datetime import timedelta
from random import Random
from time import process_time

import pytest
from bench.stopwatch import busy_s
from drying.sample_rooms import MORNING, air, entry, nights, read_hourly

from armorplan.drying import along
from armorplan.drying.air import deficit_pa
from armorplan.drying.body import Body
from armorplan.drying.days import climates, usual_days
from armorplan.drying.pace import paces
from armorplan.drying.room import DryingRoom
from armorplan.drying.spans import Stage
from armorplan.drying.track import cell_of
from armorplan.workshop.air import Room
from armorplan.workshop.shelf import Carrier

pytestmark = [pytest.mark.bench, pytest.mark.benchmark(timer=process_time)]

TREATMENTS = (entry(id="finish"), entry(Carrier.ALCOHOL, id="dye", water_share=0.1))
BODIES = tuple(Body(thickness_mm=2.0 + tenth / 10) for tenth in range(20))
WINDOWS = 500
ONE_S, ALL_S, TABLE_S = 0.005, 0.5, 0.25


@pytest.fixture(scope="module")
def read():
    """Return a room with 336 hourly readings, no two alike."""
    chance = Random(14)  # noqa: S311 - the same air every time
    told = [
        air(round(chance.uniform(8, 24), 2), round(chance.uniform(35, 85), 2)) for _ in range(336)
    ]
    return Room(readings=read_hourly(MORNING, told), zone="Europe/Lisbon")


def forget():
    for kept in (deficit_pa, usual_days, along._kept):
        kept.cache_clear()


def asked():
    """Yield the treatment, body and start of each window."""
    for at in range(WINDOWS):
        start_at = MORNING + timedelta(minutes=40 * at)
        yield TREATMENTS[at % 2], BODIES[at % len(BODIES)], start_at


def all_windows(room):
    drying = DryingRoom(room)
    return [drying.times(coat, body, start_at) for coat, body, start_at in asked()]


def by_the_minute(room, coat, body, start_at):
    """Return the likely minutes to handle, minute by minute."""
    needed = DryingRoom(room).doses(coat, body, Stage.HANDLE)[1]
    passed, minutes, cell, pace = 0.0, 0, None, 0.0
    while passed < needed - 1e-6:
        here = cell_of(start_at + timedelta(minutes=minutes))
        if here != cell:
            cell = here
            pace = paces(coat.carrier, climates(room, cell, 1)[0], coat.water_share)[1]
        passed += pace
        minutes += 1
    return minutes


def test_500_windows_over_two_weeks_of_readings_from_cold(benchmark, read):
    found = benchmark.pedantic(all_windows, args=(read,), setup=forget, rounds=5)
    for at in range(0, WINDOWS, 100):
        coat, body, start_at = list(asked())[at]
        slowly_min = by_the_minute(read, coat, body, start_at)
        assert abs(found[at].likely_min(Stage.HANDLE) - slowly_min) <= 1
    if benchmark.enabled:
        slow = [case for at, case in enumerate(asked()) if at % 50 == 0]
        slow_s = busy_s(lambda: [by_the_minute(read, *case) for case in slow])
        benchmark.extra_info["ratio_to_minutes"] = (
            benchmark.stats.stats.min / WINDOWS / (slow_s / len(slow))
        )
        assert benchmark.stats.stats.min <= ALL_S


@pytest.mark.parametrize("warm", [False, True])
def test_one_window_of_a_day_told_by_hours(benchmark, warm):
    room = Room(by_hour=nights(8.0), zone="Europe/Lisbon")
    kept = DryingRoom(room)

    def one():
        asked_room = kept if warm else DryingRoom(room)
        return asked_room.times(TREATMENTS[0], BODIES[3], MORNING)

    found = benchmark.pedantic(one, setup=None if warm else forget, rounds=20)
    assert found.likely_min(Stage.HANDLE)
    if benchmark.enabled:
        assert benchmark.stats.stats.min <= ONE_S


def test_one_window_more_over_readings(benchmark, read):
    kept = DryingRoom(read)
    kept.times(TREATMENTS[0], BODIES[3], MORNING)
    found = benchmark(kept.times, TREATMENTS[0], BODIES[4], MORNING + timedelta(days=3))
    assert found.likely_min(Stage.HANDLE)
    if benchmark.enabled:
        assert benchmark.stats.stats.min <= ONE_S


def test_a_table_of_40_days_from_cold(benchmark, read):
    def table():
        return DryingRoom(read).table(TREATMENTS[0], BODIES[3], Stage.HANDLE, MORNING, 40 * 96)

    found = benchmark.pedantic(table, setup=forget, rounds=5)
    assert len(found) == 40 * 96
    if benchmark.enabled:
        assert benchmark.stats.stats.min <= TABLE_S


def test_a_day_s_list_of_1000_steps_asks_for_few_windows(benchmark, read):
    kept = DryingRoom(read)
    found = benchmark(
        lambda: [kept.usual(coat, body) for coat in TREATMENTS for body in BODIES * 25]
    )
    assert len(found) == 1000
