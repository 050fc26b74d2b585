"""Pictures of the beds as the blanks lie on them; arrows, Home and End go from bed to bed."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from armorplan.desktop.colours import Colours
from armorplan.desktop.cut_words import bed_words
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.announcing import announce
from armorplan.needs.cutting.model import CutShape, CutterBed
from armorplan.pattern.parts import Point, Ring

PAD_PX = 10.0
LEAST_PX = (260, 200)
_LEAST_WORD_PX = 24.0


class BedPicture(QWidget):
    """Shows one bed at a time, to scale; ``turned`` says which, from 0."""

    turned = Signal(int)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("cut_beds")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMinimumSize(*LEAST_PX)
        self._beds: tuple[CutterBed, ...] = ()
        self._at = 0
        self._name()

    @property
    def bed(self) -> CutterBed | None:
        """The bed that is shown; ``None`` where there is none."""
        return self._beds[self._at] if self._beds else None

    @property
    def at(self) -> int:
        """Which of the beds that is, from 0."""
        return self._at

    def show_beds(self, beds: tuple[CutterBed, ...]) -> None:
        """Show these, the same number as before where there is one."""
        self._beds = beds
        self.go(min(self._at, max(len(beds) - 1, 0)))

    def go(self, at: int) -> None:
        """Go to a bed; beyond the first or last it stays where it is."""
        if 0 <= at < max(len(self._beds), 1):
            self._at = at
            self._name()
            self.update()
            self.turned.emit(at)

    def step(self, by: int) -> None:
        """Go so many beds on, and say what lies there."""
        self.go(self._at + by)
        announce(self, self.accessibleDescription())

    def _name(self) -> None:
        self.setAccessibleName(self.tr("Beds with their blanks"))
        bed = self.bed
        self.setAccessibleDescription(bed_words(bed) if bed else self.tr("Nothing is laid."))

    def sizeHint(self) -> QSize:
        wide, high = LEAST_PX
        return QSize(2 * wide, 2 * high)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        keys = {Qt.Key.Key_Right: 1, Qt.Key.Key_Down: 1, Qt.Key.Key_Left: -1, Qt.Key.Key_Up: -1}
        ends = {Qt.Key.Key_Home: 0, Qt.Key.Key_End: len(self._beds) - 1}
        key = Qt.Key(event.key())
        if key in keys:
            self.step(keys[key])
        elif key in ends:
            self.step(ends[key] - self._at)
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        colours = colours_of(self.palette())
        bed = self.bed
        if bed is None:
            painter.setPen(QColor(colours.quiet))
            middle = Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap
            words = self.tr("Name a bed, and the blanks are laid on it.")
            painter.drawText(QRectF(self.rect()), int(middle), words)
        else:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            _Laying(bed, QRectF(self.rect()), colours).paint(painter)
        if self.hasFocus():
            painter.setPen(QPen(QColor(colours.focus), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()


class _Laying:
    """Paints one bed to scale in a box."""

    def __init__(self, bed: CutterBed, box: QRectF, colours: Colours) -> None:
        self._bed = bed
        self._colours = colours
        room = box.adjusted(PAD_PX, PAD_PX, -PAD_PX, -PAD_PX)
        self._px = max(min(room.width() / bed.wide_mm, room.height() / bed.high_mm), 1e-6)
        size = QRectF(0, 0, bed.wide_mm * self._px, bed.high_mm * self._px)
        size.moveCenter(room.center())
        self._on = size

    def paint(self, painter: QPainter) -> None:
        """Paint the bed, each blank with its name, and over that what is cut in it."""
        painter.setPen(QPen(QColor(self._colours.line), 1.2))
        painter.setBrush(QColor(self._colours.panel))
        painter.drawRect(self._on)
        edge = QPen(QColor(self._colours.edge), 1.2)
        painter.setPen(edge)
        painter.setBrush(QColor(self._colours.leather))
        for shape in self._bed.shapes:
            painter.drawPolygon(self._ring(shape.outline))
        for shape in self._bed.shapes:
            self._write(painter, shape)
        painter.setPen(edge)
        painter.setBrush(QColor(self._colours.panel))
        for shape in self._bed.shapes:
            self._paint_openings(painter, shape)

    def _paint_openings(self, painter: QPainter, shape: CutShape) -> None:
        for slot in shape.slots:
            painter.drawPolygon(self._ring(slot))
        for centre, diameter in shape.holes:
            radius = diameter / 2 * self._px
            painter.drawEllipse(self._spot(centre), radius, radius)

    def _write(self, painter: QPainter, shape: CutShape) -> None:
        """Write a blank's name within its box, in lines where it has room for them."""
        ring = self._ring(shape.outline).boundingRect()
        if ring.width() < _LEAST_WORD_PX:
            return
        words, flags = shape.name, int(Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap)
        box = painter.boundingRect(ring, flags, words)
        if box.height() > ring.height() or box.width() > ring.width():
            elide = Qt.TextElideMode.ElideMiddle
            words = painter.fontMetrics().elidedText(words, elide, int(ring.width()))
            flags = int(Qt.AlignmentFlag.AlignCenter)
            box = painter.boundingRect(ring, flags, words)
        ground = QColor(self._colours.panel)
        ground.setAlpha(215)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(ground)
        painter.drawRect(box)
        painter.setPen(QColor(self._colours.text))
        painter.drawText(ring, flags, words)

    def _ring(self, ring: Ring) -> QPolygonF:
        return QPolygonF([self._spot(point) for point in ring])

    def _spot(self, point: Point) -> QPointF:
        return QPointF(self._on.left() + point[0] * self._px, self._on.top() + point[1] * self._px)
