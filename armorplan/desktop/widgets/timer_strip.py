"""The strip of timers, always in sight: soonest due first."""

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QScrollArea, QWidget

from armorplan.app.rows import TimerRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.timer_card import TimerCard, card_size

MARGIN_PX = 4


class TimerStrip(QScrollArea):
    """Shows a card for each timer that runs or is paused; one tick repaints them all."""

    def __init__(self, bridge: Bridge, ticker: Ticker, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("timer_strip")
        self.setAccessibleName(self.tr("Timers"))
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._bridge = bridge
        self._ticker = ticker
        self._rows: tuple[TimerRow, ...] = ()
        self._cards: dict[str, TimerCard] = {}
        self._is_low = False
        inside = QWidget(self)
        self._across = QHBoxLayout(inside)
        self._across.setContentsMargins(MARGIN_PX, MARGIN_PX, MARGIN_PX, MARGIN_PX)
        self._none = QLabel(self.tr("No timer runs. Enter starts the chosen step."), inside)
        self._none.setObjectName("no_timer")
        self._across.addWidget(self._none)
        self._across.addStretch(1)
        self.setWidget(inside)
        ticker.ticked.connect(self._tick)
        self._take_rows()

    def focus_first(self) -> None:
        """Give the keyboard to the first timer."""
        first = self._cards[self._rows[0].step] if self._rows else self
        first.setFocus()

    def make_room(self, *, is_low: bool) -> None:
        """In a low window be one line while no timer runs."""
        if is_low != self._is_low:
            self._is_low = is_low
            self._fit()

    def _tick(self) -> None:
        if self._ticker.rows is not self._rows:
            self._take_rows()
        for card in self._cards.values():
            card.retell()

    def _take_rows(self) -> None:
        """Show the timers as the ticker has them, keeping the cards that stay."""
        self._rows = self._ticker.rows
        for step in sorted(self._cards.keys() - {row.step for row in self._rows}):
            card = self._cards.pop(step)
            self._across.removeWidget(card)
            card.hide()
            card.deleteLater()
        for at, row in enumerate(self._rows, start=1):
            card = self._cards.get(row.step) or self._new_card(row)
            card.show_row(row)
            if self._across.indexOf(card) != at:
                self._across.removeWidget(card)
                self._across.insertWidget(at, card)
        self._none.setVisible(not self._rows)
        self._fit()

    def _new_card(self, row: TimerRow) -> TimerCard:
        card = TimerCard(self._bridge, row, self.widget())
        step = row.step
        card.clicked.connect(lambda: self._bridge.choose_steps((step,)))
        self._cards[step] = card
        card.show()
        return card

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._fit()

    def _fit(self) -> None:
        """Be as high as a card, and a scroll bar where the cards do not fit side by side."""
        card = card_size(self.font())
        spacing = self._across.spacing()
        wide = len(self._rows) * (card.width() + spacing) + 2 * MARGIN_PX
        bar = self.horizontalScrollBar().sizeHint().height() if wide > self.width() else 0
        is_line = self._is_low and not self._rows
        high = self._none.sizeHint().height() if is_line else card.height()
        self.setFixedHeight(high + 2 * MARGIN_PX + bar)
