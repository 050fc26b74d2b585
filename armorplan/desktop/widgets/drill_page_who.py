"""Who practises: somebody of the shop, whoever practised before, or a name that is typed."""

from PySide6.QtCore import QSignalBlocker, Signal
from PySide6.QtWidgets import QComboBox, QHBoxLayout, QLabel, QWidget

from armorplan.app.practice_protocol import Practiser

LEAST_LETTERS = 18


class WhoField(QWidget):
    """``changed`` says that somebody else practises from now on, ``taken`` that Enter was pressed.

    Where it is not known who works here, nobody is named: what is kept is never taken away again.
    """

    changed = Signal()
    taken = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.box = QComboBox(self)
        self.box.setObjectName("practice_who")
        self.box.setAccessibleName(self.tr("Who practises; a new name may be typed"))
        self.box.setEditable(True)
        self.box.setInsertPolicy(QComboBox.InsertPolicy.NoInsert)
        self.box.setMinimumContentsLength(LEAST_LETTERS)
        self._person = self._name = ""
        label = QLabel(self.tr("Who pract&ises"), self)
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
            line.setPlaceholderText(self.tr("say who"))
            line.editingFinished.connect(self.take)
            line.returnPressed.connect(self._take_and_go)

    @property
    def person(self) -> str:
        """The id of who practises; empty: nobody is named."""
        return self._person

    @property
    def name(self) -> str:
        """What they are called."""
        return self._name

    def offer(self, people: tuple[Practiser, ...], *, who: str = "") -> None:
        """Offer people; who practises goes on where they are known or were typed.

        Where nobody does yet it is ``who``, an id or a name, else the one person there is.
        """
        before, typed = self._person or who, self._name or who
        with QSignalBlocker(self.box):
            self.box.clear()
            for one in people:
                self.box.addItem(one.name, one.id)
            self.box.setCurrentIndex(self._place_of(before, typed))
            if self.box.currentIndex() < 0:
                self.box.clearEditText()
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

    def _place_of(self, person: str, typed: str) -> int:
        """Return the place of who practises, made where there is none; -1 where that is nobody."""
        if not person:
            return 0 if self.box.count() == 1 else -1
        if self._known_at(person) < 0:
            self.box.addItem(typed, person)
        return self._known_at(person)

    def _known_at(self, person: str) -> int:
        """Return the place of somebody by id, else by name; -1 where they are unknown."""
        at = self.box.findData(person)
        named = (i for i in range(self.box.count()) if self._is_called(i, person))
        return at if at >= 0 else next(named, -1)

    def _take_and_go(self) -> None:
        self.take()
        self.taken.emit()

    def _is_called(self, at: int, typed: str) -> bool:
        return self.box.itemText(at).casefold() == typed.casefold()
