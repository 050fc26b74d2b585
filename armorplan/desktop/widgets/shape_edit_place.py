"""Place and diameter of the chosen hole, to be typed."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QLineEdit, QWidget

from armorplan.desktop.shape_edit_words import mm
from armorplan.desktop.widgets.edit_form import FIELD_EDGES
from armorplan.files.typed_numbers import typed_number
from armorplan.pattern.parts import Hole


class PlaceBox(QWidget):
    """Three numbers in mm; ``told`` carries hole, centre and diameter, ``refused`` why it does not."""

    told = Signal(str, object, float)
    refused = Signal(str)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("table_place")
        self.setStyleSheet(FIELD_EDGES)
        self._hole: Hole | None = None
        row = QGridLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        self.lines: dict[str, QLineEdit] = {}
        names = (
            ("x", self.tr("&x"), self.tr("To the right, mm")),
            ("y", self.tr("&y"), self.tr("Down the page, mm")),
            ("across", self.tr("&ø"), self.tr("Diameter, mm")),
        )
        for at, (name, label, heard) in enumerate(names):
            line = self.lines[name] = QLineEdit(self)
            line.setObjectName(f"place_{name}")
            line.setAccessibleName(heard)
            line.setToolTip(heard)
            line.editingFinished.connect(self.commit)
            words = QLabel(label, self)
            words.setBuddy(line)
            row.addWidget(words, 0, 3 * at)
            row.addWidget(line, 0, 3 * at + 1)
            row.addWidget(QLabel(self.tr("mm"), self), 0, 3 * at + 2)
        self.hide()

    def show_hole(self, hole: Hole | None) -> None:
        """Show where a hole lies; ``None`` hides the fields."""
        self.setVisible(hole is not None)
        if hole is not None and hole != self._hole:
            values = (hole.centre[0], hole.centre[1], hole.diameter_mm)
            for line, value in zip(self.lines.values(), values, strict=True):
                line.setText(mm(value))
        self._hole = hole

    def go(self) -> None:
        """Give the first number the keyboard."""
        self.lines["x"].setFocus()
        self.lines["x"].selectAll()

    def commit(self) -> None:
        """Tell what was typed, if it says something new."""
        hole = self._hole
        if hole is None:
            return
        shown = (mm(hole.centre[0]), mm(hole.centre[1]), mm(hole.diameter_mm))
        typed = tuple(line.text().strip() for line in self.lines.values())
        if typed == shown:
            return
        numbers = [typed_number(text.removesuffix("mm").strip()) for text in typed]
        x, y, across = numbers
        if x is None or y is None or across is None or across <= 0:
            self.refused.emit(self.tr("Type numbers in mm, like 12 or 12.5."))
            return
        # What was not typed anew keeps its exact value, which the field rounds.
        exact = (hole.centre[0], hole.centre[1], hole.diameter_mm)
        x, y, across = (
            old if text == was else new
            for old, text, was, new in zip(exact, typed, shown, (x, y, across), strict=True)
        )
        self.told.emit(hole.id, (x, y), across)
