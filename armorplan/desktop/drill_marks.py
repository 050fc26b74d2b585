"""What is marked on an answer that was judged: a shape, a colour and words, none of them alone."""

from collections.abc import Callable
from dataclasses import dataclass
from enum import StrEnum

from PySide6.QtCore import QCoreApplication, QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from armorplan.app.rows import BenchState
from armorplan.desktop.colours import Colours
from armorplan.desktop.glyph_box import points_in, round_pen
from armorplan.desktop.glyphs import paint_state


class Mark(StrEnum):
    """How one choice of an answer stands."""

    STAYS = "may stay where it is"
    RIGHT = "right"
    WRONG = "not this one"
    MISSED = "this one as well"
    BREAK = "here it goes wrong"
    MOVED = "to be moved"


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """What is said at one choice of an answer that was judged."""

    mark: Mark
    words: str


def mark_words(mark: Mark) -> str:
    """Return the words of a mark in the person's language."""
    return QCoreApplication.translate("drill", mark.value)


def mark_colour(colours: Colours, mark: Mark) -> str:
    """Return the colour of a mark and its words, ``#rrggbb``."""
    return {
        Mark.STAYS: colours.quiet,
        Mark.RIGHT: colours.ready,
        Mark.WRONG: colours.drying,
        Mark.MISSED: colours.drying,
        Mark.BREAK: colours.alarm,
        Mark.MOVED: colours.paused,
    }[mark]


def paint_mark(painter: QPainter, box: QRectF, mark: Mark, colours: Colours) -> None:
    """Paint a mark into a square box, in device-independent pixels."""
    painter.save()
    colour = QColor(mark_colour(colours, mark))
    painter.setPen(round_pen(colour, max(box.width() * 0.15, 1.6)))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    _SHAPES[mark](painter, box, colour)
    painter.restore()


def _tick(painter: QPainter, box: QRectF, colour: QColor) -> None:
    paint_state(painter, box, BenchState.DONE, colour.name())


def _diamond(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    """The sign of 'not yet': a red cross would strike through whoever answered."""
    painter.drawPolygon(points_in(box, (0.5, 0.06), (0.94, 0.5), (0.5, 0.94), (0.06, 0.5)))


def _warning(painter: QPainter, box: QRectF, colour: QColor) -> None:
    paint_state(painter, box, BenchState.EARLY, colour.name())


def _plus(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    painter.drawPolyline(points_in(box, (0.5, 0.1), (0.5, 0.9)))
    painter.drawPolyline(points_in(box, (0.1, 0.5), (0.9, 0.5)))


def _arrows(painter: QPainter, box: QRectF, _colour: QColor) -> None:
    """An arrow up beside an arrow down."""
    for x, tip, foot in ((0.26, 0.08, 0.92), (0.74, 0.92, 0.08)):
        back = tip + (0.24 if tip < foot else -0.24)
        painter.drawPolyline(points_in(box, (x, foot), (x, tip)))
        painter.drawPolyline(points_in(box, (x - 0.2, back), (x, tip), (x + 0.2, back)))


_SHAPES: dict[Mark, Callable[[QPainter, QRectF, QColor], None]] = {
    Mark.STAYS: _tick,
    Mark.RIGHT: _tick,
    Mark.WRONG: _diamond,
    Mark.MISSED: _plus,
    Mark.BREAK: _warning,
    Mark.MOVED: _arrows,
}
