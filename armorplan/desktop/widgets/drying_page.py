"""One drying to be seen: its curve, air and windows, the same as a table, and what another air does."""

from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QHideEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from armorplan.app.drying_choices import Dryings, WhatIf
from armorplan.app.shop_air import ShopAir
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.drying_desk import DryingDesk, DryingShown
from armorplan.desktop.widgets.drying_asking import asked_of, look_of, may_use, told_room
from armorplan.desktop.widgets.drying_body import MARGIN_PX, DryingBody
from armorplan.desktop.widgets.drying_chooser import DryingChooser

NOW_MS = 60_000
"""The present moves so often; the picture is drawn anew no more often than that without a change."""
SETTLE_MS = 40
"""So long it is waited for the page to have its size, and for what changes at once."""


class DryingView(QWidget):
    """Shows the drying that is chosen at the bench, or one chosen here."""

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("drying_page")
        self._bridge = bridge
        self._airs: AirDesk | None = None
        self._dryings: Dryings | None = None
        self._shown: DryingShown | None = None
        self._air: ShopAir | None = None
        self.desk = DryingDesk(self)
        self.chooser = DryingChooser(self)
        self.air = QPushButton(self.tr("Air of the &shop …"), self)
        self.air.setObjectName("drying_air")
        self.air.setAccessibleName(self.tr("Tell the air of the shop"))
        self.body = DryingBody(bridge, self)
        self.picture, self.what_if = self.body.picture, self.body.what_if
        self.learned = self.body.learned
        self._beat = QTimer(self, interval=NOW_MS, timerType=Qt.TimerType.VeryCoarseTimer)
        self._settle = QTimer(self, interval=SETTLE_MS, singleShot=True)
        across = QHBoxLayout()
        across.addWidget(self.chooser, 1)
        across.addWidget(self.air)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(MARGIN_PX, MARGIN_PX, MARGIN_PX, MARGIN_PX)
        whole.addLayout(across)
        whole.addWidget(self.body, 1)
        self.setFocusProxy(self.chooser)
        self._connect()

    def _connect(self) -> None:
        self.chooser.activated.connect(self._ask)
        self.picture.resized.connect(self._settle.start)
        self._settle.timeout.connect(self._ask)
        self.what_if.asked.connect(self._ask)
        self.what_if.wanted.connect(self._use)
        self._allow_use()
        self.desk.shown.connect(self._show)
        self.desk.failed.connect(self._tell_failed)
        self._beat.timeout.connect(self.refresh)
        self._bridge.changed.connect(self.refresh)
        self._bridge.opened.connect(self._forget)
        self._bridge.selected.connect(self.refresh)

    def work_with(self, airs: AirDesk) -> None:
        """Let the air of a question be kept as the shop's."""
        self._airs = airs
        airs.busy.connect(self._allow_use)
        airs.shown.connect(self._take_air)
        airs.refused.connect(self._bridge.said)
        airs.kept.connect(lambda _said: self.what_if.clear())
        self._allow_use()

    def _take_air(self, air: ShopAir) -> None:
        """Say whose air it is; where a shop file rules, no other one can be the plan's."""
        self._air = air
        self.body.tell_air(air)
        self._allow_use()

    def _allow_use(self) -> None:
        self.what_if.allow_use(may_use=may_use(self._airs, self._air))

    @property
    def is_waiting(self) -> bool:
        """Whether something is still to be shown."""
        return self._settle.isActive() or self.desk.is_busy

    # --- what is seen -----------------------------------------------------------------------

    def refresh(self) -> None:
        """Ask for what dries where the page is in sight."""
        if self.isVisible():
            self._dryings = self._bridge.session.dryings()
            now = self._bridge.clock.now(), self._bridge.zone
            self.chooser.offer(self._dryings, self._bridge.selection.steps, now)
            self._settle.start()
            if self._shown is not None and self._dryings.of(self._shown.page.choice.id):
                self._say(self._shown)

    def _ask(self) -> None:
        """Have the drying drawn as large as there is room."""
        dryings = self._dryings
        if not self.isVisible() or dryings is None:
            return
        choice = self.chooser.choice(dryings, self._bridge.selection.steps)
        if choice is None:
            self._blank(self.tr("Nothing of this build has to dry."))
            return
        told, look = told_room(dryings, self._air), look_of(self, self.picture)
        self.desk.ask(asked_of(choice, dryings, self.what_if.what_if, told=told, look=look))

    def _show(self, shown: DryingShown) -> None:
        is_another = self._shown is None or self._shown.page.choice.id != shown.page.choice.id
        self._shown = shown
        if shown.plot is not None or is_another:
            self.picture.show_plot(shown.plot)
        self.body.sources.setText(" ".join(shown.page.sources))
        self.learned.show_choice(shown.page.choice)
        self._say(shown)

    def _say(self, shown: DryingShown) -> None:
        self.body.say(shown, self._bridge.clock.now(), self._bridge.zone)

    def _blank(self, said: str) -> None:
        self._shown = None
        self.body.blank(said)

    def _tell_failed(self, why: str) -> None:
        self._blank(self.tr("This could not be reckoned: {0}").format(why))

    def _forget(self) -> None:
        self._dryings = None
        self.refresh()

    def _use(self, what_if: WhatIf) -> None:
        """Keep the air that was asked about as the shop's."""
        if self._airs is not None and self._dryings is not None and what_if.asks_air:
            told = told_room(self._dryings, self._air)
            self._airs.keep(what_if.room(told), told)

    def end_jobs(self) -> None:
        """Wait for what is still being reckoned."""
        self._settle.stop()
        self.what_if.stop()
        self.desk.close()

    # --- events -----------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._beat.start()
        self.refresh()
        if self._airs is not None:
            self._airs.read()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.body.fit(self.height())

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._beat.stop()
        self._settle.stop()
        self.what_if.stop()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._settle.start()
