"""What the marks over the parts mean: how many joints stand how, and what the lines and rings say."""

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from armorplan.desktop.closing_key_words import (
    Count,
    MarkShown,
    Rest,
    count_words,
    mark_words,
    shade_words,
)
from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.standing_glyphs import (
    paint_in_time,
    paint_plate,
    paint_standing,
    standing_colour,
)
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.closing_item import FAINT
from armorplan.geometry.reach.model import Standing

SIGN_PX = 13.0
GAP_PX = 5.0
Painting = Callable[[QPainter, QRectF, Colours], None]


class Sign(NamedTuple):
    """One entry of the key; what is said in words alone has nothing painted."""

    words: str
    paint: Painting | None

    @property
    def sign_px(self) -> float:
        """The room of its sign before its words."""
        return SIGN_PX + GAP_PX if self.paint else 0.0


class SignsKey(QWidget):
    """Signs with their words, broken into lines of the width there is."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.signs: tuple[Sign, ...] = ()
        policy = QSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Fixed)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def show_signs(self, signs: tuple[Sign, ...], spoken: str) -> None:
        """Show these; ``spoken`` has their words in its {0}."""
        self.signs = signs
        self.setAccessibleName(spoken.format(", ".join(sign.words for sign in signs)))
        self.updateGeometry()
        self.update()

    def _places(self, width: int) -> tuple[QPointF, ...]:
        """Return the left upper corner of each sign, broken into lines of a width."""
        metrics, x, y = self.fontMetrics(), 0.0, 0.0
        places = []
        for sign in self.signs:
            wide = sign.sign_px + metrics.horizontalAdvance(sign.words)
            if x and x + wide > width:
                x, y = 0.0, y + metrics.height() + 2
            places.append(QPointF(x, y))
            x += wide + 3 * GAP_PX
        return tuple(places)

    def heightForWidth(self, width: int) -> int:
        last = self._places(width)[-1].y() if self.signs else 0.0
        return round(last) + self.fontMetrics().height() + 2

    def sizeHint(self) -> QSize:
        return QSize(0, self.heightForWidth(max(self.width(), 1)))

    def paintEvent(self, event: QPaintEvent) -> None:
        colours = colours_of(self.palette())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        high = self.fontMetrics().height()
        for sign, at in zip(self.signs, self._places(self.width()), strict=True):
            box = QRectF(at.x(), at.y() + (high - SIGN_PX) / 2, SIGN_PX, SIGN_PX)
            if sign.paint is not None:
                painter.save()
                sign.paint(painter, box, colours)
                painter.restore()
            painter.setPen(QColor(colours.text))
            spot = QPointF(at.x() + sign.sign_px, at.y() + self.fontMetrics().ascent())
            painter.drawText(spot, sign.words)
        painter.end()


def count_signs(found: tuple[Count, ...]) -> tuple[Sign, ...]:
    """Return an entry for each standing, with how many joints stand so."""
    return tuple(Sign(count_words(count), _counted(count.of)) for count in found)


def shade_signs(found: tuple[int, ...]) -> tuple[Sign, ...]:
    """Return an entry for each step of depth that shows."""
    return tuple(Sign(shade_words(shade), _shade(shade)) for shade in found)


def _counted(of: Standing | Rest) -> Painting | None:
    if isinstance(of, Standing):
        return _standing(of)
    return _faint if of is Rest.SET else None


def _shade(shade: int) -> Painting:
    def paint(painter: QPainter, box: QRectF, colours: Colours) -> None:
        paint_plate(painter, box, shade, colours)

    return paint


def mark_signs(found: tuple[MarkShown, ...]) -> tuple[Sign, ...]:
    """Return an entry for each line and ring that shows over the parts."""
    return tuple(Sign(mark_words(mark), _PAINTINGS[mark]) for mark in found)


def _standing(standing: Standing) -> Painting:
    def paint(painter: QPainter, box: QRectF, colours: Colours) -> None:
        paint_standing(painter, box, standing, QColor(standing_colour(colours, standing)))

    return paint


def _faint(painter: QPainter, box: QRectF, colours: Colours) -> None:
    """The small faint mark of a joint that is set."""
    colour = mixed(standing_colour(colours, Standing.CURVED), colours.panel, FAINT)
    inset = box.width() * 0.15
    small = box.adjusted(inset, inset, -inset, -inset)
    paint_standing(painter, small, Standing.CURVED, QColor(colour))


def _ring(painter: QPainter, box: QRectF, pen: QPen) -> None:
    painter.setPen(pen)
    painter.drawEllipse(box.adjusted(1.5, 1.5, -1.5, -1.5))


def _coming(painter: QPainter, box: QRectF, colours: Colours) -> None:
    pen = QPen(QColor(colours.focus), 2.4)
    pen.setDashPattern([2.0, 1.2])
    _ring(painter, box, pen)


def _worse(painter: QPainter, box: QRectF, colours: Colours) -> None:
    _ring(painter, box, QPen(QColor(standing_colour(colours, Standing.INSIDE)), 2.6))


def _gap(painter: QPainter, box: QRectF, colours: Colours, style: Qt.PenStyle) -> None:
    painter.setBrush(QColor(colours.panel))
    painter.setPen(QPen(QColor(colours.edge), 1.4, style))
    painter.drawEllipse(box.adjusted(0.5, 3.5, -0.5, -3.5))


def _open(painter: QPainter, box: QRectF, colours: Colours) -> None:
    _gap(painter, box, colours, Qt.PenStyle.DashLine)


def _half(painter: QPainter, box: QRectF, colours: Colours) -> None:
    _gap(painter, box, colours, Qt.PenStyle.SolidLine)


def _line(painter: QPainter, box: QRectF, colour: str, wide_px: float) -> None:
    caps = Qt.PenCapStyle.FlatCap
    painter.setPen(QPen(QColor(colour), wide_px, Qt.PenStyle.SolidLine, caps))
    left = QPointF(box.left(), box.center().y())
    painter.drawLine(left, QPointF(box.right(), box.center().y()))


def _shut(painter: QPainter, box: QRectF, colours: Colours) -> None:
    _line(painter, box, colours.edge, 3.0)


def _barring(painter: QPainter, box: QRectF, colours: Colours) -> None:
    _line(painter, box, mixed(colours.alarm, colours.panel, 0.45), 9.0)
    _line(painter, box, colours.alarm, 2.0)


def _way(painter: QPainter, box: QRectF, colours: Colours) -> None:
    _line(painter, box.adjusted(5, 0, 0, 0), colours.focus, 3.0)
    painter.setPen(QPen(QColor(colours.focus), 2.0))
    painter.drawEllipse(QPointF(box.left() + 4, box.center().y()), 3.0, 3.0)


def _in_time(painter: QPainter, box: QRectF, colours: Colours) -> None:
    paint_in_time(painter, box, colours)


def _lost(painter: QPainter, box: QRectF, colours: Colours) -> None:
    inset = box.width() * 0.22
    small = box.adjusted(inset, inset, -inset, -inset)
    colour = QColor(standing_colour(colours, Standing.CANNOT))
    paint_standing(painter, small, Standing.CANNOT, colour)


_PAINTINGS: dict[MarkShown, Painting | None] = {
    MarkShown.IN_TIME: _in_time,
    MarkShown.COMING: _coming,
    MarkShown.WORSE: _worse,
    MarkShown.OPEN: _open,
    MarkShown.HALF: _half,
    MarkShown.SHUT: _shut,
    MarkShown.DEPTH: None,
    MarkShown.WAY: _way,
    MarkShown.BARRING: _barring,
    MarkShown.LOST: _lost,
}
