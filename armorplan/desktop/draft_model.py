"""The entries of a draft as a list: each table's heading, then its entries, found by words."""

from dataclasses import dataclass

from PySide6.QtCore import QAbstractListModel, QCoreApplication, QModelIndex, QObject, Qt
from PySide6.QtGui import QFont, QGuiApplication

from armorplan.app.draft_rows import EntryRow, GroupRow
from armorplan.desktop.twin_model import Index

Role = Qt.ItemDataRole
Place = tuple[str, str]
"""Table and entry; a heading has no entry and is found by no place."""


@dataclass(frozen=True, slots=True, kw_only=True)
class ListRow:
    """One line of the list: a heading, or an entry under it."""

    group: GroupRow
    entry: EntryRow | None = None

    @property
    def place(self) -> Place | None:
        """Where the entry stands; ``None`` for a heading."""
        return (self.entry.table, self.entry.id) if self.entry else None


def list_rows(groups: tuple[GroupRow, ...], words: str = "") -> tuple[ListRow, ...]:
    """Return the lines whose title, id or heading holds all words; headings with something below.

    Without words, headings of tables that can grow stand there also while they are empty.
    """
    wanted = words.casefold().split()
    rows: list[ListRow] = []
    for group in groups:
        found = [
            entry
            for entry in group.entries
            if all(word in f"{entry.title} {entry.id} {group.title}".casefold() for word in wanted)
        ]
        if found or not wanted:
            rows.append(ListRow(group=group))
        rows += (ListRow(group=group, entry=entry) for entry in found)
    return tuple(rows)


class DraftModel(QAbstractListModel):
    """Lists headings and entries; only entries can be chosen, and the keys pass over headings."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._rows: tuple[ListRow, ...] = ()

    def show(self, rows: tuple[ListRow, ...]) -> None:
        """Take new rows; the view keeps its place where the same entries stand in the same order."""
        same = [(r.group.table, r.place) for r in rows] == [
            (r.group.table, r.place) for r in self._rows
        ]
        if not same:
            self.beginResetModel()
        changed = [at for at, row in enumerate(rows) if same and row != self._rows[at]]
        self._rows = rows
        if not same:
            self.endResetModel()
        for at in changed:
            self.dataChanged.emit(self.index(at, 0), self.index(at, 0))

    def row_at(self, index: Index) -> ListRow | None:
        """Return the line at an index; ``None`` where there is none."""
        return self._rows[index.row()] if index.isValid() else None

    def index_of(self, place: Place) -> QModelIndex:
        """Return where an entry stands; an invalid index where it is not shown."""
        found = (at for at, row in enumerate(self._rows) if row.place == place)
        at = next(found, None)
        return QModelIndex() if at is None else self.index(at, 0)

    def first_entry(self) -> QModelIndex:
        """Return the first entry; an invalid index where there is none."""
        found = (at for at, row in enumerate(self._rows) if row.entry is not None)
        at = next(found, None)
        return QModelIndex() if at is None else self.index(at, 0)

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        return 0 if parent.isValid() else len(self._rows)

    def flags(self, index: Index) -> Qt.ItemFlag:
        row = self.row_at(index)
        if row is None or row.entry is None:
            return Qt.ItemFlag.NoItemFlags
        return Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable

    def data(self, index: Index, role: int = Role.DisplayRole) -> object:
        row = self.row_at(index)
        if row is None:
            return None
        if role == Role.ForegroundRole and row.entry is None:
            return QGuiApplication.palette().text()  # not grey, though nobody can choose it
        if role == Role.FontRole and row.entry is None:
            font = QFont()
            font.setBold(True)
            return font
        if role in (Role.DisplayRole, Role.AccessibleTextRole, Role.ToolTipRole):
            return _told(row, spoken=role != Role.DisplayRole)
        return None


def _told(row: ListRow, *, spoken: bool) -> str:
    if row.entry is None:
        count = len(row.group.entries)
        none = QCoreApplication.translate("DraftModel", "none yet")
        return row.group.title if count else f"{row.group.title} – {none}"
    if spoken:
        return f"{row.group.title}: {row.entry.title} ({row.entry.id or row.entry.table})"
    return f"    {row.entry.title}"
