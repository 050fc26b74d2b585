"""The checklist as an item model: a tree over frozen rows, changed only where they changed."""

from enum import IntEnum
from html import escape

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from armorplan.app.rows import ChecklistRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.checklist_tree import ROOT, Node, Tree, by_parent, runs
from armorplan.desktop.checklist_words import ChecklistWords

Index = QModelIndex | QPersistentModelIndex
Under = dict[str | None, list[ChecklistRow]]
ROW_ROLE = Qt.ItemDataRole.UserRole
"""The ``ChecklistRow`` itself, for the delegate."""
MUCH_WORK = 8000
"""Rows that come or go, times rows shown: above, one reset is quicker than telling each."""


class Column(IntEnum):
    """Columns of the checklist."""

    STEP = 0
    TIME = 1


class ChecklistModel(QAbstractItemModel):
    """Headings, trays and steps. Rows are told apart by id; a number in each index finds them."""

    def __init__(self, bridge: Bridge, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.words = ChecklistWords(bridge)
        self._tree = Tree()
        self._links: dict[tuple[str, str | None], int] = {}

    def index_of(self, row_id: str, column: Column = Column.STEP) -> QModelIndex:
        """Return the index of a row id; an invalid one where it is not shown."""
        node = self._tree.find(row_id)
        return QModelIndex() if node is None else self._index(node, column)

    def row_at(self, index: Index) -> ChecklistRow | None:
        """Return the row of an index, or ``None``."""
        return self._node(index).row

    def shown_steps(self, row: ChecklistRow) -> tuple[str, ...]:
        """Return the steps of a row that are shown under it; all of them where it has no rows."""
        node = self._tree.find(row.id)
        if node is None or not node.children:
            return row.steps
        under = self._tree.rows_under(node.number)
        return tuple(step for child in under for step in self.shown_steps(child))

    def show(self, rows: tuple[ChecklistRow, ...]) -> None:
        """Show these rows, parents before children; only what changed is told to the views."""
        links = {(row.id, row.parent): at for at, row in enumerate(rows)}
        apart = len(links.keys() ^ self._links.keys())
        if apart * len(rows) > MUCH_WORK:
            self.beginResetModel()
            self._tree.clear()
            under = by_parent(rows)
            self._tree.add(ROOT, 0, under.get(None, ()), under)
            self.endResetModel()
        elif links != self._links:
            under = by_parent(rows)
            self._prune(ROOT, under)
            self._grow(ROOT, under)
        self._links = links
        self._renew(rows)

    # What Qt asks for.

    def index(self, row: int, column: int, parent: Index = QModelIndex()) -> QModelIndex:
        children = self._node(parent).children
        if not (0 <= row < len(children) and 0 <= column < len(Column)):
            return QModelIndex()
        if parent.isValid() and parent.column() != Column.STEP:
            return QModelIndex()
        return self.createIndex(row, column, children[row])

    def parent(self, child: Index | None = None) -> QModelIndex:  # type: ignore[override]
        if child is None or not child.isValid():
            return QModelIndex()
        above = self._tree.node(self._node(child).parent)
        return QModelIndex() if above.number == ROOT else self._index(above, Column.STEP)

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        if parent.isValid() and parent.column() != Column.STEP:
            return 0
        return len(self._node(parent).children)

    def columnCount(self, parent: Index = QModelIndex()) -> int:
        return len(Column)

    def headerData(
        self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole
    ) -> str | None:
        if orientation is not Qt.Orientation.Horizontal or role != Qt.ItemDataRole.DisplayRole:
            return None
        return {Column.STEP: self.tr("Step"), Column.TIME: self.tr("Time")}.get(Column(section))

    def data(self, index: Index, role: int = Qt.ItemDataRole.DisplayRole) -> object:
        row = self.row_at(index)
        if row is None:
            return None
        if role == ROW_ROLE:
            return row
        if role == Qt.ItemDataRole.DisplayRole:
            return (
                row.title
                if index.column() == Column.STEP
                else " ".join(self.words.time_lines(row))
            )
        if role == Qt.ItemDataRole.ToolTipRole:
            return f"<p>{escape(row.title)}</p><p>{escape(self.words.state_line(row))}</p>"
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return self.words.spoken(row)
        return None

    # Changes.

    def _node(self, index: Index) -> Node:
        """Return an index's node; an empty one for an index that outlived its row."""
        return self._tree.node(index.internalId()) if index.isValid() else self._tree.node(ROOT)

    def _index(self, node: Node, column: int) -> QModelIndex:
        if node.number == ROOT:
            return QModelIndex()
        return self.createIndex(self._tree.position(node.number), column, node.number)

    def _prune(self, number: int, under: Under) -> None:
        """Take out what is no longer wanted where it is, last run first."""
        node = self._tree.node(number)
        wanted = {row.id for row in under.get(_id(node), ())}
        gone = [i for i, r in enumerate(self._tree.rows_under(number)) if r.id not in wanted]
        for first, last in reversed(list(runs(gone))):
            self.beginRemoveRows(self._index(node, Column.STEP), first, last)
            self._tree.cut(number, first, last)
            self.endRemoveRows()
        for child in tuple(node.children):
            self._prune(child, under)

    def _grow(self, number: int, under: Under) -> None:
        """Bring the children of a node into order, and put in what is missing."""
        node = self._tree.node(number)
        new = under.get(_id(node), [])
        old_ids = [row.id for row in self._tree.rows_under(number)]
        kept = set(old_ids)
        order = [row.id for row in new if row.id in kept]
        if order != old_ids:
            self._reorder(node, order)
        for first, last in list(runs(i for i, row in enumerate(new) if row.id not in kept)):
            self.beginInsertRows(self._index(node, Column.STEP), first, last)
            self._tree.add(number, first, new[first : last + 1], under)
            self.endInsertRows()
        for child, row in zip(tuple(node.children), new, strict=True):
            if row.id in kept:
                self._grow(child, under)

    def _reorder(self, node: Node, order: list[str]) -> None:
        self.layoutAboutToBeChanged.emit()
        before = self.persistentIndexList()
        node.children = [found.number for i in order if (found := self._tree.find(i))]
        after = [self._index(self._node(index), index.column()) for index in before]
        self.changePersistentIndexList(before, after)
        self.layoutChanged.emit()

    def _renew(self, rows: tuple[ChecklistRow, ...]) -> None:
        """Replace rows that changed and tell which, as few runs as there are."""
        changed: dict[int, list[int]] = {}
        for row in rows:
            node = self._tree.find(row.id)
            if node is not None and node.row != row:
                node.row = row
                changed.setdefault(node.parent, []).append(self._tree.position(node.number))
        for number, places in changed.items():
            parent = self._index(self._tree.node(number), Column.STEP)
            for first, last in runs(places):
                self.dataChanged.emit(
                    self.index(first, Column.STEP, parent), self.index(last, Column.TIME, parent)
                )


def _id(node: Node) -> str | None:
    return node.row.id if node.row else None
