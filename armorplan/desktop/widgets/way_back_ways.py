"""The ways back side by side, and below them all that the one in hand asks for."""

from PySide6.QtCore import QEvent, QItemSelectionModel, QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QTableView,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.way_back_rows import WayBack, WaysBack
from armorplan.desktop.theme import colours_of
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.way_back_words import DATE, FOLDED, found_html, headings, way_html, way_rows
from armorplan.desktop.widgets.folding import Folding
from armorplan.desktop.widgets.way_back_lists import TallRows

LEAST_TITLE_LETTERS = 24
TITLE_LINES = 2
PAD_PX = 14
LEAST_SHOWN, ROWS_SHOWN = 2, 6
"""At least so many ways stand side by side, that is what they are shown for; at most so many, for the
steps have to be read as well."""


class WaysPane(QWidget):
    """Shows a ``WaysBack``; a row is chosen, its steps stand below."""

    def __init__(self, target_px: int, parent: QWidget) -> None:
        super().__init__(parent)
        self._target_px = target_px
        self._found = WaysBack(stuck=())
        self._told = ""
        self.table = QTableView(self)
        self.rows = TwinModel(headings(), self)
        self.told = QTextBrowser(self)
        self.table.setObjectName("way_back_ways")
        self.table.setAccessibleName(self.tr("Ways back, side by side"))
        self.told.setObjectName("way_back_told")
        self.told.setAccessibleName(self.tr("Steps of the way back"))
        self.told.setTabChangesFocus(True)
        self._dress_table()
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.table)
        down.addWidget(self.told, 1)
        self.table.selectionModel().currentRowChanged.connect(self._tell)

    def _dress_table(self) -> None:
        self.table.setModel(self.rows)
        self.table.setItemDelegate(TallRows(0, self))
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.table.setTabKeyNavigation(False)
        self.table.setAlternatingRowColors(True)
        self.table.setShowGrid(False)
        self.table.setWordWrap(True)
        self.table.verticalHeader().hide()
        self.table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        self.table.horizontalHeader().setHighlightSections(False)

    def show_found(self, found: WaysBack) -> None:
        """Show ways; the one in hand stays in hand where it is still among them."""
        kept = self.way_id()
        self._found = found
        self.rows.show(way_rows(found.ways))
        self.table.setVisible(bool(found.ways))
        self.fit()
        at = self.rows.index_of(kept)
        self._choose(at.row() if at.isValid() else 0)
        self._tell()

    def settle(self) -> None:
        """Show the steps of the way in hand alone: it is chosen."""
        self.table.hide()
        self.told.setFocus()

    def way(self) -> WayBack | None:
        """Return the way in hand."""
        chosen = self.way_id()
        return next((way for way in self._found.ways if way.id == chosen), None)

    def way_id(self) -> str:
        """Return the id of the way in hand; empty where there is none."""
        at = self.table.currentIndex()
        return self.rows.key_at(at) if at.isValid() else ""

    def choose(self, row: int) -> None:
        """Take another way in hand; past the last one comes the first again."""
        if self.rows.rowCount():
            self._choose(row % self.rows.rowCount())

    def step(self, by: int) -> None:
        """Take the next way in hand, or by -1 the former one."""
        self.choose(self.table.currentIndex().row() + by)

    def page_on(self, pages: int) -> None:
        """Scroll the steps."""
        bar = self.told.verticalScrollBar()
        bar.setValue(bar.value() + pages * bar.pageStep())

    def _choose(self, row: int) -> None:
        flags = QItemSelectionModel.SelectionFlag
        at = self.rows.index(row, 0)
        self.table.selectionModel().setCurrentIndex(at, flags.ClearAndSelect | flags.Rows)

    def _tell(self) -> None:
        way, colours = self.way(), colours_of(self.palette())
        self.told.document().setDefaultFont(self.font())
        steps = way_html(way, colours) if way else ""
        bar, told = self.told.verticalScrollBar(), way.id if way else ""
        at = bar.value() if told == self._told else 0
        self._told = told
        self.told.setHtml(steps + found_html(self._found, colours))
        bar.setValue(at)

    def fit(self) -> None:
        """Have rows that are targets, and columns that fit."""
        # What tells two ways apart often stands at the end of their titles: there is room for it.
        high = max(TITLE_LINES * self.fontMetrics().height() + PAD_PX, self._target_px)
        self.table.verticalHeader().setDefaultSectionSize(high)
        heading = self.table.horizontalHeader()
        heading.setFont(self.font())
        shown = min(self.rows.rowCount(), ROWS_SHOWN, max(self.height() // 2 // high, LEAST_SHOWN))
        self.table.setFixedHeight(heading.sizeHint().height() + shown * high + PAD_PX // 2)
        letters_px = self.fontMetrics().averageCharWidth() * LEAST_TITLE_LETTERS
        Folding(self.table, wide=0, least_px=letters_px, folded=FOLDED).fit()
        if not any(way.finish for way in self._found.ways):
            self.table.setColumnHidden(DATE, True)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.PaletteChange):
            self._tell()
            self.fit()

    def minimumSizeHint(self) -> QSize:
        """Steps and ways are scrolled where there is too little height for them."""
        return QSize(0, 3 * self._target_px)
