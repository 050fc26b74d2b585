"""The list of dryings that can be looked at, and the windows of one as a table."""

from datetime import datetime, tzinfo

from PySide6.QtCore import QSignalBlocker, Qt
from PySide6.QtWidgets import QComboBox, QHeaderView, QSizePolicy, QTableView, QWidget

from armorplan.app.drying_choices import DryingChoice, Dryings
from armorplan.desktop.drying_words import HEADINGS, choice_words
from armorplan.desktop.twin_model import TwinModel, TwinRow

FOLLOWS = "follows"
"""The entry of the list that follows what is chosen at the bench."""
LETTERS = 20


class DryingChooser(QComboBox):
    """Follows what is chosen at the bench until another is chosen here."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("drying_chooser")
        self.setAccessibleName(self.tr("Drying to be seen"))
        self.view().setAccessibleName(self.accessibleName())
        self.setMinimumContentsLength(LETTERS)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def offer(
        self, dryings: Dryings, steps: tuple[str, ...], when: tuple[datetime, tzinfo]
    ) -> None:
        """List what can be looked at; what was chosen here stays chosen.

        Args:
            dryings: of the build.
            steps: chosen at the bench.
            when: the clock of now, and the zone that times are told in.
        """
        chosen = self.currentData() or FOLLOWS
        follows = dryings.for_steps(steps)
        with QSignalBlocker(self):
            self.clear()
            if follows is not None:
                words = choice_words(follows, *when)
                is_meant = follows.is_meant(frozenset(steps))
                self.addItem(self.tr("Chosen: {0}").format(words) if is_meant else words, FOLLOWS)
            for choice in (*dryings.running(), *dryings.treatments):
                self.addItem(choice_words(choice, *when), choice.id)
            self.setCurrentIndex(max(self.findData(chosen), 0))

    def choice(self, dryings: Dryings, steps: tuple[str, ...]) -> DryingChoice | None:
        """Return the drying that is chosen; ``None`` where nothing dries."""
        chosen = self.currentData()
        if chosen in (None, FOLLOWS):
            return dryings.for_steps(steps)
        return dryings.of(str(chosen))


class DryingTable(QTableView):
    """The windows of a drying as a table that is as high as its rows: its page scrolls."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("drying_table")
        self.setAccessibleName(self.tr("Windows of the drying as a table"))
        self.windows = TwinModel(tuple(self.tr(one) for one in HEADINGS), self)
        self.setModel(self.windows)
        self.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        self.setTabKeyNavigation(False)
        self.setWordWrap(True)
        self.verticalHeader().hide()
        self.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        heading = self.horizontalHeader()
        heading.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        heading.setSectionResizeMode(len(HEADINGS) - 1, QHeaderView.ResizeMode.Stretch)

    def show_windows(self, rows: tuple[TwinRow, ...]) -> None:
        """Show these windows."""
        self.windows.show(rows)
        self.resizeRowsToContents()
        high = sum(self.rowHeight(row) for row in range(self.windows.rowCount()))
        self.setFixedHeight(self.horizontalHeader().height() + high + 4)
