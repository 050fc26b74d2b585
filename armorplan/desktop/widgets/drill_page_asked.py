"""Which exercise is wanted: its kind, how much of the work, of which piece, and its number."""

from PySide6.QtCore import QEvent, QObject, QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import (
    QComboBox,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.practice_asked import MOST_NUMBER
from armorplan.app.practice_protocol import Practising
from armorplan.desktop.practice_words import kind_words, level_words
from armorplan.desktop.widgets.flow import Flow, named_field
from armorplan.practice.drill import DrillKind, Level

NO_NUMBER = -1
USUAL_DIGITS, PAD_PX = 6, 16


class AskedBar(QWidget):
    """``wanted`` says that something else was chosen, ``numbered`` carries a number that was typed.

    ``sheet_wanted`` says that exercises like these are to go on paper, ``taken`` that Enter was
    pressed: all is chosen. ``sheet`` is laid out by who makes this.
    """

    wanted = Signal()
    sheet_wanted = Signal()
    numbered = Signal(int)
    taken = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("drill_asked")
        self.kind = QComboBox(self)
        self.level = QComboBox(self)
        self.piece = QComboBox(self)
        self.number = QSpinBox(self)
        self.number.setRange(NO_NUMBER, MOST_NUMBER)
        self.number.setSpecialValueText(self.tr("no number"))
        self.number.setValue(NO_NUMBER)
        self.number.setKeyboardTracking(False)
        self.number.setButtonSymbols(QSpinBox.ButtonSymbols.NoButtons)
        self.number.setEnabled(False)
        row = Flow(self)
        for field, name, words, spoken in (
            (self.kind, "kind", self.tr("&Kind"), self.tr("Kind of exercise")),
            (self.level, "level", self.tr("&How much"), self.tr("How much of the work")),
            (self.piece, "piece", self.tr("&Piece"), self.tr("Of which piece")),
        ):
            field.setObjectName(f"drill_{name}")
            field.setAccessibleName(spoken)
            row.add(named_field(words, field, self))
        spoken = self.tr(
            "Number of the exercise; with this kind, size and piece the same number sets the same "
            "one again"
        )
        self.number.setObjectName("drill_number")
        self.number.setAccessibleName(spoken)
        self.number.setToolTip(spoken)
        self.number.setPrefix(self.tr("Exercise "))
        line = self.number.findChild(QLineEdit)
        if line is not None:
            line.setAccessibleName(spoken)
            line.returnPressed.connect(self.taken)
        self._fit_number()
        row.add(self.number)
        self.sheet = QPushButton(self.tr("&Worksheet …"), self)
        self.sheet.setObjectName("drill_sheet")
        self.sheet.setToolTip(
            self.tr("Save exercises like these as a PDF, the answers on pages behind")
        )
        self.sheet.setAutoDefault(False)
        self.sheet.clicked.connect(self.sheet_wanted)
        for box in (self.kind, self.level, self.piece):
            box.installEventFilter(self)
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToContents)
            box.activated.connect(lambda _at: self.wanted.emit())
        self.number.valueChanged.connect(self.numbered)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(row)

    def _fit_number(self) -> None:
        """Be as wide as the numbers that come; one with more digits is scrolled to its end."""
        told = self.number.prefix() + "0" * USUAL_DIGITS
        self.number.setFixedWidth(self.number.fontMetrics().horizontalAdvance(told) + PAD_PX)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Enter in a list that is shut says that all is chosen; else it would do nothing there."""
        is_press = event.type() is QEvent.Type.KeyPress
        enter = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
        if is_press and isinstance(event, QKeyEvent) and event.key() in enter:
            self.taken.emit()
            return True
        return super().eventFilter(watched, event)

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._fit_number()

    def offer(self, practice: Practising) -> None:
        """Offer what the build at the bench holds; what is chosen stays so where it can."""
        kinds = [(kind_words(kind), kind.value) for kind in practice.kinds()]
        _fill(self.kind, [(self.tr("what is due"), ""), *kinds])
        levels = [(level_words(level), level.value) for level in Level]
        _fill(self.level, [(self.tr("what fits best"), 0), *levels])
        pieces = [(name, piece) for piece, name in practice.pieces()]
        _fill(self.piece, [(self.tr("any"), ""), *pieces])
        self.piece.setEnabled(len(pieces) > 1)

    @property
    def chosen_kind(self) -> DrillKind | None:
        """The kind that is wanted; ``None``: what is due."""
        value = str(self.kind.currentData() or "")
        return DrillKind(value) if value else None

    @property
    def chosen_level(self) -> Level | None:
        """How much of the work; ``None``: what fits best."""
        value = int(self.level.currentData() or 0)
        return Level(value) if value else None

    @property
    def chosen_piece(self) -> str:
        """The piece it is to be of; empty: any."""
        return str(self.piece.currentData() or "")

    def show_number(self, number: int | None) -> None:
        """Show the number of an exercise; without one there is nothing to number."""
        with QSignalBlocker(self.number):
            self.number.setEnabled(number is not None)
            self.number.setValue(NO_NUMBER if number is None else number)


def _fill(box: QComboBox, rows: list[tuple[str, str | int]]) -> None:
    """Offer rows of words and values; the value chosen before stays chosen."""
    before = box.currentData(Qt.ItemDataRole.UserRole)
    with QSignalBlocker(box):
        box.clear()
        for words, value in rows:
            box.addItem(words, value)
        box.setCurrentIndex(max(box.findData(before), 0))
