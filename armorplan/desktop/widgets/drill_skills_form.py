"""Signing a kind of step off: how from now on, who says so, what was seen; and taking it back."""

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import QComboBox, QLineEdit, QVBoxLayout, QWidget

from armorplan.app.practice_protocol import SkillRow
from armorplan.desktop.practice_rows import HOWS, how_words
from armorplan.desktop.widgets.drill_answer_foot import FootButton
from armorplan.desktop.widgets.flow import Flow, named_field
from armorplan.workshop.skill_how import SkillHow

NOTE_LETTERS, WHO_LETTERS = 28, 14


class SkillForm(QWidget):
    """``signed`` says that the row in hand is signed off so, ``taken_back`` that the last is not."""

    signed = Signal()
    taken_back = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._held: tuple[object, ...] | None = None
        self.company = QComboBox(self)
        self.who = QComboBox(self)
        self.note = QLineEdit(self)
        self.sign = FootButton(self.tr("Si&gn it off"), "practice_sign", "Ctrl+Return", self)
        self.back = FootButton("", "practice_back", "", self)
        for how in HOWS:
            self.company.addItem(how_words(how), how.value)
        self._name_all()
        self._lay_out()
        self.sign.clicked.connect(self.signed)
        self.note.returnPressed.connect(self.signed)
        self.back.clicked.connect(self.taken_back)
        QShortcut(QKeySequence.StandardKey.Undo, self.back, self.back.click)
        self.name_back("")

    def _name_all(self) -> None:
        for field, name, spoken in (
            (self.company, "practice_how", self.tr("From now on")),
            (self.who, "practice_by", self.tr("Who signs it off")),
            (self.note, "practice_note", self.tr("Note: what was seen")),
        ):
            field.setObjectName(name)
            field.setAccessibleName(spoken)
        self.who.setEditable(True)
        self.who.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.who.setMinimumContentsLength(WHO_LETTERS)
        line = self.who.lineEdit()
        if line is not None:
            line.setObjectName("practice_by_name")
            line.setAccessibleName(self.who.accessibleName())
        self.note.setMinimumWidth(self.note.fontMetrics().averageCharWidth() * NOTE_LETTERS)

    def _lay_out(self) -> None:
        row = Flow(self)
        row.add(named_field(self.tr("From &now on"), self.company, self))
        row.add(named_field(self.tr("Signed &by"), self.who, self))
        row.add(named_field(self.tr("No&te"), self.note, self))
        row.add(self.sign)
        row.add(self.back)
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(row)

    def offer(self, names: list[str], *, is_known: bool) -> None:
        """Offer who may sign; whoever is named stays named."""
        before = self.by
        with QSignalBlocker(self.who):
            self.who.clear()
            self.who.addItems(names)
            self.who.setCurrentIndex(-1)
            self.who.setEditText(before)
        for field in (self.company, self.who, self.note, self.sign):
            field.setEnabled(is_known)

    def show_row(self, row: SkillRow | None) -> None:
        """Show what holds of a kind of step, to be changed; what is chosen of the same one stays."""
        held = (row.person, row.kind, row.how, row.by, row.note) if row else None
        if held == self._held:
            return
        self._held = held
        how = row.how if row and row.how else SkillHow.AS_FILED
        self.company.setCurrentIndex(HOWS.index(how))
        self.note.setText(row.note if row and row.how else "")

    def name_back(self, what: str) -> None:
        """Name what would be taken back; nothing: it cannot be pressed."""
        words = self.tr("Take back")
        self.back.setText(f"{words}  ({self._undo_keys()})")
        self.back.setAccessibleName(f"{words}: {what}" if what else words)
        self.back.setToolTip(what)
        self.back.setEnabled(bool(what))

    def _undo_keys(self) -> str:
        keys = QKeySequence(QKeySequence.StandardKey.Undo)
        return keys.toString(QKeySequence.SequenceFormat.NativeText)

    def begin(self) -> None:
        """Give the keyboard to what is to be said."""
        self.company.setFocus()

    @property
    def how(self) -> SkillHow:
        """In whose company, as it is said here."""
        return SkillHow(str(self.company.currentData()))

    @property
    def by(self) -> str:
        """Who says so."""
        return self.who.currentText().strip()
