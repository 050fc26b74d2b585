"""A message of the desktop, where it has a place for one; nothing where it has none."""

import pytest
from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtWidgets import QSystemTrayIcon

from armorplan.desktop.widgets import tray as tray_module
from armorplan.desktop.widgets.tray import Tray


class FakeIcon(QObject):
    """A place in the desktop's tray that keeps what is told there."""

    activated = Signal(object)
    messageClicked = Signal()  # noqa: N815 - Qt's name
    MessageIcon = QSystemTrayIcon.MessageIcon
    made: list = []  # noqa: RUF012 - read by the tests
    there = True

    def __init__(self, icon, parent):
        super().__init__(parent)
        assert not icon.isNull()
        self.told, self.tip, self.shown = [], "", False
        self.made.append(self)

    @classmethod
    def isSystemTrayAvailable(cls):  # noqa: N802 - Qt's name
        return cls.there

    def show(self):
        self.shown = True

    def hide(self):
        self.shown = False

    def setToolTip(self, tip):  # noqa: N802 - Qt's name
        self.tip = tip

    def showMessage(self, title, text, _icon, _ms):  # noqa: N802 - Qt's name
        self.told.append((title, text))


@pytest.fixture
def icons(monkeypatch):
    monkeypatch.setattr(tray_module, "QSystemTrayIcon", FakeIcon)
    monkeypatch.setattr(FakeIcon, "made", [])
    return FakeIcon


def test_it_tells_while_minimised_and_a_press_brings_the_window_back(icons, window):
    tray = Tray(window)
    tray.show_it(is_on=True, tip="Dry the strap")
    (icon,) = icons.made
    assert (icon.shown, icon.tip) == (True, "Dry the strap")
    window.showMinimized()
    tray.tell("Time is up: Dry the strap", "Go on.")
    assert icon.told == [("Time is up: Dry the strap", "Go on.")]
    icon.messageClicked.emit()
    assert not window.isMinimized()
    assert window.isVisible()
    tray.close()
    assert not icon.shown


def test_a_window_that_was_maximised_comes_back_so(icons, window):
    tray = Tray(window)
    tray.show_it(is_on=True, tip="")
    window.setWindowState(Qt.WindowState.WindowMaximized | Qt.WindowState.WindowMinimized)
    icons.made[0].activated.emit(None)
    assert window.isMaximized()
    tray.close()


def test_no_message_over_a_window_that_is_looked_at(icons, window, monkeypatch):
    monkeypatch.setattr(window, "isActiveWindow", lambda: True)
    tray = Tray(window)
    tray.show_it(is_on=True, tip="")
    tray.tell("Time is up", "")
    assert icons.made[0].told == []
    tray.close()


def test_without_timers_or_without_a_tray_there_is_none(icons, window, monkeypatch):
    tray = Tray(window)
    tray.show_it(is_on=False, tip="")
    assert icons.made == []
    monkeypatch.setattr(icons, "there", False)
    tray.show_it(is_on=True, tip="")
    tray.tell("Time is up", "")
    assert icons.made == []
