"""The week as a table: the twin of the picture."""

from PySide6.QtWidgets import QHeaderView, QTableView, QWidget

from armorplan.app.week_rows import Week
from armorplan.desktop.twin_model import TwinModel

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

    def keys_of(self, week: Week, steps: tuple[str, ...]) -> tuple[str, ...]:
        """Return the rows of steps."""
        wanted = set(steps)
        return tuple(bar.key for bar in week.bars if bar.step in wanted) if wanted else ()
