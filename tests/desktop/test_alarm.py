"""What rings is told by words, by the window, by sound, and until it is answered."""

from datetime import timedelta

import pytest
from desktop.fake_timing import ringing_once
from desktop.test_timers_model import row
from desktop.test_tray import FakeIcon
from PySide6.QtWidgets import QApplication, QLabel

from armorplan.app.bells import BellKind
from armorplan.desktop.settings import CALM, SOUND
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets import tray as tray_module
from armorplan.desktop.widgets.alarm import UNANSWERED_S, Alarm
from armorplan.desktop.widgets.edge_flash import EdgeFlash


class FakeSounder:
    """Keeps what would have been heard."""

    def __init__(self, calls):
        self.calls = calls
        self.mute = self
        self.beep = None

    def connect(self, beep):
        self.beep = beep

    def ring(self, *kinds):
        self.calls.append(kinds)

    def hush(self):
        self.calls.append("hush")

    def close(self):
        self.calls.append("closed")


@pytest.fixture
def rung(monkeypatch):
    calls = []
    monkeypatch.setattr(QApplication, "beep", lambda: calls.append("beep"))
    monkeypatch.setattr(QApplication, "alert", lambda *_: calls.append("alert"))
    return calls


@pytest.fixture
def ticker(bridge, window):
    return Ticker(bridge, window)


@pytest.fixture
def alarm(ticker, bridge, settings, window, rung):
    return Alarm(bridge, ticker, settings, FakeSounder(rung), window)


def test_it_rings_and_says_once_which(alarm, ticker, bridge, clock, rung):
    said = []
    bridge.said.connect(said.append)
    bridge.start(bridge.session.ready_steps()[:1])
    clock.advance(6)
    ticker.tick()
    ticker.tick()
    assert rung == [(BellKind.DUE,), "alert"]
    assert said[-1] == "Time is up: Cut the lower petal"
    clock.advance(1)
    ticker.tick()
    assert rung == [(BellKind.DUE,), "alert"] * 2
    assert said.count("Time is up: Cut the lower petal") == 1


def test_several_at_once_are_heard_each_in_its_kind_the_most_urgent_first(
    alarm, ticker, session, clock, rung
):
    at = clock.now() + timedelta(minutes=1)
    session.timing.more = tuple(
        ringing_once(row(id=kind.value, due_at=at), kind)
        for kind in (BellKind.OPENS, BellKind.DUE, BellKind.CLOSES, BellKind.DUE)
    )
    ticker.refresh()
    clock.advance(1)
    ticker.tick()
    assert rung[0] == (BellKind.CLOSES, BellKind.DUE, BellKind.OPENS)


def test_a_window_is_said_in_the_sentence_that_names_its_step_and_times(
    alarm, ticker, session, clock, bridge
):
    said = []
    bridge.said.connect(said.append)
    at = clock.now() + timedelta(minutes=1)
    told = "Begin 'Tool the border' by 10:07, or it is too late."
    timer = row(due_at=at, title="Begin in time: Tool the border")
    session.timing.more = (
        ringing_once(timer, BellKind.CLOSES, meaning=told, build_title="Collar"),
    )
    ticker.refresh()
    clock.advance(1)
    ticker.tick()
    assert said == [f"Collar: {told}"]


def test_without_any_way_to_play_it_beeps_unless_sound_is_off(alarm, rung, settings):
    alarm._sounder.beep()
    assert rung == ["beep"]
    settings.put(SOUND, value=False)
    alarm._sounder.beep()
    assert rung == ["beep"]


def test_quiet_answers_the_one_meant_else_the_most_urgent(alarm, ticker, session, clock, rung):
    at = clock.now() + timedelta(minutes=1)
    session.timing.more = tuple(
        ringing_once(row(id=kind.value, title=kind.value, due_at=at), kind)
        for kind in (BellKind.DUE, BellKind.WATCH, BellKind.CLOSES)
    )
    ticker.refresh()
    clock.advance(1)
    ticker.tick()
    assert alarm.quiet("watch") == "Heard: watch"
    ticker.refresh()
    assert alarm.quiet("watch") == "Heard: closes"
    ticker.refresh()
    assert alarm.quiet() == "Heard: due"
    ticker.refresh()
    assert alarm.quiet() == "No timer rings."
    assert rung.count("hush") == 3


