"""The checklist as a tree one works by key: Space ticks, Enter starts and pauses."""

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QFocusEvent,
    QKeyEvent,
    QPainter,
    QPalette,
    QResizeEvent,
    QShowEvent,
)
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyleOptionViewItem,
    QTreeView,
    QWidget,
)

from armorplan.app.rows import BenchState, ChecklistRow, Selection, TimerRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.checklist_model import ChecklistModel, Column
from armorplan.desktop.checklist_rows import Folds, is_step
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.checklist_delegate import ChecklistDelegate, time_width


class ChecklistView(QTreeView):
    """Shows the rows, remembers what is open by id, and follows the shared selection.

    ``tick_asked`` and ``start_asked`` ask for the chosen row; ``row_lost``: it is shown no more, or none was chosen.
    """

    tick_asked = Signal()
    start_asked = Signal()
    row_lost = Signal()

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("checklist")
        self.setAccessibleName(self.tr("Checklist"))
        self._bridge = bridge
        self._folds = Folds()
        self._following = False
        self.rows = ChecklistModel(bridge, self)
        self._painter = ChecklistDelegate(self.rows.words, self)
        self.setModel(self.rows)
        self.setItemDelegate(self._painter)
        self.setUniformRowHeights(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.header().setAccessibleName(self.tr("Columns of the checklist"))
        _share(self.header())
        self.expanded.connect(lambda index: self._remember(index, is_open=True))
        self.collapsed.connect(lambda index: self._remember(index, is_open=False))
        bridge.selected.connect(self.follow)
        bridge.opened.connect(self._forget)
        self._fit_columns()

    def show_rows(self, rows: tuple[ChecklistRow, ...], *, open_all: bool) -> None:
        """Show these rows; headings and trays keep as they were opened or closed."""
        kept = self.current_row()
        self._painter.measure(rows)
        self._fit_columns()
        self._following = True
        self.rows.show(rows)
        for row in rows:
            if not is_step(row):
                self.setExpanded(self.rows.index_of(row.id), open_all or self._folds.is_open(row))
        if kept is not None and self.current_row() is None:
            self._make_current(kept.id)
        self._following = False
        if kept is None or not self.rows.index_of(kept.id).isValid():
            self.row_lost.emit()

    def _forget(self) -> None:
        """Another build comes: what was open or chosen of the former says nothing of it."""
        self._folds = Folds()
        self.setCurrentIndex(QModelIndex())

    def current_row(self) -> ChecklistRow | None:
        """Return the row the keyboard is on, or ``None``."""
        return self.rows.row_at(self.currentIndex())

    def follow(self, selection: Selection) -> None:
        """Light the chosen steps, and go to the first of them that can be worked on."""
        self._painter.lit = frozenset(selection.steps)
        self.viewport().update()
        row = self.current_row()
        if not selection.steps or (row is not None and row.steps == selection.steps):
            return
        shown = [r for s in selection.steps if (r := self.rows.row_at(self.rows.index_of(s)))]
        ready = [r for r in shown if r.state is BenchState.READY]
        if shown:
            self.go_to((ready or shown)[0].id)

    def go_to(self, step: str) -> None:
        """Go to a step: unfold what it stands in, and scroll to it."""
        _unfold(self, self.rows.index_of(step).parent())
        self._following = True
        self._make_current(step)
        self._following = False

    def repaint_timers(self, timers: tuple[TimerRow, ...]) -> None:
        """Repaint the times of these rows where they are in sight."""
        for timer in timers:
            index = self.rows.index_of(timer.step, Column.TIME)
            if index.isValid():
                self.viewport().update(self.visualRect(index))

    def _make_current(self, row_id: str) -> None:
        index = self.rows.index_of(row_id)
        if index.isValid():
            self.setCurrentIndex(index)
            self._bring_into_sight(index)

    def _bring_into_sight(self, index: QModelIndex) -> None:
        """Scroll only where a row is not wholly in sight, and then to the middle."""
        if index.isValid() and not self.viewport().rect().contains(self.visualRect(index)):
            self.scrollTo(index, QAbstractItemView.ScrollHint.PositionAtCenter)

    def _remember(self, index: QModelIndex, *, is_open: bool) -> None:
        row = self.rows.row_at(index)
        if row is not None and not self._following:
            self._folds.put(row.id, is_open=is_open)

    # What Qt asks for.

    def currentChanged(
        self,
        current: QModelIndex | QPersistentModelIndex,
        previous: QModelIndex | QPersistentModelIndex,
    ) -> None:
        super().currentChanged(current, previous)
        row = self.rows.row_at(current)
        if row is not None and not self._following:
            self._bridge.choose_steps(row.steps)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Take the keyboard; the row Qt then goes to by itself is not a choice."""
        self._following = True
        super().focusInEvent(event)
        self._following = False

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Space:
            self.tick_asked.emit()
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.start_asked.emit()
        else:
            super().keyPressEvent(event)

    def drawRow(
        self,
        painter: QPainter,
        options: QStyleOptionViewItem,
        index: QModelIndex | QPersistentModelIndex,
    ) -> None:
        super().drawRow(painter, _calm(options), index)
        if index == self.currentIndex() and self.hasFocus():
            _ring(painter, options.rect, QColor(colours_of(self.palette()).focus))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit_columns()

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.scrollToTop()
        self._bring_into_sight(self.currentIndex())

    def _fit_columns(self) -> None:
        """Give the times what they need, and titles two lines where one is too short for many."""
        time_px = time_width(self.font())
        self.header().resizeSection(Column.TIME, time_px)
        step_px = self.viewport().width() - time_px - 3 * self.indentation()
        if self._painter.fit(step_px, self.font()):
            self.doItemsLayout()
            self._bring_into_sight(self.currentIndex())


def _share(head: QHeaderView) -> None:
    """Let the steps have what the times leave over; the columns need no titles."""
    head.setVisible(False)
    head.setStretchLastSection(False)
    head.setSectionResizeMode(Column.STEP, QHeaderView.ResizeMode.Stretch)
    head.setSectionResizeMode(Column.TIME, QHeaderView.ResizeMode.Fixed)


def _unfold(view: QTreeView, index: QModelIndex) -> None:
    """Open a row and all it stands in, as the person would."""
    while index.isValid():
        if not view.isExpanded(index):
            view.expand(index)
        index = index.parent()


def _ring(painter: QPainter, row: QRect, colour: QColor) -> None:
    """Draw the ring around the row that has the keyboard."""
    painter.save()
    painter.setPen(colour)
    painter.drawRect(row.adjusted(0, 0, -1, -2))
    painter.restore()


def _calm(options: QStyleOptionViewItem) -> QStyleOptionViewItem:
    """Have the chosen row's margin painted in the ground of what is chosen, not in the accent."""
    calm = QStyleOptionViewItem(options)
    palette = QPalette(calm.palette)
    palette.setColor(QPalette.ColorRole.Highlight, QColor(colours_of(palette).chosen))
    calm.palette = palette
    return calm
