"""Draws the tool of a section: as long as it reaches, and what it misses or has to spare."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont

from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.shapes_reach_words import gap_words, refused_words, whole_mm
from armorplan.desktop.widgets.shape_reach_page import APART_PX, SectionPage
from armorplan.desktop.widgets.shape_sheet_painting import (
    Sheet,
    arrow,
    dashed,
    solid,
    width_of,
    write,
    write_line,
)
from armorplan.geometry.ways_in import Ends, Fits, SectionTool, SectionWay, ends

ROUND_PX = 6.0


class ToolSketch(SectionPage):
    """Draws a tool beside the wall with the joint; before the opening where it does not go in."""

    def tool(self, tool: SectionTool) -> None:
        """A bar as long as it reaches, its outer end broken off."""
        body = self.tool_box(tool)
        metal = mixed(self.colours.bar, self.colours.edge, 0.2)
        painter = self.painter
        painter.save()
        painter.setClipRect(body.adjusted(0, -2, 3, 3))
        painter.setPen(self.edge)
        painter.setBrush(QColor(metal))
        painter.drawRoundedRect(body.adjusted(-20, 0, 0, 0), ROUND_PX, ROUND_PX)
        painter.restore()
        painter.setPen(dashed(self.colours.edge, 1.2))
        painter.drawLine(body.topLeft(), body.bottomLeft())

    def ending(self, way: SectionWay, tool: SectionTool, colour: str) -> None:
        """Name the tool, and tell where it ends."""
        if tool.fits is Fits.NOT:
            self._refused(way, tool)
        else:
            self._name(way, tool)
            self._gap(way, tool, colour)

    def _name(self, way: SectionWay, tool: SectionTool) -> None:
        """Write a tool's name and reach on it, or below it where a measured line takes that room."""
        text = f"{tool.name}, {whole_mm(tool.reach_mm)}"
        body, line = self.tool_box(tool), self.sheet.line_px
        room = body.adjusted(8, 0, -8, 0)
        if ends(way, tool) is Ends.BEYOND:
            if self._has_lanes(body):
                room.setHeight(line + 6)
            else:
                room.setRight(min(room.right(), self.lay.x(way.along_mm) - 4))
        below = QRectF(body.left() + 8, body.bottom() + 2, body.width(), line)
        fits = room.width() >= width_of(self.sheet, text) and room.height() >= line
        if not fits and below.bottom() <= self.lay.floor_y:
            room = below
        write_line(self.painter, self.sheet, room, text)

    def _gap(self, way: SectionWay, tool: SectionTool, colour: str) -> None:
        """Measure from where the tool ends to where the joint is, or may be."""
        lay, body = self.lay, self.tool_box(tool)
        how = ends(way, tool)
        start = lay.x(tool.reach_mm)
        end = lay.x(way.least_mm if how is Ends.SHORT else way.along_mm)
        y = min(body.center().y(), lay.roof_y + 1.2 * self.sheet.line_px)
        if how is Ends.BEYOND:
            lane = self.sheet.line_px / 2 + 3
            y = body.bottom() - (lane if self._has_lanes(body) else body.height() / 2)
        self._measured(start, end, y, colour)
        words = gap_words(way, tool)
        half = width_of(self.sheet, words) / 2 + 4
        middle = (start + end) / 2
        if abs(end - start) < 2 * half + 2 * APART_PX:
            middle = max(start, end) + half + 8
        if middle <= self.box.right() - half + 4:  # else the heading says it alone
            write(self.painter, self._bold(), QPointF(middle, y), words, colour)

    def _has_lanes(self, body: QRectF) -> bool:
        """Tell whether a tool is drawn thick enough for its name and a measured line below it."""
        return body.height() >= 2 * self.sheet.line_px + 8

    def _bold(self) -> Sheet:
        font = QFont(self.sheet.font)
        font.setBold(True)
        return Sheet(colours=self.colours, font=font)

    def _measured(self, start: float, end: float, y: float, colour: str) -> None:
        """Draw a measured line with a tip at both ends, between two strokes."""
        if abs(end - start) < 1:
            return
        middle = (start + end) / 2
        for x in (start, end):
            arrow(self.painter, QPointF(middle, y), QPointF(x, y), colour)
            self.painter.setPen(solid(colour, 1.6))
            self.painter.drawLine(QPointF(x, y - 7), QPointF(x, y + 7))

    def _refused(self, way: SectionWay, tool: SectionTool) -> None:
        """Cross out a tool that stands before an opening that is too narrow for it."""
        body, colour = self.tool_box(tool), self.colours.alarm
        self.painter.setPen(solid(colour, 2.6))
        middle, half = QPointF(body.right() - 14, body.center().y()), 9.0
        for way_up in (-1, 1):
            across = QPointF(half, half * way_up)
            self.painter.drawLine(middle - across, middle + across)
        words = f"{tool.name} {refused_words(way, tool)}"
        left = self.lay.mouth_x + APART_PX
        short = self.sheet.metrics.elidedText(
            words, Qt.TextElideMode.ElideMiddle, self.box.right() - left - 8
        )
        half_px = width_of(self.sheet, short) / 2 + 3
        y = (self.lay.roof_y + self.lay.floor_y) / 2
        write(self.painter, self.sheet, QPointF(left + half_px, y), short, colour)
