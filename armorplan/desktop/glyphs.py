"""State marks as drawn shapes, each with a silhouette of its own, so colour never stands alone."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath

from armorplan.app.rows import BenchState
from armorplan.desktop.glyph_box import filling, points_in, round_pen

Draw = Callable[[QPainter, QRectF, QColor], None]


def paint_state(painter: QPainter, box: QRectF, state: BenchState, colour: str) -> None:
    """Paint a state's mark into a box (device-independent pixels), in ``#rrggbb``."""
    with filling(painter, box, colour) as square:
        _SHAPES[state](painter, square, QColor(colour))


def state_word(state: BenchState) -> str:
    """Return a state's word in the person's language."""
    return QCoreApplication.translate("BenchState", state.value)


def _diamond(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    painter.drawPolygon(points_in(box, (0.5, 0.02), (0.98, 0.5), (0.5, 0.98), (0.02, 0.5)))


def _ring(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(round_pen(colour, box.width() * 0.11))
    inset = box.width() * 0.16
    painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset))


def _wedge(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    painter.drawPolygon(points_in(box, (0.14, 0.04), (0.98, 0.5), (0.14, 0.96)))


def _bars(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    painter.drawPolygon(points_in(box, (0.14, 0.06), (0.4, 0.06), (0.4, 0.94), (0.14, 0.94)))
    painter.drawPolygon(points_in(box, (0.6, 0.06), (0.86, 0.06), (0.86, 0.94), (0.6, 0.94)))


def _drop(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    tip, left, right, foot = points_in(
        box, (0.5, 0.02), (0.14, 0.64), (0.86, 0.64), (0.5, 0.98)
    ).toList()
    path = QPainterPath(tip)
    width, height = box.width(), box.height()
    path.cubicTo(tip + QPointF(-0.1 * width, 0.25 * height), left - QPointF(0, 0.2 * height), left)
    path.cubicTo(left + QPointF(0, 0.22 * height), foot - QPointF(0.2 * width, 0), foot)
    path.cubicTo(foot + QPointF(0.2 * width, 0), right + QPointF(0, 0.22 * height), right)
    path.cubicTo(right - QPointF(0, 0.2 * height), tip + QPointF(0.1 * width, 0.25 * height), tip)
    painter.drawPath(path)


def _tick(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(round_pen(colour, box.width() * 0.17))
    painter.drawPolyline(points_in(box, (0.1, 0.55), (0.4, 0.84), (0.9, 0.18)))


def _warning(painter: QPainter, box: QRectF, colour: QColor) -> None:
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(round_pen(colour, box.width() * 0.1))
    painter.drawPolygon(points_in(box, (0.5, 0.07), (0.95, 0.92), (0.05, 0.92)))
    painter.setPen(round_pen(colour, box.width() * 0.12))
    painter.drawPolyline(points_in(box, (0.5, 0.38), (0.5, 0.58)))
    painter.drawPoint(points_in(box, (0.5, 0.76)).first())


def _run_out(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    """An hourglass: its time has run out."""
    painter.drawPolygon(points_in(box, (0.06, 0.04), (0.94, 0.04), (0.5, 0.54)))
    painter.drawPolygon(points_in(box, (0.5, 0.46), (0.94, 0.96), (0.06, 0.96)))


_SHAPES: dict[BenchState, Draw] = {
    BenchState.READY: _diamond,
    BenchState.WAITING: _ring,
    BenchState.RUNNING: _wedge,
    BenchState.PAUSED: _bars,
    BenchState.DRYING: _drop,
    BenchState.DONE: _tick,
    BenchState.EARLY: _warning,
    BenchState.MISSED: _run_out,
}
