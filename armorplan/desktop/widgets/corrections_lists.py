"""Lists and boxes of the corrections page: lines to choose from, what is told beside, what keeps."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLineEdit,
    QListWidget,
    QListWidgetItem,
    QPlainTextEdit,
    QPushButton,
    QSplitter,
    QWidget,
)

from armorplan.app.corrections_model import VersionRow
from armorplan.desktop.corrections_words import version_detail, version_words
from armorplan.desktop.widgets.way_back_lists import TARGET_PX, TallRows

_SHARES_PX = (420, 640)


class Lines(QListWidget):
    """A list of corrections or versions. ``turned`` says that what is chosen is accepted or not."""

    turned = Signal()

    def __init__(self, name: str, spoken: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setAccessibleName(spoken)
        self.setItemDelegate(TallRows(TARGET_PX, self))
        self.setWordWrap(True)
        self.setAlternatingRowColors(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setResizeMode(QListWidget.ResizeMode.Adjust)
        self.itemDoubleClicked.connect(self.turned)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Space, Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.turned.emit()
        else:
            super().keyPressEvent(event)

    def show_lines(self, lines: list[str]) -> None:
        """Show lines; the row in hand stays in hand."""
        at = self.currentRow()
        with QSignalBlocker(self):
            self.clear()
            self.addItems(lines)
            self.setCurrentRow(min(max(at, 0), self.count() - 1))

    def say(self, row: int, line: str) -> None:
        """Change one line."""
        item: QListWidgetItem | None = self.item(row)
        if item is not None:
            item.setText(line)


class Told(QPlainTextEdit):
    """What is told of the line in hand."""

    def __init__(self, name: str, spoken: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setAccessibleName(spoken)
        self.setReadOnly(True)
        self.setTabChangesFocus(True)


class SideBySide(QSplitter):
    """A list, and beside it what is told of its line."""

    def __init__(self, left: QWidget, right: QWidget, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self.setChildrenCollapsible(False)
        self.addWidget(left)
        self.addWidget(right)
        self.setStretchFactor(1, 1)
        self.setSizes(list(_SHARES_PX))


class VersionsSide(SideBySide):
    """The versions of a pattern, the newest first, and what is told of the one in hand."""

    def __init__(self, parent: QWidget) -> None:
        self.lines = Lines("corrections_versions", self.tr("Versions"), parent)
        self.told = Told("corrections_told", self.tr("About the version"), parent)
        self._versions: tuple[VersionRow, ...] = ()
        super().__init__(self.lines, self.told, parent)
        self.lines.currentRowChanged.connect(self._tell)

    def show_versions(self, versions: tuple[VersionRow, ...]) -> None:
        """Show versions; the one in hand stays in hand."""
        self._versions = versions
        self.lines.show_lines([version_words(row) for row in versions])
        self._tell()

    def _tell(self) -> None:
        at = self.lines.currentRow()
        inside = 0 <= at < len(self._versions)
        self.told.setPlainText(version_detail(self._versions[at]) if inside else "")


class KeepingFoot(QWidget):
    """What accepts corrections, and what keeps them with a note."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.turn = QPushButton(self.tr("&Accept or reject (Space)"), self)
        self.all = QPushButton(self.tr("Accept a&ll"), self)
        self.note = QLineEdit(self)
        self.keep = QPushButton(self)
        self.note.setObjectName("corrections_note")
        self.note.setAccessibleName(self.tr("Note to the version"))
        self.note.setPlaceholderText(self.tr("What the version brings, in a few words"))
        self.note.setMinimumHeight(TARGET_PX)
        for button, name in (
            (self.turn, "corrections_turn"),
            (self.all, "corrections_all"),
            (self.keep, "corrections_keep"),
        ):
            button.setObjectName(name)
            button.setAutoDefault(False)
            button.setMinimumHeight(TARGET_PX)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(self.turn)
        row.addWidget(self.all)
        row.addWidget(self.note, 1)
        row.addWidget(self.keep)
