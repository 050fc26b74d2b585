"""The foot of the bench view: what comes next, the timers, small below them the plan; what rings fills it."""

from datetime import datetime

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QWidget

from armorplan.app.bells import Bell
from armorplan.app.rows import TimerRow
from armorplan.desktop.bell_glyphs import bell_colour, bell_word, paint_bell
from armorplan.desktop.bench_layout import INSET, SMALL
from armorplan.desktop.bench_words import timer_texts
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.bench_writing import letters, write, write_line
from armorplan.desktop.wording import of_build

CELL_EMS = 17
"""A timer is so many letter sizes wide: time left, clock time, some of its name."""
NEXT_SHARE = 0.34
"""What comes next keeps at least this share of the width."""


class BenchFoot(QAbstractButton):
    """Painted. Pressing it answers what rings."""

    def __init__(self, bridge: Bridge, parent: QWidget) -> None:
        super().__init__(parent)
        self.setObjectName("bench_foot")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._bridge = bridge
        self._px, self._next, self._plan = 12, "", ""
        self._rows: tuple[TimerRow, ...] = ()
        self._rings: Bell | None = None
        self._is_bright = True
        self._name()

    def show_next(self, text: str, plan: str, px: int) -> None:
        """Show what comes next, in letters of so many pixels, and of the plan in smaller ones."""
        self._px, self._next, self._plan = px, text, plan
        self._name()
        self.update()

    def show_timers(
        self, rows: tuple[TimerRow, ...], rings: Bell | None, *, is_bright: bool
    ) -> None:
        """Show the timers, and what rings most urgently."""
        self._rows, self._rings, self._is_bright = rows, rings, is_bright
        self.setEnabled(rings is not None)
        self._name()
        self.update()

    def ringing_text(self) -> str:
        """Say what rings and what answers it; empty where nothing does."""
        bell = self._rings
        if bell is None:
            return ""
        word = bell_word(bell.kind)
        title = of_build(bell.build_title, bell.title)
        told = self.tr("{0}: {1}. Heard it: press here, or F5.")
        return told.format(word[:1].upper() + word[1:], title)

    def _name(self) -> None:
        """Name it for who hears it: changes of state, never the seconds."""
        titles = "; ".join(row.title for row in self._rows)
        timers = self.tr("Timers: {0}").format(titles) if titles else ""
        told = ". ".join(filter(None, (self._next, timers, self._plan)))
        self.setAccessibleName(self.ringing_text() or told or self.tr("Nothing comes next"))

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours, now = colours_of(self.palette()), self._bridge.clock.now()
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        room = QRectF(self.rect()).adjusted(INSET * self._px, 0, -INSET * self._px, 0)
        if self._rings is not None:
            bold = letters(self.font(), self._px, bold=True)
            ground, front = colours.alarm, colours.alarm_text
            if not self._is_bright:
                ground, front = colours.panel, colours.alarm
            painter.fillRect(self.rect(), QColor(ground))
            mark = QRectF(room.left(), 0, 1.2 * self._px, self.height())
            paint_bell(painter, mark, self._rings.kind, front)
            room.setLeft(mark.right() + INSET * self._px)
            write(painter, room, self.ringing_text(), bold, front)
            return
        painter.fillRect(self.rect(), QColor(colours.bar))
        self._paint_plan(painter, room)
        room.setRight(self._paint_timers(painter, room, now))
        write_line(painter, room, self._next, letters(self.font(), self._px), colours.text)

    def _paint_plan(self, painter: QPainter, room: QRectF) -> None:
        """Paint the line of the plan at the lower edge; what is above it keeps the rest."""
        if not self._plan:
            return
        font = letters(self.font(), round(SMALL * self._px))
        high = QFontMetrics(font).height()
        line = QRectF(room.left(), room.bottom() - high, room.width(), high)
        write_line(painter, line, self._plan, font, colours_of(self.palette()).text)
        room.setBottom(line.top())

    def _paint_timers(self, painter: QPainter, room: QRectF, now: datetime) -> float:
        """Paint as many timers as there is room for, the soonest leftmost; return where they begin."""
        cell = float(CELL_EMS * self._px)
        most = int(room.width() * (1 - NEXT_SHARE) // cell) or int(bool(self._rows))
        shown = self._rows[:most]
        cell = min(cell, room.width() * (1 - NEXT_SHARE))
        left = room.right() - cell * len(shown)
        for at, row in enumerate(shown):
            more = len(self._rows) - len(shown) if at == len(shown) - 1 else 0
            box = QRectF(left + at * cell, room.top(), cell - self._px * 0.5, room.height())
            self._paint_timer(painter, box, row, now, more)
        return left - (INSET * self._px if shown else 0)

    def _paint_timer(
        self, painter: QPainter, box: QRectF, row: TimerRow, now: datetime, more: int
    ) -> None:
        colours = colours_of(self.palette())
        left, clock, title = timer_texts(row, now, self._bridge.zone)
        bold, plain = letters(self.font(), self._px, bold=True), letters(self.font(), self._px)
        colour = bell_colour(colours, row.kind)
        mark = QRectF(box.left(), box.top(), 0.8 * self._px, box.height())
        paint_bell(painter, mark, row.kind, colour)
        x = mark.right() + 0.3 * self._px
        if more:
            wide = QFontMetrics(bold).horizontalAdvance(f"+{more}")
            at = QRectF(box.right() - wide, box.top(), wide + 2, box.height())
            write_line(painter, at, f"+{more}", bold, colours.text)
            box.setRight(at.left() - 0.3 * self._px)
        for text, font in ((left, bold), (clock, plain), (title, plain)):
            at = QRectF(x, box.top(), max(0.0, box.right() - x), box.height())
            write_line(painter, at, text, font, colours.text)
            x += QFontMetrics(font).horizontalAdvance(text) + 0.4 * self._px
