"""The drawing with its legend, what is chosen in it, and what a person says of that."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from armorplan.desktop.bring_view import BringView
from armorplan.desktop.bring_words import counted
from armorplan.desktop.widgets.bring_canvas import BringCanvas
from armorplan.desktop.widgets.bring_kinds import KindBar
from armorplan.desktop.widgets.bring_shape_bar import ShapeBar
from armorplan.geometry.brought.model import ShapeKind


class BringPicture(QWidget):
    """``kind_said`` carries a key and a kind, ``said`` a sentence."""

    kind_said = Signal(str, object)
    said = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_picture")
        self.file = QLabel(self)
        self.canvas, self.kinds, self.shape = BringCanvas(self), KindBar(self), ShapeBar(self)
        self.file.setObjectName("bring_file")
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.file)
        down.addWidget(self.canvas, 1)
        down.addWidget(self.kinds)
        down.addWidget(self.shape)
        self._connect()

    def _connect(self) -> None:
        canvas, shape = self.canvas, self.shape
        canvas.hands.chosen.connect(self.choose)
        canvas.hands.walked.connect(self.choose)
        canvas.kind_said.connect(self._say_kind)
        canvas.name_wanted.connect(shape.begin_name)
        canvas.marked.connect(shape.mark)
        self.kinds.pressed.connect(self._say_kind)
        shape.named.connect(lambda _key, _name: canvas.setFocus())
        shape.measuring.connect(canvas.measure)

    def show_view(self, name: str, view: BringView) -> None:
        """Draw a view of the file of this name; what was chosen stays chosen."""
        unit = self.tr("{file}: one unit of it is taken for {mm} mm")
        self.file.setText(unit.format(file=name, mm=f"{view.mm_each:.6g}"))
        self.canvas.show_view(view)
        self.kinds.show_counts(counted(view.found))
        self.choose(self.shape.key)

    def choose(self, key: str) -> None:
        """Say what a shape is taken for; an empty key chooses nothing."""
        self.shape.show_shape(self.canvas.shape_at(key), self.canvas.words_of(key))

    def _say_kind(self, kind: ShapeKind) -> None:
        if self.shape.key:
            self.kind_said.emit(self.shape.key, kind)
        else:
            self.said.emit(self.tr("Choose a line in the drawing first."))
