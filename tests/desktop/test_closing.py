"""Reach over the parts: switched on, run along by keys, with the way in to what is chosen."""

from dataclasses import replace
from threading import Event
from time import thread_time

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtTest import QTest

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.closing_desk import Closing
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.parts_diagram import PartsDiagram

BOSS = "piece_0.boss_0"
SLOW_S = 0.05
"""No work on the window's thread takes longer."""


@pytest.fixture
def diagram(qtbot, bridge: Bridge):
    made = PartsDiagram(bridge)
    qtbot.addWidget(made)
    made.resize(900, 600)
    made.show()
    yield made
    made.closing_desk.close()
    made.close()


def switched_on(qtbot, diagram: PartsDiagram):
    diagram.show_closing(True)
    qtbot.waitUntil(lambda: bool(diagram.closing_bar.place.text().startswith("0 of")))
    return diagram.closing_bar


def go(qtbot, diagram: PartsDiagram, at: int):
    diagram.closing_bar.slider.setValue(at)
    qtbot.waitUntil(lambda: diagram.closing_bar.place.text().startswith(f"{at} of"))


def test_nothing_of_it_shows_until_it_is_switched_on(diagram):
    assert diagram.closing_bar.isHidden()
    assert not diagram.canvas.closing.isVisible()
    assert not diagram.closing_desk.is_on


def test_a_step_along_the_order_without_it_says_how_to_switch_it_on(diagram, bridge, qtbot):
    with qtbot.waitSignal(bridge.said) as told:
        diagram.step_closing(1)
    assert "Ctrl+K" in told.args[0]


def test_rows_are_open_at_first_and_gape_less_once_joints_are_set(qtbot, diagram):
    switched_on(qtbot, diagram)
    assert set(diagram.canvas.closing.words()) == {"upper row: open", "lower row: open"}
    go(qtbot, diagram, 2)
    assert any("gapes" in words for words in diagram.canvas.closing.words())


def test_keys_on_the_slider_and_the_buttons_go_step_by_step(qtbot, diagram):
    bar = switched_on(qtbot, diagram)
    assert not bar.back.isEnabled()
    QTest.keyClick(bar.slider, Qt.Key.Key_Right)
    diagram.step_closing(1)
    qtbot.waitUntil(lambda: bar.place.text().startswith("2 of"))
    QTest.mouseClick(bar.back, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: bar.place.text().startswith("1 of"))
    assert bar.back.isEnabled()


def test_what_falls_out_of_reach_is_told_where_it_does(qtbot, diagram):
    bar = switched_on(qtbot, diagram)
    qtbot.waitUntil(lambda: bool(bar.slider.lost))
    where = bar.slider.lost
    go(qtbot, diagram, where[0])
    assert bar.lost.text().startswith("After '")
    assert not bar.lost.isHidden()
    bar.fold.setChecked(False)
    go(qtbot, diagram, where[0] - 1)
    assert bar.lost.text().startswith("Falls out of reach after '")
    assert bar.lost.isVisible()


def test_in_a_right_order_nothing_alarms_and_what_is_set_in_time_is_told_when_asked(
    qtbot, diagram, bridge
):
    track = bridge.session.tracing_reach()()
    stops = sorted(track.stops, key=lambda stop: "boss" not in stop.joints[0])
    right = replace(track, stops=tuple(stops))
    lost = right.lost(lambda: False)
    assert lost
    bar = switched_on(qtbot, diagram)
    for at in range(len(stops) + 1):
        shown = Closing(track=right, frame=right.frame(at), lost=lost)
        bar.fold.setChecked(False)
        bar.show_closing(shown)
        assert bar.slider.lost == ()
        assert not bar.lost.isVisible()
        bar.fold.setChecked(True)
        assert not any("out of reach" in sign.words for sign in bar.key.signs)
    bar.show_closing(Closing(track=right, frame=right.frame(min(lost)), lost=lost))
    assert bar.lost.text().startswith("Set in time: ")
    ink = bar.lost.palette().color(QPalette.ColorRole.WindowText).name()
    assert ink == colours_of(bar.palette()).quiet


def test_the_key_unfolds_what_the_lines_and_rings_mean(qtbot, diagram):
    bar = switched_on(qtbot, diagram)
    bar.fold.setChecked(False)
    assert bar.marks.isHidden()
    QTest.keyClick(bar.fold, Qt.Key.Key_Space)
    assert not bar.marks.isHidden()
    assert "row still open" in bar.marks.accessibleName()
    assert "set next" in bar.marks.accessibleName()


