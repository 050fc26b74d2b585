"""A program killed with -9 in mid-write loses nothing it had acknowledged.

What this cannot show is a loss of power; for that the file relies on ``synchronous = FULL``.
"""

import os
import subprocess
import sys
from collections import Counter

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW

from armorplan.ledger.state import derive
from armorplan.store.workshop_file import WorkshopFile


def acknowledged_before_kill(path, tests_folder, name, after):
    """Let a process append, kill it after this many acknowledgements, return all it made."""
    process = subprocess.Popen(
        [sys.executable, str(tests_folder / "store" / "append_forever.py"), str(path), name],
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(tests_folder)},
        text=True,
    )
    with process:
        told = [process.stdout.readline() for _ in range(after)]
        process.kill()
        told += process.stdout.readlines()
    assert process.returncode != 0
    # The kill may cut the last line off; what was cut was told to nobody.
    return [line.split() for line in told if line.endswith("\n")]


def kill_over_and_over(path, tests_folder, kills):
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.close()
    acknowledged = {}
    for kill in range(kills):
        told = acknowledged_before_kill(path, tests_folder, f"run{kill}", 1 + 17 * kill % 40)
        acknowledged |= {batch: int(seq) for batch, seq in told}
        workshop = WorkshopFile.open(path, FakeClock())
        events = workshop.events(ELBOW.id)
        workshop.close()
        stored = {event.batch: event.seq for event in events}
        assert acknowledged.items() <= stored.items()
        # A tray is stored whole or not at all, and no number is missing or given twice.
        assert set(Counter(event.batch for event in events).values()) == {3}
        assert [event.seq for event in events] == list(range(1, len(events) + 1))
        # At most the press that was under way when it was killed goes beyond what was told.
        assert len(stored) - len(acknowledged) <= kill + 1
        assert len(derive(events).undo_side) == len(stored)
    return len(acknowledged)


@pytest.fixture
def tests_folder(request):
    return request.config.rootpath / "tests"


def test_ten_kills_lose_nothing_acknowledged(tmp_path, tests_folder):
    path = tmp_path / "workshop.sqlite"
    assert kill_over_and_over(path, tests_folder, 10) > 10


@pytest.mark.long
def test_two_hundred_kills_lose_nothing_acknowledged(tmp_path, tests_folder):
    path = tmp_path / "workshop.sqlite"
    assert kill_over_and_over(path, tests_folder, 200) > 200
