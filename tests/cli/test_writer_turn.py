"""Commands that write take their turn; a window that opens second says what it may not."""

import threading
from contextlib import contextmanager

import pytest
from clocks import FakeClock
from store.shelf_of_builds import ELBOW

from armorplan.cli import workshop_turn
from armorplan.cli.program import run
from armorplan.cli.workshop_turn import not_begun_here, turn_of_a_command, turn_of_a_window
from armorplan.store.gate import ReadsAlongError
from armorplan.store.one_writer import OneWriter
from armorplan.store.workshop_file import WorkshopFile


@pytest.fixture
def path(tmp_path):
    path = tmp_path / "workshop.sqlite"
    workshop = WorkshopFile.open(path, FakeClock())
    workshop.add_build(ELBOW)
    workshop.close()
    return path


@contextmanager
def a_window(path):
    turn = OneWriter(path, FakeClock())
    assert turn.begin()
    yield turn
    turn.close()


def test_a_command_that_writes_beside_a_window_says_so_and_changes_nothing(path, capsys):
    asked = ["learned", "--workshop", str(path)]
    with a_window(path):
        assert run([*asked, "--forget", "water_dye"]) == 2
        said = capsys.readouterr().err
        assert said.startswith("Nothing was changed: another window (since ")
        assert "Do it there, or close it and try again." in said
        # Reading beside a window is nobody's loss.
        assert run(asked) == 0
    assert run([*asked, "--forget", "water_dye"]) == 0
    with a_window(path):
        workshop = WorkshopFile.open(path, FakeClock())
        assert list(workshop.fresh_starts.latest()) == ["water_dye"]
        workshop.close()


def test_around_tonight_beside_a_window_says_so(path, capsys):
    with a_window(path):
        assert run(["plan", "elbow_cop", "--around-tonight", "--workshop", str(path)]) == 2
    assert "Nothing was changed: another window" in capsys.readouterr().err


def test_a_command_gives_its_turn_back(path):
    with turn_of_a_command(path, FakeClock()) as turn:
        assert turn.writes
        with pytest.raises(ReadsAlongError), turn_of_a_command(path, FakeClock()):
            pass
    with turn_of_a_command(path, FakeClock()):
        pass


def test_write_here_takes_over_from_a_window_that_looks(path):
    done = threading.Event()
    ready = threading.Event()

    def window():
        turn = OneWriter(path, FakeClock())
        turn.begin()
        ready.set()
        while not done.wait(0.01):
            turn.look()
        turn.close()

    thread = threading.Thread(target=window)
    thread.start()
    ready.wait()
    with turn_of_a_window(path, FakeClock(), write_here=False) as turn:
        assert not turn.writes
    with turn_of_a_window(path, FakeClock(), write_here=True) as turn:
        assert turn.writes
        done.set()
        thread.join()


def test_a_window_that_hangs_is_not_waited_for_long(path, monkeypatch):
    monkeypatch.setattr(workshop_turn, "PATIENCE_S", 0.1)
    with a_window(path), turn_of_a_window(path, FakeClock(), write_here=True) as turn:
        assert not turn.writes
        # It goes on asking, and reads along until then.
        assert turn.wants
        said = str(not_begun_here(turn, path))
    assert "is not begun yet" in said
    assert "--write-here" in said