def test_all_that_ring_are_answered_at_once(alarm, ticker, session, clock):
    at = clock.now() + timedelta(minutes=1)
    session.timing.more = tuple(ringing_once(row(id=str(n), due_at=at)) for n in range(3))
    ticker.refresh()
    clock.advance(1)
    ticker.tick()
    assert alarm.quiet_all() == "Heard: 3 timers."
    ticker.refresh()
    assert ticker.ringing == ()
    assert alarm.quiet_all() == "No timer rings."


def test_the_rim_of_the_window_joins_in_slowly_and_stands_still_with_less_motion(
    alarm, ticker, bridge, window, clock, settings
):
    rim = window.findChild(EdgeFlash)
    bridge.start(bridge.session.ready_steps()[:1])
    clock.advance(6)
    ticker.tick()
    assert not rim.isVisible()
    clock.advance(UNANSWERED_S / 60)
    shown = []
    for _ in range(6):
        clock.advance(1 / 60)
        ticker.tick()
        shown.append(rim.isVisible())
    # Each second another look: half a flash a second, far below the three of WCAG 2.2, 2.3.1.
    assert shown in ([True, False] * 3, [False, True] * 3)
    settings.put(CALM, value=True)
    for _ in range(3):
        clock.advance(1 / 60)
        ticker.tick()
        assert rim.isVisible()
    assert rim.mask().contains(rim.rect().topLeft())
    assert not rim.mask().contains(rim.rect().center())
    alarm.quiet()
    ticker.refresh()
    assert not rim.isVisible()


def test_the_rim_covers_nothing_and_what_it_goes_round_stays_put_between_flashes(
    alarm, ticker, bridge, window, clock
):
    window.setCentralWidget(QLabel("the work", window))
    window.menuBar().addAction("Timers")
    window.statusBar().showMessage("said")
    rim = window.findChild(EdgeFlash)
    parts = (window.menuBar(), window.centralWidget(), window.statusBar())
    QApplication.processEvents()
    before = [part.geometry() for part in parts]
    bridge.start(bridge.session.ready_steps()[:1])
    clock.advance(6 + UNANSWERED_S / 60)
    flashes = []
    for _ in range(2):
        clock.advance(1 / 60)
        ticker.tick()
        QApplication.processEvents()
        flashes.append([part.geometry() for part in parts])
    assert flashes[0] == flashes[1] != before
    for part in flashes[0]:
        assert not rim.mask().intersects(part)
    alarm.quiet()
    ticker.refresh()
    QApplication.processEvents()
    assert [part.geometry() for part in parts] == before


def test_the_rim_follows_the_window_and_lets_presses_through(alarm, ticker, bridge, window, clock):
    rim = window.findChild(EdgeFlash)
    window.resize(500, 350)
    rim.show_it(is_on=True)
    assert rim.size() == window.size()
    window.resize(300, 200)
    assert rim.size() == window.size()
    assert rim.focusPolicy() == rim.focusPolicy().NoFocus


@pytest.fixture
def icons(monkeypatch):
    monkeypatch.setattr(tray_module, "QSystemTrayIcon", FakeIcon)
    monkeypatch.setattr(FakeIcon, "made", [])
    return FakeIcon.made


def test_minimised_it_rings_all_the_same_and_the_message_brings_it_back(
    icons, alarm, bridge, window, clock
):
    ticker = alarm._ticker
    bridge.start(bridge.session.ready_steps()[:1])
    window.showMinimized()
    clock.advance(6)
    ticker.tick()
    assert alarm._sounder.calls == [(BellKind.DUE,), "alert"]
    (icon,) = icons
    assert icon.tip == "Cut the lower petal"
    told = "Cut the lower petal: go and see to it."
    assert icon.told == [("Time is up: Cut the lower petal", told)]
    icon.messageClicked.emit()
    assert not window.isMinimized()
    bridge.done(tuple(r.step for r in ticker.rows))
    assert not icon.shown
