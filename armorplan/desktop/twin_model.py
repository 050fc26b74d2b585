"""The pictures as plain rows, for screen readers and for who would rather read a list."""

from dataclasses import dataclass

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole


@dataclass(frozen=True, slots=True, kw_only=True)
class TwinRow:
    """One thing of a picture: its key there, what the columns show, and what a reader speaks."""

    key: str
    cells: tuple[str, ...]
    spoken: str


class TwinModel(QAbstractTableModel):
    """The things of a picture, one a row, in the order in which the keys walk them."""

    def __init__(self, headings: tuple[str, ...], parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._headings = headings
        self._rows: tuple[TwinRow, ...] = ()
        self._place: dict[str, int] = {}

    def show(self, rows: tuple[TwinRow, ...]) -> None:
        """Take new rows; views keep their place where the same things stand in the same order."""
        same = [r.key for r in rows] == [r.key for r in self._rows]
        if not same:
            self.beginResetModel()
        changed = [i for i, row in enumerate(rows) if same and row != self._rows[i]]
        self._rows = rows
        self._place = {row.key: i for i, row in enumerate(rows)}
        if not same:
            self.endResetModel()
        for i in changed:
            self.dataChanged.emit(self.index(i, 0), self.index(i, len(self._headings) - 1))

    def key_at(self, index: Index) -> str:
        """Return the key of a row."""
        return self._rows[index.row()].key

    def index_of(self, key: str) -> QModelIndex:
        """Return where a key stands; an invalid index where it is not shown."""
        return self.index(self._place[key], 0) if key in self._place else QModelIndex()

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def columnCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self._headings)

    def data(self, index: Index, role: int = Role.DisplayRole) -> str | None:
        if not index.isValid():
            return None
        row = self._rows[index.row()]
        if role == Role.AccessibleTextRole and index.column() == 0:
            return row.spoken
        if role in (Role.DisplayRole, Role.ToolTipRole, Role.AccessibleTextRole):
            return row.cells[index.column()]
        return None

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Role.DisplayRole
    ) -> str | None:
        if role != Role.DisplayRole or orientation != Qt.Orientation.Horizontal:
            return None
        return self._headings[section]
