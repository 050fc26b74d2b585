"""Offscreen Qt, the invented session, and a check that no window, timer or thread is left."""

import gc
import os
import threading

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from desktop.fake_scenario import StoppedClock
from desktop.fake_session import FakeSession
from PySide6.QtCore import QCoreApplication, QEvent, QTimer
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

from armorplan.desktop.bridge import Bridge


@pytest.fixture(autouse=True, scope="session")
def modules_set_aside():
    """Keep what was imported out of the search for leaks, which then takes a moment."""
    gc.collect()
    gc.freeze()
    yield
    gc.unfreeze()


@pytest.fixture(autouse=True)
def nothing_left():
    """Fail the test that leaves a window open, a timer running, or a thread alive."""
    before = set(threading.enumerate())
    yield
    if QApplication.instance() is None:
        return
    gc.collect()
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    windows = [w for w in QApplication.topLevelWidgets() if w.isVisible()]
    timers = [o for o in gc.get_objects() if isinstance(o, QTimer) and isValid(o)]
    timers = [timer for timer in timers if timer.isActive()]
    threads = [t for t in set(threading.enumerate()) - before if not t.daemon]
    assert (windows, timers, threads) == ([], [], [])


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
