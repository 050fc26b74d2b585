"""The page of plans side by side: what if, and where no plan is possible what would free it."""

from datetime import timedelta

from PySide6.QtCore import QModelIndex, Qt
from PySide6.QtGui import QCloseEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QHeaderView,
    QLabel,
    QPushButton,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.mends import MendRow
from armorplan.app.what_if_plan import Asked
from armorplan.app.what_if_rows import SideRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.side_words import builds_words, side_headings, twin_of
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.page_foot import close_box, fit_screen
from armorplan.desktop.widgets.side_form import SideForm
from armorplan.desktop.wish_desk import WishDesk

WIDE_PX, HIGH_PX = 980, 560
_DETAIL_LINES = 6
WORDY = (0, 3, 4)
"""Columns that hold sentences: they share the width, and take as many lines as they need."""


class SidePage(QDialog):
    """Asks ``WishDesk`` and shows what comes, row by row; does not hold up the bench."""

    def __init__(self, desk: WishDesk, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("side_page")
        self.setWindowTitle(self.tr("What if"))
        self.setModal(False)
        self._desk = desk
        self._bridge = bridge
        self._asked: dict[str, Asked] = {}
        self._rows: dict[str, SideRow | MendRow] = {}
        self.form = SideForm(self)
        self.table = QTableView(self)
        self.model = TwinModel(side_headings(), self)
        self.told = QLabel(self)
        self.detail = QLabel(self)
        self.usual = QPushButton(self.tr("Ask the &usual"), self)
        self.why = QPushButton(self.tr("What would &free it"), self)
        self.drop = QPushButton(self.tr("Take the row &away"), self)
        self.stop = QPushButton(self.tr("&Stop"), self)
        self._name_all()
        self._lay_out()
        self._connect()
        AltLetters(self)
        self.refresh()

    def _name_all(self) -> None:
        for widget, name in (
            (self.table, "side_table"),
            (self.told, "side_told"),
            (self.detail, "side_detail"),
            (self.usual, "side_usual"),
            (self.why, "side_why"),
            (self.drop, "side_drop"),
            (self.stop, "side_stop"),
        ):
            widget.setObjectName(name)
        for button in (self.usual, self.why, self.drop, self.stop):
            button.setAutoDefault(False)
        self.table.setModel(self.model)
        self.table.setAccessibleName(self.tr("Plans side by side"))
        self.table.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QTableView.SelectionMode.SingleSelection)
        self.table.setTabKeyNavigation(False)
        self.table.verticalHeader().hide()
        heading = self.table.horizontalHeader()
        heading.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        for column in WORDY:
            heading.setSectionResizeMode(column, QHeaderView.ResizeMode.Stretch)
        rows = self.table.verticalHeader()
        rows.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        by_mouse = Qt.TextInteractionFlag.TextSelectableByMouse
        by_key = Qt.TextInteractionFlag.TextSelectableByKeyboard
        for label, spoken in (
            (self.told, self.tr("What was said")),
            (self.detail, self.tr("The chosen row, build by build")),
        ):
            label.setWordWrap(True)
            label.setAccessibleName(spoken)
            label.setTextInteractionFlags(by_mouse | by_key)
        self.detail.setMinimumHeight(_DETAIL_LINES * self.fontMetrics().height())
        self.detail.setAlignment(Qt.AlignmentFlag.AlignTop)

    def _lay_out(self) -> None:
        foot = QHBoxLayout()
        for button in (self.usual, self.why, self.drop, self.stop):
            foot.addWidget(button)
        foot.addStretch(1)
        foot.addWidget(close_box(self))
        whole = QVBoxLayout(self)
        whole.addWidget(self.form)
        whole.addWidget(self.told)
        whole.addWidget(self.table, 1)
        whole.addWidget(self.detail)
        whole.addLayout(foot)
        fit_screen(self, WIDE_PX, HIGH_PX)

    def _connect(self) -> None:
        self.form.asked.connect(self.ask)
        self.usual.clicked.connect(self.ask_usual)
        self.why.clicked.connect(self.ask_why)
        self.drop.clicked.connect(self._drop)
        self.stop.clicked.connect(self._desk.stop)
        QShortcut(QKeySequence(Qt.Key.Key_Delete), self.table, self._drop)
        self._desk.row.connect(self._take)
        self._desk.told.connect(self._tell)
        self._desk.refused.connect(self._refuse)
        self._desk.begun.connect(self._allow)
        self._desk.ended.connect(self._allow)
        self._bridge.changed.connect(self.refresh)
        self.table.selectionModel().currentRowChanged.connect(self._show_detail)

    # --- asking -----------------------------------------------------------------------------

    def refresh(self) -> None:
        """Offer what can be asked of the plan as it stands."""
        tomorrow = self._bridge.clock.now().astimezone(self._bridge.zone) + timedelta(days=1)
        self.form.offer(self._desk.subjects(), tomorrow)
        if not self._rows and not self.told.text() and self._desk.has_plan:
            self.told.setText(
                self.tr(
                    "Nothing is asked yet. Ask one thing above, or the usual: what is worth asking "
                    "of this shop, each planned beside the plan at hand."
                )
            )
        self._allow()

    def ask(self, text: str) -> None:
        """Ask one thing more, beside what was asked."""
        asked = self._desk.read(text)
        if asked is not None:
            self._asked[asked.text] = asked
            self._ask_all()

    def ask_usual(self) -> None:
        """Ask what is worth asking of this shop."""
        self._asked |= {asked.text: asked for asked in self._desk.usual()}
        self._ask_all()

    def ask_why(self) -> None:
        """Ask why there is no plan, and what would free it."""
        self._clear(self.tr("The smallest conflict is sought …"))
        self._desk.ask_why()

    def _ask_all(self) -> None:
        self._clear(self.tr("Each is planned at once, and then better."))
        self._desk.ask(tuple(self._asked.values()))

    def _clear(self, words: str) -> None:
        self._rows = {}
        self._show_rows()
        self._tell(words)

    def _drop(self) -> None:
        key = self._chosen()
        if key and self._rows.pop(key, None) is not None:
            self._asked.pop(key, None)
            self._show_rows()

    # --- showing ----------------------------------------------------------------------------

    def _take(self, row: SideRow | MendRow) -> None:
        is_new = row.key not in self._rows
        self._rows[row.key] = row
        self._show_rows()
        if is_new or getattr(row, "is_last", True):
            announce(self.table, twin_of(row, self._bridge.clock.now(), self._bridge.zone).spoken)

    def _show_rows(self) -> None:
        chosen, now = self._chosen(), self._bridge.clock.now()
        self.model.show(tuple(twin_of(row, now, self._bridge.zone) for row in self._rows.values()))
        index = self.model.index_of(chosen)
        if index.isValid():
            self.table.setCurrentIndex(index)
        self._show_detail()
        self._allow()

    def _chosen(self) -> str:
        index = self.table.currentIndex()
        return self.model.key_at(index) if index.isValid() else ""

    def _show_detail(self, *_: QModelIndex) -> None:
        row = self._rows.get(self._chosen())
        now, zone = self._bridge.clock.now(), self._bridge.zone
        self.detail.setText(builds_words(row, now, zone) if row is not None else "")

    def _tell(self, words: str) -> None:
        self.told.setText(words)
        announce(self.told, words)

    def _refuse(self, words: str) -> None:
        self._tell(f"\N{HEAVY MULTIPLICATION X} {words}")

    def _allow(self) -> None:
        has_plan = self._desk.has_plan
        self.usual.setEnabled(has_plan)
        self.why.setEnabled(self._desk.week is not None and not has_plan)
        self.stop.setEnabled(self._desk.is_busy)
        self.drop.setEnabled(bool(self._chosen()))

    def closeEvent(self, event: QCloseEvent) -> None:
        self._desk.stop()
        super().closeEvent(event)
