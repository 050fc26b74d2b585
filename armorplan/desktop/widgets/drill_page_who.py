"""Who practises: somebody of the shop, whoever practised before, or a name that is typed."""

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QWidget

from armorplan.app.practice_protocol import Practiser

LEAST_LETTERS = 18


class WhoField(QWidget):
    """``changed`` says that somebody else practises from now on."""

    changed = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.box = QComboBox(self)
        self.box.setObjectName("practice_who")
        self.box.setAccessibleName(self.tr("Who practises; a new name may be typed"))
        self.box.setEditable(True)
        self.box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.box.setMinimumContentsLength(LEAST_LETTERS)
        self._person = self._name = ""
        label = QLabel(self.tr("&Who practises"), self)
        label.setBuddy(self.box)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(label)
        row.addWidget(self.box)
        self.box.activated.connect(lambda _at: self.take())
        line = self.box.lineEdit()
        if line is not None:
            line.setObjectName("practice_who_name")
            line.setAccessibleName(self.box.accessibleName())
            line.editingFinished.connect(self.take)

    @property
    def person(self) -> str:
        """The id of who practises; empty: nobody is named."""
        return self._person

    @property
    def name(self) -> str:
        """What they are called."""
        return self._name

    def offer(self, people: tuple[Practiser, ...]) -> None:
        """Offer people; who practises goes on where they are known or were typed."""
        before, typed = self._person, self._name
        with QSignalBlocker(self.box):
            self.box.clear()
            for one in people:
                self.box.addItem(one.name, one.id)
            at = self.box.findData(before) if before else 0
            if at < 0:
                self.box.addItem(typed, before)
                at = self.box.count() - 1
            self.box.setCurrentIndex(at)
        self._person = str(self.box.currentData() or "")
        self._name = self.box.currentText()

    def take(self) -> None:
        """Let whoever is named in the field practise from now on."""
        typed = self.box.currentText().strip()
        at = next((i for i in range(self.box.count()) if self._is_called(i, typed)), -1)
        if at < 0 and typed:
            self.box.addItem(typed, typed)
            at = self.box.count() - 1
        if at >= 0:
            with QSignalBlocker(self.box):
                self.box.setCurrentIndex(at)
        person = str(self.box.itemData(at) or "") if at >= 0 else ""
        if person != self._person:
            self._person, self._name = person, typed
            self.changed.emit()

    def _is_called(self, at: int, typed: str) -> bool:
        return self.box.itemText(at).casefold() == typed.casefold()
