"""The lines of a dry fit in a list: heads, what is ticked off with its mark, what is done in the end."""

from collections.abc import Iterable

from PySide6.QtCore import QModelIndex, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QFrame,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QWidget,
)

from armorplan.app.dry_fit_rows import DryFitPlan
from armorplan.desktop.dry_fit_lines import READ, TICKED, Line, LineKind, first_line, next_line
from armorplan.desktop.widgets.way_back_lists import TallRows

DONE, OPEN, DOES = "✓", "○", "▶"


class FitChooser(QComboBox):
    """The fits of a build by their names; hidden where there is but one."""

    def __init__(self, target_px: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("dry_fit_fits")
        self.setAccessibleName(self.tr("Dry fit of"))
        self.setMinimumHeight(target_px)
        self.setSizeAdjustPolicy(self.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)

    def show_plan(self, plan: DryFitPlan, at: int) -> None:
        """Show the fits of a plan, one of them chosen, without telling that it changed."""
        with QSignalBlocker(self):
            self.clear()
            for fit in plan.fits:
                self.addItem(fit.title, fit.step)
            self.setCurrentIndex(at)
        self.setVisible(len(plan.fits) > 1)


class WhyField(QLineEdit):
    """Asks why a fit may be left out."""

    def __init__(self, target_px: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("dry_fit_why")
        self.setAccessibleName(self.tr("Why the fit may be left out"))
        self.setPlaceholderText(self.tr("Why it may be left out; Enter keeps it"))
        self.setMinimumHeight(target_px)


class FitLines(QListWidget):
    """One line is in hand; heads are passed over. ``pins_asked`` says that P was pressed."""

    pins_asked = Signal()

    def __init__(self, target_px: int, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("dry_fit_lines")
        self.setAccessibleName(self.tr("Lay-out, pins and looks of the dry fit"))
        self.setItemDelegate(TallRows(target_px, self))
        self.setWordWrap(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.lines: tuple[Line, ...] = ()
        self.currentRowChanged.connect(self._show_above)

    def show_lines(self, lines: tuple[Line, ...], ticked: Iterable[str]) -> None:
        """Show lines; the one in hand stays in hand where it is still there."""
        kept = self.line()
        done = frozenset(ticked)
        same = [line.key for line in lines] == [line.key for line in self.lines]
        with QSignalBlocker(self):
            if not same:
                self.clear()
                self.addItems([""] * len(lines))
            self.lines = lines
            for row, line in enumerate(lines):
                self._dress(self.item(row), line, is_done=line.key in done)
            keys = [line.key for line in lines]
            wanted = keys.index(kept.key) if kept and kept.key in keys else first_line(lines)
            self.setCurrentRow(wanted)
        self.currentRowChanged.emit(self.currentRow())

    def _dress(self, item: QListWidgetItem, line: Line, *, is_done: bool) -> None:
        font = self.font()
        if line.kind in READ:
            font.setBold(line.kind is LineKind.HEAD)
            item.setFlags(Qt.ItemFlag.ItemIsEnabled)
            item.setText(line.text)
        else:
            sign = (DONE if is_done else OPEN) if line.kind in TICKED else DOES
            item.setText(f"{sign}  {line.text}")
            word = self.tr("done: ") if is_done else ""
            item.setData(Qt.ItemDataRole.AccessibleTextRole, f"{word}{line.text}")
        item.setFont(font)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_P and not event.modifiers():
            self.pins_asked.emit()
        else:
            super().keyPressEvent(event)

    def moveCursor(
        self, action: QAbstractItemView.CursorAction, modifiers: Qt.KeyboardModifier
    ) -> QModelIndex:
        """Pass over heads; before the first line that can be taken in hand is nothing but heads."""
        at, to = self.currentRow(), super().moveCursor(action, modifiers).row()
        if 0 <= to < len(self.lines) and self.lines[to].kind in READ:
            to = next_line(self.lines, to, 1 if to > at or to == 0 else -1)
        return self.indexFromItem(self.item(to))

    def _show_above(self, row: int) -> None:
        """Show what is said before the first line as well, once that is in hand."""
        if row in (next_line(self.lines, -1, 1), first_line(self.lines)):
            self.scrollToTop()

    def line(self) -> Line | None:
        """Return the line in hand."""
        row = self.currentRow()
        return self.lines[row] if 0 <= row < len(self.lines) else None

    def step(self, by: int) -> None:
        """Take the next line in hand, or by -1 the former one."""
        self.setCurrentRow(next_line(self.lines, self.currentRow(), by))
        item = self.currentItem()
        if item is not None:
            self.scrollToItem(item, QAbstractItemView.ScrollHint.PositionAtCenter)
