"""The section below the answer to which of two comes first: there where it tells, and it folds."""

from dataclasses import replace

import pytest
from desktop.reach_scenes import FLAT, SHORT
from PySide6.QtTest import QTest

from armorplan.desktop.widgets.between_panel import BetweenPanel
from armorplan.desktop.widgets.reach_section import MOST_PX, ReachSection


@pytest.fixture
def section(qtbot):
    made = ReachSection()
    qtbot.addWidget(made)
    made.resize(700, 260)
    return made


def test_without_a_picture_it_takes_no_room(section):
    section.show_picture(SHORT)
    assert not section.isHidden()
    section.show_picture(None)
    assert section.isHidden()


def test_it_is_no_higher_than_it_may_be_and_folds_to_its_button(section):
    section.show_picture(SHORT)
    section.show()
    open_px = section.sizeHint().height()
    assert section.picture.height() <= MOST_PX
    section.fold.click()
    assert section.picture.isHidden()
    assert section.sizeHint().height() < open_px - 100
    section.show_picture(replace(SHORT, sections=(FLAT, SHORT.sections[-1])))
    assert section.picture.isHidden()
    section.fold.click()
    assert not section.picture.isHidden()


def test_the_panel_shows_it_below_an_answer_by_reach_and_drops_it_with_the_answer(
    qtbot, bridge, session
):
    panel = BetweenPanel(bridge)
    qtbot.addWidget(panel)
    panel.resize(700, 500)
    panel.show()
    then = next(step for step in session.steps if step.needs)
    asked = session.asking_between().told(f"step:{then.needs[0]}", f"step:{then.id}")
    panel.desk.told.emit(asked)
    assert panel.section.isHidden()
    panel.desk.told.emit(replace(asked, picture=SHORT))
    assert not panel.section.isHidden()
    assert panel.section.picture.picture == SHORT
    QTest.qWait(1)
    assert panel.section.y() > panel.answer.y()
    panel.desk.refused.emit("Nothing is called so.")
    assert panel.section.isHidden()
    panel.desk.close()
