"""Tables whose columns fit: those that matter least are left out where the width is too little."""

from collections.abc import Sequence

from PySide6.QtWidgets import QHeaderView, QTableView

EDGE_PX = 2


class Folding:
    """Fits the columns of a table to its width; what is folded is told in words elsewhere."""

    def __init__(
        self, table: QTableView, *, wide: int, least_px: int, folded: Sequence[int]
    ) -> None:
        """Take a table.

        Args:
            table: with a model and a heading.
            wide: the column that takes what is left over.
            least_px: so wide that column is at the least.
            folded: the columns to leave out, the one that matters least first.
        """
        self._table = table
        self._wide = wide
        self._least_px = least_px
        self._folded = folded
        heading = table.horizontalHeader()
        heading.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        heading.setSectionResizeMode(wide, QHeaderView.ResizeMode.Stretch)

    def fit(self) -> None:
        """Leave out columns until the rest fits."""
        for column in self._folded:
            self._table.setColumnHidden(column, False)
        needs = {
            column: self._need_px(column) for column in range(self._table.model().columnCount())
        }
        over_px = sum(needs.values()) - self._table.viewport().width()
        for column in self._folded:
            if over_px <= 0:
                return
            self._table.setColumnHidden(column, True)
            over_px -= needs[column]

    def _need_px(self, column: int) -> int:
        if column == self._wide:
            return self._least_px
        heading = self._table.horizontalHeader()
        return (
            max(heading.sectionSizeHint(column), self._table.sizeHintForColumn(column)) + EDGE_PX
        )
