"""Bands of the bench view that are painted: head, caution and the commit line."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from armorplan.app.rows import BenchState
from armorplan.desktop.bench_content import Weight
from armorplan.desktop.bench_layout import BAND_INSET, INSET
from armorplan.desktop.glyph_box import points_in, round_pen
from armorplan.desktop.glyphs import paint_state, state_word
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.bench_writing import letters, shrunk, write, write_line

HOLES = 16
"""The strap that says how far the build is has so many holes."""
STRAP_EMS, LEAST_STRAP_EMS = 8.0, 5.0
"""That strap is so many letter sizes long; beside a long name less."""
LINES = 2.0
"""A head higher than so many letter sizes holds more than a line."""
CLOCK_EMS = 3.4
"""The time of day, with room before it."""


class BenchHead(QWidget):
    """State and piece, how far the build is, what time it is; for a while what was just said."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._px = 12
        self._state: BenchState | None = None
        self._where = self._progress = self._clock = self._said = ""
        self._share = 0.0

    def show_head(
        self, *, px: int, state: BenchState | None, where: str, progress: str, share: float
    ) -> None:
        """Show how the step in hand stands, where it belongs, and how much of the build is done."""
        self._px, self._state, self._where = px, state, where
        self._progress, self._share = progress, share
        word = state_word(state) if state else ""
        self.setAccessibleName(", ".join(filter(None, (word, where, progress))))
        self.update()

    def show_clock(self, clock: str) -> None:
        """Show the time of day."""
        if clock != self._clock:
            self._clock = clock
            self.update()

    def say(self, sentence: str) -> None:
        """Show a sentence in place of state and piece; an empty one shows them again."""
        if sentence != self._said:
            self._said = sentence
            self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(colours.bar))
        font, inset = letters(self.font(), self._px), INSET * self._px
        bold = letters(self.font(), self._px, bold=True)
        room = QRectF(self.rect()).adjusted(inset, 0, -inset, 0)
        write_line(painter, room, self._clock, bold, colours.text, Qt.AlignmentFlag.AlignRight)
        room.setRight(room.right() - CLOCK_EMS * self._px)
        if self._said:
            # What has more to say has been given the lines for it.
            is_long = self.height() > LINES * self._px
            (write if is_long else write_line)(painter, room, self._said, bold, colours.text)
            return
        if self._state is not None:
            self._paint_state(painter, room, bold, self._state)
        if self._progress:
            # The name of the piece goes before holes of the strap.
            name_wide = QFontMetrics(font).horizontalAdvance(self._where) + 2 * inset
            left_over = (room.width() - name_wide) / self._px
            ems = max(LEAST_STRAP_EMS, min(STRAP_EMS, left_over))
            strap = room.adjusted(room.width() - ems * self._px, 0, -inset, 0)
            self._paint_strap(painter, strap)
            room.setRight(strap.left() - inset)
        fits = shrunk(self.font(), self._where, self._px, room.width())
        write_line(painter, room, self._where, fits, colours.text)

    def _paint_state(
        self, painter: QPainter, room: QRectF, bold: QFont, state: BenchState
    ) -> None:
        """Paint a state's sign and word; the room begins after them then."""
        inset, colour = INSET * self._px, colours_of(self.palette()).state(state)
        mark = QRectF(room.left(), 0, self._px, self.height())
        paint_state(painter, mark, state, colour)
        room.setLeft(mark.right() + inset / 2)
        word = state_word(state)
        write_line(painter, room, word, bold, colour)
        room.setLeft(room.left() + QFontMetrics(bold).horizontalAdvance(word) + inset)

    def _paint_strap(self, painter: QPainter, room: QRectF) -> None:
        """Paint a strap with a row of holes; of what is done they hold a rivet."""
        colours = colours_of(self.palette())
        font = letters(self.font(), round(0.8 * self._px))
        high = 0.34 * self._px
        strap = QRectF(room.left(), room.bottom() - high * 1.35, room.width(), high)
        words = QRectF(room.left(), room.top(), room.width(), strap.top() - room.top())
        write_line(painter, words, self._progress, font, colours.text)
        painter.setPen(QPen(QColor(colours.edge), 1))
        painter.setBrush(QColor(colours.strap))
        painter.drawRoundedRect(strap, high / 2, high / 2)
        filled = int(self._share * HOLES) if self._share < 1 else HOLES
        step, radius = strap.width() / HOLES, min(high * 0.28, strap.width() / HOLES * 0.4)
        for hole in range(HOLES):
            painter.setBrush(QColor(colours.edge if hole < filled else colours.panel))
            spot = QPointF(strap.left() + (hole + 0.5) * step, strap.center().y())
            painter.drawEllipse(spot, radius, radius)


class CautionBand(QWidget):
    """The first caution, with a mark of its own before it."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._px, self._text = 12, ""

    def show_caution(self, text: str, px: int) -> None:
        """Show a caution; an empty one shows nothing."""
        self._px, self._text = px, text
        self.setVisible(bool(text))
        self.setAccessibleName(self.tr("Caution: {0}").format(text))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        inset = INSET * self._px
        mark = QRectF(inset, 0, self._px, min(self.height(), 1.2 * self._px))
        paint_state(painter, mark, BenchState.EARLY, colours.alarm)
        room = QRectF(self.rect()).adjusted(mark.right() + inset / 2, 0, -inset, 0)
        write(painter, room, self._text, letters(self.font(), self._px), colours.text)


class CommitBand(QWidget):
    """A stitched strap across the view that says what the next blow closes off."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._px, self._text, self._weight = 12, "", Weight.NOTHING

    def show_commit(self, text: str, weight: Weight, px: int) -> None:
        """Show what is closed off, and how much that is."""
        self._px, self._text, self._weight = px, text, weight
        self.setVisible(bool(text))
        self.setAccessibleName(text)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), QColor(colours.strap))
        edge = QColor(colours.edge)
        stitch = QPen(edge, max(2.0, self._px * 0.07), Qt.PenStyle.CustomDashLine)
        stitch.setDashPattern([4, 3])
        painter.setPen(stitch)
        off = self._px * 0.16
        for y in (off, self.height() - off):
            painter.drawLine(QPointF(0, y), QPointF(self.width(), y))
        side = BAND_INSET * self._px
        for x in (side / 2, self.width() - side / 2):
            self._paint_head(painter, QPointF(x, self.height() / 2))
        room = QRectF(self.rect()).adjusted(side, 0, -side, 0)
        bold = letters(self.font(), self._px, bold=self._weight is not Weight.NOTHING)
        write(painter, room, self._text, bold, colours.text)

    def _paint_head(self, painter: QPainter, spot: QPointF) -> None:
        colours = colours_of(self.palette())
        radius = 0.42 * self._px
        painter.setPen(round_pen(QColor(colours.edge), 0.1 * self._px))
        is_full = self._weight is not Weight.NOTHING
        painter.setBrush(QColor(colours.edge) if is_full else Qt.BrushStyle.NoBrush)
        painter.drawEllipse(spot, radius, radius)
        if self._weight is Weight.FOR_GOOD:
            box = QRectF(spot.x() - radius, spot.y() - radius, 2 * radius, 2 * radius)
            painter.setPen(round_pen(QColor(colours.strap), 0.13 * self._px))
            for ends in (((0.3, 0.3), (0.7, 0.7)), ((0.7, 0.3), (0.3, 0.7))):
                painter.drawPolyline(points_in(box, *ends))
