"""The list of steps whose order is made: rows go by drag, by keys and by buttons alike."""

from PySide6.QtCore import (
    QModelIndex,
    QPersistentModelIndex,
    QPoint,
    QRectF,
    QSize,
    Qt,
    Signal,
)
from PySide6.QtGui import QColor, QFont, QKeyEvent, QMouseEvent, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QApplication,
    QFrame,
    QListView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QWidget,
)

from armorplan.desktop.drill_order_model import ROW_ROLE, DrillOrderModel, OrderRow
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.drill_form import TYPED
from armorplan.desktop.widgets.drill_form_face import Face, face_height, paint_face

GRIP_PX = 18
"""Width at the right of a row in which dots say that it can be dragged."""
RING_PX = 2.5


class OrderRows(QStyledItemDelegate):
    """Rows as high as their words need."""

    def __init__(self, view: QListView) -> None:
        super().__init__(view)
        self._view = view

    def sizeHint(
        self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> QSize:
        width = self._view.viewport().width() - GRIP_PX
        return QSize(0, face_height(face_of(index.data(ROW_ROLE)), self._view.font(), width))

    def paint(
        self,
        painter: QPainter,
        option: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        colours, box = colours_of(option.palette), QRectF(option.rect)
        is_chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(box, QColor(colours.chosen if is_chosen else colours.panel))
        words = box.adjusted(0, 0, -GRIP_PX, 0)
        font = QFont(option.font)
        paint_face(painter, words, face_of(index.data(ROW_ROLE)), font=font, colours=colours)
        model = index.model()
        if isinstance(model, DrillOrderModel) and model.is_editable:
            _paint_grip(painter, box, colours.line)
        painter.setPen(QColor(colours.bar))
        painter.drawLine(box.bottomLeft(), box.bottomRight())
        if is_chosen and self._view.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.focus), RING_PX))
            painter.drawRoundedRect(box.adjusted(2, 2, -2, -2), 4, 4)
        painter.restore()


def face_of(row: OrderRow) -> Face:
    """Return how a row is drawn."""
    return Face(
        letter=row.letter,
        title=row.title,
        detail=row.detail,
        place=str(row.place),
        note=row.note,
    )


def _paint_grip(painter: QPainter, box: QRectF, colour: str) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colour))
    for across in (-3, 3):
        for down in (-6, 0, 6):
            spot = box.center()
            spot.setX(box.right() - GRIP_PX / 2 - 2 + across)
            spot.setY(spot.y() + down)
            painter.drawEllipse(spot, 1.5, 1.5)


class OrderList(QListView):
    """``typed`` carries a letter that was pressed; Alt with Up, Down, Home and End moves the row in hand."""

    typed = Signal(str)

    def __init__(self, model: DrillOrderModel, parent: QWidget) -> None:
        super().__init__(parent)
        self._steps = model
        self._pressed: QPoint | None = None
        self._is_dragged = False
        self.setModel(model)
        self.setItemDelegate(OrderRows(self))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QListView.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListView.ResizeMode.Adjust)
        self.setMinimumHeight(120)

    def move_by(self, by: int) -> bool:
        """Move the row in hand; tell whether it went."""
        return self.move_to(self.currentIndex().row() + by)

    def move_to(self, to: int) -> bool:
        """Put the row in hand at a place, counted from 0; tell whether it went."""
        if not self._steps.move(self.currentIndex().row(), to):
            return False
        # Rows are of different heights: what lies where is laid out anew before it is shown.
        self.doItemsLayout()
        self.scrollTo(self.currentIndex())
        return True

    # --- events -------------------------------------------------------------------------------

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.doItemsLayout()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        modifiers = event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        to = self._goal(Qt.Key(event.key()))
        if to is not None and modifiers == Qt.KeyboardModifier.AltModifier:
            self.move_to(to)
        elif event.text().isalpha() and modifiers in TYPED:
            self.typed.emit(event.text())
        else:
            super().keyPressEvent(event)
            return
        event.accept()

    def _goal(self, key: Qt.Key) -> int | None:
        """Return where a key with Alt puts the row in hand; ``None`` where it puts it nowhere."""
        at, last = self.currentIndex().row(), self._steps.rowCount() - 1
        return {
            Qt.Key.Key_Up: max(at - 1, 0),
            Qt.Key.Key_Down: min(at + 1, last),
            Qt.Key.Key_Home: 0,
            Qt.Key.Key_End: last,
        }.get(key)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        super().mousePressEvent(event)
        is_left = event.button() == Qt.MouseButton.LeftButton
        spot = event.position().toPoint()
        self._pressed = spot if is_left and self.indexAt(spot).isValid() else None

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """The row goes with the pointer: what one sees is what the order is."""
        spot = event.position().toPoint()
        if self._pressed is None or not self._steps.is_editable:
            return
        far = (spot - self._pressed).manhattanLength() >= QApplication.startDragDistance()
        if self._is_dragged or far:
            self._is_dragged = True
            self.viewport().setCursor(Qt.CursorShape.ClosedHandCursor)
            self._drag_to(spot)

    def _drag_to(self, spot: QPoint) -> None:
        """Move the row in hand to the one under the pointer, once it lies over its far half."""
        inside = min(max(spot.y(), 1), self.viewport().height() - 2)
        over = self.indexAt(QPoint(self.viewport().width() // 2, inside))
        at, to = self.currentIndex().row(), over.row()
        if not over.isValid():
            to = self._steps.rowCount() - 1
        middle = self.visualRect(self._steps.index(to)).center().y()
        if to != at and (inside >= middle) == (to > at):
            self.move_to(to)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        super().mouseReleaseEvent(event)
        self._pressed, self._is_dragged = None, False
        self.viewport().unsetCursor()
