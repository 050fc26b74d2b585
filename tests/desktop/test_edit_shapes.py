"""What the shapes tell follows an edit: on the page in front, over the parts, and back again."""

import pytest
from desktop.edit_bench import edit_bench, field
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit, QPushButton

from armorplan.app.rows import BenchState
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.shapes_page import ShapesView

CONTROL = Qt.KeyboardModifier.ControlModifier
THICK = ("materials", "boss_leather")


@pytest.fixture
def bench(tmp_path, qtbot, qapp, monkeypatch):
    yield from edit_bench(tmp_path, qtbot, monkeypatch)


def told(bench):
    """Return by line of the page how grave it is and what it says; steps are another build's."""
    rows = bench.window.findChild(ShapesView).rows
    return {row.id: (row.severity, row.verdict, row.text) for row in rows}


def save(bench, page, qtbot):
    with qtbot.waitSignal(bench.bridge.opened):
        qtbot.keyClick(page, Qt.Key.Key_S, CONTROL)


def thicken(bench, page, qtbot):
    page.go(THICK)
    line = field(page, QLineEdit, *THICK, "thickness")
    line.selectAll()
    qtbot.keyClicks(line, "25 mm")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: bench.desk.stack.count() == 1)


def test_a_thickness_saved_and_taken_back_is_followed_by_page_and_marks(bench, qtbot):
    bench.window.actions_by_id["go_shapes"].trigger()
    canvas = bench.window.findChild(object, "parts_canvas")
    before, marks = told(bench), bench.bridge.session.diagram().marks
    drawn = canvas.marks.places().keys()
    page = bench.show(qtbot)
    thicken(bench, page, qtbot)
    assert told(bench) == before  # a build keeps what it was started with
    save(bench, page, qtbot)
    thick = told(bench)
    assert thick["posts:boss_left"][0] == "warning"
    assert thick["rows:left_row"] == before["rows:left_row"]
    bench.window.actions_by_id["go_parts"].trigger()
    assert canvas.marks.places().keys() != drawn
    page.findChild(QPushButton, "edit_undo").click()
    save(bench, page, qtbot)
    assert bench.bridge.session.diagram().marks == marks
    assert canvas.marks.places().keys() == drawn
    bench.window.actions_by_id["go_shapes"].trigger()
    assert told(bench) == before


def test_another_window_on_the_build_keeps_its_numbers_and_hears_of_ticks(bench, qtbot):
    other = Bridge(bench.seat(bench.opened(bench.workshop, bench.folder)), bench.clock)
    view = ShapesView(other)
    qtbot.addWidget(view)
    view.show()
    before = view.rows
    step = bench.bridge.session.ready_steps()[:1]
    bench.bridge.done(step)
    other.read_along()
    assert other.session.why(step[0]).state is BenchState.DONE
    page = bench.show(qtbot)
    thicken(bench, page, qtbot)
    save(bench, page, qtbot)
    other.read_along()
    assert view.rows == before
    view.go_to("posts:boss_left")
    assert view.detail.row.severity != "warning"
    assert told(bench)["posts:boss_left"][0] == "warning"
