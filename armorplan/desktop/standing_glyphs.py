"""How a joint can be set, as a shape, a colour and a word: none of them stands alone."""

from collections.abc import Callable

from PySide6.QtCore import QCoreApplication, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.glyph_box import points_in, round_pen
from armorplan.desktop.standing_shades import shade_colour
from armorplan.geometry.reach.model import Standing

STANDING_WORDS = {
    Standing.FLAT: "lies flat",
    Standing.CURVED: "at hand",
    Standing.INSIDE: "within reach",
    Standing.END: "at the end of reach",
    Standing.CANNOT: "out of reach",
}
"""Short words for the key under the picture; those that the measures of reach use, too."""


def standing_word(standing: Standing) -> str:
    """Return how a joint can be set, in the person's language."""
    return QCoreApplication.translate("Standing", STANDING_WORDS[standing])


def standing_colour(colours: Colours, standing: Standing) -> str:
    """Return the colour of a standing's mark, ``#rrggbb``."""
    return {
        Standing.FLAT: colours.quiet,
        Standing.CURVED: colours.ready,
        Standing.INSIDE: colours.running,
        Standing.END: colours.drying,
        Standing.CANNOT: colours.alarm,
    }[standing]


def paint_standing(painter: QPainter, box: QRectF, standing: Standing, colour: QColor) -> None:
    """Paint a standing's mark into a square box, in device-independent pixels."""
    painter.save()
    painter.setPen(round_pen(colour, max(box.width() * 0.15, 1.6)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _SHAPES[standing](painter, box, colour)
    painter.restore()


def paint_plate(painter: QPainter, box: QRectF, shade: int, colours: Colours) -> None:
    """Paint the ground of a mark, shaded by how deep the joint lies, into a square box."""
    painter.save()
    painter.setPen(QPen(QColor(colours.edge), 1.0))
    painter.setBrush(QColor(shade_colour(colours, shade)))
    painter.drawEllipse(box)
    painter.restore()


def paint_in_time(painter: QPainter, box: QRectF, colours: Colours) -> None:
    """Paint a quiet dot: it is set, so that no tool gets there any more is no matter."""
    painter.save()
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(colours.quiet))
    painter.drawEllipse(box.center(), box.width() * 0.24, box.width() * 0.24)
    painter.restore()


def _bar(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    """A level bar: the bench."""
    painter.drawPolyline(points_in(box, (0.14, 0.5), (0.86, 0.5)))


def _bow(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    """A bow: the part curves away on both sides."""
    painter.drawArc(
        QRectF(box.x() + box.width() * 0.1, box.y() + box.height() * 0.26,
               box.width() * 0.8, box.height() * 0.9), 20 * 16, 140 * 16
    )  # fmt: skip


def _well(painter: QPainter, box: QRectF, colour: QColor) -> None:
    """A dot in a ring: down in a shape."""
    inset = box.width() * 0.12
    painter.drawEllipse(box.adjusted(inset, inset, -inset, -inset))
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawEllipse(box.center(), box.width() * 0.16, box.width() * 0.16)


def _brink(painter: QPainter, box: QRectF, colour: QColor) -> None:
    """A filled triangle: the end of reach."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(colour)
    painter.drawPolygon(points_in(box, (0.5, 0.06), (0.98, 0.92), (0.02, 0.92)))


def _cross(painter: QPainter, box: QRectF, colour: QColor) -> None:
    """A cross: no tool gets there."""
    painter.setPen(round_pen(colour, max(box.width() * 0.2, 2.0)))
    painter.drawPolyline(points_in(box, (0.16, 0.16), (0.84, 0.84)))
    painter.drawPolyline(points_in(box, (0.84, 0.16), (0.16, 0.84)))


_SHAPES: dict[Standing, Callable[[QPainter, QRectF, QColor], None]] = {
    Standing.FLAT: _bar,
    Standing.CURVED: _bow,
    Standing.INSIDE: _well,
    Standing.END: _brink,
    Standing.CANNOT: _cross,
}
