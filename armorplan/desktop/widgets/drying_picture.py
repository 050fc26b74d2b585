"""The picture of a drying: drawn elsewhere, shown here, with the present as a line over it."""

from datetime import datetime

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFontMetricsF, QImage, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from armorplan.desktop.drying_plot import DryingPlot
from armorplan.desktop.theme import colours_of

PAD_PX = 4.0


class DryingPicture(QWidget):
    """Shows a plot; ``resized`` says that it has to be drawn anew."""

    resized = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("drying_picture")
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self._plot: DryingPlot | None = None
        self._image = QImage()
        self._now_at: datetime | None = None

    @property
    def plot(self) -> DryingPlot | None:
        """What is shown."""
        return self._plot

    def show_plot(self, plot: DryingPlot | None) -> None:
        """Show a plot, or nothing."""
        self._plot = plot
        self._image = QImage()
        if plot is not None:
            line = 4 * plot.width
            kind = QImage.Format.Format_RGBA8888
            # A copy of its own: the bytes belong to the plot.
            self._image = QImage(plot.pixels, plot.width, plot.height, line, kind).copy()
            self._image.setDevicePixelRatio(plot.ratio)
        self.update()

    def show_now(self, now_at: datetime) -> None:
        """Move the line of the present."""
        self._now_at = now_at
        self.update()

    def now_x(self) -> float | None:
        """Return where the line of the present lies; ``None`` where it is not in the picture."""
        if self._plot is None or self._now_at is None:
            return None
        return self._plot.x(self._now_at)

    def sizeHint(self) -> QSize:
        return QSize(560, 300)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.resized.emit()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = colours_of(self.palette())
        painter.fillRect(self.rect(), QColor(colours.panel))
        if not self._image.isNull():
            painter.drawImage(QPointF(0, 0), self._image)
            self._paint_now(painter)
        else:
            painter.setPen(QColor(colours.quiet))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, self.tr("Drawing …"))
        if self.hasFocus():
            # The flag of the present leaves its brush, which would fill the whole frame.
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(colours.focus), 2))
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_now(self, painter: QPainter) -> None:
        x = self.now_x()
        if x is None or self._plot is None:
            return
        colours, plot = colours_of(self.palette()), self._plot
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(QPen(QColor(colours.strong), 2))
        painter.drawLine(QPointF(x, plot.top_px), QPointF(x, plot.foot_px))
        words = self.tr("now")
        metrics = QFontMetricsF(self.font())
        high, wide = metrics.height() + 2, metrics.horizontalAdvance(words) + 2 * PAD_PX
        left = min(max(x - wide / 2, plot.left_px), plot.right_px - wide)
        flag = QRectF(left, plot.foot_px - high, wide, high)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(colours.strong))
        painter.drawRoundedRect(flag, 3, 3)
        painter.setPen(QColor(colours.strong_text))
        painter.drawText(flag, Qt.AlignmentFlag.AlignCenter, words)
