"""A fault is written down and told in one sentence, from whatever thread it comes."""

import logging
import sys
import threading

import pytest
from PySide6.QtWidgets import QLabel

from armorplan.desktop.errors import FaultTeller, keep_log


@pytest.fixture
def log(tmp_path):
    path = tmp_path / "logs" / "armorplan.log"
    handler = keep_log(path)
    yield path
    logging.getLogger("armorplan").removeHandler(handler)
    handler.close()


@pytest.fixture
def teller(qapp, log, monkeypatch):
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    monkeypatch.setattr(threading, "excepthook", threading.excepthook)
    made = FaultTeller(log)
    made.install()
    return made


def test_a_fault_is_logged_and_told(teller, log, capsys):
    heard = []
    teller.told.connect(heard.append)
    with pytest.raises(KeyError) as caught:
        {}["petal_mid"]
    sys.excepthook(caught.type, caught.value, caught.tb)
    assert len(heard) == 1
    assert str(log) in heard[0]
    assert heard[0].endswith("what you recorded is safe.")
    assert "KeyError: 'petal_mid'" in log.read_text()
    assert "KeyError" in capsys.readouterr().err


def test_a_fault_in_another_thread_is_told_in_the_windows(teller, log, qtbot):
    def fail():
        raise RuntimeError("rack")

    label = QLabel()
    qtbot.addWidget(label)
    teller.told.connect(label.setText)
    thread = threading.Thread(target=fail)
    thread.start()
    thread.join()
    assert label.text() == ""
    qtbot.waitUntil(lambda: "what you recorded is safe" in label.text())
    assert "RuntimeError: rack" in log.read_text()


def test_ctrl_c_is_no_fault(teller, log, capsys):
    heard = []
    teller.told.connect(heard.append)
    sys.excepthook(KeyboardInterrupt, KeyboardInterrupt(), None)
    assert heard == []


def test_a_log_that_cannot_be_written_is_done_without(tmp_path):
    blocker = tmp_path / "logs"
    blocker.write_text("a file where the folder should be")
    assert keep_log(blocker / "armorplan.log") is None
