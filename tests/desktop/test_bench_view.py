"""The bench view as one sees and works it: sizes on real screens, keys, presses, timers."""

import pytest
from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest

from armorplan.app.rows import BenchState
from armorplan.desktop.bench_type import LEAST_TARGET_PX, capital_mm
from armorplan.desktop.bench_verbs import Verb
from armorplan.desktop.bench_words import unbroken
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.settings import (
    BENCH_DIAGONAL_MM,
    BENCH_DISTANCE_CM,
    BENCH_PEDALS,
    BENCH_TEXT_PCT,
    CALM,
)
from armorplan.desktop.theme import palette_of
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.bench_view import BenchView

SCREENS = {"13-inch": (1366, 768, 13.3), "24-inch": (1920, 1080, 24.0), "old": (1024, 768, 15.0)}


class Heard:
    count = 0

    def __call__(self):
        self.count += 1


@pytest.fixture
def heard():
    return Heard()


@pytest.fixture
def view(bridge, settings, heard, qtbot):
    ticker = Ticker(bridge)
    made = BenchView(bridge, ticker, settings, heard)
    qtbot.addWidget(made)
    made.ticker = ticker
    yield made
    made.close()
    made.end_jobs()
    ticker._beat.stop()
    ticker._shot.stop()


def stand_before(view, settings, wide, high, inch):
    """Tell the view that it fills a screen of this size."""
    screen = view.screen().geometry()
    diagonal_px = (wide**2 + high**2) ** 0.5
    own_px = (screen.width() ** 2 + screen.height() ** 2) ** 0.5
    settings.put(BENCH_DIAGONAL_MM, round(25.4 * inch * own_px / diagonal_px))
    view.resize(wide, high)
    view.come()
    view.show()
    return diagonal_px / (25.4 * inch)


def rivet(bridge):
    """Choose the first rivet, with all before it done."""
    session = bridge.session
    at = next(i for i, s in enumerate(session.steps) if s.kind == "rivet")
    bridge.done(tuple(s.id for s in session.steps[:at]))
    bridge.choose_steps((session.steps[at].id,))
    return session.steps[at]


def capital_height(view, widget, colour):
    """Return how high the first capital of a widget is, in pixels of its picture."""
    image = QImage(widget.size(), QImage.Format.Format_RGB32)
    image.fill(QColor("white"))
    widget.render(image)
    ink = QColor(colour)
    rows = [
        y
        for y in range(image.height())
        for x in range(min(image.width(), 40))
        if abs(QColor(image.pixel(x, y)).lightness() - ink.lightness()) < 60
    ]
    return max(rows) - min(rows) + 1 if rows else 0


@pytest.mark.parametrize("screen", SCREENS)
def test_capitals_are_high_enough_to_be_read_from_a_metre_and_a_half(
    view, settings, bridge, screen, qapp
):
    """Measured in the picture itself: 16 minutes of arc (ISO 9241-303, from memory)."""
    rivet(bridge)
    px_per_mm = stand_before(view, settings, *SCREENS[screen])
    view.setPalette(palette_of(LIGHT))
    view.page.facts.setText("I")
    seen_px = capital_height(view, view.page.facts, LIGHT.text)
    assert seen_px >= capital_mm(1500) * px_per_mm - 1
    assert view.page.laid.share >= 1


def test_the_distance_and_the_own_hand_on_it_count(view, settings, bridge):
    rivet(bridge)
    stand_before(view, settings, 1920, 1080, 24)
    sizes = [view.page.laid.body_px]
    settings.put(BENCH_DISTANCE_CM, 75)
    view.refresh()
    sizes.append(view.page.laid.body_px)
    settings.put(BENCH_TEXT_PCT, 130)
    view.refresh()
    sizes.append(view.page.laid.body_px)
    assert sizes[1] == pytest.approx(sizes[0] / 2, abs=1)
    assert sizes[2] == pytest.approx(1.3 * sizes[1], abs=1)


@pytest.mark.parametrize("screen", SCREENS)
def test_what_is_pressed_is_large_enough_and_within_the_view(view, settings, bridge, screen):
    rivet(bridge)
    stand_before(view, settings, *SCREENS[screen])
    view.page.plates.layout().activate()
    for plate in view.page.plates.by_verb.values():
        box = QRect(plate.mapTo(view, QPoint(0, 0)), plate.size())
        assert box.width() >= LEAST_TARGET_PX
        assert box.height() >= LEAST_TARGET_PX - 6
        assert view.rect().contains(box)


def test_it_says_what_with_what_and_what_comes_next(view, settings, bridge):
    step = rivet(bridge)
    stand_before(view, settings, 1920, 1080, 24)
    assert view.page.title.text() == unbroken(step.title)
    assert view.page.facts.text().startswith(unbroken("Double-cap rivet, 9 mm cap, post 8 mm"))
    assert "Rivet setter, anvil and hammer" in view.page.facts.text()
    assert view.page.foot.accessibleName().startswith("Next")
    look = view.page.picture.look_of(f"part:{step.parts[0]}")
    assert look != view.page.picture.look_of("part:piece_1.boss")