def test_where_there_is_little_room_only_the_place_in_the_order_is_written(qtbot, diagram, bridge):
    bar = switched_on(qtbot, diagram)
    bar.fold.setChecked(True)
    bridge.choose_joint(BOSS)
    qtbot.waitUntil(bar.way.isVisible)
    high = bar.high_px()
    bar.make_room(is_tight=True)
    assert not any(line.isVisible() for line in (bar.lost, bar.way, bar.key, bar.marks))
    assert bar.place.isVisible()
    assert bar.high_px() < high
    assert bar.way.text() in bar.slider.accessibleDescription()
    bar.fold.setChecked(True)
    assert bar.way.isVisible()
    bar.make_room(is_tight=False)
    assert bar.fold.isChecked()
    assert bar.marks.isVisible()


def test_choosing_a_joint_shows_its_way_in_and_what_bars_it(qtbot, diagram, bridge):
    bar = switched_on(qtbot, diagram)
    bridge.choose_joint(BOSS)
    qtbot.waitUntil(lambda: bool(bar.way.text()))
    assert "140 to 182 mm in by the mouth" in bar.way.text()
    assert "Out of reach once closed: lower row and upper row." in bar.way.text()
    assert diagram.canvas.closing.words()[0] == "140 to 182 mm"
    assert diagram.card.isHidden()
    bridge.choose_steps(())
    qtbot.waitUntil(lambda: not bar.way.text())


@pytest.mark.parametrize("size", [(500, 400), (1100, 700)])
def test_a_place_in_the_order_is_shown_within_a_frame(qtbot, bridge, size):
    bridge.open(FakeSession.of(600))
    made = PartsDiagram(bridge)
    qtbot.addWidget(made)
    made.resize(*size)
    made.show()
    bar = switched_on(qtbot, made)
    qtbot.waitUntil(lambda: bool(bar.slider.lost))
    qtbot.wait(200)
    track = bridge.session.tracing_reach()()
    for at in range(1, 9):
        shown = Closing(track=track, frame=track.frame(at), lost={3: (BOSS,)})
        began = thread_time()
        made.canvas.show_closing(shown)
        bar.show_closing(shown)
        made.repaint()
        assert thread_time() - began < SLOW_S
    made.closing_desk.close()


def test_what_is_shown_is_spoken_too(qtbot, diagram):
    bar = switched_on(qtbot, diagram)
    assert bar.slider.accessibleName()
    assert bar.place.text() in bar.slider.accessibleDescription()
    assert "lies flat" in bar.key.accessibleName()
    for widget in (bar.back, bar.onward, bar.place, bar.lost, bar.way):
        assert widget.accessibleName()


def test_another_build_begins_at_its_own_start(qtbot, diagram, bridge):
    switched_on(qtbot, diagram)
    go(qtbot, diagram, 3)
    bridge.open(FakeSession.of(60))
    qtbot.waitUntil(lambda: diagram.closing_bar.place.text().startswith("0 of"))
    assert diagram.closing_bar.slider.value() == 0


def test_reach_of_the_former_build_never_shows_on_the_next(
    qtbot, diagram, bridge, session, monkeypatch
):
    may_trace, traced = Event(), []
    tracing = session.tracing_reach()

    def slow():
        may_trace.wait(10)
        traced.append(session)
        return tracing()

    monkeypatch.setattr(session, "tracing_reach", lambda: slow, raising=False)
    diagram.show_closing(True)
    diagram.show_closing(False)
    following = FakeSession.of(60)
    own = following.tracing_reach()()
    monkeypatch.setattr(following, "tracing_reach", lambda: lambda: own, raising=False)
    bridge.open(following)
    may_trace.set()
    qtbot.waitUntil(lambda: bool(traced))
    qtbot.wait(50)
    switched_on(qtbot, diagram)
    assert diagram.closing_desk._track is own


def test_switched_off_the_parts_are_as_before(qtbot, diagram):
    switched_on(qtbot, diagram)
    diagram.show_closing(False)
    assert diagram.closing_bar.isHidden()
    assert not diagram.canvas.closing.isVisible()


def test_what_cannot_be_reckoned_is_said(qtbot, diagram, session, monkeypatch):
    def broken():
        message = "the drawing has no parts."
        raise ValueError(message)

    monkeypatch.setattr(type(session), "tracing_reach", lambda _self: broken)
    diagram.show_closing(True)
    told = "Reach could not be reckoned: the drawing has no parts."
    qtbot.waitUntil(lambda: diagram.closing_bar.place.text() == told)
