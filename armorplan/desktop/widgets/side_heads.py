"""The words 'Left' and 'Right' over the halves of a drawing that shows both sides."""

from collections.abc import Mapping, Sequence
from itertools import pairwise

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget

from armorplan.app.rows import DiagramPart
from armorplan.desktop.theme import colours_of

ABOVE = 1.9
"""A heading's middle stands so many of its heights above the parts: a name fits between."""


def _words(side: str) -> str:
    return {
        "left": QCoreApplication.translate("SideHeads", "Left"),
        "right": QCoreApplication.translate("SideHeads", "Right"),
    }.get(side, side)


def sides_of(parts: Sequence[DiagramPart]) -> Mapping[str, QRectF]:
    """Return the box of each side; none where one side's half lies over the other's."""
    boxes: dict[str, QRectF] = {}
    for part in parts:
        if part.side:
            boxes[part.side] = boxes.get(part.side, QRectF()).united(_box(part))
    across = sorted((box.left(), box.right()) for box in boxes.values())
    return boxes if all(a[1] <= b[0] for a, b in pairwise(across)) else {}


def _box(part: DiagramPart) -> QRectF:
    xs, ys = zip(*part.outline, strict=True)
    return QRectF(min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys))


class _Head(QGraphicsItem):
    def __init__(self, words: str, parent: QGraphicsItem) -> None:
        super().__init__(parent)
        self._words = words
        self._font = QFont()
        self._box = QRectF()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def set_font(self, font: QFont) -> None:
        self.prepareGeometryChange()
        self._font = QFont(font)
        self._font.setBold(True)
        self._box = QFontMetricsF(self._font).boundingRect(self._words).adjusted(-3, -1, 3, 1)
        self._box.moveCenter(QPointF(0, 0))

    def boundingRect(self) -> QRectF:
        return self._box

    def paint(
        self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None
    ) -> None:
        if widget is not None:
            painter.setPen(QColor(colours_of(widget.palette()).quiet))
        painter.setFont(self._font)
        painter.drawText(self._box, Qt.AlignmentFlag.AlignCenter, self._words)


class SideHeads:
    """Headings over the halves, so that not every name has to say its side."""

    def __init__(self, parent: QGraphicsItem) -> None:
        self._parent = parent
        self._heads: list[tuple[_Head, QRectF]] = []
        self._scale = 1.0

    def take(self, parts: Sequence[DiagramPart], font: QFont) -> None:
        """Stand over the halves of these parts."""
        for head, _ in self._heads:
            head.scene().removeItem(head)
        halves = sides_of(parts)
        self._heads = [(_Head(_words(s), self._parent), box) for s, box in halves.items()]
        self.write_in(font)

    def write_in(self, font: QFont) -> None:
        """Write in this font."""
        for head, _ in self._heads:
            head.set_font(font)

    def short_name(self, part: DiagramPart) -> str:
        """Return a part's name, without its side where a heading says it.

        What is made once and lies below a heading says so.
        """
        if not self._heads:
            return part.name
        plain, box = part.plain_name or part.name, _box(part)
        if part.side or not any(
            box.left() < half.right() and half.left() < box.right() for _, half in self._heads
        ):
            return plain
        return QCoreApplication.translate("SideHeads", "{0} (made once)").format(plain)

    def zoom_to(self, scale: float) -> None:
        """Stay above the parts at so many pixels to the mm."""
        self._scale = scale
        top = min((box.top() for _, box in self._heads), default=0.0)
        for head, box in self._heads:
            high_mm = head.boundingRect().height() / scale
            head.setPos(box.center().x(), top - ABOVE * high_mm)

    def lines(self) -> int:
        """Return how many lines of text the headings need above the parts."""
        return 1 if self._heads else 0

    def boxes(self) -> tuple[QRectF, ...]:
        """Return where the headings lie, in mm."""
        found = []
        for head, _ in self._heads:
            box = head.boundingRect()
            mm = QRectF(0, 0, box.width() / self._scale, box.height() / self._scale)
            mm.moveCenter(head.pos())
            found.append(mm)
        return tuple(found)