@pytest.mark.parametrize(
    ("key", "state"), [(Qt.Key.Key_1, BenchState.RUNNING), (Qt.Key.Key_2, BenchState.DONE)]
)
def test_verbs_are_single_keys(view, settings, bridge, session, key, state):
    stand_before(view, settings, 1366, 768, 13.3)
    step = view.desk.card.step
    QTest.keyClick(view, key)
    assert session.states()[step] is state


def test_a_pedal_is_a_key_of_the_settings(view, settings, session):
    settings.put(BENCH_PEDALS, "done=PgDown")
    stand_before(view, settings, 1366, 768, 13.3)
    step = view.desk.card.step
    QTest.keyClick(view, Qt.Key.Key_PageDown)
    assert session.states()[step] is BenchState.DONE
    assert view.page.plates.by_verb[Verb.DONE]._key == "PgDown"


def test_a_press_does_at_once_what_the_key_does(view, settings, session, qtbot, clock):
    stand_before(view, settings, 1366, 768, 13.3)
    step = view.desk.card.step
    qtbot.mouseClick(view.page.plates.by_verb[Verb.DONE], Qt.MouseButton.LeftButton)
    assert session.states()[step] is BenchState.DONE
    back = view.page.plates.by_verb[Verb.TAKE_BACK]
    assert back._fresh == 1
    clock.advance(5 / 60)
    view.ticker.tick()
    assert back._fresh == pytest.approx(0.5)
    qtbot.mouseClick(back, Qt.MouseButton.LeftButton)
    assert session.states()[step] is BenchState.READY
    assert back._fresh == 0


def test_with_less_motion_taking_back_stands_out_and_stands_still(view, settings, clock):
    settings.put(CALM, value=True)
    stand_before(view, settings, 1366, 768, 13.3)
    view.desk.act(Verb.DONE)
    view.ticker.tick()
    clock.advance(5 / 60)
    view.ticker.tick()
    assert view.page.plates.by_verb[Verb.TAKE_BACK]._fresh == 1


def test_what_was_said_stands_for_a_while(view, settings, bridge, clock):
    stand_before(view, settings, 1366, 768, 13.3)
    view.desk.act(Verb.DONE)
    assert view.page.head._said.startswith("Done")
    clock.advance(1)
    view.ticker.tick()
    assert view.page.head._said == ""


def test_escape_goes_back_and_a_held_key_does_nothing_more(view, settings, qtbot):
    stand_before(view, settings, 1366, 768, 13.3)
    with qtbot.waitSignal(view.left):
        QTest.keyClick(view, Qt.Key.Key_Escape)


def test_what_rings_fills_the_foot_and_one_press_answers_it(view, settings, clock, heard, qtbot):
    stand_before(view, settings, 1366, 768, 13.3)
    assert not view.page.foot.isEnabled()
    view.desk.act(Verb.BEGIN)
    clock.advance(30)
    view.ticker.tick()
    assert "Heard it" in view.page.foot.accessibleName()
    assert view.page.foot.height() >= LEAST_TARGET_PX
    qtbot.mouseClick(view.page.foot, Qt.MouseButton.LeftButton)
    assert heard.count == 1


def test_out_of_sight_it_does_nothing(view, bridge, session):
    bridge.done(session.ready_steps()[:1])
    assert view.page.title.text() == ""
    assert view.page.laid is None


def test_light_and_dark_are_both_worn(view, settings, bridge):
    rivet(bridge)
    stand_before(view, settings, 1366, 768, 13.3)
    grounds = []
    for colours in (LIGHT, DARK):
        view.setPalette(palette_of(colours))
        grounds.append(QColor(view.grab().toImage().pixel(3, view.page.title.y() + 3)).name())
    assert grounds == [LIGHT.window, DARK.window]


def test_what_has_to_be_read_in_full_gets_the_lines_and_the_time_for_it(
    view, settings, bridge, clock
):
    stand_before(view, settings, 1366, 768, 13.3)
    bridge.said.emit("Done: Cut the lower petal.")
    low_px = view.page.head.height()
    long = "Done early: Rivet the boss. 'Rivet 4 of the lower row' should have come first: " * 2
    bridge.said.emit(long)
    assert view.page.head.height() > 2 * low_px
    assert view.page.head.height() < view.height() / 2
    clock.advance(11 / 60)
    view.ticker.tick()
    assert view.page.head._said == long
    clock.advance(20 / 60)
    view.ticker.tick()
    assert view.page.head._said == ""
    assert view.page.head.height() == low_px
