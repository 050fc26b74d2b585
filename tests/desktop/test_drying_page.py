"""The drying in the window: which one is shown, what is said of it, and what another air would do."""

from dataclasses import replace

import pytest
from desktop.fake_airs import FakeAirs, cold
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QComboBox, QLineEdit, QPushButton

from armorplan.app.drying_choices import WhatIf
from armorplan.app.drying_rows import drying_page
from armorplan.app.shop_air import AirRule
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.colours import DARK, LIGHT
from armorplan.desktop.drying_plot import DryingPlot
from armorplan.desktop.drying_words import headline, window_rows
from armorplan.desktop.theme import palette_of
from armorplan.desktop.what_if_words import TypedWhatIf, what_if_of
from armorplan.desktop.widgets.deck import Deck
from armorplan.desktop.widgets.drying_page import DryingView
from armorplan.drying.spans import Stage
from armorplan.workshop.air import Climate, Room


def blank_plot(figure, look):
    """Return a picture that took no time."""
    width, height = round(look.width_px * look.ratio), round(look.height_px * look.ratio)
    red, green, blue, _ = QColor(look.colours.panel).getRgb()
    return DryingPlot(
        pixels=bytes((red, green, blue, 255)) * (width * height),
        width=width,
        height=height,
        ratio=look.ratio,
        left_px=40.0,
        right_px=look.width_px - 40.0,
        top_px=4.0,
        foot_px=look.height_px - 40.0,
        from_at=figure.start_at,
        until_at=figure.until_at,
    )


@pytest.fixture(autouse=True)
def quick(monkeypatch):
    """Only tests of the picture itself draw it: the rest would take a second each."""
    monkeypatch.setattr("armorplan.desktop.drying_desk.plot_drying", blank_plot)


@pytest.fixture
def airs():
    return FakeAirs()


@pytest.fixture
def desk(bridge, airs):
    made = AirDesk(bridge, airs)
    yield made
    made.close()


@pytest.fixture
def page(qtbot, bridge, desk):
    made = DryingView(bridge)
    qtbot.addWidget(made)
    made.work_with(desk)
    made.resize(640, 700)
    yield made
    made.close()
    made.end_jobs()


def shown(qtbot, page):
    qtbot.waitUntil(lambda: page.picture.plot is not None and not page.is_waiting)
    return page._shown


def drying_step(session, kind="dry_6"):
    return next(s for s in session.steps if s.id.split("/")[3] == kind)


def see(qtbot, bridge, page, step):
    bridge.choose_steps((step.id,))
    page.show()
    return shown(qtbot, page)


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


# --- what if --------------------------------------------------------------------------------


def test_another_air_is_told_before_and_after_and_changes_nothing(
    qtbot, bridge, page, session, airs
):
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.temperature.setText("15")
    qtbot.waitUntil(lambda: "instead of Tue 08:00" in page.what_if.said.text())
    assert "to handle instead of 24 h" in page.what_if.said.text()
    assert page._shown.other is not None
    assert page.body.verdict.text().startswith("Dry to handle Tue 08:00")
    assert (airs.kept, bridge.session) == ([], session)
    QTest.mouseClick(page.what_if.as_it_is, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: page._shown.other is None)
    assert page.what_if.said.text() == ""
    assert page.what_if.temperature.text() == ""


def test_the_air_is_used_in_the_plan_when_it_is_said_so(qtbot, bridge, page, session, airs):
    session.room = cold(Room())
    airs.kept, airs.rule = [session.room], AirRule.KEPT
    see(qtbot, bridge, page, drying_step(session))
    assert not page.what_if.use.isEnabled()
    page.what_if.fan.setCurrentIndex(3)
    qtbot.waitUntil(page.what_if.use.isEnabled)
    with qtbot.waitSignal(bridge.aired):
        QTest.keyClick(page.what_if.use, Qt.Key.Key_Space)
    assert {c.air_m_s for c in airs.kept[-1].by_hour} == {1.5}
    assert {c.temperature_c for c in airs.kept[-1].by_hour} == {23, 9}
    assert bridge.session is session
    qtbot.waitUntil(lambda: page._shown is not None and page._shown.asked.room == airs.kept[-1])
    assert page.what_if.fan.currentIndex() == 0


def test_what_dries_already_is_asked_about_from_now_on(qtbot, bridge, page, session, airs, clock):
    dry = drying_step(session)
    session.done(dry.needs)
    session.start((dry.id,))
    clock.advance(12 * 60)
    see(qtbot, bridge, page, dry)
    page.what_if.fan.setCurrentIndex(3)
    qtbot.waitUntil(lambda: page._shown.other is not None)
    asked = page._shown.other.handle_min
    assert 12 * 60 < asked < page._shown.page.handle_min
    whole = drying_page(page._shown.page.choice, Room(usual=Climate(air_m_s=1.5))).handle_min
    assert asked == pytest.approx(12 * 60 + whole / 2, abs=5)
    with qtbot.waitSignal(bridge.aired):
        page.what_if.use.click()
    assert (airs.before, airs.kept[-1]) == (Room(), Room(usual=Climate(air_m_s=1.5)))


def test_under_a_shop_file_no_other_air_can_be_the_plans(qtbot, bridge, page, session, airs):
    airs.rule = AirRule.SHOP_FILE
    see(qtbot, bridge, page, drying_step(session))
    qtbot.waitUntil(lambda: "The shop file tells the air" in page.body.rule.text())
    page.what_if.fan.setCurrentIndex(3)
    qtbot.waitUntil(lambda: page.what_if.what_if.asks)
    assert not page.what_if.use.isEnabled()


def test_air_that_cannot_be_kept_says_why(qtbot, bridge, page, session, airs):
    airs.trouble = "The workshop file cannot be written."
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.humidity.setText("40")
    qtbot.waitUntil(page.what_if.use.isEnabled)
    with qtbot.waitSignal(bridge.said) as said:
        page.what_if.use.click()
    assert said.args == [airs.trouble]
    assert bridge.session is session


def test_thickness_and_faces_are_asked_of_but_are_no_air(qtbot, bridge, page, session):
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.thickness.setText("6")
    page.what_if.faces.setCurrentIndex(1)
    qtbot.waitUntil(lambda: page.what_if.what_if == WhatIf(thickness_mm=6.0, faces=1))
    assert not page.what_if.use.isEnabled()


@pytest.mark.parametrize(
    ("typed", "says"),
    [
        (TypedWhatIf(temperature="70"), "Is that Fahrenheit?"),
        (TypedWhatIf(humidity="120"), "between 0 and 100 %"),
        (TypedWhatIf(thickness="0"), "more than 0"),
        (TypedWhatIf(thickness="thick"), "'thick' was typed"),
    ],
)
def test_what_cannot_be_is_told_in_one_message(typed, says):
    assert says in what_if_of(typed).text


def test_a_fault_is_shown_and_nothing_is_asked(qtbot, bridge, page, session):
    see(qtbot, bridge, page, drying_step(session))
    page.what_if.humidity.setText("120")
    qtbot.waitUntil(lambda: "between 0 and 100 %" in page.what_if.said.text())
    assert not page.what_if.use.isEnabled()
    assert page._shown.other is None


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
