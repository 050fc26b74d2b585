"""Editors of single fields: what is typed is told once the editor is left, or Enter pressed."""

from abc import abstractmethod

from PySide6.QtCore import QEvent, QObject, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import (
    QCheckBox,
    QComboBox,
    QCompleter,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QMenu,
    QPlainTextEdit,
    QPushButton,
    QStyle,
    QStyleOptionButton,
    QWidget,
)

from armorplan.app.draft_keys import Kind
from armorplan.app.draft_rows import FieldRow
from armorplan.desktop.theme import colours_of

LINES_SHOWN = 4
MENU_LINES = 200
"""A longer menu is no help; names are typed then."""
_MANY = (Kind.LINES, Kind.SENTENCES, Kind.TIMES)
_LISTS = (Kind.NAMES, Kind.STEPS)


class FieldEditor(QWidget):
    """One editor; ``told`` carries what was typed, whenever it says something new."""

    told = Signal(str)

    def __init__(self, row: FieldRow, control: QWidget, parent: QWidget) -> None:
        super().__init__(parent)
        self.control = control
        self._shown = row.typed
        control.setObjectName("field_" + ".".join(row.path))
        heard = [row.section, row.key.label, row.key.unit]
        control.setAccessibleName(", ".join(filter(None, heard)))
        control.setAccessibleDescription(row.key.help)
        control.setToolTip(row.key.help)
        self.setFocusProxy(control)
        self._line = QHBoxLayout(self)
        self._line.setContentsMargins(0, 0, 0, 0)
        self._line.addWidget(control, 1)
        self._also = QLabel(self)
        self._also.setObjectName(f"{control.objectName()}.also")
        if row.key.unit:
            self._line.addWidget(QLabel(row.key.unit, self))
        self._line.addWidget(self._also)
        self._also.setVisible(bool(row.also))

    def show_row(self, row: FieldRow) -> None:
        """Show what the field holds now, unless something else is being typed."""
        self._also.setText(row.also)
        self._also.setVisible(bool(row.also))
        if self.text() == self._shown or row.typed != self._shown:
            self._shown = row.typed
            if self.text() != row.typed:
                self.put(row.typed)

    def commit(self) -> None:
        """Tell what was typed, if it says something new."""
        text = self.text()
        if text != self._shown:
            self.told.emit(text)

    @abstractmethod
    def text(self) -> str:
        """Return what is typed now."""

    @abstractmethod
    def put(self, text: str) -> None:
        """Show a text in place of what is typed."""


class LineField(FieldEditor):
    """A line: text, number, thickness, or names apart by commas."""

    def __init__(self, row: FieldRow, parent: QWidget) -> None:
        line = QLineEdit(parent)
        super().__init__(row, line, parent)
        self._edit = line
        self.put(row.typed)
        if row.key.usual:
            line.setPlaceholderText(self.tr("usually {0}").format(row.key.usual))
        line.editingFinished.connect(self.commit)
        self._also.setText(row.also)
        if row.key.kind in _LISTS and 0 < len(row.words) <= MENU_LINES:
            self._offer(row)

    def _offer(self, row: FieldRow) -> None:
        """Add a button that ticks names on and off."""
        button = QPushButton(self.tr("Choose …"), self)
        button.setObjectName(f"choose_{self.control.objectName()}")
        button.setAccessibleName(self.tr("Choose: {0}").format(row.key.label))
        menu = QMenu(button)
        menu.setStyleSheet("QMenu { menu-scrollable: 1; }")
        held = {name.strip() for name in row.typed.split(",")}
        for word, meaning in row.words:
            action = menu.addAction(word if meaning == word else f"{word} – {meaning}")
            action.setCheckable(True)
            action.setChecked(word in held)
            action.toggled.connect(lambda on, name=word: self._tick(name, on=on))
        button.setMenu(menu)
        self._line.addWidget(button)

    def _tick(self, name: str, *, on: bool) -> None:
        names = [bit.strip() for bit in self.text().split(",") if bit.strip()]
        names = [*names, name] if on else [bit for bit in names if bit != name]
        self.put(", ".join(dict.fromkeys(names)))
        self.commit()

    def text(self) -> str:
        return self._edit.text()

    def put(self, text: str) -> None:
        self._edit.setText(text)
        if not self._edit.hasFocus():
            self._edit.setCursorPosition(0)


