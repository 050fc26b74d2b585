"""A timer that is due is told by words, by the window, and by sound once."""

import pytest
from PySide6.QtWidgets import QApplication, QWidget

from armorplan.desktop.settings import SOUND, Settings
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.alarm import Alarm


@pytest.fixture
def rung(monkeypatch):
    calls = []
    monkeypatch.setattr(QApplication, "beep", lambda: calls.append("beep"))
    monkeypatch.setattr(QApplication, "alert", lambda *_: calls.append("alert"))
    return calls


@pytest.fixture
def settings(tmp_path):
    return Settings(tmp_path / "settings.json")


@pytest.fixture
def window(qtbot):
    # A fixture of its own: Qt deletes the ticker with it, so something has to hold it.
    made = QWidget()
    qtbot.addWidget(made)
    return made


@pytest.fixture
def ticker(bridge, settings, window):
    made = Ticker(bridge, window)
    Alarm(bridge, made, settings, window)
    return made


def test_it_rings_once_and_says_which(ticker, bridge, clock, rung):
    said = []
    bridge.said.connect(said.append)
    bridge.start(bridge.session.ready_steps()[:1])
    clock.advance(6)
    ticker.tick()
    ticker.tick()
    assert rung == ["alert", "beep"]
    assert said[-1] == "Time is up: Cut the lower petal"


def test_without_sound_the_window_still_tells(ticker, bridge, clock, rung, settings):
    settings.put(SOUND, value=False)
    bridge.start(bridge.session.ready_steps()[:1])
    clock.advance(6)
    ticker.tick()
    assert rung == ["alert"]
