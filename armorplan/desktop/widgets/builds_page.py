"""The page of the builds in hand: what is agreed about each, and the odds of keeping it."""

from PySide6.QtCore import QItemSelectionModel, QModelIndex, Qt
from PySide6.QtGui import QCloseEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QSpinBox,
    QTableView,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.in_hand import InHand
from armorplan.app.promises import Asked, Promises
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.builds_words import build_rows, headings, rests_on, said_of
from armorplan.desktop.odds_desk import OddsDesk
from armorplan.desktop.twin_model import TwinModel
from armorplan.desktop.widgets.alt_letters import AltLetters
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.folding import Folding
from armorplan.desktop.widgets.order_fields import OrderFields
from armorplan.desktop.widgets.page_foot import close_box, fit_screen

WIDE_PX, HIGH_PX = 1260, 600
LEAST_TITLE_PX = 170
FOLDED = (6, 1, 3, 8)
"""Left out where there is no room: 50 %, how it stands, its weight, 95 %; the words below tell them."""
ODDS_FROM_PCT, ODDS_TO_PCT = 50, 99


class BuildsPage(QDialog):
    """Follows the bench while it is open; does not hold it up."""

    def __init__(self, bridge: Bridge, desk: OddsDesk, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("builds_page")
        self.setWindowTitle(self.tr("Builds in hand"))
        self.setModal(False)
        self._bridge = bridge
        self._builds: dict[str, InHand] = {}
        self._promised: Promises | None = None
        self._shown = InHand(build="", title="")
        self._called = self._zone_and_names()
        self.desk = desk
        self.standing = QLabel(self)
        self.table = QTableView(self)
        self.rows = TwinModel(headings(), self)
        self.fields = OrderFields(bridge.zone, self)
        self.odds = QSpinBox(self)
        self.told = QTextBrowser(self)
        self.keep = QPushButton(self.tr("&Keep the plan as promised"), self)
        self._name_all()
        self._folding = Folding(self.table, wide=0, least_px=LEAST_TITLE_PX, folded=FOLDED)
        self._lay_out()
        self._connect()
        AltLetters(self)
        self.refresh()

    def _name_all(self) -> None:
        for widget, name in (
            (self.standing, "builds_standing"),
            (self.table, "builds_table"),
            (self.odds, "builds_odds"),
            (self.told, "builds_told"),
            (self.keep, "builds_keep"),
        ):
            widget.setObjectName(name)
        self.standing.setWordWrap(True)
        self.table.setAccessibleName(self.tr("Builds in hand, with their dates and odds"))
        self.table.setModel(self.rows)
        self.table.setSelectionBehavior(QTableView.SelectionBehavior.SelectRows)
        self.table.setSelectionMode(QTableView.SelectionMode.SingleSelection)
        self.table.setTabKeyNavigation(False)
        self.table.setWordWrap(False)
        self.table.setTextElideMode(Qt.TextElideMode.ElideMiddle)
        self.table.verticalHeader().hide()
        self.odds.setAccessibleName(self.tr("How sure a promise is to be, in per cent"))
        self.odds.setRange(ODDS_FROM_PCT, ODDS_TO_PCT)
        self.odds.setValue(Asked().odds_pct)
        self.odds.setSuffix(" %")
        self.told.setAccessibleName(self.tr("What is said of the chosen build"))
        self.told.setTabChangesFocus(True)
        self.keep.setAutoDefault(False)

    def _lay_out(self) -> None:
        asked = QHBoxLayout()
        name = QLabel(self.tr("A &promise is to be kept in"), self)
        name.setBuddy(self.odds)
        asked.addWidget(name)
        asked.addWidget(self.odds)
        asked.addStretch(1)
        foot = QHBoxLayout()
        foot.addWidget(self.keep)
        foot.addStretch(1)
        foot.addWidget(close_box(self))
        down = QVBoxLayout(self)
        down.addWidget(self.standing)
        down.addWidget(self.table, 2)
        down.addWidget(self.fields)
        down.addLayout(asked)
        down.addWidget(self.told, 2)
        down.addLayout(foot)
        fit_screen(self, WIDE_PX, HIGH_PX)

    def _connect(self) -> None:
        self.table.selectionModel().currentRowChanged.connect(self._choose)
        self.fields.wanted.connect(self._agree)
        self.odds.valueChanged.connect(self.refresh)
        self.keep.clicked.connect(self._keep)
        self.desk.told.connect(self._take)
        self.desk.busy.connect(self._hear_busy)
        self.desk.failed.connect(self._tell_failed)
        self._bridge.changed.connect(self.refresh)
        self._bridge.opened.connect(self._begin_anew)

    # --- what is shown -----------------------------------------------------------------------

    def refresh(self) -> None:
        """Show the builds as they stand, and have the odds of the plan reckoned."""
        self._builds = {row.build: row for row in self._bridge.session.in_hand()}
        week = self._bridge.session.week()
        self.keep.setEnabled(week is not None and bool(week.shown.plan.placed))
        if week is not None and week.shown.plan.placed and self.isVisible():
            zone, names = self._called
            self.desk.ask(week, zone, Asked(odds_pct=self.odds.value(), names=names))
        self._show()

    def _zone_and_names(self) -> tuple[str, dict[str, str]]:
        """Return the shop's zone and what its people are called; the same while a build is shown."""
        chart = self._bridge.session.chart()
        return chart.zone, dict(chart.names)

    def _show(self) -> None:
        chosen = self._chosen()
        rows = build_rows(tuple(self._builds.values()), self._promised, self._bridge.zone)
        self.rows.show(rows)
        self._folding.fit()
        wanted = chosen if chosen in self._builds else self._bridge.session.build_id
        at = self.rows.index_of(wanted)
        if at.isValid() and at != self.table.currentIndex().siblingAtColumn(0):
            flags = QItemSelectionModel.SelectionFlag
            self.table.selectionModel().setCurrentIndex(at, flags.ClearAndSelect | flags.Rows)
        self._tell()
        self._say_standing()

    def _chosen(self) -> str:
        at = self.table.currentIndex()
        return self.rows.key_at(at) if at.isValid() else ""

    def _choose(self, _now: QModelIndex, _before: QModelIndex) -> None:
        self._tell()

    def _tell(self) -> None:
        """Say of the chosen build what is known, and show what is agreed about it."""
        build = self._builds.get(self._chosen())
        if build is not None and build != self._shown:
            self._shown = build
            self.fields.show_build(build)
        if build is None:
            self.told.clear()
            return
        told = self._promised.builds if self._promised else ()
        mine = next((row for row in told if row.build == build.build), None)
        text = "\n".join(said_of(build, mine, self._bridge.zone))
        if text != self.told.toPlainText():
            self.told.setPlainText(text)

    def _say_standing(self) -> None:
        in_hand = sum(build.in_hand or build.is_open for build in self._builds.values())
        said = self.tr("{0} in hand, {1} laid aside.").format(in_hand, len(self._builds) - in_hand)
        reckoning = self.tr("The odds are being reckoned …")
        self.standing.setText(
            f"{said} {reckoning if self.desk.is_busy else rests_on(self._promised)}"
        )

    def _hear_busy(self, _busy: bool) -> None:
        self._say_standing()

    def _take(self, promised: Promises) -> None:
        self._promised = promised
        self._show()

    def _tell_failed(self, why: str) -> None:
        self.standing.setText(self.tr("The odds could not be reckoned: {0}").format(why))

    def _begin_anew(self) -> None:
        """Another build is shown, perhaps of another workshop."""
        self.desk.forget()
        self._promised = None
        self.fields.zone = self._bridge.zone
        self._called = self._zone_and_names()
        self.refresh()

    # --- what is agreed ----------------------------------------------------------------------

    def _agree(self) -> None:
        build = self._builds.get(self._chosen())
        if build is None:
            return
        due, ready = self.fields.typed()
        if due.fault or ready.fault:
            self._say(due.fault or ready.fault)
            (self.fields.due if due.fault else self.fields.ready).setFocus()
            return
        self._say(
            self._bridge.session.set_order(
                build.build,
                due.at,
                ready.at,
                self.fields.weight.value(),
                self.fields.in_hand.isChecked(),
            )
        )

    def _keep(self) -> None:
        self._say(self._bridge.session.keep_promise())

    def _say(self, sentence: str) -> None:
        self._bridge.said.emit(sentence)
        self.standing.setText(sentence)
        announce(self.standing, sentence)

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self.refresh()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._folding.fit()

    def closeEvent(self, event: QCloseEvent) -> None:
        self.desk.forget()
        super().closeEvent(event)
