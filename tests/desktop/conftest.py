"""Offscreen Qt, the invented session, and a check that no widget, timer or thread is left."""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from desktop.fake_scenario import StoppedClock
from desktop.fake_session import FakeSession

from armorplan.desktop.bridge import Bridge


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
