from datetime import UTC, timedelta

from armorplan.kernel.clock import SystemClock


def test_the_clock_runs_in_utc_and_forward():
    clock = SystemClock()
    first, later = clock.now(), clock.now()
    assert first.tzinfo is UTC
    assert first <= later < first + timedelta(minutes=1)
    assert clock.boot_seconds() <= clock.boot_seconds()


def test_the_boot_has_one_name():
    clock = SystemClock()
    assert clock.boot_id() == clock.boot_id() != ""
