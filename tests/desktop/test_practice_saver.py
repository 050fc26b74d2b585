"""Worksheets and pages of progress saved from the practice window."""

from io import BytesIO

import pytest
from orders.recovery.build_scenes import derived_sample
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog

from armorplan.app.drills.source import DrillSource
from armorplan.app.practice_paper import worksheet
from armorplan.desktop.widgets.drill_page import PracticePanel
from armorplan.practice.drill import DrillKind


@pytest.fixture
def panel(qtbot, bridge, window):
    made = PracticePanel(bridge, parent=window)
    qtbot.addWidget(made)
    made.begin()
    qtbot.waitUntil(lambda: not made.pane.desk.is_busy)
    yield made
    made.close_jobs()


@pytest.fixture
def asked(bridge, monkeypatch):
    """Make sheets of a real build; tell what was asked for."""
    found = []

    def making(asked):
        found.append(asked)
        return lambda: worksheet(DrillSource(derived=derived_sample("elbow_cop")), asked)

    monkeypatch.setattr(bridge.session.practice, "worksheet", making, raising=False)
    return found


def choose(monkeypatch, path, kind=""):
    monkeypatch.setattr(
        QFileDialog, "getSaveFileName", lambda *_: (str(path) if path else "", kind)
    )


def text_of(path):
    return "\n".join(page.extract_text() for page in PdfReader(BytesIO(path.read_bytes())).pages)


def test_a_worksheet_is_of_the_kind_that_is_chosen_and_bears_the_name(
    qtbot, panel, asked, monkeypatch, tmp_path
):
    choose(monkeypatch, tmp_path / "sheet", "Worksheet of 4 exercises, Letter (*.pdf)")
    box = panel.bar.kind
    box.setCurrentIndex(box.findData(DrillKind.ORDER.value))
    with qtbot.waitSignal(panel.saver.says, check_params_cb=lambda said: "exercises" in said):
        QTest.keyClick(panel.bar.sheet, Qt.Key.Key_Space)
    (one,) = asked
    assert one.kinds == (DrillKind.ORDER,)
    assert one.count == 4
    text = text_of(tmp_path / "sheet.pdf")
    assert f"Name: {panel.who.name}" in text
    assert "In what order" in text


def test_a_place_where_nothing_can_be_written_is_told(panel, asked, monkeypatch, tmp_path):
    choose(monkeypatch, tmp_path / "no" / "sheet.pdf")
    panel.bar.sheet.click()
    assert "cannot be written there" in panel.said.text()
    assert not asked


def test_the_page_of_progress_is_saved_as_it_is_shown(qtbot, panel, monkeypatch, tmp_path):
    choose(monkeypatch, tmp_path / "page.pdf")
    panel.tabs.setCurrentWidget(panel.progress)
    qtbot.waitUntil(lambda: not panel.progress.is_busy)
    with qtbot.waitSignal(panel.saver.says, check_params_cb=lambda said: "Written" in said):
        QTest.keyClick(panel.progress.paper, Qt.Key.Key_Space)
    assert f"Reasons known: {panel.who.name}" in text_of(tmp_path / "page.pdf")


def test_nothing_is_saved_where_no_file_is_chosen(panel, asked, monkeypatch):
    choose(monkeypatch, "")
    panel.bar.sheet.click()
    assert not asked
