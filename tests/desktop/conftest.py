"""Offscreen Qt, the invented session, and a check that no window, timer or thread is left."""

import gc
import os
import threading
from itertools import count
from weakref import WeakSet

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from desktop.fake_scenario import StoppedClock
from desktop.fake_session import FakeSession
from PySide6.QtCore import QCoreApplication, QEvent, QTimer
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

from armorplan.desktop.bridge import Bridge

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
