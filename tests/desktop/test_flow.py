"""Widgets in a row go on in the next line where there is no more room."""

import pytest
from PySide6.QtWidgets import QLineEdit, QPushButton, QVBoxLayout, QWidget

from armorplan.desktop.widgets.flow import Flow, named_field


@pytest.fixture
def page(qtbot):
    made = QWidget()
    qtbot.addWidget(made)
    down = QVBoxLayout(made)
    made.flow = Flow(made)
    made.buttons = [QPushButton(f"button {at}") for at in range(6)]
    for button in made.buttons:
        made.flow.add(button)
    down.addWidget(made.flow)
    down.addStretch(1)
    made.resize(900, 300)
    made.show()
    yield made
    made.close()


def lines(page):
    return len({button.y() for button in page.buttons if not button.isHidden()})


def test_all_stand_in_one_line_where_there_is_room(page):
    assert lines(page) == 1


def test_they_go_on_below_and_nothing_is_cut_off(qtbot, page):
    page.resize(260, 300)
    qtbot.waitUntil(lambda: lines(page) > 1)
    room = page.flow.rect()
    assert all(room.contains(button.geometry()) for button in page.buttons)
    assert not any(
        one.geometry().intersects(other.geometry())
        for at, one in enumerate(page.buttons)
        for other in page.buttons[at + 1 :]
    )


def test_what_is_hidden_leaves_no_gap(qtbot, page):
    x = page.buttons[1].x()
    page.buttons[0].hide()
    qtbot.waitUntil(lambda: page.buttons[1].x() < x)
    page.buttons[0].show()
    qtbot.waitUntil(lambda: page.buttons[1].x() == x)


def test_a_field_has_its_name_before_it(qtbot):
    field = QLineEdit()
    pair = named_field("&Weight", field, None)
    qtbot.addWidget(pair)
    pair.show()
    assert field.x() > 0
    pair.close()
