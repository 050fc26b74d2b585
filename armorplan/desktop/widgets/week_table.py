"""The week as a table: the twin of the picture."""

from PySide6.QtCore import QItemSelectionModel, QPoint, QSignalBlocker
from PySide6.QtWidgets import QHeaderView, QTableView, QWidget

from armorplan.app.week_rows import Week
from armorplan.desktop.twin_model import TwinModel, TwinRow

_STEP = 2
_STEP_LETTERS = 34
"""So much of a title is read before the table has to be moved sideways for what follows it."""
_MEASURED_ROWS = 40
"""Columns are as wide as these rows need: all of them take too long where there are thousands."""


class WeekTable(QTableView):
    """Every bar by its start, with due dates and the load of each day among them."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("week_table")
        self.setAccessibleName(self.tr("The week as a table"))
        self.rows = TwinModel(
            (
                self.tr("Start"),
                self.tr("End"),
                self.tr("Step"),
                self.tr("Who or where"),
                self.tr("State"),
                self.tr("Build"),
                self.tr("When it is dry"),
            ),
            self,
        )
        self.setModel(self.rows)
        self.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QTableView.SelectionMode.ExtendedSelection)
        self.setTabKeyNavigation(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.Fixed)
        heading = self.horizontalHeader()
        heading.setResizeContentsPrecision(_MEASURED_ROWS)
        heading.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        heading.setSectionResizeMode(_STEP, QHeaderView.ResizeMode.Interactive)
        heading.resizeSection(_STEP, _STEP_LETTERS * self.fontMetrics().averageCharWidth())

    def show_rows(self, rows: tuple[TwinRow, ...]) -> None:
        """Take new rows; what stands at the top stays there, and so does the row with the keys."""
        top = self.indexAt(QPoint(0, 0))
        top_key = self.rows.key_at(top) if top.isValid() else ""
        current = self.currentIndex()
        current_key = self.rows.key_at(current) if current.isValid() else ""
        self.rows.show(rows)
        again = self.rows.index_of(current_key)
        if again.isValid() and again != self.currentIndex():
            keep = QItemSelectionModel.SelectionFlag.NoUpdate
            at = again.siblingAtColumn(max(current.column(), 0))
            with QSignalBlocker(self.selectionModel()):
                self.selectionModel().setCurrentIndex(at, keep)
        at_top = self.rows.index_of(top_key).siblingAtColumn(max(top.column(), 0))
        if at_top.isValid() and at_top != self.indexAt(QPoint(0, 0)):
            self.scrollTo(at_top, QTableView.ScrollHint.PositionAtTop)

    def keys_of(self, week: Week, steps: tuple[str, ...]) -> tuple[str, ...]:
        """Return the rows of steps."""
        wanted = set(steps)
        return tuple(bar.key for bar in week.bars if bar.step in wanted) if wanted else ()
