"""The list of measures: topics that fold, and their lines."""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, QPersistentModelIndex, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPalette, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QFrame,
    QStyleOptionViewItem,
    QTreeView,
    QWidget,
)

from armorplan.desktop.shapes_model import ShapesModel
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.shapes_delegate import ShapesDelegate

INDENT_PX = 14
PAD_PX = 10


class ShapesList(QTreeView):
    """Shows a model's topics, each open when it first comes up."""

    def __init__(self, model: ShapesModel, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("shapes_list")
        self.setAccessibleName(self.tr("What the shapes tell"))
        self.setAccessibleDescription(
            self.tr("Enter shows it in the diagram of the parts, Escape goes back.")
        )
        self._shapes = model
        self.setModel(model)
        self.setItemDelegate(ShapesDelegate(self, INDENT_PX))
        self.setHeaderHidden(True)
        self.header().setAccessibleName(self.tr("Heading of the shapes"))
        self.setIndentation(INDENT_PX)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setExpandsOnDoubleClick(False)
        model.rowsInserted.connect(self._open_new)

    def _open_new(self, parent: QModelIndex, first: int, last: int) -> None:
        """Open a topic whose lines came with it; one that was folded by hand stays so."""
        model = self.model()
        if parent.isValid() and last - first + 1 == model.rowCount(parent):
            self.expand(parent)

    def open_only(self, topics: frozenset[str]) -> None:
        """Open these topics and fold the others; the keys begin at the first that is open."""
        model = self._shapes
        headings = [model.index(at, 0) for at in range(model.rowCount())]
        opened = [heading for heading in headings if model.topic_at(heading) in topics]
        for heading in headings:
            self.setExpanded(heading, heading in opened)
        if opened and model.row_at(self.currentIndex()) is None:
            stays = QItemSelectionModel.SelectionFlag.NoUpdate
            self.selectionModel().setCurrentIndex(opened[0], stays)

    def drawRow(
        self,
        painter: QPainter,
        options: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        """Have the chosen row's margin in the ground of what is chosen, not in the accent."""
        calm = QStyleOptionViewItem(options)
        palette = QPalette(calm.palette)
        palette.setColor(QPalette.ColorRole.Highlight, QColor(colours_of(palette).chosen))
        calm.palette = palette
        super().drawRow(painter, calm, index)

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        if self.model().rowCount():
            return
        painter = QPainter(self.viewport())
        painter.setPen(QColor(colours_of(self.palette()).quiet))
        room = self.viewport().rect().adjusted(PAD_PX, PAD_PX, -PAD_PX, -PAD_PX)
        painter.drawText(room, Qt.TextFlag.TextWordWrap, self.tr("Nothing here."))
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        if event.size().width() != event.oldSize().width():
            self.scheduleDelayedItemsLayout()
