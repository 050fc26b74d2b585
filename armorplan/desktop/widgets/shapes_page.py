"""The page of shapes: rows, covers, bends, fasteners and lames, with every number's formula."""

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QBoxLayout,
    QCheckBox,
    QLineEdit,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.rows import Selection
from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.shapes_choice import (
    first_to_look_at,
    gravest_first,
    matching,
    topics_to_open,
)
from armorplan.desktop.shapes_later import LaterRows
from armorplan.desktop.shapes_model import ShapesModel
from armorplan.desktop.shapes_words import counted
from armorplan.desktop.widgets.shapes_detail import ShapeDetail
from armorplan.desktop.widgets.shapes_list import ShapesList
from armorplan.desktop.widgets.turned_away import is_turned_away

BESIDE_LINES = 30
"""From a width of so many heights of a line the list stands beside the chosen one, below it above."""
LIST_PCT = 44
LIST_ABOVE_PCT = 38


class ShapesView(QWidget):
    """Lists what the shapes tell; follows the build and the shared choice.

    ``gone_on`` asks for the picture of the parts, ``gone_back`` for where one came from.
    """

    gone_on = Signal()
    gone_back = Signal()

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("shapes_page")
        self._bridge = bridge
        self._rows: tuple[ShapeRow, ...] = ()
        self._is_stale = True
        self._is_new = True
        self._following = False
        self._kept = ""
        self.later = LaterRows(bridge, self)
        self.model = ShapesModel(self)
        self.words = QLineEdit(self)
        self.only = QCheckBox(self.tr("Only what needs a &look"), self)
        self.list = ShapesList(self.model, self)
        self.detail = ShapeDetail(self)
        self._split = QSplitter(Qt.Orientation.Horizontal, self)
        self._name_all()
        self._lay_out()
        self.setFocusProxy(self.list)
        self.words.textChanged.connect(self._filter)
        self.words.returnPressed.connect(self.list.setFocus)
        self.only.toggled.connect(self._filter)
        self.list.selectionModel().currentChanged.connect(self._enter)
        self.list.activated.connect(self._go_on)
        self.later.told.connect(self._hear)
        bridge.changed.connect(self._hear)
        bridge.opened.connect(self._hear_opened)
        bridge.selected.connect(self._follow)

    def _name_all(self) -> None:
        self.words.setObjectName("shapes_words")
        self.words.setPlaceholderText(self.tr("Filter by words"))
        self.words.setAccessibleName(self.tr("Filter the shapes by words"))
        self.only.setObjectName("shapes_only")

    def _lay_out(self) -> None:
        left = QWidget(self._split)
        down = QVBoxLayout(left)
        down.setContentsMargins(4, 4, 0, 0)
        self._filters = QBoxLayout(QBoxLayout.Direction.TopToBottom)
        self._filters.addWidget(self.words)
        self._filters.addWidget(self.only)
        down.addLayout(self._filters)
        down.addWidget(self.list, 1)
        self._split.setObjectName("shapes_split")
        self._split.setChildrenCollapsible(False)
        self._split.addWidget(self.detail)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(0, 0, 0, 0)
        whole.addWidget(self._split)

    # --- what is shown ----------------------------------------------------------------------

    @property
    def rows(self) -> tuple[ShapeRow, ...]:
        """All rows of the build as far as they are known, also those that a filter hides."""
        return self.later.as_known(self._bridge.session.shapes())

    def refresh(self) -> None:
        """Ask for the rows anew and show what has changed."""
        rows = gravest_first(self.rows)
        self._is_stale = False
        if rows != self._rows or self._is_new:
            self._rows = rows
            self._show_rows()
        self._follow(self._bridge.selection)

    def go_to(self, row_id: str) -> None:
        """Choose a row, also one that the filter would hide."""
        if self._is_stale:
            self.refresh()
        if not self.model.index_of(row_id).isValid():
            self.words.clear()
            self.only.setChecked(False)
        index = self.model.index_of(row_id)
        if index.isValid():
            self.list.setCurrentIndex(index)
            self.list.scrollTo(index)
            self.list.setFocus()

    def _filter(self) -> None:
        self._show_rows()

    def _show_rows(self) -> None:
        shown = matching(self._rows, self.words.text(), only_to_look_at=self.only.isChecked())
        self._following = True
        self.model.show(shown, self._rows)
        self._begin()
        index = self.model.index_of(self._kept)
        if index.isValid():
            self.list.setCurrentIndex(index)
        self._following = False
        self._show_detail()

    def _begin(self) -> None:
        """Fold what is sound when a build first comes up, and show its first fault.

        A filter opens what it finds.
        """
        if self.words.text():
            self.list.expandAll()
        elif self._is_new and self._rows:
            self.list.open_only(topics_to_open(self._rows))
            self._is_new = False
            if all(row.id != self._kept for row in self._rows):
                self._kept = first_to_look_at(self._rows)

    def _show_detail(self) -> None:
        found = (row for row in self._rows if row.id == self._kept)
        self.detail.show_row(next(found, None), self._hint())

    def _hint(self) -> str:
        if not self._rows:
            return self.tr("The drawing has no rows, covers, bends or lames to reckon with.")
        told = self.tr("{0} were looked at: {1}. Choose a line, and read how it is reckoned.")
        return told.format(len(self._rows), counted(self._rows))

    # --- what is chosen ---------------------------------------------------------------------

    def _enter(self, current: QModelIndex) -> None:
        row = self.model.row_at(current)
        if self._following or row is None:
            return
        self._kept = row.id
        self.detail.show_row(row)
        self._following = True
        self._bridge.choose_measure(row.id)
        self._following = False
        self.later.ask(self._bridge.session.shapes(), row.id)

    def _follow(self, chosen: Selection) -> None:
        """Show the measure that was chosen elsewhere."""
        if self._following or not chosen.measures or is_turned_away(self):
            return
        self._kept = chosen.measures[0]
        self._following = True
        index = self.model.index_of(self._kept)
        if index.isValid():
            self.list.setCurrentIndex(index)
        self._following = False
        self._show_detail()

    def _go_on(self, index: QModelIndex) -> None:
        if self.model.row_at(index) is not None:
            self.gone_on.emit()
        else:
            self.list.setExpanded(index, not self.list.isExpanded(index))

    # --- events -----------------------------------------------------------------------------

    def _hear_opened(self) -> None:
        self._is_new = True
        self._hear()

    def _hear(self) -> None:
        if is_turned_away(self):
            self._is_stale = True
        else:
            self.refresh()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self._is_stale:
            self.refresh()
        self._follow(self._bridge.selection)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        beside = self.width() >= BESIDE_LINES * self.fontMetrics().height()
        way = Qt.Orientation.Horizontal if beside else Qt.Orientation.Vertical
        if way != self._split.orientation() or not event.oldSize().isValid():
            self._split.setOrientation(way)
            stacked, flat = QBoxLayout.Direction.TopToBottom, QBoxLayout.Direction.LeftToRight
            self._filters.setDirection(stacked if beside else flat)
            share = LIST_PCT if beside else LIST_ABOVE_PCT
            whole = self.width() if beside else self.height()
            self._split.setSizes([whole * share // 100, whole * (100 - share) // 100])

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            if self.words.text():
                self.words.clear()
                self.list.setFocus()
            else:
                self.gone_back.emit()
            return
        super().keyPressEvent(event)
