"""What a key press costs: deriving the state of a long build, and a commit to the disk."""

import os

import pytest
from bench.stopwatch import best_s
from clocks import FakeClock
from ledger.sitting import Sitting
from store.shelf_of_builds import ELBOW, entry

from armorplan.ledger.state import derive
from armorplan.store.workshop_file import WorkshopFile

pytestmark = pytest.mark.bench


def long_build():
    """Make 5,000 entries of starts, pauses, ticks and undos over 400 steps."""
    events = ()
    sitting = Sitting()
    for step in (f"step-{number}" for number in range(400)):
        sitting.events = ()
        sitting.start(step)
        sitting.pause(step)
        sitting.start(step)
        sitting.done(step)
        for _ in range(2):
            sitting.undo()
            sitting.redo()
        sitting.note(step, "so")
        sitting.undo()
        sitting.sign_off(step)
        sitting.done(f"{step}/b")
        sitting.undo()
        events += sitting.events
    assert len(events) >= 5000
    return events[:5000]


def test_deriving_5000_entries_against_reading_them_once(benchmark):
    """Target 50 ms."""
    events = long_build()
    kinds = best_s(lambda: {event.step: event.kind for event in events})
    benchmark(derive, events)
    benchmark.extra_info["ratio_to_one_pass"] = round(best_s(lambda: derive(events)) / kinds, 1)


def test_a_commit_against_a_bare_sync_of_one_page(benchmark, tmp_path):
    """A commit in WAL mode is a write of some pages and one sync."""
    workshop = WorkshopFile.open(tmp_path / "workshop.sqlite", FakeClock())
    workshop.add_build(ELBOW)
    with (tmp_path / "bare").open("wb", buffering=0) as bare:

        def sync_a_page():
            bare.write(b"\0" * 4096)
            os.fsync(bare.fileno())

        bare_s = best_s(sync_a_page, rounds=100)
    benchmark(workshop.append, (entry(1),))
    commit_s = best_s(lambda: workshop.append((entry(1),)), rounds=100)
    benchmark.extra_info["ratio_to_a_bare_sync"] = round(commit_s / bare_s, 1)
    workshop.close()


def test_opening_5000_entries_against_reading_them(benchmark, tmp_path):
    """Opening checks every page of the file."""
    path = tmp_path / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.append(tuple(entry(number) for number in range(5000)))
    read_s = best_s(lambda: workshop.events(ELBOW.id), rounds=10)
    workshop.close()

    def open_and_close():
        WorkshopFile.open(path, FakeClock()).close()

    benchmark(open_and_close)
    benchmark.extra_info["ratio_to_reading"] = round(best_s(open_and_close) / read_s, 1)
