"""One timer as a card: what its next moment is, what is left, and the clock time it comes."""

from functools import partial

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QContextMenuEvent, QFocusEvent, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QMenu, QSizePolicy, QWidget

from armorplan.app.rows import BenchState, TimerRow
from armorplan.desktop.bell_glyphs import bell_colour, paint_bell
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.glyphs import paint_state
from armorplan.desktop.theme import colours_of
from armorplan.desktop.timer_acts import Act, Asked, act_text, acts_of
from armorplan.desktop.timer_face import (
    Standing,
    heard_name,
    left_text,
    line_title,
    remedy_text,
    shown_title,
    small_texts,
    standing_of,
)
from armorplan.desktop.widgets.timer_painting import (
    Face,
    card_size,
    ink,
    paint_face,
    paint_ground,
)

_WAYS = {
    Qt.Key.Key_Left: -1,
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_Right: 1,
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_Home: -(10**6),
    Qt.Key.Key_End: 10**6,
}


class TimerCard(QAbstractButton):
    """A timer as a button: pressing it goes to its step. While it rings it says so and fills.

    ``asked`` carries what is to be done with it, as ``timer_acts.Asked``; ``walked`` how many cards
    the keyboard goes on, ``met`` that it came here.
    """

    asked = Signal(object)
    walked = Signal(int)
    met = Signal()

    def __init__(self, bridge: Bridge, row: TimerRow, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName(f"timer_{row.id}")
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self._bridge = bridge
        self._row = row
        self._is_line = False
        self._is_bright = True
        self._rings = False
        self.clicked.connect(lambda: self._ask(Act.GO))

    @property
    def row(self) -> TimerRow:
        """The timer it shows."""
        return self._row

    def show_row(self, row: TimerRow, *, is_line: bool = False) -> None:
        """Show this timer, in one line where the window is low."""
        if is_line != self._is_line:
            self._is_line = is_line
            self.updateGeometry()
        self._row = row
        self.setText(row.title)
        self.retell(rings=self._rings, is_bright=self._is_bright)

    def retell(self, *, rings: bool, is_bright: bool = True) -> None:
        """Repaint; the name a screen reader hears changes only with the state, not each second.

        ``is_bright``: one that rings is filled, or only edged, by turns.
        """
        self._rings, self._is_bright = rings, is_bright
        now = self._bridge.clock.now()
        name = heard_name(self._row, now, self._bridge.zone, rings=rings)
        # What a moment means holds once it has come.
        meaning = "" if self.standing() is Standing.RUNS else self._row.meaning
        if (name, meaning) != (self.accessibleName(), self.accessibleDescription()):
            self.setAccessibleName(name)
            self.setAccessibleDescription(meaning)
            self.setToolTip("\n".join(filter(None, (name, meaning))))
        self.update()

    def standing(self) -> Standing:
        """Return whether it runs, stands, rings, or was answered."""
        return standing_of(self._row, self._bridge.clock.now(), rings=self._rings)

    def face(self) -> Face:
        """Return what the card says now."""
        now, zone = self._bridge.clock.now(), self._bridge.zone
        return Face(
            title=line_title(self._row, rings=self._rings)
            if self._is_line
            else shown_title(self._row),
            left=left_text(self._row, now),
            small=small_texts(self._row, now, zone, rings=self._rings),
            is_filled=self._rings and self._is_bright,
            is_edged=self._rings or self.standing() is Standing.ANSWERED,
            has_focus=self.hasFocus(),
            is_line=self._is_line,
            remedy=remedy_text(self._row, now, zone),
        )

    # What Qt asks for.

    def sizeHint(self) -> QSize:
        return card_size(self.font(), is_line=self._is_line)

    def minimumSizeHint(self) -> QSize:
        return self.sizeHint()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() == QEvent.Type.FontChange:
            self.updateGeometry()

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.met.emit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key = Qt.Key(event.key())
        if key in _WAYS:
            self.walked.emit(_WAYS[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        elif key == Qt.Key.Key_Delete:
            self._ask(Act.STOP)
        elif key == Qt.Key.Key_Plus:
            self._ask(Act.MORE)
        else:
            super().keyPressEvent(event)

    def contextMenuEvent(self, event: QContextMenuEvent) -> None:
        menu = self.menu()
        menu.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        menu.popup(event.globalPos())

    def menu(self) -> QMenu:
        """Return what can be done with this timer."""
        menu = QMenu(self)
        for act in acts_of(self._row, rings=self._rings):
            menu.addAction(act_text(act)).triggered.connect(partial(self._ask, act))
        return menu

    def _ask(self, act: Act, *_pressed: object) -> None:
        self.asked.emit(Asked(act, self._row))

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        face = self.face()
        is_paused = self.standing() is Standing.PAUSED
        is_never = self.standing() is Standing.NEVER
        state = BenchState.EARLY if is_never else BenchState.PAUSED
        has_state = is_paused or is_never
        plain = colours.state(state) if has_state else bell_colour(colours, self._row.kind)
        worn = ink(colours, face, plain)
        painter = QPainter(self)
        painter.setFont(self.font())
        paint_ground(painter, self.rect(), face, worn)
        mark = paint_face(painter, self.rect(), face, worn)
        if has_state:
            paint_state(painter, mark, state, worn.accent)
        else:
            paint_bell(painter, mark, self._row.kind, worn.accent)
        painter.end()
