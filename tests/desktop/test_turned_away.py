"""What is out of sight does nothing, and is right again as soon as it is in sight."""

import pytest
from PySide6.QtWidgets import QStackedWidget, QTabWidget, QWidget

from armorplan.app.rows import BenchState
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.checklist_panel import ChecklistPanel
from armorplan.desktop.widgets.parts_diagram import PartsDiagram
from armorplan.desktop.widgets.turned_away import is_turned_away
from armorplan.desktop.widgets.why_panel import WhyPanel


@pytest.fixture
def pages(qtbot):
    made = QStackedWidget()
    qtbot.addWidget(made)
    made.resize(900, 600)
    made.addWidget(QTabWidget())
    made.addWidget(QWidget())
    made.show()
    return made


@pytest.fixture
def counted(session, monkeypatch):
    asked = []
    for name in ("checklist", "diagram", "why"):
        own = getattr(session, name)

        def told(*args, name=name, own=own):
            asked.append(name)
            return own(*args)

        monkeypatch.setattr(session, name, told)
    return asked


def test_a_page_within_a_page_is_turned_away_with_it(pages):
    within = QWidget()
    pages.widget(0).addTab(within, "one")
    pages.widget(0).addTab(other := QWidget(), "other")
    assert not is_turned_away(within)
    assert is_turned_away(other)
    pages.setCurrentIndex(1)
    assert is_turned_away(within)


def test_panels_out_of_sight_ask_for_nothing_and_catch_up(pages, bridge, session, counted):
    ticker = Ticker(bridge)
    panels = ChecklistPanel(bridge, ticker), PartsDiagram(bridge), WhyPanel(bridge)
    for panel in panels:
        pages.widget(0).addTab(panel, "panel")
    pages.widget(0).setCurrentIndex(0)
    pages.setCurrentIndex(1)
    counted.clear()
    step = session.ready_steps()[0]
    bridge.choose_steps((step,))
    bridge.done((step,))
    assert counted == []
    pages.setCurrentIndex(0)
    assert "checklist" in counted
    assert panels[0].view.current_row().state is BenchState.DONE
    for at in (1, 2):
        pages.widget(0).setCurrentIndex(at)
    assert {"diagram", "why"} <= set(counted)
    ticker._beat.stop()
    ticker._shot.stop()
