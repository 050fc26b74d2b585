"""What is chosen in the drawing, and the true length between two points of it."""

from math import dist

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QVBoxLayout, QWidget

from armorplan.desktop.bring_view import PartFacts
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.bring_part_bar import PartBar
from armorplan.desktop.widgets.flow import Flow, named_field
from armorplan.files.typed_numbers import typed_number
from armorplan.geometry.brought.model import Shape
from armorplan.pattern.parts import Point

FIELD_PX = 90
LEAST_MM = 0.05
"""Points nearer to each other than this are one."""


class ShapeBar(QWidget):
    """``measured`` carries two points in mm and their true distance.

    ``measuring`` says whether clicks in the drawing are points to be measured between.
    """

    measured = Signal(object, object, float)
    measuring = Signal(bool)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_shape_bar")
        self._key = ""
        self._points: tuple[Point, ...] = ()
        self.words = QLabel(self)
        self.part = PartBar(self)
        self.measure = QCheckBox(self.tr("Measure between two &points (M)"), self)
        self.length = QLabel(self)
        self.true = QLineEdit(self)
        self._flow = Flow(self)
        self._lay_out()
        self.true.returnPressed.connect(self._measure)
        self.measure.toggled.connect(self._begin)
        self.show_shape(None, "")
        self._begin(wanted=False)

    def _lay_out(self) -> None:
        self.words.setObjectName("bring_shape")
        self.words.setWordWrap(True)
        self.length.setObjectName("bring_length")
        self.true.setObjectName("bring_true")
        self.true.setAccessibleName(self.tr("How far apart the two points are in truth, in mm"))
        self.true.setMaximumWidth(FIELD_PX)
        self.measure.setObjectName("bring_measure")
        self._trued = named_field(self.tr("in &truth, mm"), self.true, self._flow)
        for widget in (self.measure, self.length, self._trued):
            self._flow.add(widget)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(4, 0, 4, 0)
        for widget in (self.words, self.part, self._flow):
            whole.addWidget(widget)

    # --- what is chosen -----------------------------------------------------------------------

    @property
    def key(self) -> str:
        """The shape that is chosen; empty: none is."""
        return self._key

    def show_shape(
        self,
        shape: Shape | None,
        words: str,
        part: Shape | None = None,
        facts: PartFacts | None = None,
    ) -> None:
        """Say what is chosen, and what holds of the part that it is or lies in."""
        self._key = shape.key if shape else ""
        nothing = self.tr("Nothing is chosen in the drawing (F6 goes there and back).")
        self.words.setText(words or nothing)
        self.part.show_part(part, facts)

    # --- a known length -----------------------------------------------------------------------

    def _begin(self, wanted: bool) -> None:
        self._points = ()
        self._trued.hide()
        self.length.setVisible(wanted)
        self.length.setText(self.tr("Click the first point, or walk to it and press M."))
        self.measuring.emit(wanted)

    def mark(self, point: Point) -> None:
        """Take a point: the first, or the second of two; a third begins anew."""
        if not self.measure.isChecked():
            self.measure.setChecked(True)
        if len(self._points) == 1 and dist(self._points[0], point) < LEAST_MM:
            self._say(self.tr("That is the first point again. Choose one that lies apart."))
            return
        self._points = (*(self._points if len(self._points) < 2 else ()), point)  # noqa: PLR2004 - a pair
        if len(self._points) == 1:
            self._trued.hide()
            self._say(self.tr("Now the second point."))
            return
        apart = f"{dist(*self._points):.1f}"
        self._say(self.tr("{0} mm as it is taken now;").format(apart))
        self.true.clear()
        self._trued.show()
        self.true.setFocus()

    def _measure(self) -> None:
        true_mm = typed_number(self.true.text())
        if true_mm is None or true_mm <= 0:
            text = self.tr("'{0}' is no length. Type mm, such as 212.5.")
            self._say(text.format(self.true.text()))
            return
        first, second = self._points
        self.measured.emit(first, second, true_mm)
        self.measure.setChecked(False)

    def _say(self, sentence: str) -> None:
        self.length.setText(sentence)
        self.length.show()
        announce(self.length, sentence)
