"""What a pattern holds, found by words; entries of one's own can be added and taken out."""

from functools import partial

from PySide6.QtCore import QModelIndex, Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QListView,
    QMenu,
    QPushButton,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.draft_keys import editable_tables
from armorplan.app.draft_rows import SHAPES, EntryRow, GroupRow
from armorplan.desktop.draft_model import DraftModel, Place, list_rows


class EditList(QWidget):
    """The entries; ``chosen`` carries table and entry, ``dropped`` the entry that is to go.

    ``asked_new`` carries the table of a new entry, and the keys that a new reason shall have.
    """

    chosen = Signal(object)
    asked_new = Signal(str, object)
    dropped = Signal(object)
    entered = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._groups: tuple[GroupRow, ...] = ()
        self._at: Place | None = None
        self._model = DraftModel(self)
        self.words = QLineEdit(self)
        self.words.setObjectName("edit_words")
        self.words.setPlaceholderText(self.tr("Find parts, joints, reasons … (Ctrl+F)"))
        self.words.setAccessibleName(self.tr("Find in the pattern"))
        self.words.setClearButtonEnabled(True)
        self.list = QListView(self)
        self.list.setObjectName("edit_list")
        self.list.setAccessibleName(self.tr("What the pattern holds"))
        self.list.setModel(self._model)
        self.list.setUniformItemSizes(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._nothing = QLabel(self.tr("Nothing in the pattern has all these words."))
        self._nothing.setObjectName("edit_nothing")
        self._nothing.setWordWrap(True)
        self._nothing.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self._nothing.hide()
        QVBoxLayout(self.list.viewport()).addWidget(self._nothing)
        self._drop = QPushButton(self.tr("&Take out"), self)
        self._drop.setObjectName("edit_drop")
        down = QVBoxLayout(self)
        down.setContentsMargins(0, 0, 0, 0)
        down.addWidget(self.words)
        down.addWidget(self.list, 1)
        row = QHBoxLayout()
        row.addWidget(self._add_button())
        row.addWidget(self._drop)
        down.addLayout(row)
        QShortcut(QKeySequence("Ctrl+F"), self.window(), self._seek)
        self.words.textChanged.connect(self._find)
        self.words.returnPressed.connect(self._enter_list)
        self.list.selectionModel().currentChanged.connect(self._turn)
        self.list.activated.connect(self.entered)
        self._drop.clicked.connect(self._ask_drop)

    def _add_button(self) -> QPushButton:
        button = QPushButton(self.tr("&Add …"), self)
        button.setObjectName("edit_add")
        menu = QMenu(button)
        for table, keys in editable_tables().items():
            if keys.grows and table != "relations":
                menu.addAction(keys.one.capitalize(), partial(self.asked_new.emit, table, ()))
        reasons = menu.addMenu(editable_tables()["relations"].one.capitalize())
        for words, shape in SHAPES:
            told = words.capitalize()
            reasons.addAction(told, partial(self.asked_new.emit, "relations", shape))
        button.setMenu(menu)
        return button

    @property
    def entry(self) -> EntryRow | None:
        """The chosen entry."""
        row = self._model.row_at(self.list.currentIndex())
        return row.entry if row else None

    def show_groups(self, groups: tuple[GroupRow, ...]) -> None:
        """Show what the pattern holds now, and stay where one is."""
        if groups != self._groups:
            self._groups = groups
            self._find()
        self._offer_drop()

    def go(self, place: Place | None) -> bool:
        """Choose an entry; tell whether it is there. Without one, stay, or choose the first."""
        self.words.clear()
        index = self._model.index_of(place) if place else QModelIndex()
        is_there = index.isValid()
        if not is_there and self._at is None:
            index = self._model.first_entry()
        if index.isValid():
            self.list.setCurrentIndex(index)
            self.list.scrollTo(index)
        return is_there

    def _seek(self) -> None:
        self.words.setFocus()
        self.words.selectAll()

    def _enter_list(self) -> None:
        """Give the keyboard to the entries, at the first one found."""
        if self.entry is None:
            self.list.setCurrentIndex(self._model.first_entry())
        self.list.setFocus()

    def _find(self) -> None:
        self._model.show(list_rows(self._groups, self.words.text()))
        self._nothing.setVisible(bool(self._groups) and not self._model.rowCount())
        index = self._model.index_of(self._at) if self._at else QModelIndex()
        if index.isValid():
            self.list.setCurrentIndex(index)

    def _turn(self, index: QModelIndex) -> None:
        row = self._model.row_at(index)
        if row is not None and row.place is not None:
            self._at = row.place
            self.chosen.emit(row.place)
        self._offer_drop()

    def _offer_drop(self) -> None:
        self._drop.setEnabled(self.entry is not None and self.entry.can_drop)

    def _ask_drop(self) -> None:
        if self.entry is not None:
            self.dropped.emit(self.entry)
