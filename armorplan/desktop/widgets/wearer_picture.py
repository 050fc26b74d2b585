"""A part before and after, one over the other, with its holes; by key and mouse from part to part."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QColor,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QPen,
    QPolygonF,
    QWheelEvent,
)
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QVBoxLayout, QWidget

from armorplan.app.wearer_model import SizedPart
from armorplan.desktop.colours import Colours
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.pattern.parts import Hole, Ring

PAD_PX = 14.0
LEAST_PX = (240, 180)
LEAST_HOLE_PX, CROSS_PX = 2.5, 7.0


class SizedPicture(QWidget):
    """Shows one part at a time, to scale: as drawn with a broken line, as fitted with a whole one.

    Holes are rings; one that is gone is crossed out, a new one is filled.
    """

    turned = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("wearer_picture")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(*LEAST_PX)
        self._parts: tuple[SizedPart, ...] = ()
        self._at = 0
        self._name()

    @property
    def part(self) -> SizedPart | None:
        """The part that is shown; ``None`` where nothing changed."""
        return self._parts[self._at] if self._parts else None

    def show_parts(self, parts: tuple[SizedPart, ...]) -> None:
        """Show these, the same one as before where it is among them."""
        here = self.part.id if self.part else ""
        ids = [part.id for part in parts]
        self._parts = parts
        self._at = ids.index(here) if here in ids else 0
        self._name()
        self.update()

    def go(self, at: int) -> None:
        """Go to a part, and say what it is; beyond the ends it stays where it is."""
        if 0 <= at < len(self._parts):
            self._at = at
            self._name()
            self.update()
            self.turned.emit(at)
            announce(self, self.accessibleDescription())

    def _name(self) -> None:
        self.setAccessibleName(self.tr("Part before and after"))
        words = self._words()
        self.setAccessibleDescription(words)
        self.setToolTip(words)

    def _words(self) -> str:
        part = self.part
        if part is None:
            return self.tr("No part changes.")
        (high, wide), (new_high, new_wide) = part.before_mm, part.after_mm
        size = self.tr("{0}, {1} of {2}: {3} × {4} mm, now {5} × {6} mm").format(
            part.name,
            self._at + 1,
            len(self._parts),
            f"{high:.1f}",
            f"{wide:.1f}",
            f"{new_high:.1f}",
            f"{new_wide:.1f}",
        )
        had, has = len(part.holes_before), len(part.holes_after)
        if not (part.gone or part.new):
            return self.tr("{0}; {1} holes").format(size, has)
        gone = self.tr("{0} gone (crossed)").format(len(part.gone)) if part.gone else ""
        new = self.tr("{0} new (filled)").format(len(part.new)) if part.new else ""
        told = self.tr("{0}; {1} holes, now {2}: {3}")
        return told.format(size, had, has, ", ".join(filter(None, (gone, new))))

    def step(self, by: int) -> None:
        """Go so many parts on or back."""
        self.go(self._at + by)

    def sizeHint(self) -> QSize:
        wide, high = LEAST_PX
        return QSize(2 * wide, 2 * high)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}
        ends = {Qt.Key.Key_Home: 0, Qt.Key.Key_End: len(self._parts) - 1}
        key = Qt.Key(event.key())
        if key in keys:
            self.step(keys[key])
        elif key in ends:
            self.go(ends[key])
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus()
        self.step(1 if event.position().x() >= self.width() / 2 else -1)

    def wheelEvent(self, event: QWheelEvent) -> None:
        turned = event.angleDelta().y()
        if turned:
            self.step(-1 if turned > 0 else 1)
        event.accept()

    def paintEvent(self, event: QPaintEvent) -> None:
        painter, colours = QPainter(self), colours_of(self.palette())
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        words = QRectF(self.rect()).adjusted(PAD_PX, 4, -PAD_PX, -4)
        painter.setPen(QColor(colours.text))
        below = Qt.AlignmentFlag.AlignBottom | Qt.AlignmentFlag.AlignHCenter
        painter.drawText(words, int(below) | int(Qt.TextFlag.TextWordWrap), self._words())
        if self.part is not None:
            lines = 3 * self.fontMetrics().height()
            _paint(painter, self.part, words.adjusted(0, 6, 0, -lines), colours)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours.focus), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()


def _paint(painter: QPainter, part: SizedPart, room: QRectF, colours: Colours) -> None:
    both = (*part.before, *part.after)
    xs, ys = [x for x, _ in both], [y for _, y in both]
    wide, high = max(xs) - min(xs), max(ys) - min(ys)
    scale = max(min(room.width() / max(wide, 1e-6), room.height() / max(high, 1e-6)), 1e-6)
    middle = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)

    def spot(x: float, y: float) -> QPointF:
        centre = room.center()
        return QPointF(centre.x() + (x - middle[0]) * scale, centre.y() + (y - middle[1]) * scale)

    def on_page(ring: Ring) -> QPolygonF:
        return QPolygonF([spot(x, y) for x, y in ring])

    painter.setPen(QPen(QColor(colours.edge), 1.6))
    painter.setBrush(QColor(colours.leather))
    painter.drawPolygon(on_page(part.after))
    painter.setPen(QPen(QColor(colours.text), 1.4, Qt.PenStyle.DashLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolygon(on_page(part.before))
    _paint_holes(painter, part, spot, (scale, colours))


def _paint_holes(
    painter: QPainter,
    part: SizedPart,
    spot: Callable[[float, float], QPointF],
    how: tuple[float, Colours],
) -> None:
    scale, colours = how
    gone, new = {hole.id for hole in part.gone}, {hole.id for hole in part.new}

    def ring(hole: Hole) -> QPointF:
        at, reach = spot(*hole.centre), max(LEAST_HOLE_PX, hole.diameter_mm * scale / 2)
        painter.drawEllipse(at, reach, reach)
        return at

    cross = QPointF(CROSS_PX, CROSS_PX), QPointF(CROSS_PX, -CROSS_PX)
    for hole in part.holes_before:
        painter.setPen(QPen(QColor(colours.text), 1.0, Qt.PenStyle.DashLine))
        at = ring(hole)
        painter.setPen(QPen(QColor(colours.text), 1.6))
        for arm in cross if hole.id in gone else ():
            painter.drawLine(at - arm, at + arm)
    painter.setPen(QPen(QColor(colours.edge), 1.6))
    for hole in part.holes_after:
        painter.setBrush(QColor(colours.edge) if hole.id in new else Qt.BrushStyle.NoBrush)
        ring(hole)


class PartByPart(QWidget):
    """The picture with a button to either side of what is shown."""

    def __init__(self, picture: SizedPicture, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.back = QPushButton(self.tr("&Back one part"), self)
        self.onward = QPushButton(self.tr("On b&y one part"), self)
        row = QHBoxLayout()
        for button, name, by in (
            (self.back, "wearer_part_back", -1),
            (self.onward, "wearer_part_on", 1),
        ):
            button.setObjectName(name)
            button.setAutoDefault(False)
            button.clicked.connect(partial(picture.step, by))
            row.addWidget(button)
        row.addStretch(1)
        whole = QVBoxLayout(self)
        whole.addWidget(picture, 1)
        whole.addLayout(row)