class LinesField(FieldEditor):
    """Several lines; Tab goes on to the next field."""

    def __init__(self, row: FieldRow, parent: QWidget) -> None:
        lines = QPlainTextEdit(parent)
        super().__init__(row, lines, parent)
        self._edit = lines
        lines.setTabChangesFocus(True)
        lines.setPlainText(row.typed)
        lines.installEventFilter(self)
        self._fit()

    def _fit(self) -> None:
        height = self._edit.fontMetrics().lineSpacing() * LINES_SHOWN
        self._edit.setFixedHeight(height + 2 * self._edit.frameWidth() + 10)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if isinstance(event, QFocusEvent) and event.lostFocus():
            self.commit()
        return super().eventFilter(watched, event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._fit()

    def text(self) -> str:
        return self._edit.toPlainText()

    def put(self, text: str) -> None:
        self._edit.setPlainText(text)


class EdgedBox(QCheckBox):
    """A box to tick whose edge shows in the dark as well."""

    def paintEvent(self, event: QPaintEvent) -> None:
        super().paintEvent(event)
        option = QStyleOptionButton()
        self.initStyleOption(option)
        which = QStyle.SubElement.SE_CheckBoxIndicator
        square = self.style().subElementRect(which, option, self)
        painter = QPainter(self)
        painter.setPen(QColor(colours_of(self.palette()).line))
        painter.drawRect(square.adjusted(0, 0, -1, -1))
        painter.end()


class FlagField(FieldEditor):
    """A box that is ticked or not."""

    def __init__(self, row: FieldRow, parent: QWidget) -> None:
        box = EdgedBox(parent)
        super().__init__(row, box, parent)
        self._usual = row.key.usual
        self._box = box
        box.setText(row.key.label)
        self.put(row.typed)
        box.toggled.connect(self.commit)

    def text(self) -> str:
        told = "true" if self._box.isChecked() else "false"
        return self._shown if not self._shown and told == self._usual else told

    def put(self, text: str) -> None:
        blocker = QSignalBlocker(self._box)
        self._box.setChecked((text or self._usual) == "true")
        blocker.unblock()


class CalmBox(QComboBox):
    """A choice that the wheel changes only while it has the keyboard: a page can be scrolled."""

    def wheelEvent(self, event: QWheelEvent) -> None:
        if self.hasFocus():
            super().wheelEvent(event)
        else:
            event.ignore()


class ChoiceField(FieldEditor):
    """One of several words; the name of a step may also be typed."""

    def __init__(self, row: FieldRow, parent: QWidget) -> None:
        box = CalmBox(parent)
        super().__init__(row, box, parent)
        self._box = box
        self._usual = row.key.usual
        self._free = row.key.kind is Kind.STEP
        has_none = any(not word for word, _ in row.words)
        if not (self._free or row.key.usual or row.key.needed or has_none):
            box.addItem("", "")
        box.setPlaceholderText(self.tr("Choose …"))
        for word, meaning in row.words:
            named = word if self._free else meaning
            box.addItem(named, word)
            box.setItemData(box.count() - 1, meaning, Qt.ItemDataRole.ToolTipRole)
        box.setMinimumContentsLength(12)
        box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        if self._free:
            self._let_type(row)
        self.put(row.typed)
        if self._free:
            box.textActivated.connect(self.commit)
        else:
            box.currentIndexChanged.connect(self.commit)

    def _let_type(self, row: FieldRow) -> None:
        self._box.setEditable(True)
        self._box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        completer = QCompleter([word for word, _ in row.words], self._box)
        completer.setFilterMode(Qt.MatchFlag.MatchContains)
        self._box.setCompleter(completer)
        line = self._box.lineEdit()
        if line is not None:
            line.setAccessibleName(self._box.accessibleName())
            line.editingFinished.connect(self.commit)

    def text(self) -> str:
        if self._free:
            return self._box.currentText()
        told = str(self._box.currentData() or "")
        return self._shown if not self._shown and told == self._usual else told

    def put(self, text: str) -> None:
        blocker = QSignalBlocker(self._box)
        if self._free:
            self._box.setEditText(text)
        else:
            self._box.setCurrentIndex(self._box.findData(text or self._usual))
        blocker.unblock()


class FixedField(FieldEditor):
    """What is shown, and changed in the file only."""

    def __init__(self, row: FieldRow, parent: QWidget) -> None:
        label = QLabel(parent)
        super().__init__(row, label, parent)
        self._label = label
        label.setText(row.typed)
        label.setWordWrap(True)
        label.setTextInteractionFlags(
            Qt.TextInteractionFlag.TextSelectableByMouse
            | Qt.TextInteractionFlag.TextSelectableByKeyboard
        )

    def text(self) -> str:
        return self._shown

    def put(self, text: str) -> None:
        self._label.setText(text)


def editor_of(row: FieldRow, parent: QWidget) -> FieldEditor:
    """Return the editor that fits a field."""
    if row.key.fixed:
        return FixedField(row, parent)
    if row.key.kind in _MANY:
        return LinesField(row, parent)
    if row.key.kind is Kind.FLAG:
        return FlagField(row, parent)
    if row.key.kind in (Kind.CHOICE, Kind.STEP):
        return ChoiceField(row, parent)
    return LineField(row, parent)
