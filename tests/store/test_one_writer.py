"""One window writes; the others read along, take over when they ask, or when it ends or dies."""

import os
import subprocess
import sys
from contextlib import contextmanager
from threading import Thread

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW, entry
from store.test_migrations import add_colour, with_second_form

from armorplan.kernel.errors import WorkshopError
from armorplan.store import os_lock
from armorplan.store.connection import connect
from armorplan.store.gate import OnlyReads, ReadsAlongError
from armorplan.store.one_writer import OneWriter, Turn
from armorplan.store.os_lock import NoLocksError
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.close()
    return path


@pytest.fixture
def windows(path):
    """Three windows, the first of which writes."""
    turns = [OneWriter(path, FakeClock()) for _ in range(3)]
    assert [turn.begin() for turn in turns] == [True, False, False]
    files = [WorkshopFile.open(path, FakeClock(), turn) for turn in turns]
    yield list(zip(turns, files, strict=True))
    for turn, file in zip(turns, files, strict=True):
        file.close()
        turn.close()


def who_writes(windows):
    return [turn.writes for turn, _ in windows]


def look(windows):
    return [turn.look() for turn, _ in windows]


def test_the_second_window_is_refused_in_words_and_reads_along(windows):
    (_, first), (turn, second), _ = windows
    mark = second.mark()
    first.append((entry(1),))
    assert second.mark() != mark
    assert [event.seq for event in second.events(ELBOW.id)] == [1]
    with pytest.raises(ReadsAlongError) as refused:
        second.append((entry(2),))
    assert "This window reads along: another window (since " in str(refused.value)
    assert "Take over writing here" in str(refused.value)
    with pytest.raises(ReadsAlongError):
        second.save_plan(ELBOW.id, "{}")
    assert len(first.events(ELBOW.id)) == 1
    assert turn.look() is Turn.NOTHING


def test_a_window_that_asks_gets_the_turn_and_no_other_takes_it_in_between(windows):
    (_, first), (asker, second), _ = windows
    asker.ask()
    assert asker.wants
    assert asker.look() is Turn.NOTHING
    assert look(windows)[0] is Turn.GIVEN
    # The third one and the first look before the one that asked does: it is not theirs.
    assert windows[2][0].look() is windows[0][0].look() is Turn.NOTHING
    assert asker.writes or asker.look() is Turn.TAKEN
    assert who_writes(windows) == [False, True, False]
    assert not asker.wants
    second.append((entry(1),))
    with pytest.raises(ReadsAlongError):
        first.append((entry(2),))
    assert look(windows) == [Turn.NOTHING] * 3


def test_of_two_that_ask_each_gets_its_turn(windows):
    (first, _), (second, _), (third, _) = windows
    second.ask()
    third.ask()
    gone = []
    for _ in range(4):
        gone += [
            turn for turn, told in zip((1, 2, 3), look(windows), strict=True) if told is Turn.TAKEN
        ]
    assert gone == [2, 3]
    assert third.writes
    first.ask()
    for _ in range(2):
        look(windows)
    assert who_writes(windows) == [True, False, False]


def test_a_window_that_ends_leaves_its_turn_to_one_of_the_others(windows):
    windows[0][0].close()
    assert look(windows[1:]) == [Turn.TAKEN, Turn.NOTHING]
    windows[1][1].append((entry(1),))


def test_a_turn_is_not_given_in_the_middle_of_a_transaction(windows):
    (first, _), (second, _), _ = windows
    second.ask()
    second.look()
    with first.writing():
        told = []
        # Another thread looks, as the window does while a job of it writes.
        thread = Thread(target=lambda: told.append(first.look()))
        thread.start()
        thread.join()
    assert told == [Turn.NOTHING]
    assert first.look() is Turn.GIVEN


@contextmanager
def holder(path, tests_folder):
    process = subprocess.Popen(
        [sys.executable, str(tests_folder / "store" / "hold_the_turn.py"), str(path)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        env={**os.environ, "PYTHONPATH": str(tests_folder)},
        text=True,
    )
    with process:

        def ask(what):
            process.stdin.write(f"{what}\n")
            process.stdin.flush()
            return process.stdout.readline().strip()

        assert process.stdout.readline() == "writes\n"
        yield process, ask
        process.kill()


def test_a_window_killed_leaves_no_lock_behind(path, request):
    turn = OneWriter(path, FakeClock())
    workshop = WorkshopFile.open(path, FakeClock(), turn)
    with holder(path, request.config.rootpath / "tests") as (process, ask):
        assert ask("1") == "1"
        assert not turn.begin()
        process.kill()
        process.wait()
        assert turn.look() is Turn.TAKEN
    workshop.append((entry(2),))
    assert len(workshop.events(ELBOW.id)) == 2
    workshop.close()
    turn.close()


def test_a_window_of_another_process_gives_way(path, request):
    turn = OneWriter(path, FakeClock())
    with holder(path, request.config.rootpath / "tests") as (_, ask):
        turn.begin()
        turn.ask()
        assert turn.look() is Turn.NOTHING
        assert ask("look") == "GIVEN"
        assert turn.look() is Turn.TAKEN
        assert ask("7") == "refused"
    turn.close()


def test_a_disk_without_locks_lets_every_window_write(path, monkeypatch):
    def none(*_args, **_kwargs):
        raise NoLocksError

    monkeypatch.setattr(os_lock, "_locked", none)
    turns = [OneWriter(path, FakeClock()) for _ in range(2)]
    assert [turn.begin() for turn in turns] == [True, True]
    assert not turns[0].knows_locks
    workshop = WorkshopFile.open(path, FakeClock(), turns[1])
    workshop.append((entry(1),))
    workshop.close()


def test_a_window_that_reads_along_upgrades_nothing(path):
    before = path.read_bytes()
    with pytest.raises(WorkshopError, match="only read here"):
        connect(path, schema=with_second_form(add_colour), gate=OnlyReads(path))
    assert path.read_bytes() == before
    assert [p.name for p in path.parent.iterdir()] == [path.name]
