"""The layers of a joint: its section to scale, and a list in which they change places."""

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QListWidgetItem,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.desktop.shape_edit_layers import Layers
from armorplan.desktop.widgets.edit_fields import EdgedBox
from armorplan.desktop.widgets.stack_painting import StackSketch

SKETCH_SCALE = 5.0
SKETCH_PX = 300
MOST_LINES = 5


class StackPanel(QWidget):
    """Hidden until a joint is chosen; ``ordered`` carries its layers in another order."""

    ordered = Signal(object)

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("table_stack")
        self._layers: Layers | None = None
        self._head = QLabel(self)
        self._head.setWordWrap(True)
        self._sketch = StackSketch(SKETCH_SCALE, SKETCH_PX, self)
        self.list = QListWidget(self)
        self.list.setObjectName("stack_layers")
        self.list.setAccessibleName(self.tr("Layers, the outermost first"))
        self.list.setToolTip(self.tr("Drag a layer, or move it with Alt+Up and Alt+Down."))
        self.list.setDragDropMode(QAbstractItemView.DragDropMode.InternalMove)
        self.list.installEventFilter(self)
        self.list.model().rowsMoved.connect(self._tell)
        self.whole = EdgedBox(self)
        self.whole.setObjectName("stack_whole_row")
        self._lay_out()
        self.hide()

    def _lay_out(self) -> None:
        row = QHBoxLayout()
        for name, text, by in (
            ("stack_outward", self.tr("Outward"), -1),
            ("stack_inward", self.tr("Inward"), 1),
        ):
            button = QPushButton(text, self)
            button.setObjectName(name)
            button.setToolTip(self.tr("Alt+Up") if by < 0 else self.tr("Alt+Down"))
            button.clicked.connect(lambda _on, step=by: self.shift(step))
            row.addWidget(button)
        row.addWidget(self.whole, 1)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        for widget in (self._head, self._sketch, self.list):
            down.addWidget(widget)
        down.addLayout(row)

    def show_layers(self, layers: Layers | None) -> None:
        """Show the layers of a joint; ``None`` hides them."""
        self.setVisible(layers is not None)
        if layers is None or layers == self._layers:
            self._layers = layers
            return
        at = self.list.currentRow() if self._is_same(layers) else 0
        self._layers = layers
        self._head.setText(self.tr("Layers of {0}, outside on top").format(layers.joint))
        self._sketch.setVisible(layers.picture is not None)
        if layers.picture is not None:
            self._sketch.show_picture(layers.picture)
        self.list.clear()
        for key, name in layers.rows:
            item = QListWidgetItem(name, self.list)
            item.setData(Qt.ItemDataRole.UserRole, key)
        self.list.setCurrentRow(at)
        lines = min(len(layers.rows), MOST_LINES)
        self.list.setFixedHeight(self.list.sizeHintForRow(0) * lines + 8)
        self.whole.setVisible(bool(layers.seam))
        self.whole.setText(self.tr("in the whole row {0}").format(layers.seam))

    def _is_same(self, layers: Layers) -> bool:
        return self._layers is not None and self._layers.joint == layers.joint

    def go(self) -> None:
        """Give the layers the keyboard."""
        if self._layers is not None:
            self.list.setFocus()

    def shift(self, by: int) -> None:
        """Move the chosen layer outward (-1) or inward (1)."""
        at = self.list.currentRow()
        to = at + by
        if at < 0 or not 0 <= to < self.list.count():
            return
        item = self.list.takeItem(at)
        self.list.insertItem(to, item)
        self.list.setCurrentRow(to)
        self._tell()

    def _tell(self) -> None:
        items = (self.list.item(at) for at in range(self.list.count()))
        keys = tuple(item.data(Qt.ItemDataRole.UserRole) for item in items)
        if self._layers is not None and keys != tuple(key for key, _ in self._layers.rows):
            is_whole = bool(self._layers.seam) and self.whole.isChecked()
            self.ordered.emit(self._layers.in_order(keys, is_whole=is_whole))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress:
            is_alt = event.modifiers() == Qt.KeyboardModifier.AltModifier
            way = {Qt.Key.Key_Up: -1, Qt.Key.Key_Down: 1}.get(Qt.Key(event.key()))
            if is_alt and way is not None:
                self.shift(way)
                return True
        return super().eventFilter(watched, event)
