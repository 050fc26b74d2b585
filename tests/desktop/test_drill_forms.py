"""The form that fits an exercise: joined to its picture, every control of it with a name."""

import pytest
from desktop.drill_scene import FIRST, MISTAKE, ORDER, PLAN, SOME
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QAbstractItemView, QAbstractSlider, QAbstractSpinBox

from armorplan.desktop.widgets.drill_forms import make_form
from armorplan.desktop.widgets.drill_picture import DrillPicture

CONTROLS = (QAbstractButton, QAbstractItemView, QAbstractSpinBox)
ALL = (ORDER, SOME, FIRST, MISTAKE, PLAN)


def named(drills):
    return pytest.mark.parametrize("drill", drills, ids=[d.asked.kind.value for d in drills])


def is_scroll_bar(control):
    return type(control).__name__ == "QScrollBar"


@named(ALL)
def test_every_control_has_a_name(qtbot, drill):
    form = make_form(drill)
    qtbot.addWidget(form)
    controls = [one for kind in CONTROLS for one in form.findChildren(kind)]
    controls += [one for one in form.findChildren(QAbstractSlider) if not is_scroll_bar(one)]
    assert controls
    for control in controls:
        told = QAccessible.queryAccessibleInterface(control)
        assert told.text(QAccessible.Text.Name), control.objectName()


@named(ALL)
def test_a_fresh_form_lets_itself_be_filled_and_made_narrow(qtbot, drill):
    form = make_form(drill)
    qtbot.addWidget(form)
    form.show()
    form.resize(360, 420)
    assert form.width() == 360
    assert form.drill is drill
    assert form.is_whole() == (drill is ORDER)
    form.begin()
    qtbot.waitUntil(lambda: form.focusWidget() is not None)


@named((ORDER, SOME, FIRST, PLAN))
def test_every_letter_on_the_picture_is_taken_in_the_form(qtbot, session, drill):
    picture = DrillPicture()
    qtbot.addWidget(picture)
    picture.show_drill(session.diagram(), drill)
    form = make_form(drill, picture)
    qtbot.addWidget(form)
    form.show()
    with qtbot.waitSignal(form.pointed) as pointed:
        qtbot.keyClick(picture.canvas, Qt.Key.Key_B)
    assert pointed.args == [drill.choices[1].id]


def test_a_form_out_of_sight_takes_nothing_from_the_picture(qtbot, session):
    picture = DrillPicture()
    qtbot.addWidget(picture)
    picture.show_drill(session.diagram(), FIRST)
    form = make_form(FIRST, picture)
    qtbot.addWidget(form)
    qtbot.keyClick(picture.canvas, Qt.Key.Key_B)
    assert form.answer() == ()
