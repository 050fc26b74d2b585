"""Timers side by side, as far as there is room; the rest is scrolled to, by keys as well."""

from collections.abc import Set as AbstractSet

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QScrollArea, QWidget

from armorplan.app.rows import TimerRow
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.widgets.timer_card import TimerCard
from armorplan.desktop.widgets.timer_painting import WIDER, card_size, needed_px

MARGIN_PX = 4


class TimerCards(QScrollArea):
    """A card for each timer; those that stay are kept, and only those in sight are repainted.

    One card has the Tab key's turn; arrows, Home and End go on from there. ``asked`` carries what
    is to be done with a timer, as ``timer_acts.Asked``.
    """

    asked = Signal(object)

    def __init__(self, bridge: Bridge, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("timer_cards")
        self.setAccessibleName(self.tr("Timers"))
        self.setWidgetResizable(True)
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.is_bright = True
        self._bridge = bridge
        self._rows: tuple[TimerRow, ...] = ()
        self._cards: dict[str, TimerCard] = {}
        self._rings: AbstractSet[str] = frozenset()
        self._turn = ""
        self._is_line = False
        self._needs_px = 0
        inside = QWidget(self)
        self._across = QHBoxLayout(inside)
        self._across.setContentsMargins(0, 0, 0, 0)
        self._across.addStretch(1)
        self.setWidget(inside)

    @property
    def focused(self) -> str:
        """The id of the timer that has the keyboard, or an empty one."""
        return next((at for at, card in self._cards.items() if card.hasFocus()), "")

    def focus_first(self) -> None:
        """Give the keyboard to the first timer that rings, else to the first."""
        first = next((r for r in self._rows if r.id in self._rings), self._rows[0])
        self._cards[first.id].setFocus()

    def show_first_ringing(self) -> None:
        """Bring a timer that rings into sight, unless the keyboard is among the timers."""
        first = next((r.id for r in self._rows if r.id in self._rings), "")
        if first and not self.focused:
            self.ensureWidgetVisible(self._cards[first])

    def be_line(self, *, is_line: bool) -> None:
        """Show each timer in one line, or as a card."""
        self._is_line = is_line
        for row in self._rows:
            self._cards[row.id].show_row(row, is_line=is_line)
        self.fit()

    def fit(self) -> None:
        """Let the cards share the room there is; of more than fit, none is cut until it scrolls."""
        gap, usual = self._across.spacing(), card_size(self.font()).width()
        least, apart = self._needed_px()
        equal = min(round(WIDER * usual), (self.width() + gap) // max(1, len(self._cards)) - gap)
        if equal >= max((least, *apart.values())):
            least, apart = equal, {}
        long_px = sum(px + gap for px in apart.values())
        others = len(self._cards) - len(apart)
        room_px = self.width() - long_px
        room_px = room_px if room_px >= least else self.width()
        count = min(max(1, others), max(1, (room_px + gap) // (least + gap)))
        wide = max(least, min(round(WIDER * usual), (room_px + gap) // count - gap))
        self._needs_px = long_px + others * (least + gap) - gap
        for at, card in self._cards.items():
            card.setFixedWidth(apart.get(at, wide))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()

    def bar_px(self) -> int:
        """Return how high a scroll bar is that the cards need; 0 where they fit."""
        is_long = self._needs_px > self.width()
        return self.horizontalScrollBar().sizeHint().height() if is_long else 0

    def _needed_px(self) -> tuple[int, dict[str, int]]:
        """Return how wide cards have to be for their times; apart, those that say a remedy."""
        if self._is_line:
            return card_size(self.font()).width(), {}
        faces = {at: card.face() for at, card in self._cards.items()}
        needed = {at: needed_px(self.font(), face) for at, face in faces.items()}
        apart = {at: px for at, px in needed.items() if faces[at].remedy}
        return max((px for at, px in needed.items() if at not in apart), default=1), apart

    def retell(self, rings: AbstractSet[str]) -> None:
        """Repaint the cards in sight, and those that began to ring or were answered."""
        changed, self._rings = rings ^ self._rings, rings
        for at, card in self._cards.items():
            if at in changed or not card.visibleRegion().isEmpty():
                card.retell(rings=at in rings, is_bright=self.is_bright)

    def show_rows(self, rows: tuple[TimerRow, ...]) -> None:
        """Show these timers, keeping the cards that stay; the keyboard goes on to a neighbour."""
        focused = self.focused
        at_focus = next((at for at, row in enumerate(self._rows) if row.id == focused), 0)
        self._rows = rows
        for gone in sorted(self._cards.keys() - {row.id for row in rows}):
            card = self._cards.pop(gone)
            self._across.removeWidget(card)
            card.hide()
            card.deleteLater()
        for at, row in enumerate(rows):
            card = self._cards.get(row.id) or self._new_card(row)
            card.show_row(row, is_line=self._is_line)
            if self._across.indexOf(card) != at:
                self._across.removeWidget(card)
                self._across.insertWidget(at, card)
        self.fit()
        if focused and focused not in self._cards and rows:
            self._cards[rows[min(at_focus, len(rows) - 1)].id].setFocus()
        if self._turn not in self._cards:
            self._give_turn(rows[0].id if rows else "")

    def _new_card(self, row: TimerRow) -> TimerCard:
        card = TimerCard(self._bridge, row, self.widget())
        card.asked.connect(self.asked)
        card.walked.connect(lambda by: self._walk(card, by))
        card.met.connect(lambda: self._give_turn(card.row.id))
        card.retell(rings=row.id in self._rings, is_bright=self.is_bright)
        self._cards[row.id] = card
        card.show()
        return card

    def _walk(self, card: TimerCard, by: int) -> None:
        ids = [row.id for row in self._rows]
        at = max(0, min(len(ids) - 1, ids.index(card.row.id) + by))
        to = self._cards[ids[at]]
        to.setFocus()
        self.ensureWidgetVisible(to)

    def _give_turn(self, timer: str) -> None:
        """Let the Tab key come to this card alone: a hundred timers are one stop."""
        for at, policy in (
            (self._turn, Qt.FocusPolicy.ClickFocus),
            (timer, Qt.FocusPolicy.StrongFocus),
        ):
            if at in self._cards:
                self._cards[at].setFocusPolicy(policy)
        self._turn = timer
