"""A choice as it is drawn: its place, its letter, its words, and what judging says of it."""

from dataclasses import dataclass
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.drill_marks import Note, mark_colour, paint_mark
from armorplan.desktop.widgets.checklist_delegate import broken, heavy_font, small_font

PAD_PX = 8
LEAST_PX = 44
"""A row is also a target for a finger."""
MOST_LINES = 16
"""What is asked is read in full: so many lines hold all that any of the exercises says."""
PLATE_ROUND = 0.22
WIDEST_PLACE = "12"


@dataclass(frozen=True, slots=True, kw_only=True)
class Face:
    """What is drawn of a choice; ``place`` is empty where it has none."""

    letter: str
    title: str
    detail: str = ""
    place: str = ""
    note: Note | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class FaceLines:
    """The words of a choice, broken into lines."""

    title: tuple[str, ...]
    detail: tuple[str, ...]
    note: tuple[str, ...]


def plate_px(font: QFont) -> int:
    """Return the side of a letter's plate."""
    return round(QFontMetrics(heavy_font(font)).height() * 1.15)


def _before_px(face: Face, font: QFont) -> int:
    """Return the width that place and letter take before the words."""
    number = QFontMetrics(heavy_font(font)).horizontalAdvance(WIDEST_PLACE) + PAD_PX
    return (number if face.place else 0) + plate_px(font) + 2 * PAD_PX


def face_lines(face: Face, font: QFont, width: int) -> FaceLines:
    """Break the words of a choice so that they fit a width."""
    return _lines(face, font.toString(), width)


@lru_cache(maxsize=256)
def _lines(face: Face, said: str, width: int) -> FaceLines:
    """Break the words once: a layout asks for heights in the same few widths again and again."""
    font = QFont()
    font.fromString(said)
    room = max(width - _before_px(face, font) - PAD_PX, 1)
    small = QFontMetrics(small_font(font))
    note_room = max(room - small.height() - PAD_PX // 2, 1)
    return FaceLines(
        title=broken(face.title, QFontMetrics(font), room, MOST_LINES),
        detail=broken(face.detail, small, room, MOST_LINES) if face.detail else (),
        note=broken(face.note.words, small, note_room, MOST_LINES) if face.note else (),
    )


def face_height(face: Face, font: QFont, width: int) -> int:
    """Return the height of a choice in a width, both in device-independent pixels."""
    lines, small = face_lines(face, font, width), QFontMetrics(small_font(font)).height()
    words = len(lines.title) * QFontMetrics(font).height()
    words += (len(lines.detail) + len(lines.note)) * small
    return max(LEAST_PX, words + 2 * PAD_PX, plate_px(font) + PAD_PX)


def paint_face(
    painter: QPainter, box: QRectF, face: Face, *, font: QFont, colours: Colours
) -> None:
    """Paint a choice into a box of the height that ``face_height`` tells."""
    lines = face_lines(face, font, int(box.width()))
    left, side = box.left() + PAD_PX, plate_px(font)
    if face.place:
        wide = QFontMetrics(heavy_font(font)).horizontalAdvance(WIDEST_PLACE)
        painter.setFont(heavy_font(font))
        painter.setPen(QColor(colours.quiet))
        number = QRectF(left, box.top(), wide, box.height())
        painter.drawText(number, Qt.AlignmentFlag.AlignRight | _MIDDLE, face.place)
        left += wide + PAD_PX
    plate = QRectF(left, box.center().y() - side / 2, side, side)
    paint_letter(painter, plate, face.letter, font=font, colours=colours)
    _paint_words(painter, QPointF(plate.right() + PAD_PX, box.center().y()), lines, face.note,
                 look=(font, colours))  # fmt: skip


_MIDDLE = Qt.AlignmentFlag.AlignVCenter


def paint_letter(
    painter: QPainter, box: QRectF, letter: str, *, font: QFont, colours: Colours
) -> None:
    """Paint a letter on its plate."""
    painter.setPen(QPen(QColor(colours.line), 1.2))
    painter.setBrush(QColor(colours.panel))
    painter.drawRoundedRect(box, box.width() * PLATE_ROUND, box.width() * PLATE_ROUND)
    painter.setFont(heavy_font(font))
    painter.setPen(QColor(colours.text))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, letter)


def _paint_words(
    painter: QPainter,
    at: QPointF,
    lines: FaceLines,
    note: Note | None,
    *,
    look: tuple[QFont, Colours],
) -> None:
    """Paint title, detail and note below each other; ``at`` is the middle of their left edge."""
    font, colours = look
    small = small_font(font)
    metrics, below = QFontMetrics(font), QFontMetrics(small)
    high = len(lines.title) * metrics.height()
    high += (len(lines.detail) + len(lines.note)) * below.height()
    spot = QPointF(at.x(), at.y() - high / 2)
    for text in lines.title:
        spot = _line(painter, spot, text, font, colours.text)
    for text in lines.detail:
        spot = _line(painter, spot, text, small, colours.quiet)
    if note is None:
        return
    side = below.ascent()
    box = QRectF(spot.x(), spot.y() + (below.height() - side) / 2, side, side)
    paint_mark(painter, box, note.mark, colours)
    spot += QPointF(below.height() + PAD_PX // 2, 0)
    for text in lines.note:
        spot = _line(painter, spot, text, small, mark_colour(colours, note.mark))


def _line(painter: QPainter, spot: QPointF, text: str, font: QFont, colour: str) -> QPointF:
    """Write a line below a spot; return where the next one begins."""
    metrics = QFontMetrics(font)
    painter.setFont(font)
    painter.setPen(QColor(colour))
    painter.drawText(spot + QPointF(0, metrics.ascent()), text)
    return spot + QPointF(0, metrics.height())
