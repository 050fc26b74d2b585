"""The row that a step belongs to, as a strip of leather: what is set, what is in hand, what is open."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QWidget

from armorplan.app.bench_card import RowMark
from armorplan.desktop.glyph_box import points_in, round_pen
from armorplan.desktop.theme import colours_of

LEAST_LINES = 1.3
"""Lower than so many letter sizes it is left out."""
MOST = 24
"""Of a longer row only those around the step in hand are shown."""


class RowStrip(QWidget):
    """Painted: a capped rivet is done, a rimmed hole is in hand, a bare one is still to do."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._row: tuple[RowMark, ...] = ()
        self._here = ""
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.hide()

    def show_row(self, row: tuple[RowMark, ...], here: str, px: int) -> None:
        """Show a row of two and more steps, if there is room for it."""
        self._row, self._here = around(row, here), here
        done = sum(mark.is_done for mark in row)
        self.setAccessibleName(self.tr("{0} of {1} of this row done").format(done, len(row)))
        self.setVisible(len(row) > 1 and self.height() >= LEAST_LINES * px)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        high = float(self.height())
        step = min(1.2 * high, (self.width() - 4) / len(self._row))
        strip = QRectF(2, high * 0.1, step * len(self._row), high * 0.8)
        painter.setPen(QPen(QColor(colours.edge), 2))
        painter.setBrush(QColor(colours.leather))
        painter.drawRoundedRect(strip, high * 0.2, high * 0.2)
        radius = min(high * 0.24, step * 0.36)
        for at, mark in enumerate(self._row):
            spot = QPointF(strip.left() + (at + 0.5) * step, strip.center().y())
            self._paint_mark(painter, spot, radius, mark)

    def _paint_mark(self, painter: QPainter, spot: QPointF, radius: float, mark: RowMark) -> None:
        colours = colours_of(self.palette())
        painter.setPen(QPen(QColor(colours.edge), 2))
        if mark.step == self._here:
            painter.setBrush(QColor(colours.panel))
            painter.setPen(round_pen(QColor(colours.focus), radius * 0.4))
            painter.drawEllipse(spot, radius * 1.25, radius * 1.25)
            return
        painter.setBrush(QColor(colours.edge if mark.is_done else colours.panel))
        size = radius if mark.is_done else radius * 0.6
        painter.drawEllipse(spot, size, size)
        if mark.is_done:
            box = QRectF(spot.x() - radius, spot.y() - radius, 2 * radius, 2 * radius)
            painter.setPen(round_pen(QColor(colours.leather), radius * 0.25))
            painter.drawPolyline(points_in(box, (0.28, 0.55), (0.45, 0.7), (0.74, 0.34)))


def around(row: tuple[RowMark, ...], here: str) -> tuple[RowMark, ...]:
    """Return a row, or of a long one the marks around the step in hand."""
    at = next((place for place, mark in enumerate(row) if mark.step == here), 0)
    start = max(0, min(at - MOST // 2, len(row) - MOST))
    return row[start : start + MOST]
