"""A field to choose something of the build in, by the name it is shown by, completed as one types."""

from PySide6.QtCore import QStringListModel, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QCompleter,
    QLineEdit,
    QListView,
    QSizePolicy,
    QWidget,
)

from armorplan.app.asking_between import WorkName

LETTERS = 14
LEAST_LETTERS = 7
LINES = 14


class NameChooser(QComboBox):
    """``chosen`` says that something else stands in it; what it does not know is kept as typed."""

    chosen = Signal()

    def __init__(self, name: str, spoken: str, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName(name)
        self.setAccessibleName(spoken)
        self.line = QLineEdit(self)
        self.setLineEdit(self.line)
        self.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.setMaxVisibleItems(LINES)
        self.setMinimumContentsLength(LEAST_LETTERS)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self._names: tuple[WorkName, ...] = ()
        self._by_shown: dict[str, WorkName] = {}
        self._stood = ""
        self._list = QStringListModel(self)
        self.setModel(self._list)
        self.offers = QCompleter(self._list, self)
        self.offers.setFilterMode(Qt.MatchFlag.MatchContains)
        self.offers.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.offers.setMaxVisibleItems(LINES)
        self._popup, opened = QListView(), QListView(self)
        for view in (self._popup, opened):
            view.setAccessibleName(spoken)
            view.setUniformItemSizes(True)  # thousands of lines are not measured one by one
            view.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            view.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        self.offers.setPopup(self._popup)
        self.setView(opened)
        self.setCompleter(self.offers)
        self.line.setObjectName(f"{name}_line")
        self.line.setAccessibleName(spoken)
        self.line.setPlaceholderText(self.tr("Type a part of its name"))
        self.line.editingFinished.connect(self._look)
        self.offers.activated.connect(self._look)
        self.activated.connect(self._look)
        self._show("")

    def offer(self, names: tuple[WorkName, ...]) -> None:
        """Offer these names; what stands in the field stays."""
        text = self.currentText()
        self._names = names
        self._by_shown = {name.shown.casefold(): name for name in names}
        self._list.setStringList([name.shown for name in names])
        self._show(text)

    def written(self) -> str:
        """Return what stands in it as ``named_work`` takes it; empty where nothing does."""
        text = self.currentText().strip()
        known = self._by_shown.get(text.casefold())
        return known.written if known else text

    def take_step(self, step: str) -> bool:
        """Put a step into the field; tell whether it is one of the names."""
        name = next((name for name in self._names if name.step == step), None)
        if name is not None:
            self.take(name.shown)
        return name is not None

    def take(self, shown: str) -> None:
        """Put a text into the field."""
        self._show(shown)
        self._look()

    def _show(self, text: str) -> None:
        self.setEditText(text)
        self.line.setCursorPosition(0)
        self._tell(text)

    def _tell(self, text: str) -> None:
        self.setToolTip(text)
        self.line.setAccessibleDescription(text)

    def _look(self) -> None:
        """Tell once that something else stands in the field."""
        self._popup.hide()
        text = self.currentText().strip()
        if text != self._stood:
            self._stood = text
            self.line.setCursorPosition(0)
            self._tell(text)
            self.chosen.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter looks at what stands there; it opens nothing else in the window."""
        super().keyPressEvent(event)
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self._look()
            event.accept()
