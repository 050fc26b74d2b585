"""Timers in sight: what is left, until when, and that a time is up."""

import pytest

from armorplan.app.rows import BenchState
from armorplan.desktop.colours import LIGHT
from armorplan.desktop.theme import palette_of
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.timer_card import TimerCard
from armorplan.desktop.widgets.timer_strip import TimerStrip


@pytest.fixture
def strip(bridge, qtbot):
    ticker = Ticker(bridge)
    made = TimerStrip(bridge, ticker)
    qtbot.addWidget(made)
    made.setPalette(palette_of(LIGHT))
    made.resize(800, 80)
    made.show()
    yield made
    ticker.deleteLater()


def cards(strip):
    found = [c for c in strip.findChildren(TimerCard) if c.isVisible()]
    return sorted(found, key=lambda c: c.x())


def test_without_timers_it_says_how_to_start_one(strip, bridge, session):
    assert strip._none.isVisible()
    bridge.start(session.ready_steps()[:1])
    assert not strip._none.isVisible()


def test_in_a_low_window_it_is_one_line_until_a_timer_runs(strip, bridge, session):
    whole = strip.height()
    strip.make_room(is_low=True)
    assert strip.height() < whole / 2
    bridge.start(session.ready_steps()[:1])
    assert strip.height() == whole


def test_soonest_due_comes_first_and_both_times_are_shown(strip, bridge, session, clock, qtbot):
    dry = next(s.id for s in session.steps if s.kind == "dry")
    bridge.start((dry,))
    clock.advance(1)
    bridge.start(session.ready_steps()[:1])
    qtbot.waitUntil(
        lambda: [c.text() for c in cards(strip)] == ["Cut the lower petal", "Dry the lower petal"]
    )
    assert cards(strip)[0].lines() == ("6:00", "until 08:07")
    assert cards(strip)[1].lines() == ("2:59:00", "until 11:00")
    assert [c.state() for c in cards(strip)] == [BenchState.RUNNING, BenchState.DRYING]


def test_a_paused_timer_says_so(strip, bridge, session, clock):
    step = session.ready_steps()[:1]
    bridge.start(step)
    clock.advance(2)
    bridge.pause(step)
    card = cards(strip)[0]
    assert card.lines() == ("4:00", "paused")
    assert card.state() is BenchState.PAUSED


def test_past_due_says_so_in_words_shape_and_ground(strip, bridge, session, clock, qtbot):
    bridge.start(session.ready_steps()[:1])
    clock.advance(9.5)
    bridge.changed.emit()
    card = cards(strip)[0]
    assert card.lines() == ("due for 3 min", "was due 08:06")
    assert card.state() is BenchState.EARLY
    assert card.accessibleName() == "Cut the lower petal, time is up, was due 08:06"
    image = card.grab().toImage()
    assert image.pixelColor(image.width() // 2, 4).name() == LIGHT.alarm


def test_the_spoken_name_does_not_change_with_each_second(strip, bridge, session, clock):
    bridge.start(session.ready_steps()[:1])
    name = cards(strip)[0].accessibleName()
    clock.advance(1 / 60)
    strip._ticker.tick()
    assert (
        cards(strip)[0].accessibleName() == name == "Cut the lower petal, under way, until 08:06"
    )


def test_a_card_chooses_its_step(strip, bridge, session, qtbot):
    step = session.ready_steps()[0]
    bridge.start((step,))
    cards(strip)[0].click()
    assert bridge.selection.steps == (step,)
    strip.focus_first()
    assert cards(strip)[0].hasFocus() or not strip.isActiveWindow()


def test_cards_that_stay_are_kept_and_those_that_ended_go(strip, bridge, session):
    first, second = session.ready_steps()[:2]
    bridge.start((first,))
    bridge.start((second,))
    kept = next(c for c in cards(strip) if c.objectName().endswith(second))
    bridge.done((first,))
    assert cards(strip) == [kept]


def test_many_timers_scroll_instead_of_being_cut(strip, bridge, session, qtbot):
    low = strip.height()
    bridge.start(session.ready_steps()[:8])
    assert strip.height() > low
    assert strip.horizontalScrollBar().maximum() > 0
