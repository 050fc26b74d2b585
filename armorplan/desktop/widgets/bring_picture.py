"""The drawing with its legend, what is chosen in it, and what a person says of that."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QCheckBox, QHBoxLayout, QLabel, QSizePolicy, QVBoxLayout, QWidget

from armorplan.desktop.bring_view import BringView, Ghost
from armorplan.desktop.bring_words import counted
from armorplan.desktop.widgets.bring_canvas import BringCanvas
from armorplan.desktop.widgets.bring_kinds import KindBar
from armorplan.desktop.widgets.bring_shape_bar import ShapeBar
from armorplan.geometry.brought.model import ShapeKind

NEAR_FROM = 400
"""With more shapes than this what is asked about would be too small in the whole drawing."""


class BringPicture(QWidget):
    """``kind_said`` carries a key and a kind, ``said`` a sentence."""

    kind_said = Signal(str, object)
    said = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("bring_picture")
        self.file = QLabel(self)
        self.canvas, self.kinds, self.shape = BringCanvas(self), KindBar(self), ShapeBar(self)
        self.near = QCheckBox(self.tr("Go near (Z)"), self)
        self._lit: tuple[str, ...] = ()
        self.file.setObjectName("bring_file")
        self.near.setObjectName("bring_near")
        self.near.setToolTip(self.tr("Show what is asked about as large as it can be"))
        self.file.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        head = QHBoxLayout()
        head.addWidget(self.file, 1)
        head.addWidget(self.near)
        down.addLayout(head)
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
        self.near.toggled.connect(self._turn_near)
        self.kinds.pressed.connect(self._say_kind)
        shape.named.connect(lambda _key, _name: canvas.setFocus())
        shape.measuring.connect(canvas.measure)

    def show_view(self, name: str, view: BringView) -> None:
        """Draw a view of the file of this name; what was chosen stays chosen."""
        unit = self.tr("{file}: one unit of it is taken for {mm} mm")
        self.file.setText(unit.format(file=name, mm=f"{view.mm_each:.6g}"))
        self.file.setToolTip(self.file.text())
        if not self.canvas.places():
            self.near.setChecked(len(view.found.shapes) > NEAR_FROM)
        self.canvas.show_view(view)
        self.kinds.show_counts(counted(view.found))
        self.choose(self.shape.key)

    def light(self, keys: tuple[str, ...], ghost: Ghost | None) -> None:
        """Light what is asked about, with what fits what; go near it where that is wanted."""
        self._lit = keys
        self.canvas.light(keys)
        self.canvas.show_ghost(ghost)
        self._go()

    def _go(self) -> None:
        if self.near.isChecked():
            self.canvas.go_near(self._lit)

    def _turn_near(self, wanted: bool) -> None:
        if wanted:
            self._go()
        else:
            self.canvas.fit()

    def choose(self, key: str) -> None:
        """Say what a shape is taken for; an empty key chooses nothing."""
        self.shape.show_shape(self.canvas.shape_at(key), self.canvas.words_of(key))

    def _say_kind(self, kind: ShapeKind) -> None:
        if self.shape.key:
            self.kind_said.emit(self.shape.key, kind)
        else:
            self.said.emit(self.tr("Choose a line in the drawing first."))
