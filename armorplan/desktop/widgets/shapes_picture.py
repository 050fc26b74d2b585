"""The picture of one measure, as large as there is room; its content is its accessible name."""

from PySide6.QtCore import QEvent, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFocusEvent, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from armorplan.desktop.shapes_picture_words import picture_words
from armorplan.desktop.theme import colours_of
from armorplan.desktop.widgets.checklist_delegate import small_font
from armorplan.desktop.widgets.shape_bend_painting import bend_height, paint_bend
from armorplan.desktop.widgets.shape_lames_painting import (
    lames_height,
    lames_least,
    paint_lames,
)
from armorplan.desktop.widgets.shape_reach_painting import LOW, paint_reach, reach_height
from armorplan.desktop.widgets.shape_rows_painting import paint_rows, rows_height
from armorplan.desktop.widgets.shape_sheet_painting import PAD_PX, Sheet
from armorplan.desktop.widgets.stack_painting import (
    high_mm,
    paint_stack,
    stack_height_px,
    wide_mm,
)
from armorplan.geometry.pictures import (
    BendPicture,
    LamesPicture,
    Picture,
    RowsPicture,
    StackPicture,
)
from armorplan.geometry.ways_in import ReachPicture

MOST_STACK_PX_A_MM = 16.0
LEAST_STACK_PX_A_MM = 6.0
LEAST_BEND_LINES = 7
STACK_SHARE = 0.45
"""Share of the width that a section of a stack takes; the rest is for its words."""
LEAST_PX = 60


class ShapePicture(QWidget):
    """Paints what it is given; can take the keyboard, so that it can be heard."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("shapes_picture")
        self.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._picture: Picture | None = None

    @property
    def picture(self) -> Picture | None:
        """What is shown."""
        return self._picture

    def show_picture(self, picture: Picture | None) -> None:
        """Show a picture, or nothing."""
        self.setVisible(picture is not None)
        if picture == self._picture:
            return
        self._picture = picture
        if picture is not None:
            self.setAccessibleName(picture_words(picture))
            self.setToolTip(self.accessibleName())
        self.setMinimumHeight(self.least_px(self.width()))
        self.updateGeometry()
        self.update()

    def wanted_px(self, width_px: int) -> int:
        """Return the height that the picture needs at a width."""
        sheet = self._sheet()
        match self._picture:
            case RowsPicture():
                return round(rows_height(sheet, self._picture))
            case BendPicture():
                return round(bend_height(sheet, self._picture))
            case LamesPicture():
                return round(lames_height(sheet, self._picture, width_px))
            case ReachPicture():
                return reach_height(sheet, self._picture, width_px)
            case StackPicture():
                scale = self._stack_scale(self._picture, width_px, 10_000)
                wanted = stack_height_px(self._picture, scale, sheet.line_px)
                return round(wanted + 2 * PAD_PX)
        return 0

    def least_px(self, width_px: int) -> int:
        """Return the height below which it cannot be read, and has to be scrolled."""
        sheet = self._sheet()
        match self._picture:
            case LamesPicture():
                return round(lames_least(sheet, self._picture, width_px))
            case StackPicture():
                return round(stack_height_px(self._picture, LEAST_STACK_PX_A_MM, sheet.line_px))
            case BendPicture():
                return round(bend_height(sheet, self._picture, lines=LEAST_BEND_LINES))
            case ReachPicture():
                return reach_height(sheet, self._picture, width_px, LOW)
            case None:
                return 0
        return self.wanted_px(width_px) - round(PAD_PX)

    def sizeHint(self) -> QSize:
        return QSize(360, max(LEAST_PX, self.wanted_px(360)))

    def minimumSizeHint(self) -> QSize:
        return QSize(160, LEAST_PX)

    def _sheet(self) -> Sheet:
        return Sheet(colours=colours_of(self.palette()), font=small_font(self.font()))

    def _stack_scale(self, picture: StackPicture, width_px: float, height_px: float) -> float:
        wide = width_px * STACK_SHARE / wide_mm(picture)
        high = max(height_px - 2 * PAD_PX - 4, 1.0) / high_mm(picture)
        return max(1.0, min(MOST_STACK_PX_A_MM, wide, high))

    def paintEvent(self, event: QPaintEvent) -> None:
        sheet, box = self._sheet(), QRectF(self.rect())
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(box, QColor(sheet.colours.panel))
        match self._picture:
            case RowsPicture():
                paint_rows(painter, sheet, self._picture, box)
            case BendPicture():
                paint_bend(painter, sheet, self._picture, box)
            case LamesPicture():
                paint_lames(painter, sheet, self._picture, box)
            case ReachPicture():
                paint_reach(painter, sheet, self._picture, box)
            case StackPicture():
                self._paint_stack(painter, sheet, self._picture, box)
        if self.hasFocus():
            painter.setPen(QPen(QColor(sheet.colours.focus), 2))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(box.adjusted(1, 1, -1, -1))
        painter.end()

    def _paint_stack(
        self, painter: QPainter, sheet: Sheet, picture: StackPicture, box: QRectF
    ) -> None:
        painter.setFont(sheet.font)
        scale = self._stack_scale(picture, box.width(), box.height())
        room = box.adjusted(PAD_PX, PAD_PX, -PAD_PX, -PAD_PX)
        paint_stack(painter, room, picture, sheet.colours, scale)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.setMinimumHeight(self.least_px(self.width()))

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.PaletteChange, QEvent.Type.FontChange):
            self.updateGeometry()
            self.update()
