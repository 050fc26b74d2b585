"""A part before and after, one over the other; arrows, Home and End go from part to part."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from armorplan.app.wearer_model import SizedPart
from armorplan.desktop.colours import Colours
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.pattern.parts import Ring

PAD_PX = 14.0
LEAST_PX = (240, 180)


class SizedPicture(QWidget):
    """Shows one part at a time, to scale: as drawn with a broken line, as fitted with a whole one."""

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
        return self.tr("{0}, {1} of {2}: {3} × {4} mm, now {5} × {6} mm").format(
            part.name,
            self._at + 1,
            len(self._parts),
            f"{high:.1f}",
            f"{wide:.1f}",
            f"{new_high:.1f}",
            f"{new_wide:.1f}",
        )

    def sizeHint(self) -> QSize:
        wide, high = LEAST_PX
        return QSize(2 * wide, 2 * high)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}
        ends = {Qt.Key.Key_Home: 0, Qt.Key.Key_End: len(self._parts) - 1}
        key = Qt.Key(event.key())
        if key in keys:
            self.go(self._at + keys[key])
        elif key in ends:
            self.go(ends[key])
        else:
            super().keyPressEvent(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.setFocus()
        ahead = event.position().x() >= self.width() / 2
        self.go(self._at + (1 if ahead else -1))

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

    def on_page(ring: Ring) -> QPolygonF:
        centre = room.center()
        return QPolygonF(
            [
                QPointF(centre.x() + (x - middle[0]) * scale, centre.y() + (y - middle[1]) * scale)
                for x, y in ring
            ]
        )

    painter.setPen(QPen(QColor(colours.edge), 1.6))
    painter.setBrush(QColor(colours.leather))
    painter.drawPolygon(on_page(part.after))
    painter.setPen(QPen(QColor(colours.text), 1.4, Qt.PenStyle.DashLine))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawPolygon(on_page(part.before))
