"""Writes the lengths of a section below it, and draws further tools to the same scale."""

from collections.abc import Iterable

from PySide6.QtCore import QPointF, QRectF, QSizeF
from PySide6.QtGui import QColor, QFont, QPen

from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.reach_layout import ruler_mm
from armorplan.desktop.shapes_reach_words import depth_words, opening_words, tool_words, whole_mm
from armorplan.desktop.widgets.shape_reach_page import APART_PX, SectionPage
from armorplan.desktop.widgets.shape_sheet_painting import (
    Sheet,
    dashed,
    solid,
    width_of,
    write,
    write_line,
)
from armorplan.geometry.ways_in import Fits, SectionTool, SectionWay

BAR_PX = 5.0
RULER_PX = 120.0
LEAST_RULER_PX = 24.0
CUT_SHARE = 0.5
"""Words on an opening that is drawn narrower take no more of the width."""


class LengthSketch(SectionPage):
    """Draws what stands below a section."""

    def lengths(self, way: SectionWay, *, is_low: bool) -> None:
        """Write below it the opening, the depth, and how long so many mm are drawn."""
        lay, sheet, box = self.lay, self.sheet, self.box
        line = QRectF(box.left(), lay.words_y, box.width(), sheet.line_px)
        opening = opening_words(way, is_cut=lay.is_cut)
        if width_of(sheet, opening) > CUT_SHARE * box.width():
            opening = opening_words(way)
        room_px = line.width() - width_of(sheet, depth_words(way)) - APART_PX - 6
        opening_px = min(width_of(sheet, opening) + 1, room_px)
        place = QRectF(line.topLeft(), QSizeF(opening_px, line.height()))
        write_line(self.painter, sheet, place, opening)
        start = place.right() + APART_PX
        words = depth_words(way)
        half = width_of(sheet, words) / 2 + 3
        middle = (lay.x(way.least_mm) + lay.x(way.along_mm)) / 2
        middle = max(min(middle, line.right() - half), start + half)
        at = QPointF(middle, line.center().y())
        write(self.painter, sheet, at, words, self.colours.running)
        if not is_low:
            below = line.translated(0, sheet.line_px)
            self._paint_scale(QRectF(below.adjusted(lay.mouth_x - box.left(), 0, 0, 0)))
            return
        left = QRectF(line)
        left.setLeft(start)
        left.setRight(middle - half - APART_PX)
        right = line.adjusted(middle + half + APART_PX - line.left(), 0, 0, 0)
        self._paint_scale(max(left, right, key=lambda room: room.width()))

    def _paint_scale(self, room: QRectF) -> None:
        """Draw a scale bar at the left of a room, with its length; none where it has too little."""
        lay, sheet = self.lay, self.sheet
        words_px = width_of(sheet, whole_mm(1000)) + APART_PX
        if room.width() < words_px + LEAST_RULER_PX:
            return
        long_mm = ruler_mm(lay.scale, min(RULER_PX, room.width() - words_px))
        y, start, end = room.center().y(), room.left(), room.left() + long_mm * lay.scale
        self.painter.setPen(solid(self.colours.quiet, 1.6))
        self.painter.drawLine(QPointF(start, y), QPointF(end, y))
        for x in (start, end):
            self.painter.drawLine(QPointF(x, y - 4), QPointF(x, y + 4))
        words = QRectF(end + 8, room.top(), words_px, room.height())
        write_line(self.painter, sheet, words, whole_mm(long_mm), self.colours.quiet)

    def bars(self, way: SectionWay, tools: Iterable[SectionTool], bottom: float) -> None:
        """Paint further tools as thin bars to the same scale, line by line, up to a height."""
        told = tuple(tools)
        lay, high = self.lay, self.sheet.line_px
        top = bottom - 4 - len(told) * high
        if told:
            self.painter.setPen(dashed(self.colours.running, 1.2))
            for mm in {way.least_mm, way.along_mm}:
                self.painter.drawLine(QPointF(lay.x(mm), top), QPointF(lay.x(mm), bottom - 4))
        for at, tool in enumerate(told):
            self._bar(way, tool, top + at * high)

    def _bar(self, way: SectionWay, tool: SectionTool, top: float) -> None:
        lay, high, refused = self.lay, self.sheet.line_px, tool.fits is Fits.NOT
        metal = mixed(self.colours.bar, self.colours.edge, 0.2 if refused else 0.45)
        end = min(lay.x(tool.reach_mm), self.box.right())
        bar = QRectF(lay.mouth_x, top + (high - BAR_PX) / 2, end - lay.mouth_x, BAR_PX)
        self.painter.setPen(QPen(QColor(self.colours.edge), 1.0))
        self.painter.setBrush(QColor(metal))
        self.painter.drawRect(bar)
        named = f"{tool.name}, {whole_mm(tool.reach_mm)}"
        more = tool_words(way, tool)
        font = QFont(self.sheet.font)
        font.setStrikeOut(refused)
        sheet = Sheet(colours=self.colours, font=font)
        half = width_of(sheet, named) / 2 + 3
        more_half = width_of(self.sheet, more) / 2 + 3
        left = min(end + 6, self.box.right() - 2 * (half + more_half) - 6)
        left = max(left, self.box.left())
        y = top + high / 2
        write(self.painter, sheet, QPointF(left + half, y), named, self.colours.quiet)
        tone = self.colours.alarm if refused else self.colours.text
        at = QPointF(left + 2 * half + 6 + more_half, y)
        write(self.painter, self.sheet, at, more, tone)
