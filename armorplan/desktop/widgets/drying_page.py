"""One drying to be seen: its curve, air and windows, the same as a table, and what another air does."""

from dataclasses import replace

from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QHideEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from armorplan.app.drying_choices import Dryings, WhatIf
from armorplan.app.shop_air import AirRule, ShopAir, air_words
from armorplan.desktop.air_desk import AirDesk
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.drying_desk import DryingAsked, DryingDesk, DryingShown
from armorplan.desktop.drying_layout import PlotLook
from armorplan.desktop.drying_words import (
    change_sentence,
    headline,
    picture_words,
    window_rows,
)
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.drying_chooser import DryingChooser, DryingTable
from armorplan.desktop.widgets.drying_picture import DryingPicture
from armorplan.desktop.widgets.learned_bar import LearnedBar
from armorplan.desktop.widgets.what_if_bar import WhatIfBar
from armorplan.workshop.air import Room

MARGIN_PX = 6
PICTURE_SHARE = 0.54
LEAST_HIGH_PX, MOST_HIGH_PX = 270, 420
"""So much of the page the picture has, so that the words above and the fields below are seen too."""
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
        self.verdict = QLabel(self)
        self.why = QLabel(self)
        self.picture = DryingPicture(self)
        self.what_if = WhatIfBar(self)
        self.learned = LearnedBar(bridge, self)
        self.learned.hide()
        self.twin = DryingTable(self)
        self.rule = QLabel(self)
        self.sources = QLabel(self)
        self._beat = QTimer(self, interval=NOW_MS, timerType=Qt.TimerType.VeryCoarseTimer)
        self._settle = QTimer(self, interval=SETTLE_MS, singleShot=True)
        self._name_all()
        self._lay_out()
        self._connect()

    def _name_all(self) -> None:
        self.air.setObjectName("drying_air")
        self.air.setAccessibleName(self.tr("Tell the air of the shop"))
        for label, name in (
            (self.verdict, "drying_verdict"),
            (self.why, "drying_why"),
            (self.rule, "drying_rule"),
            (self.sources, "drying_sources"),
        ):
            label.setObjectName(name)
            label.setWordWrap(True)
            label.setTextFormat(Qt.TextFormat.PlainText)
            label.setTextInteractionFlags(
                Qt.TextInteractionFlag.TextSelectableByMouse
                | Qt.TextInteractionFlag.TextSelectableByKeyboard
            )
        bold = self.verdict.font()
        bold.setBold(True)
        self.verdict.setFont(bold)
        self.picture.setAccessibleName(self.tr("How far it is dry, and the air it dries in"))

    def _lay_out(self) -> None:
        across = QHBoxLayout()
        across.addWidget(self.chooser, 1)
        across.addWidget(self.air)
        inside = QWidget(self)
        down = QVBoxLayout(inside)
        down.setContentsMargins(0, 0, MARGIN_PX, 0)
        down.addWidget(self.verdict)
        down.addWidget(self.why)
        down.addWidget(self.picture)
        down.addWidget(self.rule)
        down.addWidget(self.what_if)
        down.addWidget(self.learned)
        down.addWidget(self.twin)
        down.addWidget(self.sources)
        down.addStretch(1)
        room = QScrollArea(self)
        room.setObjectName("drying_room")
        room.setFrameShape(QFrame.Shape.NoFrame)
        room.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        room.setWidgetResizable(True)
        room.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        room.setWidget(inside)
        whole = QVBoxLayout(self)
        whole.setContentsMargins(MARGIN_PX, MARGIN_PX, MARGIN_PX, MARGIN_PX)
        whole.addLayout(across)
        whole.addWidget(room, 1)
        self.setFocusProxy(self.chooser)

    def _connect(self) -> None:
        self.chooser.activated.connect(self._ask)
        self.picture.resized.connect(self._settle.start)
        self._settle.timeout.connect(self._ask)
        self.what_if.asked.connect(self._ask)
        self.what_if.wanted.connect(self._use)
        self.what_if.allow_use(may_use=False)
        self.rule.hide()
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
        self.rule.setText(air_words(air))
        self.rule.show()
        self._allow_use()

    def _allow_use(self) -> None:
        airs, air = self._airs, self._air
        is_ruled = air is None or air.rule is AirRule.SHOP_FILE
        may_use = airs is not None and not airs.is_keeping and not is_ruled
        self.what_if.allow_use(may_use=may_use)

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
        if not self.isVisible() or self._dryings is None:
            return
        choice = self.chooser.choice(self._dryings, self._bridge.selection.steps)
        if choice is None:
            self._blank()
            return
        self.desk.ask(
            DryingAsked(
                choice=choice,
                room=self._dryings.room,
                what_if=self.what_if.what_if,
                look=self._look(),
                told=self._told(),
                now_at=self._dryings.now_at if self.what_if.what_if.asks else None,
            )
        )

    def _told(self) -> Room:
        """Return the room as it was told, with the zone and the paces of the one reckoned with."""
        assert self._dryings is not None  # noqa: S101 - asked for where there are some
        room = self._dryings.room
        told = self._air.told if self._air is not None else room
        return replace(told, zone=room.zone, paces=room.paces)

    def _look(self) -> PlotLook:
        # The picture says clock times by the day they are read on: by the minute is enough.
        now_at = self._bridge.clock.now().replace(second=0, microsecond=0)
        return PlotLook(
            width_px=max(self.picture.width(), 200),
            height_px=max(self.picture.height(), 120),
            ratio=self.devicePixelRatioF(),
            text_pt=self.font().pointSizeF() * 0.9,
            colours=colours_of(self.palette()),
            zone=self._bridge.zone,
            now_at=now_at.replace(minute=0),
        )

    def _show(self, shown: DryingShown) -> None:
        is_another = self._shown is None or self._shown.page.choice.id != shown.page.choice.id
        self._shown = shown
        if shown.plot is not None or is_another:
            self.picture.show_plot(shown.plot)
        self.sources.setText(" ".join(shown.page.sources))
        self.learned.show_choice(shown.page.choice)
        self._say(shown)

    def _say(self, shown: DryingShown) -> None:
        """Say what is shown by the clock of now, and move the line of the present."""
        now_at, zone, page = self._bridge.clock.now(), self._bridge.zone, shown.page
        said = headline(page, now_at, zone)
        if said != self.verdict.text():
            self.verdict.setText(said)
            announce(self.verdict, said)
        self.why.setText(page.why)
        self.why.setVisible(bool(page.why))
        self.picture.show_now(now_at)
        self.picture.setAccessibleDescription(picture_words(page, now_at, zone))
        self.what_if.tell(change_sentence(shown, now_at, zone))
        self.twin.show_windows(window_rows(page, now_at, zone))

    def _blank(self) -> None:
        self._shown = None
        self.picture.show_plot(None)
        self.twin.show_windows(())
        self.why.clear()
        self.sources.clear()
        self.learned.show_choice(None)
        self.verdict.setText(self.tr("Nothing of this build has to dry."))

    def _tell_failed(self, why: str) -> None:
        self._blank()
        self.verdict.setText(self.tr("This could not be reckoned: {0}").format(why))

    def _forget(self) -> None:
        self._dryings = None
        self.refresh()

    def _use(self, what_if: WhatIf) -> None:
        """Keep the air that was asked about as the shop's."""
        if self._airs is not None and self._dryings is not None and what_if.asks_air:
            told = self._told()
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
        high = round(self.height() * PICTURE_SHARE)
        self.picture.setFixedHeight(min(max(high, LEAST_HIGH_PX), MOST_HIGH_PX))

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._beat.stop()
        self._settle.stop()
        self.what_if.stop()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self._settle.start()
