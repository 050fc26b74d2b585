"""The section of a stack to scale: layers as they are pinched, the fastener, the posts that hold."""

from math import ceil
from typing import NamedTuple

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPaintEvent, QPen
from PySide6.QtWidgets import QSizePolicy, QWidget

from armorplan.app.stack_names import WASHER
from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import leather, mixed
from armorplan.desktop.stack_words import Beside, beside, deep_mm, stack_sentence
from armorplan.desktop.theme import colours_of
from armorplan.geometry.pictures import StackPicture

DOME_SHARE = 0.22
"""A head or cap is so high for its width."""
BURR_MM = 1.2
WIDE_SHARE = 1.5
"""So much leather is shown for the width of the head."""
LEAST_WIDE_MM = 12.0
BRACKET_PX = 22.0
"""Room for the posts that hold, and for the lines that lead to the words."""
EDGE_PX = 2.0


class Frame(NamedTuple):
    """Where the section lies: its scale in px to the mm, and the outer face's left end in px."""

    scale: float
    left: float
    top: float
    wide_mm: float

    def y(self, depth_mm: float) -> float:
        """Return how far down a depth below the outer face is drawn."""
        return self.top + depth_mm * self.scale

    @property
    def middle(self) -> float:
        """The line down the middle of the fastener."""
        return self.left + self.wide_mm * self.scale / 2

    @property
    def right(self) -> float:
        """The right end of the leather."""
        return self.left + self.wide_mm * self.scale


def wide_mm(picture: StackPicture) -> float:
    """Return how much of the leather is shown."""
    return max(picture.head_mm * WIDE_SHARE, LEAST_WIDE_MM)


def high_mm(picture: StackPicture) -> float:
    """Return how high the section is from the top of the head to the end of cap or post."""
    dome = picture.head_mm * DOME_SHARE
    return dome + _lowest_mm(picture) + dome


def _lowest_mm(picture: StackPicture) -> float:
    return max(deep_mm(picture), picture.post_mm or 0.0, picture.window_mm[1])


def stack_height_px(picture: StackPicture, scale: float, line_px: float) -> float:
    """Return how high the section is with its words at so many pixels to the mm."""
    drawn = high_mm(picture) * scale
    return max(drawn, line_px * len(beside(picture))) + 2 * EDGE_PX


def paint_stack(
    painter: QPainter, box: QRectF, picture: StackPicture, colours: Colours, scale: float
) -> None:
    """Paint a section into a box at so many pixels to the mm, with the painter's font.

    What lies outside is on top. The words stand on the right and need the rest of the box.
    """
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    line = QFontMetricsF(painter.font()).height()
    spare = (stack_height_px(picture, scale, line) - high_mm(picture) * scale) / 2
    top = box.top() + spare + picture.head_mm * DOME_SHARE * scale
    frame = Frame(scale, box.left() + EDGE_PX, top, wide_mm(picture))
    sketch = _Sketch(painter, picture, colours, frame)
    sketch.layers()
    sketch.fastener()
    sketch.window()
    sketch.words(box)
    painter.restore()


