"""What cut a leather last, on each machine; what no longer does is not offered."""

from dataclasses import replace
from datetime import UTC, datetime, timedelta

from armorplan.workshop.cut_settings import CutResult, CutSetting, last_good

FIRST = CutSetting(
    at=datetime(2027, 3, 1, 9, tzinfo=UTC),
    machine="loft laser",
    leather="strap",
    thickness_mm=2.8,
    words="power 60, speed 12",
    passes=2,
    result=CutResult.THROUGH,
    kerf_mm=0.2,
)


def later(days: int, **changed) -> CutSetting:
    return replace(FIRST, at=FIRST.at + timedelta(days=days), **changed)


def test_the_last_that_cut_through_is_offered_for_each_machine():
    better = later(1, words="power 55, speed 12")
    table = later(2, machine="knife table", words="blade 45")
    assert last_good((FIRST, better, table), "strap", 2.8) == (table, better)


def test_what_did_not_cut_through_is_never_offered():
    weak = later(1, words="power 30, speed 20", result=CutResult.SPOTS)
    assert last_good((FIRST, weak), "strap", 2.8) == (FIRST,)
    assert last_good((weak,), "strap", 2.8) == ()


def test_a_setting_that_fails_later_is_offered_no_more():
    dirty = later(9, words="POWER 60, speed 12", result=CutResult.NOT_THROUGH)
    assert last_good((FIRST, dirty), "strap", 2.8) == ()
    other_passes = replace(dirty, passes=1)
    assert last_good((FIRST, other_passes), "strap", 2.8) == (FIRST,)


def test_only_such_a_leather_counts():
    assert last_good((FIRST,), "strap", 3.0) == (FIRST,)
    assert last_good((FIRST,), "strap", 3.4) == ()
    assert last_good((FIRST,), "trim", 2.8) == ()
