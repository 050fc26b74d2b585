"""The measures as a tree of two levels: topics as headings, and under each its lines."""

from dataclasses import dataclass, field
from html import escape

from PySide6.QtCore import QAbstractItemModel, QModelIndex, QObject, QPersistentModelIndex, Qt

from armorplan.app.shape_rows import ShapeRow
from armorplan.desktop.checklist_tree import runs
from armorplan.desktop.shapes_words import counted, counted_short, spoken, topic_title

Index = QModelIndex | QPersistentModelIndex
Role = Qt.ItemDataRole
SHAPE_ROLE = Role.UserRole + 1
"""The ``ShapeRow`` of a line; ``None`` for a heading."""
COUNTS_ROLE = Role.UserRole + 2
"""The counts of a heading, in words."""
SIGNS_ROLE = Role.UserRole + 3
"""The same by signs."""
TOP = 0
"""What an index of a heading carries; one of a line carries the number of its heading."""


@dataclass(slots=True)
class _Group:
    number: int
    topic: str
    rows: list[ShapeRow] = field(default_factory=list)
    all: tuple[ShapeRow, ...] = ()
    """The lines counted in the heading: also those that a filter hides."""


class ShapesModel(QAbstractItemModel):
    """Takes new rows and tells views only of what changed, line by line."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._groups: list[_Group] = []
        self._next = TOP

    def show(self, rows: tuple[ShapeRow, ...], every: tuple[ShapeRow, ...] = ()) -> None:
        """Show these rows; ``every`` are those that headings count, the same ones if empty."""
        by_topic = _by_topic(rows)
        whole = _by_topic(every or rows)
        self._drop_groups(by_topic)
        for at, topic in enumerate(by_topic):
            if at >= len(self._groups) or self._groups[at].topic != topic:
                self._add_group(at, topic)
            self._renew_group(self._groups[at], by_topic[topic], tuple(whole.get(topic, ())))

    def row_at(self, index: Index) -> ShapeRow | None:
        """Return the row of a line; ``None`` for a heading or for nothing."""
        if not index.isValid() or index.internalId() == TOP:
            return None
        rows = self._group(index.internalId()).rows
        return rows[index.row()] if index.row() < len(rows) else None

    def index_of(self, row_id: str) -> QModelIndex:
        """Return where a row stands; an invalid index where it is not shown."""
        for group in self._groups:
            for at, row in enumerate(group.rows):
                if row.id == row_id:
                    return self.createIndex(at, 0, group.number)
        return QModelIndex()

    def topic_at(self, index: Index) -> str:
        """Return the topic of a heading; empty for a line or for nothing."""
        is_heading = index.isValid() and index.internalId() == TOP
        return self._groups[index.row()].topic if is_heading else ""

    # What Qt asks for.

    def index(self, row: int, column: int, parent: Index = QModelIndex()) -> QModelIndex:
        if column or row < 0 or row >= self.rowCount(parent):
            return QModelIndex()
        number = self._groups[parent.row()].number if parent.isValid() else TOP
        return self.createIndex(row, column, number)

    def parent(self, child: Index | None = None) -> QModelIndex:  # type: ignore[override]
        if child is None or not child.isValid() or child.internalId() == TOP:
            return QModelIndex()
        group = self._group(child.internalId())
        return self._heading(group) if group in self._groups else QModelIndex()

    def rowCount(self, parent: Index = QModelIndex()) -> int:
        if not parent.isValid():
            return len(self._groups)
        return len(self._groups[parent.row()].rows) if parent.internalId() == TOP else 0

    def columnCount(self, parent: Index = QModelIndex()) -> int:
        return 1

    def data(self, index: Index, role: int = Role.DisplayRole) -> object:
        row = self.row_at(index)
        if row is not None:
            return _of_line(row, role)
        if not index.isValid() or index.internalId() != TOP or index.row() >= len(self._groups):
            return None
        return _of_heading(self._groups[index.row()], role)

    # Changes.

    def _group(self, number: int) -> _Group:
        """Return a group; an empty one for an index that outlived it."""
        found = (group for group in self._groups if group.number == number)
        return next(found, _Group(number=number, topic=""))

    def _heading(self, group: _Group) -> QModelIndex:
        return self.createIndex(self._groups.index(group), 0, TOP)

    def _drop_groups(self, wanted: dict[str, list[ShapeRow]]) -> None:
        """Take out headings that are not wanted, and such as changed places."""
        order = [topic for topic in wanted if any(g.topic == topic for g in self._groups)]
        kept = [group.topic for group in self._groups if group.topic in wanted]
        stays = set(order) if order == kept else set()
        for at in reversed(range(len(self._groups))):
            if self._groups[at].topic not in stays:
                self.beginRemoveRows(QModelIndex(), at, at)
                del self._groups[at]
                self.endRemoveRows()

    def _add_group(self, at: int, topic: str) -> None:
        self._next += 1
        self.beginInsertRows(QModelIndex(), at, at)
        self._groups.insert(at, _Group(number=self._next, topic=topic))
        self.endInsertRows()

    def _renew_group(
        self, group: _Group, rows: list[ShapeRow], every: tuple[ShapeRow, ...]
    ) -> None:
        heading = self._heading(group)
        if every != group.all:
            group.all = every
            self.dataChanged.emit(heading, heading)
        wanted = {row.id for row in rows}
        self._take_out(group, heading, [row.id not in wanted for row in group.rows])
        kept = {row.id for row in group.rows}
        order = [row.id for row in rows if row.id in kept]
        if order != [row.id for row in group.rows]:
            self._take_out(group, heading, [True] * len(group.rows))
            kept = set()
        for first, last in list(runs(at for at, row in enumerate(rows) if row.id not in kept)):
            self.beginInsertRows(heading, first, last)
            group.rows[first:first] = rows[first : last + 1]
            self.endInsertRows()
        changed = [at for at, row in enumerate(rows) if row != group.rows[at]]
        group.rows = rows
        for first, last in runs(changed):
            self.dataChanged.emit(self.index(first, 0, heading), self.index(last, 0, heading))

    def _take_out(self, group: _Group, heading: QModelIndex, gone: list[bool]) -> None:
        for first, last in reversed(list(runs(at for at, is_gone in enumerate(gone) if is_gone))):
            self.beginRemoveRows(heading, first, last)
            del group.rows[first : last + 1]
            self.endRemoveRows()


def _by_topic(rows: tuple[ShapeRow, ...]) -> dict[str, list[ShapeRow]]:
    found: dict[str, list[ShapeRow]] = {}
    for row in rows:
        found.setdefault(row.topic, []).append(row)
    return found


def _of_line(row: ShapeRow, role: int) -> object:
    if role == SHAPE_ROLE:
        return row
    if role == Role.DisplayRole:
        return f"{row.title} – {row.verdict}"
    if role == Role.ToolTipRole:
        return f"<p>{escape(row.title)}</p><p>{escape(row.verdict)}</p>"
    return spoken(row) if role == Role.AccessibleTextRole else None


def _of_heading(group: _Group, role: int) -> object:
    if role == COUNTS_ROLE:
        return counted(group.all)
    if role == SIGNS_ROLE:
        return counted_short(group.all)
    if role == Role.DisplayRole:
        return topic_title(group.topic)
    if role in (Role.AccessibleTextRole, Role.ToolTipRole):
        return f"{topic_title(group.topic)}: {counted(group.all)}"
    return None
