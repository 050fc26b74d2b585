"""Offscreen Qt, the invented session, and a check that no window, timer or thread is left."""

import gc
import os
import threading
from collections.abc import Iterator
from itertools import count
from pathlib import Path
from weakref import WeakSet

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from desktop.drying_scene import blank_plot
from desktop.fake_airs import FakeAirs
from desktop.fake_scenario import StoppedClock
from desktop.fake_session import FakeSession
from PySide6.QtCore import QCoreApplication, QEvent, QTimer
from PySide6.QtWidgets import QApplication, QMainWindow
from pytestqt.qtbot import QtBot
from shiboken6 import isValid

from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.settings import Settings
from armorplan.desktop.widgets.drying_page import DryingView

TURNS = count()
EVERY = 10
"""So many tests leave little to look through, and setting aside takes a moment itself."""
KNOWN: "WeakSet[QTimer]" = WeakSet()
"""Timers that were set aside: none of them may run either."""


def timers():
    return [o for o in gc.get_objects() if isinstance(o, QTimer)]


def set_aside():
    """Keep what was imported or is kept for good out of the search for leaks: it takes a moment then."""
    gc.collect()
    KNOWN.update(timers())
    gc.freeze()


@pytest.fixture(autouse=True, scope="session")
def all_looked_through_in_the_end():
    yield
    gc.unfreeze()


@pytest.fixture(autouse=True)
def nothing_left():
    """Fail the test that leaves a window open, a timer running, or a thread alive."""
    if next(TURNS) % EVERY == 0:
        set_aside()
    before = set(threading.enumerate())
    yield
    if QApplication.instance() is None:
        return
    gc.collect()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    windows = [w for w in QApplication.topLevelWidgets() if w.isVisible()]
    running = [t for t in (*KNOWN, *timers()) if isValid(t) and t.isActive()]
    threads = [t for t in set(threading.enumerate()) - before if not t.daemon]
    assert (windows, running, threads) == ([], [], [])


@pytest.fixture
def clock() -> StoppedClock:
    return StoppedClock()


@pytest.fixture
def session(clock: StoppedClock) -> FakeSession:
    made = FakeSession.of(92)
    made.clock = clock
    return made


@pytest.fixture
def bridge(qapp: object, session: FakeSession, clock: StoppedClock) -> Bridge:
    return Bridge(session, clock)


@pytest.fixture
def settings(tmp_path: Path) -> Settings:
    return Settings(tmp_path / "settings.json")


@pytest.fixture
def window(qtbot: QtBot) -> QMainWindow:
    """A bare window; Qt deletes what stands in it with it, so a test has to hold it."""
    made = QMainWindow()
    qtbot.addWidget(made)
    made.resize(400, 300)
    made.show()
    return made


@pytest.fixture
def airs() -> FakeAirs:
    return FakeAirs()


@pytest.fixture
def air_desk(bridge: Bridge, airs: FakeAirs) -> Iterator[AirDesk]:
    made = AirDesk(bridge, airs)
    yield made
    made.close()


@pytest.fixture
def blank_pictures(monkeypatch: pytest.MonkeyPatch) -> None:
    """Only tests of the picture itself draw it: the rest would take a second each."""
    monkeypatch.setattr("armorplan.desktop.drying_desk.plot_drying", blank_plot)


@pytest.fixture
def drying_view(
    qtbot: QtBot, bridge: Bridge, air_desk: AirDesk, blank_pictures: None
) -> Iterator[DryingView]:
    made = DryingView(bridge)
    qtbot.addWidget(made)
    made.work_with(air_desk)
    made.resize(640, 700)
    yield made
    made.close()
    made.end_jobs()
