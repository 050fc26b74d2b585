"""Timers, air and fresh starts in the workshop file, in one window and in two."""

from contextlib import ExitStack
from dataclasses import replace

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW, entry, timer_entry

from armorplan.kernel.errors import WorkshopError
from armorplan.ledger.timer_entries import TimerEntryKind
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def windows(tmp_path):
    with ExitStack() as stack:
        found = [WorkshopFile.open(tmp_path / "workshop.sqlite", FakeClock()) for _ in range(2)]
        for window in found:
            stack.callback(window.close)
        found[0].add_build(ELBOW)
        yield found


def test_entries_come_back_as_they_were_in_the_other_window(windows):
    one, two = windows
    first = one.timers.append((timer_entry(1), timer_entry(2)))
    second = two.timers.append((timer_entry(3),))
    assert [entry.seq for entry in (*first, *second)] == [1, 2, 3]
    assert one.timers.since(0) == two.timers.since(0) == (*first, *second)
    assert one.timers.since(2) == second


def test_a_start_reads_free_timers_that_run_and_the_latest_answers_only(windows, monkeypatch):
    monkeypatch.setattr("armorplan.store.timer_file._LATEST", 2)
    kinds = TimerEntryKind
    one, _ = windows
    runs, ended = timer_entry(1), timer_entry(2)
    one.timers.append(
        (
            runs,
            replace(timer_entry(1, kind=kinds.PAUSED), minutes=0),
            ended,
            timer_entry(2, kind=kinds.STOPPED),
            *(replace(timer_entry(n, kind=kinds.ANSWERED), timer="dry") for n in (3, 4, 5)),
        )
    )
    found = [(entry.timer, entry.kind, entry.text) for entry in one.timers.open()]
    assert found == [
        ("free-1", kinds.SET, "tea 1"),
        ("free-1", kinds.PAUSED, "tea 1"),
        ("dry", kinds.ANSWERED, "tea 4"),
        ("dry", kinds.ANSWERED, "tea 5"),
    ]


def test_a_builds_timers_are_kept_in_place_of_those_before(windows):
    one, two = windows
    one.timers.keep(ELBOW.id, "[1]")
    two.timers.keep(ELBOW.id, "[2]")
    (kept,) = one.timers.kept()
    assert (kept.build, kept.rows_json, kept.saved_at) == (ELBOW.id, "[2]", FakeClock().now())


def test_timers_of_no_build_are_not_kept(windows):
    with pytest.raises(WorkshopError, match="no such build"):
        windows[0].timers.keep("nobody-1", "[]")


def test_the_air_kept_last_counts(windows):
    one, two = windows
    assert one.air.last() is None
    one.air.keep("cold")
    two.air.keep("warm")
    assert one.air.last() == (2, one.air.last()[1], "warm")


def test_each_thing_has_its_latest_fresh_start(tmp_path):
    clock = FakeClock()
    window = WorkshopFile.open(tmp_path / "workshop.sqlite", clock)
    first_at = window.fresh_starts.add("dye")
    clock.advance(60)
    window.fresh_starts.add("oil")
    clock.advance(60)
    again_at = window.fresh_starts.add("dye")
    assert first_at < again_at == window.fresh_starts.latest()["dye"]
    assert list(window.fresh_starts.latest()) == ["dye", "oil"]
    window.close()


def test_the_mark_is_another_once_any_window_has_written(windows):
    one, two = windows
    before = one.mark()
    assert one.mark() == before
    two.timers.append((timer_entry(1),))
    after_other = one.mark()
    assert after_other != before
    one.timers.append((timer_entry(2),))
    assert one.mark() != after_other
    assert one.mark() == one.mark()


def test_a_build_goes_on_from_one_of_its_folder_or_with_its_entries(windows):
    one, _ = windows
    moved = replace(ELBOW, folder="/home/ib/elbow")
    for build in (
        replace(moved, id="elbow-2"),
        replace(moved, id="elbow-3"),
        replace(moved, id="other-1", pattern_uuid="another"),
        replace(ELBOW, id="elbow-4"),
    ):
        one.add_build(build)
    one.append((entry(1), entry(1, build="elbow-4"), entry(2, build="elbow-2")))
    timers = one.timers
    assert timers.go_on("elbow-3", "elbow-2")
    assert timers.go_on("elbow-4", ELBOW.id)
    assert not timers.go_on("elbow-2", "elbow-4")
    assert not timers.go_on("other-1", "elbow-2")
    # Nobody noted where these two lay.
    assert not timers.go_on("elbow-2", ELBOW.id)
