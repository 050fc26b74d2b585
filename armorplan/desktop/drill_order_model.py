"""The steps of an order that is being made: rows that move, each with its letter and place."""

from collections.abc import Mapping
from dataclasses import dataclass

from PySide6.QtCore import (
    QAbstractListModel,
    QModelIndex,
    QObject,
    QPersistentModelIndex,
    Qt,
)

from armorplan.desktop.drill_form_words import letters, place_words, spoken
from armorplan.desktop.drill_marks import Note
from armorplan.practice.drill import Answer, Drill

ROW_ROLE = Qt.ItemDataRole.UserRole
Index = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderRow:
    """A step of an order: its letter and words, its place from 1, and what judging says of it."""

    id: str
    letter: str
    title: str
    detail: str
    place: int
    note: Note | None = None


class DrillOrderModel(QAbstractListModel):
    """Holds the choices of an exercise in the order in which they lie now."""

    def __init__(self, drill: Drill, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._drill, self._letters = drill, letters(drill)
        self._order: list[str] = [one.id for one in drill.choices]
        self._notes: Mapping[str, Note] = {}
        self.is_editable = True

    def order(self) -> Answer:
        """Return the ids of the steps in their order."""
        return tuple(self._order)

    def take(self, order: Answer, notes: Mapping[str, Note] | None = None) -> None:
        """Lay the steps in an order, with what is said at them; what it leaves out lies behind it."""
        known = [one.id for one in self._drill.choices]
        wanted = [one for one in dict.fromkeys(order) if one in known]
        self.beginResetModel()
        self._order = [*wanted, *(one for one in known if one not in wanted)]
        self._notes = notes or {}
        self.endResetModel()

    def row(self, at: int) -> OrderRow:
        """Return a row."""
        choice = self._drill.choice(self._order[at])
        return OrderRow(
            id=choice.id,
            letter=self._letters[choice.id],
            title=choice.title,
            detail=choice.detail,
            place=at + 1,
            note=self._notes.get(choice.id),
        )

    def row_of(self, name: str) -> int:
        """Return where a step lies; -1 where it is none of them."""
        return self._order.index(name) if name in self._order else -1

    def move(self, at: int, to: int) -> bool:
        """Put the step of a row so that it lies at another; tell whether it went."""
        last = len(self._order) - 1
        if not self.is_editable or at == to or not (0 <= at <= last and 0 <= to <= last):
            return False
        top = QModelIndex()
        self.beginMoveRows(top, at, at, top, to + 1 if to > at else to)
        self._order.insert(to, self._order.pop(at))
        self.endMoveRows()
        self.dataChanged.emit(self.index(min(at, to)), self.index(max(at, to)))
        return True

    # --- what Qt asks -------------------------------------------------------------------------

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self._order)

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        if not index.isValid() or not 0 <= index.row() < len(self._order):
            return None
        row = self.row(index.row())
        if role == Qt.ItemDataRole.DisplayRole:
            return f"{row.place}  {row.letter}  {row.title}"
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return self._spoken(row)
        return row if role == ROW_ROLE else None

    def _spoken(self, row: OrderRow) -> str:
        step = spoken(row.letter, self._drill.choice(row.id))
        note = f". {row.note.words}" if row.note else ""
        return f"{place_words(row.place, len(self._order))}: {step}{note}"
