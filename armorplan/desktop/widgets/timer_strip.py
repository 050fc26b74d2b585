"""The strip of timers, always in sight: what rings first, then soonest due; what answers them."""

from PySide6.QtCore import QEvent, Qt, Signal
from PySide6.QtGui import QKeySequence, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QWidget

from armorplan.app.rows import TimerRow
from armorplan.desktop.actions_timing import TIMING
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.timers_model import Ticker
from armorplan.desktop.widgets.alarm import urgency
from armorplan.desktop.widgets.announcing import announce
from armorplan.desktop.widgets.timer_cards import MARGIN_PX, TimerCards
from armorplan.desktop.widgets.timer_painting import LEAST_HIGH_PX, card_size


class TimerStrip(QWidget):
    """Cards of all timers, with a button that answers what rings and one that sets a timer.

    ``quiet_asked`` and ``set_asked`` follow the buttons, ``dry_asked`` tells whether a piece feels
    dry; ``asked`` carries what is to be done with one timer, as ``timer_acts.Asked``.
    """

    quiet_asked = Signal()
    set_asked = Signal()
    asked = Signal(object)
    dry_asked = Signal(bool)

    def __init__(self, bridge: Bridge, ticker: Ticker, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("timer_strip")
        self.setAccessibleName(self.tr("Timers"))
        self._ticker = ticker
        self._rows: tuple[TimerRow, ...] = ()
        self._rings: frozenset[str] = frozenset()
        self._is_low = False
        self.cards = TimerCards(bridge, self)
        self._none = QLabel(self.tr("No timer runs. Enter starts the chosen step."), self)
        self._none.setObjectName("no_timer")
        self._quiet = self._button("quiet", self.tr("Quiet"))
        self._dry = self._button("dry_now", self.tr("Dry now"))
        self._damp = self._button("still_damp", self.tr("Still damp"))
        self._set = self._button("set_timer", self.tr("Set a timer"))
        self._dry.clicked.connect(lambda: self.dry_asked.emit(True))
        self._damp.clicked.connect(lambda: self.dry_asked.emit(False))
        self._quiet.clicked.connect(self.quiet_asked)
        self._set.clicked.connect(self.set_asked)
        across = QHBoxLayout(self)
        across.setContentsMargins(MARGIN_PX, MARGIN_PX, MARGIN_PX, MARGIN_PX)
        across.addWidget(self._none, 1)
        across.addWidget(self.cards, 1)
        self._buttons = (self._quiet, self._dry, self._damp, self._set)
        for button in self._buttons:
            across.addWidget(button)
        self.cards.asked.connect(self.asked)
        ticker.ticked.connect(self._tick)
        ticker.rang.connect(lambda _bells: self.cards.show_first_ringing())
        for button in (self._quiet, self._dry, self._damp):
            button.hide()
        self._take_rows()

    def _button(self, action_id: str, text: str) -> QPushButton:
        """Return the button of an action, with its key below."""
        key = next(action.keys[0] for action in TIMING if action.id == action_id)
        shown = QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)
        made = QPushButton(f"{text}\n{shown}", self)
        made.setObjectName(f"timers_{action_id}")
        made.setAccessibleName(text)
        made.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return made

    def focus_first(self) -> None:
        """Give the keyboard to the timer that rings, or the first one."""
        if self._rows:
            self.cards.focus_first()
        else:
            self._set.setFocus()

    def make_room(self, *, is_low: bool) -> None:
        """In a low window be one line."""
        if is_low != self._is_low:
            self._is_low = is_low
            self.cards.be_line(is_line=is_low)
            self._fit()

    def show_brightness(self, *, is_bright: bool) -> None:
        """Have what rings filled, or only edged, from now on."""
        self.cards.is_bright = is_bright

    def offer_look(self, *, is_on: bool) -> None:
        """Offer to say whether the drying that is meant feels dry."""
        for button in (self._dry, self._damp):
            button.setVisible(is_on)

    def _tick(self) -> None:
        rings = frozenset(bell.timer for bell in self._ticker.ringing)
        is_new = self._ticker.rows is not self._rows or rings != self._rings
        self._rings = rings
        self.cards.retell(rings)
        if is_new:
            self._take_rows()
        if bool(rings) != self._quiet.isVisibleTo(self):
            self._quiet.setVisible(bool(rings))
            if rings:
                announce(self._quiet, self.tr("A timer rings. F5 answers it."))

    def _take_rows(self) -> None:
        self._rows = self._ticker.rows
        in_turn = [bell.timer for bell in sorted(self._ticker.ringing, key=urgency)]
        turn = {timer: at for at, timer in enumerate(in_turn)}
        self.cards.show_rows(tuple(sorted(self._rows, key=lambda r: turn.get(r.id, len(turn)))))
        self.cards.setVisible(bool(self._rows))
        self._none.setVisible(not self._rows)
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self._fit()
            self.cards.fit()

    def _fit(self) -> None:
        """Be as high as a card, and a scroll bar where the cards do not fit side by side."""
        card = card_size(self.font(), is_line=self._is_low)
        is_bare = self._is_low and not self._rows
        self._set.setVisible(not is_bare)
        high = self._none.sizeHint().height() if is_bare else card.height()
        for button in self._buttons:
            button.setMinimumHeight(max(LEAST_HIGH_PX, min(high, card.height())))
        self.setFixedHeight(high + 2 * MARGIN_PX + self.cards.bar_px())
