"""Several windows on one workshop file, in this process and in others."""

import os
import subprocess
import sys
from contextlib import ExitStack

import pytest
from clocks import FakeClock
from ledger.sitting import Sitting
from store.shelf_of_builds import ELBOW, entry

from armorplan.ledger.state import derive
from armorplan.store.workshop_file import WorkshopFile


def run_windows(path, tests_folder, windows, presses):
    """Let processes open the file and append, all let go at the same moment."""
    script = str(tests_folder / "store" / "append_some.py")
    with ExitStack() as stack:
        processes = [
            stack.enter_context(
                subprocess.Popen(
                    [sys.executable, script, str(path), f"window{number}", str(presses)],
                    stdin=subprocess.PIPE,
                    stdout=subprocess.PIPE,
                    env={**os.environ, "PYTHONPATH": str(tests_folder)},
                    text=True,
                )
            )
            for number in range(windows)
        ]
        for process in processes:
            assert process.stdout.readline() == "ready\n"
        for process in processes:
            process.stdin.write("go\n")
            process.stdin.flush()
        return [process.wait(timeout=60) for process in processes]


@pytest.fixture
def tests_folder(request):
    return request.config.rootpath / "tests"


def check_all_there(path, windows, presses):
    workshop = WorkshopFile.open(path, FakeClock())
    events = workshop.events(ELBOW.id)
    workshop.close()
    assert [event.seq for event in events] == list(range(1, 2 * windows * presses + 1))
    for number in range(windows):
        mine = [event.batch for event in events if event.batch.startswith(f"window{number}-")]
        assert mine == [f"window{number}-{press}" for press in range(presses) for _ in "ab"]
    # A press is one transaction, so no other window's entries come between its own.
    batches = [event.batch for event in events]
    assert batches[::2] == batches[1::2]


def test_two_processes_append_at_once_and_both_succeed(tmp_path, tests_folder):
    path = tmp_path / "workshop.sqlite"
    WorkshopFile.open(path, FakeClock()).close()
    assert run_windows(path, tests_folder, 2, 60) == [0, 0]
    check_all_there(path, 2, 60)


def test_windows_that_open_a_new_file_at_once_all_succeed(tmp_path, tests_folder):
    path = tmp_path / "workshop.sqlite"
    assert run_windows(path, tests_folder, 4, 1) == [0] * 4
    check_all_there(path, 4, 1)


@pytest.mark.long
def test_windows_that_open_a_new_file_at_once_all_succeed_every_time(tmp_path, tests_folder):
    for number in range(60):
        path = tmp_path / f"workshop-{number}.sqlite"
        assert run_windows(path, tests_folder, 4, 1) == [0] * 4
        check_all_there(path, 4, 1)


def test_a_window_that_has_read_may_write_after_another_has_written(tmp_path):
    """Reading first must not pin an old view, from which a write is refused at once."""
    path = tmp_path / "workshop.sqlite"
    one, two = (WorkshopFile.open(path, FakeClock()) for _ in range(2))
    one.add_build(ELBOW)
    for press in range(5):
        assert len(one.events(ELBOW.id)) == 2 * press
        assert len(two.events(ELBOW.id)) == 2 * press
        two.append((entry(2 * press),))
        one.append((entry(2 * press + 1),))
    one.close()
    two.close()


def test_two_windows_that_read_along_agree_on_the_state(tmp_path):
    path = tmp_path / "workshop.sqlite"
    one, two = (WorkshopFile.open(path, FakeClock()) for _ in range(2))
    one.add_build(ELBOW)
    mine, theirs = Sitting(append=one.append), Sitting(append=two.append, name="other")
    mine.done("cut")
    theirs.events += two.events_since(ELBOW.id, theirs.state.last_seq)
    theirs.start("bevel")
    theirs.undo()
    mine.events += one.events_since(ELBOW.id, mine.state.last_seq)
    assert mine.state == theirs.state == derive(one.events(ELBOW.id))
    assert mine.state.done_order == ("cut",)
    one.close()
    two.close()


def test_closing_one_window_leaves_the_other_able_to_write(tmp_path):
    path = tmp_path / "workshop.sqlite"
    one, two = (WorkshopFile.open(path, FakeClock()) for _ in range(2))
    one.add_build(ELBOW)
    one.close()
    two.append((entry(1),))
    two.close()
    again = WorkshopFile.open(path, FakeClock())
    assert len(again.events(ELBOW.id)) == 1
    again.close()
