"""The list of measures: a verdict is read to its last word, however narrow the list is."""

import pytest
from PySide6.QtGui import QFontMetrics

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.shapes_model import ShapesModel
from armorplan.desktop.widgets import shapes_delegate
from armorplan.desktop.widgets.checklist_delegate import small_font
from armorplan.desktop.widgets.shapes_list import ShapesList

LONG = "cannot be set once the rest of long row is set"


def row(name: str, verdict: str, severity: str = "") -> ShapeRow:
    return ShapeRow(
        id=name, topic="reach", title=name, verdict=verdict, text="", severity=severity
    )


@pytest.fixture
def shown(qtbot, monkeypatch):
    """Return a narrow list of a short and a long verdict, and what was written in it."""
    written = []
    model = ShapesModel()
    made = ShapesList(model)
    qtbot.addWidget(made)
    made.resize(230, 400)
    model.show((row("short", "meet"), row("long", LONG), row("grave", LONG, "error")))
    made.expandAll()
    drawn = shapes_delegate.QPainter.drawText
    monkeypatch.setattr(
        shapes_delegate.QPainter,
        "drawText",
        lambda on, *args: (written.append(args[-1]), drawn(on, *args)),
    )
    made.show()
    qtbot.waitExposed(made)
    made.grab()
    return made, model, written


def test_a_long_verdict_is_broken_and_its_line_is_as_much_higher(shown):
    made, model, written = shown
    assert LONG in " ".join(written)
    assert f"to mend: {LONG}" in " ".join(written)
    assert not any("…" in words for words in written)
    high = made.visualRect(model.index_of("long")).height()
    small = QFontMetrics(small_font(made.font())).height()
    assert high >= QFontMetrics(made.font()).height() + 2 * small
