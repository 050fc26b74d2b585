"""A checklist of 2,000 steps has to scroll and tick within a frame of 16 ms.

Baseline: painting one screen of the same text with bare ``drawText`` calls, in the same run.
"""

import os
import time

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

import pytest
from desktop.fake_session import FakeSession
from PySide6.QtGui import QPainter, QPixmap

from armorplan.app.rows import Grouping
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.checklist_rows import shown_rows
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.checklist_panel import ChecklistPanel
from armorplan.desktop.widgets.checklist_view import ChecklistView

STEPS = 2000
SCREEN = (620, 800)
LINES_ON_SCREEN = 68
"""17 rows of four texts each."""

pytestmark = pytest.mark.bench


@pytest.fixture
def session():
    return FakeSession.of(STEPS)


@pytest.fixture
def panel(qapp, qtbot, session):
    bridge = Bridge(session, session.clock)
    ticker = Ticker(bridge)
    made = ChecklistPanel(bridge, ticker)
    qtbot.addWidget(made)
    made.resize(*SCREEN)
    made.show()
    made.view.expandAll()
    qapp.processEvents()
    yield made
    ticker.deleteLater()


@pytest.fixture
def baseline_s(qapp):
    """Seconds to paint a screenful of text with nothing around it."""
    pixmap = QPixmap(*SCREEN)

    def paint():
        painter = QPainter(pixmap)
        for line in range(LINES_ON_SCREEN):
            painter.drawText(10, 12 * line, "Rivet the lantern boss over the row heads")
        painter.end()

    paint()
    began = time.perf_counter()
    for _ in range(20):
        paint()
    return (time.perf_counter() - began) / 20


def note_ratio(benchmark, baseline_s):
    benchmark.extra_info["baseline_ms"] = round(baseline_s * 1000, 3)
    if benchmark.stats is not None:
        benchmark.extra_info["ratio"] = round(benchmark.stats["median"] / baseline_s, 1)


def test_scrolling_one_frame(benchmark, panel, qapp, baseline_s):
    bar = panel.view.verticalScrollBar()
    state = {"at": 0}

    def frame():
        state["at"] = (state["at"] + 137) % bar.maximum()
        bar.setValue(state["at"])
        panel.view.viewport().repaint()

    benchmark(frame)
    note_ratio(benchmark, baseline_s)


def test_one_tick_of_twenty_timers(benchmark, panel, session, qapp, baseline_s):
    panel._bridge.start(session.ready_steps()[:20])
    session.clock.advance(1)

    def tick():
        panel._ticker.tick()
        qapp.processEvents()

    benchmark(tick)
    note_ratio(benchmark, baseline_s)


def test_filtering_by_words(benchmark, session, baseline_s):
    rows = session.checklist(Grouping.PIECE)
    benchmark(shown_rows, rows, ready_only=False, words="boss bevel")
    note_ratio(benchmark, baseline_s)


def test_showing_what_a_tick_of_a_step_changed(benchmark, qapp, qtbot, session, baseline_s):
    """The rows themselves are the session's work and are made outside the clock."""
    view = ChecklistView(Bridge(session, session.clock))
    qtbot.addWidget(view)
    view.resize(*SCREEN)
    view.show_rows(session.checklist(Grouping.PIECE), open_all=True)
    view.show()
    steps = iter([s.id for s in session.steps])

    def prepared():
        session.done((next(steps),))
        return (session.checklist(Grouping.PIECE),), {}

    def show(rows):
        view.show_rows(rows, open_all=True)
        qapp.processEvents()

    benchmark.pedantic(show, setup=prepared, rounds=40)
    note_ratio(benchmark, baseline_s)


def test_turning_ready_only_on_and_off(benchmark, panel, qapp, baseline_s):
    state = {"on": False}

    def turn():
        state["on"] = not state["on"]
        panel.set_ready_only(state["on"])
        qapp.processEvents()

    benchmark(turn)
    note_ratio(benchmark, baseline_s)
