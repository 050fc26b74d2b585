"""Panels in windows of their own beside the bench: opened at what is chosen, once, and closed by leaving."""

import pytest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QLineEdit

from armorplan.desktop.widgets.panel_page import PanelPage
from armorplan.desktop.widgets.window_pages import Benches, WindowPages

SHOWN = (
    "show_way_back",
    "show_dry_fit",
    "show_keepsakes",
    "show_hindsight",
    "show_practice",
)


@pytest.fixture
def pages(window, bridge, session, tmp_path):
    bridge.choose_steps(session.ready_steps()[:1])
    made = WindowPages(bridge, tmp_path / "log", Benches(None, None), window)
    yield made
    made.end_jobs()
    for page in shown():
        page.close()


def shown():
    return [
        w for w in QApplication.topLevelWidgets() if isinstance(w, PanelPage) and w.isVisible()
    ]


@pytest.mark.parametrize("name", SHOWN)
def test_a_page_is_opened_once_and_closed_by_leaving(qtbot, pages, name):
    getattr(pages, name)()
    getattr(pages, name)()
    (page,) = shown()
    assert page.windowTitle()
    assert not page.isModal()
    page.panel.left.emit()
    qtbot.waitUntil(lambda: not shown())
    getattr(pages, name)()
    assert len(shown()) == 1


@pytest.mark.parametrize("name", SHOWN)
def test_every_control_of_a_page_can_be_told_by_a_reader(qtbot, pages, name):
    getattr(pages, name)()
    (page,) = shown()
    kinds = (QAbstractButton, QComboBox, QLineEdit)
    # Qt gives arrows of scroll bars and clear buttons names of their own kind.
    controls = [c for kind in kinds for c in page.findChildren(kind) if c.objectName()]
    own = [c for c in controls if not c.objectName().startswith("qt_")]
    assert own
    unnamed = [
        c.objectName() for c in own if not (c.accessibleName() or getattr(c, "text", str)())
    ]
    assert unnamed == []


def test_the_way_back_begins_at_what_is_chosen_each_time(pages, bridge, session):
    steps = [s for s in session.steps if s.id.endswith(("lower_0", "upper_0"))]
    for step in steps[:2]:
        bridge.choose_steps((step.id,))
        pages.show_way_back()
        (page,) = shown()
        page.panel.take()
        assert step.title in page.panel.answers.item(0).text()
