"""The bench view has the window to itself, and gives it back as it was."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit, QMainWindow, QToolBar

from armorplan.desktop.settings import BENCH_WHOLE_SCREEN
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.bench_door import KEPT, BenchDoor
from armorplan.desktop.widgets.bench_view import BenchView


@pytest.fixture
def scene(bridge, settings, qtbot):
    window = QMainWindow()
    qtbot.addWidget(window)
    window.addToolBar(QToolBar("tools", window))
    menu = window.menuBar().addMenu("Bench")
    usual = QLineEdit()
    ticker = Ticker(bridge)
    view = BenchView(bridge, ticker, settings, lambda: None, window)
    door = BenchDoor(window, usual, view, settings)
    actions = {name: QAction(name, window) for name in (*KEPT, "plan_again")}
    for name, action in actions.items():
        action.setObjectName(name)
        menu.addAction(action)
    door.keep(actions.values())
    actions["take_back"].setShortcut("Ctrl+Z")
    actions["plan_again"].setShortcut("Ctrl+P")
    window.resize(1000, 700)
    window.show()
    qtbot.waitExposed(window)
    usual.setFocus()
    yield window, door, usual, actions
    ticker._beat.stop()
    ticker._shot.stop()
    view.end_jobs()
    window.close()


def bars(window):
    found = (window.menuBar(), window.statusBar(), *window.findChildren(QToolBar))
    return [bar.isVisible() for bar in found]


def test_it_has_the_whole_window_and_gives_it_back(scene):
    window, door, usual, _ = scene
    told = []
    door.turned.connect(told.append)
    door.turn()
    assert door.is_open
    assert not any(bars(window))
    assert window.focusWidget() is door.view
    assert door.view.desk.place.is_on
    QTest.keyClick(door.view, Qt.Key.Key_Escape)
    assert not door.is_open
    assert all(bars(window))
    assert window.focusWidget() is usual
    assert not door.view.desk.place.is_on
    assert told == [True, False]


def test_only_keys_of_what_is_in_sight_work_there(scene):
    window, door, _, actions = scene
    heard = []
    for name in ("take_back", "plan_again"):
        actions[name].triggered.connect(lambda _on=False, name=name: heard.append(name))
    door.turn()
    for key in (Qt.Key.Key_P, Qt.Key.Key_Z):
        QTest.keyClick(window, key, Qt.KeyboardModifier.ControlModifier)
    assert heard == ["take_back"]
    door.turn()
    QTest.keyClick(window, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier)
    assert heard == ["take_back", "plan_again"]


def test_it_takes_the_whole_screen_and_gives_it_back(scene, settings):
    window, door, _, _ = scene
    door.turn()
    assert window.isFullScreen()
    settings.put(BENCH_WHOLE_SCREEN, value=False)
    door.view.leaves.widened.emit()
    assert not window.isFullScreen()
    door.turn()
    door.turn()
    assert not window.isFullScreen()
    settings.put(BENCH_WHOLE_SCREEN, value=True)
    door.view.leaves.widened.emit()
    door.turn()
    assert not window.isFullScreen()
