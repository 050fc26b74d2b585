"""How far somebody is: reasons that sit, are shaky, or were never seen, and when they come back."""

from PySide6.QtCore import QEvent, QItemSelectionModel, QModelIndex, Qt, Signal
from PySide6.QtGui import QKeyEvent, QResizeEvent
from PySide6.QtWidgets import (
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QSplitter,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.help_pages import RULE
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.jobs import Runner
from armorplan.desktop.practice_rows import reason_headings, reason_rows
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.why_words import is_rule
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drill_progress_bar import PieceList, chosen_reasons
from armorplan.desktop.widgets.folding import Folding
from armorplan.practice.progress import Progress, ReasonRow

LEAST_NAME_LETTERS = 20
FOLDED = (3, 2, 4)
"""Left out where there is no room: how it was known, when seen, when due; the words below tell them."""
SHARES_PX = (320, 700)


class EnterTable(QTableView):
    """A table whose row in hand is taken by Enter."""

    taken = Signal()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and not (
            event.modifiers() & ~Qt.KeyboardModifier.KeypadModifier
        ):
            self.taken.emit()
        else:
            super().keyPressEvent(event)


def dressed(table: QTableView, model: TwinModel, name: str, spoken: str) -> None:
    """Have a table chosen from row by row, with the keyboard left free to go on by Tab."""
    table.setObjectName(name)
    table.setAccessibleName(spoken)
    table.setModel(model)
    table.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
    table.setSelectionMode(QTableView.SelectionMode.SingleSelection)
    table.setTabKeyNavigation(False)
    table.setAlternatingRowColors(True)
    table.setShowGrid(False)
    table.setWordWrap(False)
    table.verticalHeader().hide()
    # Rows grow with the text.
    table.verticalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
    table.horizontalHeader().setHighlightSections(False)
    table.horizontalHeader().setDefaultAlignment(Qt.AlignmentFlag.AlignLeft)


class ProgressPane(QWidget):
    """Shows one person; ``led`` carries the page of a rule that one wants to read.

    ``paper_wanted`` carries what is shown, to be saved as a page.
    """

    led = Signal(str)
    paper_wanted = Signal(object)
    said = Signal(str)

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("practice_progress")
        self._bridge = bridge
        self._progress: Progress | None = None
        self._reader = Runner(self)
        self._reader.answered.connect(self._show)
        self._reader.failed.connect(lambda error: self.said.emit(str(error)))
        self.head = QLabel(self)
        self.pieces = PieceList(self)
        self.rows = TwinModel(reason_headings(), self)
        self.table = EnterTable(self)
        self.told = QLabel(self)
        self.read = QPushButton(self.tr("&Read the rule"), self)
        self.paper = QPushButton(self.tr("&Save as PDF …"), self)
        dressed(self.table, self.rows, "practice_reasons", self.tr("Reasons, and how they sit"))
        self._lay_out()
        self.pieces.currentRowChanged.connect(self._show_reasons)
        self.table.selectionModel().currentRowChanged.connect(self._tell)
        self.table.taken.connect(self._read)
        self.table.doubleClicked.connect(self._read)
        self.read.clicked.connect(self._read)
        self.paper.clicked.connect(self._ask_paper)

    def _lay_out(self) -> None:
        for label, name in ((self.head, "practice_sentences"), (self.told, "practice_reason")):
            label.setObjectName(name)
            label.setWordWrap(True)
        self.read.setObjectName("practice_read")
        self.read.setAutoDefault(False)
        self.paper.setObjectName("practice_paper")
        self.paper.setAutoDefault(False)
        across = QSplitter(Qt.Orientation.Horizontal, self)
        across.setChildrenCollapsible(False)
        across.addWidget(self.pieces)
        across.addWidget(self.table)
        across.setSizes(list(SHARES_PX))
        across.setStretchFactor(1, 1)
        foot = QHBoxLayout()
        foot.addWidget(self.told, 1)
        foot.addWidget(self.read, 0, Qt.AlignmentFlag.AlignTop)
        foot.addWidget(self.paper, 0, Qt.AlignmentFlag.AlignTop)
        down = QVBoxLayout(self)
        down.addWidget(self.head)
        down.addWidget(across, 1)
        down.addLayout(foot)

    def show_person(self, person: str, name: str) -> None:
        """Show how far a person is, as of now; it may take a while to go through all results."""
        practice = self._bridge.session.practice
        self._reader.ask(lambda _report, _stop: (name, practice.progress(person)))

    @property
    def is_busy(self) -> bool:
        """Tell whether it is still being read."""
        return self._reader.is_busy

    def forget(self) -> None:
        """Want nothing read any more."""
        self._reader.drop()

    def close_jobs(self) -> None:
        """Wait for what is still under way."""
        self._reader.close()

    def _show(self, read: tuple[str, Progress]) -> None:
        name, progress = read
        is_new = self._progress is None or progress.sentences != self._progress.sentences
        self._progress = progress
        head = " ".join(progress.sentences)
        self.head.setText(head)
        if is_new:
            announce(self.head, f"{name}. {head}")
        self.pieces.show_progress(progress)
        self._show_reasons()

    def _ask_paper(self) -> None:
        if self._progress is not None:
            self.paper_wanted.emit(self._progress)

    def _reasons(self) -> tuple[ReasonRow, ...]:
        if self._progress is None:
            return ()
        return chosen_reasons(self._progress, self.pieces.piece).reasons

    def _show_reasons(self) -> None:
        at = self.table.currentIndex()
        kept = self.rows.key_at(at) if at.isValid() else ""
        if self._progress is not None:
            now_at = self._progress.at
            self.rows.show(reason_rows(self._reasons(), now_at, self._bridge.zone))
        self._fit()
        wanted = self.rows.index_of(kept)
        wanted = wanted if wanted.isValid() else self.rows.index(0, 0)
        flags = QItemSelectionModel.SelectionFlag
        self.table.selectionModel().setCurrentIndex(wanted, flags.ClearAndSelect | flags.Rows)
        self._tell(wanted)

    def _chosen(self) -> ReasonRow | None:
        at = self.table.currentIndex()
        key = self.rows.key_at(at) if at.isValid() else ""
        return next((row for row in self._reasons() if row.rule == key), None)

    def _tell(self, _now: QModelIndex) -> None:
        row = self._chosen()
        self.told.setText(row.sentence if row else "")
        self.read.setEnabled(row is not None and is_rule(row.rule))

    def _read(self) -> None:
        row = self._chosen()
        if row is not None and is_rule(row.rule):
            self.led.emit(f"{RULE}{row.rule}")

    def _fit(self) -> None:
        least_px = self.fontMetrics().averageCharWidth() * LEAST_NAME_LETTERS
        Folding(self.table, wide=0, least_px=least_px, folded=FOLDED).fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._fit()
