"""The windows beside the bench close by Esc, where nothing in them takes it, and by Ctrl+W."""

from types import SimpleNamespace

import pytest
from desktop.fake_corrections import FakeTaught
from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from armorplan.desktop.corrections_desk import CorrectionsDesk
from armorplan.desktop.widgets.closing_keys import ClosingKeys
from armorplan.desktop.widgets.corrections_page import CorrectionsPage
from armorplan.desktop.widgets.panel_page import PanelPage
from armorplan.desktop.widgets.shape_edit_hands import TableHands

KEYS = {"Esc": (Qt.Key.Key_Escape,), "Ctrl+W": (Qt.Key.Key_W, Qt.KeyboardModifier.ControlModifier)}


class Field(QLineEdit):
    """Takes Esc while something is in hand."""

    has_hand = False

    def event(self, event):
        is_key = event.type() == QEvent.Type.KeyPress
        if is_key and self.has_hand and event.key() == Qt.Key.Key_Escape:
            self.has_hand = False
            return True
        return super().event(event)


class Panel(QWidget):
    """A panel with a field, which counts how often its jobs were closed."""

    left = Signal()

    def __init__(self):
        super().__init__()
        self.setObjectName("panel")
        self.field, self.closed = Field(self), 0
        QVBoxLayout(self).addWidget(self.field)

    def begin(self):
        self.field.setFocus()

    def close_jobs(self):
        self.closed += 1


@pytest.fixture
def page(qtbot):
    holder = QWidget()
    qtbot.addWidget(holder)
    made = PanelPage(Panel(), "Panel", (300, 200), holder)
    with qtbot.waitActive(made):
        made.show()
    yield made
    holder.close()


@pytest.mark.parametrize("key", KEYS)
def test_a_panel_s_window_closes_and_its_jobs_end(page, qtbot, key):
    qtbot.keyClick(page.panel.field, *KEYS[key])
    assert not page.isVisible()
    assert page.panel.closed == 1


def test_esc_drops_what_is_in_hand_first(page, qtbot):
    page.panel.field.has_hand = True
    qtbot.keyClick(page.panel.field, Qt.Key.Key_Escape)
    assert page.isVisible()
    qtbot.keyClick(page.panel.field, Qt.Key.Key_Escape)
    assert not page.isVisible()


def test_a_window_with_a_button_for_it_does_not_take_ctrl_w_twice(qtbot):
    page = QWidget()
    qtbot.addWidget(page)
    ClosingKeys(page, has_ctrl_w=True)
    page.show()
    qtbot.keyClick(page, *KEYS["Ctrl+W"])
    assert page.isVisible()
    qtbot.keyClick(page, *KEYS["Esc"])
    assert not page.isVisible()


@pytest.mark.parametrize("within", ["rows", "details", "picture", "foot.note"])
def test_corrections_close_from_wherever_the_keyboard_is(bridge, qtbot, within):
    desk = CorrectionsDesk(bridge, FakeTaught())
    page = CorrectionsPage(desk)
    qtbot.addWidget(page)
    page.show()
    page.begin()
    qtbot.waitUntil(lambda: not desk.is_busy)
    widget = page
    for name in within.split("."):
        widget = getattr(widget, name)
    qtbot.keyClick(widget, Qt.Key.Key_Escape)
    assert not page.isVisible()
    desk.close()


@pytest.mark.parametrize("chosen", [(), ("hole:a",)])
def test_esc_on_the_drawing_table_lets_go_of_what_is_chosen_and_then_is_the_window_s(qapp, chosen):
    places = {"hole:a": (0.0, 0.0)}
    table = SimpleNamespace(
        is_chosen=chosen.__contains__, places=lambda: places, show_box=lambda _box: None
    )
    owner = QObject()
    hands, let_go = TableHands(table, owner), []
    hands.chosen.connect(let_go.append)
    event = QKeyEvent(QEvent.Type.KeyPress, *KEYS["Esc"], Qt.KeyboardModifier.NoModifier)
    hands.key_press(event)
    assert event.isAccepted() is bool(chosen)
    assert let_go == [""] * len(chosen)