class _Sketch:
    """One painting of one stack."""

    def __init__(
        self, painter: QPainter, picture: StackPicture, colours: Colours, frame: Frame
    ) -> None:
        self._painter, self._picture = painter, picture
        self._colours, self._frame = colours, frame
        self._deep_mm = deep_mm(picture)
        self._edge = QPen(QColor(colours.edge), 1.3)

    def layers(self) -> None:
        """Paint the layers cut through, hatched by turns, and the hole through them."""
        frame, top_mm = self._frame, 0.0
        count = len(self._picture.layers)
        for place, layer in enumerate(self._picture.layers):
            slab = QRectF(frame.left, frame.y(top_mm), frame.right - frame.left, 0)
            slab.setBottom(frame.y(top_mm + layer.thick_mm))
            metal = layer.kind == WASHER
            if metal:
                across = min(self._picture.head_mm, frame.wide_mm) * frame.scale
                slab.setLeft(frame.middle - across / 2)
                slab.setRight(frame.middle + across / 2)
            fill = (
                self._colours.bar if metal else leather(self._colours, layer.kind, count - place)
            )
            self._slab(slab, fill, place, metal=metal)
            top_mm += layer.thick_mm
        hole = self._picture.hole_mm * frame.scale
        shaft = QRectF(frame.middle - hole / 2, frame.y(0), hole, self._deep_mm * frame.scale)
        self._painter.setPen(self._edge)
        self._painter.setBrush(QColor(self._colours.panel))
        self._painter.drawRect(shaft)

    def _slab(self, slab: QRectF, fill: str, place: int, *, metal: bool) -> None:
        ways = (Qt.BrushStyle.BDiagPattern, Qt.BrushStyle.FDiagPattern)
        way = Qt.BrushStyle.DiagCrossPattern if metal else ways[place % 2]
        hatch = QBrush(QColor(mixed(fill, self._colours.edge, 0.35)), way)
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.fillRect(slab, QColor(fill))
        self._painter.fillRect(slab, hatch)
        self._painter.setPen(self._edge)
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawRect(slab)

    def fastener(self) -> None:
        """Paint head, post and foot; without a post that fits, only the head, dashed."""
        picture, frame = self._picture, self._frame
        self._painter.setBrush(QColor(mixed(self._colours.bar, self._colours.edge, 0.25)))
        post_mm = picture.post_mm
        if post_mm is not None:
            across = picture.hole_mm * 0.8 * frame.scale
            shaft = QRectF(frame.middle - across / 2, frame.y(0), across, post_mm * frame.scale)
            self._painter.setPen(self._edge)
            self._painter.drawRect(shaft)
        self._dome(0.0, up=True, dashed=post_mm is None)
        self._foot(post_mm)

    def _dome(self, depth_mm: float, *, up: bool, dashed: bool) -> None:
        """Paint half a head, upwards on the outside, downwards on the inside."""
        frame, wide = self._frame, self._picture.head_mm * self._frame.scale
        rise = wide * DOME_SHARE
        around = QRectF(frame.middle - wide / 2, frame.y(depth_mm) - rise, wide, 2 * rise)
        pen = QPen(self._edge)
        self._painter.save()
        if dashed:
            pen.setStyle(Qt.PenStyle.DashLine)
            self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.setPen(pen)
        self._painter.drawChord(around, 0 if up else 180 * 16, 180 * 16)
        self._painter.restore()

    def _foot(self, post_mm: float | None) -> None:
        frame = self._frame
        inner = frame.y(self._deep_mm)
        wide = self._picture.head_mm * frame.scale
        match self._picture.foot:
            case "burr":
                self._painter.setPen(self._edge)
                self._painter.drawRect(
                    QRectF(frame.middle - wide / 3, inner, wide * 2 / 3, BURR_MM * frame.scale)
                )
            case "bent":
                self._painter.setPen(QPen(self._edge.color(), 1.6, Qt.PenStyle.DashLine))
                for way in (-1, 1):
                    end = QPointF(frame.middle + way * wide * 0.4, inner + 2)
                    self._painter.drawLine(QPointF(frame.middle, inner + 2), end)
            case "screw":
                self._dome(self._deep_mm, up=False, dashed=post_mm is None)
                notch = QRectF(frame.middle - 1.5, inner + wide * DOME_SHARE / 2, 3, 0)
                notch.setBottom(inner + wide * DOME_SHARE)
                self._painter.fillRect(notch, QColor(self._colours.edge))
            case _:
                self._dome(max(post_mm or 0.0, self._deep_mm), up=False, dashed=True)

    def window(self) -> None:
        """Paint which posts hold: a band beside the section, with a tick where the post ends."""
        frame, colours = self._frame, self._colours
        least, most = (frame.y(mm) for mm in self._picture.window_mm)
        band = QRectF(frame.right + 4, least, 6, max(most - least, 2))
        post = self._picture.post_mm
        holds = (
            post is not None and self._picture.window_mm[0] <= post <= self._picture.window_mm[1]
        )
        tone = colours.ready if holds else colours.alarm
        self._painter.setPen(QPen(QColor(tone), 1.2))
        self._painter.setBrush(QColor(mixed(tone, colours.panel, 0.6)))
        self._painter.drawRect(band)
        if post is not None:
            self._painter.setPen(QPen(QColor(colours.text), 1.2, Qt.PenStyle.DotLine))
            start = QPointF(frame.middle, frame.y(post))
            self._painter.drawLine(start, QPointF(frame.right + 13, frame.y(post)))

    def words(self, box: QRectF) -> None:
        """Write a line for each layer, the window and the post, each led to its depth."""
        metrics = QFontMetricsF(self._painter.font())
        lines = beside(self._picture)
        middles = spread([self._frame.y(line.depth_mm) for line in lines], metrics.height(), box)
        left = self._frame.right + BRACKET_PX
        for number, (line, middle) in enumerate(zip(lines, middles, strict=True)):
            self._lead(number, line, QPointF(left, middle))
            room = QRectF(left + 3, middle - metrics.height() / 2, box.right() - left - 3, 0)
            room.setHeight(metrics.height())
            text = metrics.elidedText(line.text, Qt.TextElideMode.ElideRight, room.width())
            self._painter.setPen(QColor(self._colours.text))
            self._painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, text)

    def _lead(self, number: int, line: Beside, end: QPointF) -> None:
        """Draw a line from a depth to its words: from the leather, or from the band beside it."""
        off = 0.0 if number < len(self._picture.layers) else 11.0
        start = QPointF(self._frame.right + off, self._frame.y(line.depth_mm))
        self._painter.setPen(QPen(QColor(self._colours.quiet), 1.0))
        self._painter.drawLine(start, end)


def spread(wanted: list[float], line_px: float, box: QRectF) -> list[float]:
    """Return the middles of lines of text near where they are wanted, none over another."""
    placed: list[float] = []
    for middle in wanted:
        least = placed[-1] + line_px if placed else box.top() + line_px / 2
        placed.append(max(middle, least))
    low = box.bottom() - line_px / 2
    for number in range(len(placed) - 1, -1, -1):
        placed[number] = min(placed[number], low)
        low = placed[number] - line_px
    return placed


class StackSketch(QWidget):
    """A section as a widget, at a scale in px to the mm; as high as it needs."""

    def __init__(self, scale: float, wide_px: int, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("stack_sketch")
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)
        self._scale, self._wide_px = scale, wide_px
        self._picture: StackPicture | None = None

    def show_picture(self, picture: StackPicture) -> None:
        """Show a stack, and say it to screen readers."""
        self._picture = picture
        self.setAccessibleName(stack_sentence(picture))
        self.updateGeometry()
        self.update()

    def sizeHint(self) -> QSize:
        if self._picture is None:
            return QSize(self._wide_px, 0)
        line = QFontMetricsF(self.font()).height()
        return QSize(self._wide_px, ceil(stack_height_px(self._picture, self._scale, line)))

    def paintEvent(self, event: QPaintEvent) -> None:
        if self._picture is None:
            return
        painter = QPainter(self)
        painter.setFont(self.font())
        colours = colours_of(self.palette())
        paint_stack(painter, QRectF(self.rect()), self._picture, colours, self._scale)
        painter.end()
