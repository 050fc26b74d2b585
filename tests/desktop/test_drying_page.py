"""The drying in the window: which one is shown, what is said of it, what its picture shows."""

from dataclasses import replace

import pytest
from desktop.drying_scene import drying_step, see
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit, QPushButton

from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.drying_words import headline, window_rows
from armorplan.desktop.theme import palette_of
from armorplan.desktop.widgets.deck import Deck
from armorplan.drying.spans import Stage
from armorplan.workshop.air import Climate, Room


@pytest.fixture
def page(drying_view):
    return drying_view


def table(page):
    model = page.body.twin.windows
    return [
        [model.data(model.index(row, column)) for column in range(model.columnCount())]
        for row in range(model.rowCount())
    ]


def test_the_drying_of_the_chosen_step_is_shown_with_all_its_windows(qtbot, bridge, page, session):
    now = see(qtbot, bridge, page, drying_step(session))
    assert now.page.choice.step == drying_step(session).id
    assert page.body.verdict.text().startswith("Dry to handle Tue 08:00, between ")
    names = [row[0] for row in table(page)]
    assert names == [
        "Dry to the touch",
        "Next coat, from",
        "Next coat, until",
        "Dry to handle",
        "Cured",
    ]
    assert table(page)[3][2] == "Tue 08:00"
    assert table(page)[4][2] == "Thu 08:00"
    assert "common practice, no source" in page.body.sources.text()
    assert "The air is 23 to 23 °C" in page.picture.accessibleDescription()


def test_the_headline_begins_with_what_the_step_waits_for(qtbot, bridge, page, session):
    drying = see(qtbot, bridge, page, drying_step(session)).page
    now_at, zone = bridge.clock.now(), bridge.zone

    def said(stage):
        awaited = replace(drying, choice=replace(drying.choice, stage=stage))
        return headline(awaited, now_at, zone)

    assert said(Stage.TOUCH).startswith("Next coat 08:30, between ")
    assert said(Stage.TOUCH).endswith(". Dry to handle Tue 08:00.")
    assert said(Stage.CURE).startswith("Cured Thu 08:00, between ")
    assert said(Stage.HANDLE).startswith("Dry to handle Tue 08:00, between ")


def test_what_lies_far_ahead_is_told_no_finer_than_it_is_known(qtbot, bridge, page, session):
    drying = see(qtbot, bridge, page, drying_step(session)).page
    now_at, zone = bridge.clock.now(), bridge.zone
    rows = {row.key: row.cells for row in window_rows(drying, now_at, zone)}
    assert rows["touch:from"][2] == "08:30"
    assert rows["handle:from"][3] == "Tue 19:00"
    assert rows["cure:from"][3].startswith("Fri ")
    assert rows["cure:from"][3].endswith(", afternoon")
    assert headline(drying, now_at, zone).endswith(" and Tue 19:00.")


def test_who_chooses_the_wet_step_sees_its_drying(qtbot, bridge, page, session):
    dry = drying_step(session)
    wet = next(s for s in session.steps if s.id in dry.needs)
    assert see(qtbot, bridge, page, wet).page.choice.step == dry.id
    assert page.chooser.currentText().startswith("Chosen: Dry the")


def test_any_treatment_can_be_looked_at_by_itself_with_the_keyboard(qtbot, bridge, page, session):
    see(qtbot, bridge, page, drying_step(session))
    page.chooser.setFocus()
    last = page.chooser.count() - 1
    QTest.keyClick(page.chooser, Qt.Key.Key_End)
    assert page.chooser.currentIndex() == last
    page.chooser.activated.emit(last)
    qtbot.waitUntil(lambda: page._shown.page.choice.id == "treatment:finish")
    bridge.changed.emit()
    assert page.chooser.currentIndex() == last


def test_what_runs_is_seen_with_the_present_moving_over_it_not_drawn_anew(
    qtbot, bridge, page, session, clock
):
    dry = drying_step(session)
    session.done(dry.needs)
    session.start((dry.id,))
    see(qtbot, bridge, page, dry)
    plot, first = page.picture.plot, page.picture.now_x()
    assert first == pytest.approx(plot.left_px, abs=0.5)
    clock.advance(30)
    page.refresh()
    QTest.qWait(0)
    assert page.picture.now_x() > first
    assert page.picture.plot is plot


def test_the_picture_has_the_size_of_the_page_and_the_colours_of_its_theme(
    qtbot, bridge, page, session
):
    see(qtbot, bridge, page, drying_step(session))
    ground = LIGHT.panel
    for colours in (LIGHT, DARK):
        page.setPalette(palette_of(colours))
        ground = QColor(colours.panel)
        qtbot.waitUntil(lambda ground=ground: page.picture._image.pixelColor(1, 1) == ground)
    plot = page.picture.plot
    assert plot.width == page.picture.width() * page.devicePixelRatioF()
    page.resize(900, 700)
    qtbot.waitUntil(lambda: page.picture.plot.width == page.picture.width())


def test_a_page_out_of_sight_asks_nothing(bridge, page, session):
    bridge.choose_steps((drying_step(session).id,))
    bridge.changed.emit()
    assert page._shown is None
    assert not page.desk.is_busy


def test_what_spoils_or_never_dries_says_what_to_do(qtbot, bridge, page, session):
    session.room = Room(usual=Climate(temperature_c=5, humidity_pct=50))
    see(qtbot, bridge, page, drying_step(session))
    assert page.body.verdict.text().startswith("\N{WARNING SIGN} Acrylic finish would spoil")
    assert "The label rules." in page.body.verdict.text()
    session.room = Room(usual=Climate(temperature_c=12, humidity_pct=100))
    page.refresh()
    qtbot.waitUntil(lambda: "will not dry" in page.body.verdict.text())
    assert "never" in table(page)[3]


def test_every_control_has_a_name_and_takes_the_keyboard(qtbot, bridge, page, session):
    see(qtbot, bridge, page, drying_step(session))
    controls = [
        widget
        for kind in (QComboBox, QLineEdit, QPushButton)
        for widget in page.findChildren(kind)
        if widget.isVisible()
    ]
    assert len(controls) >= 8
    for widget in controls:
        assert widget.accessibleName() or getattr(widget, "text", str)(), widget.objectName()
        assert widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    for widget in (page.picture, page.body.twin):
        assert widget.accessibleName()
        assert widget.focusPolicy() & Qt.FocusPolicy.TabFocus


@pytest.mark.usefixtures("blank_pictures")
def test_the_page_stands_in_the_deck_and_has_the_room_of_the_reasons(qtbot, bridge):
    deck = Deck(bridge)
    qtbot.addWidget(deck)
    deck.resize(700, 600)
    deck.show()
    deck.go(5)
    assert deck.tabs.currentWidget() is deck.drying
    assert deck.tabs.tabText(5) == "Drying"
    assert deck.reasons.isHidden()
    deck.go(4)
    assert not deck.reasons.isHidden()
    deck.close()
    deck.end_jobs()
