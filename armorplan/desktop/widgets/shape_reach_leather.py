"""Draws the leather of a section cut through: its walls, the opening between them, the joint."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPen

from armorplan.desktop.picture_colours import leather, mixed
from armorplan.desktop.reach_layout import HEAD_PX, WALL_PX
from armorplan.desktop.widgets.shape_reach_page import BEYOND_PX, HEAD_WIDE_PX, SectionPage
from armorplan.desktop.widgets.shape_sheet_painting import dashed, solid, width_of, write
from armorplan.geometry.ways_in import Fits, SectionTool, SectionWay
from armorplan.pattern.parts import PartKind

SHAFT_PX = 4.0
STROKE_PX = 5.0
SQUASHED_PX = 60.0


class LeatherSketch(SectionPage):
    """Draws the wall that a joint sits in, and the one across."""

    def _far_x(self, way: SectionWay, tool: SectionTool) -> float:
        deep_mm = way.along_mm if tool.fits is Fits.NOT else max(way.along_mm, tool.reach_mm)
        return min(self.lay.x(deep_mm) + BEYOND_PX, self.box.right())

    def walls(self, way: SectionWay, tool: SectionTool) -> None:
        """The wall from the opening to the joint is drawn whole; what lies past it is pale."""
        lay, far = self.lay, self._far_x(way, tool)
        above, below = lay.roof_y - WALL_PX, lay.floor_y
        joint_x = lay.x(way.along_mm) + HEAD_WIDE_PX / 2
        self._wall(above, lay.mouth_x, far, is_pale=True)
        self._wall(above, lay.mouth_x, min(joint_x, far), is_pale=False)
        if way.opening_mm is not None:
            self._wall(below, lay.mouth_x, far, is_pale=True)

    def _wall(self, y: float, start: float, end: float, *, is_pale: bool) -> None:
        fill = leather(self.colours, PartKind.PLATE, 2)
        edge = QColor(self.colours.edge)
        if is_pale:
            fill = mixed(fill, self.colours.panel, 0.45)
            edge = QColor(mixed(self.colours.edge, self.colours.panel, 0.5))
        slab = QRectF(start, y, end - start, WALL_PX)
        hatch = QBrush(QColor(mixed(fill, self.colours.edge, 0.3)), Qt.BrushStyle.BDiagPattern)
        self.painter.fillRect(slab, QColor(fill))
        self.painter.fillRect(slab, hatch)
        self.painter.setPen(QPen(edge, 1.3))
        self.painter.drawLine(slab.topLeft(), slab.topRight())
        self.painter.drawLine(slab.bottomLeft(), slab.bottomRight())
        self.painter.drawLine(slab.topLeft(), slab.bottomLeft())

    def opening(self, way: SectionWay, tool: SectionTool) -> None:
        """Measure the opening across; where that matters, dashed, how wide it is squashed."""
        lay, colours = self.lay, self.colours
        if way.opening_mm is None:
            return
        x = lay.mouth_x - 6
        self.painter.setPen(solid(colours.quiet, 1.4))
        self.painter.drawLine(QPointF(x, lay.roof_y), QPointF(x, lay.floor_y))
        for y in (lay.roof_y, lay.floor_y):
            self.painter.drawLine(QPointF(x - 4, y), QPointF(x + 4, y))
        if lay.is_cut:
            for down in (0.0, 4.0):
                start = QPointF(x - STROKE_PX, lay.floor_y - 9 + down)
                self.painter.drawLine(start, start + QPointF(2 * STROKE_PX, -6))
        elif tool.fits is not Fits.OPEN and way.squashed_mm is not None:
            y = lay.roof_y + way.squashed_mm * lay.scale
            self.painter.setPen(dashed(colours.drying, 1.6))
            start = QPointF(lay.mouth_x - 12, y)
            self.painter.drawLine(start, start + QPointF(SQUASHED_PX, 0))

    def zone(self, way: SectionWay) -> None:
        """Shade where the joint may lie."""
        lay, colours = self.lay, self.colours
        if self.is_span(way):
            least, most = lay.x(way.least_mm), lay.x(way.along_mm)
            shade = QRectF(least, lay.roof_y, most - least, lay.floor_y - lay.roof_y)
            self.painter.fillRect(shade, QColor(mixed(colours.panel, colours.running, 0.14)))

    def bounds(self, way: SectionWay, tool: SectionTool) -> None:
        """Lead from where the joint is, or may be, down to the words that say so."""
        lay, body = self.lay, self.tool_box(tool)
        self.painter.setPen(dashed(self.colours.running, 1.2))
        for mm in (way.least_mm, way.along_mm) if self.is_span(way) else (way.along_mm,):
            x = lay.x(mm)
            top = body.bottom() if x < body.right() else lay.roof_y
            self.painter.drawLine(QPointF(x, min(top, lay.words_y)), QPointF(x, lay.words_y))

    def joint(self, way: SectionWay, joint: str) -> None:
        """The fastener sits in the wall; dashed where it is at least, as the leather may curve."""
        lay, colours = self.lay, self.colours
        if self.is_span(way):
            self._rivet(lay.x(way.least_mm), is_sure=False)
        self._rivet(lay.x(way.along_mm), is_sure=True)
        half = width_of(self.sheet, joint) / 2 + 3
        middle = min(lay.x(way.along_mm), self.box.right() - half)
        middle = max(middle, self.box.left() + half)
        top = lay.roof_y - WALL_PX - HEAD_PX - self.sheet.line_px / 2
        write(self.painter, self.sheet, QPointF(middle, top), joint, colours.text)

    def _rivet(self, x: float, *, is_sure: bool) -> None:
        top = self.lay.roof_y - WALL_PX
        metal = QColor(mixed(self.colours.bar, self.colours.edge, 0.35))
        self.painter.setPen(self.edge if is_sure else dashed(self.colours.edge, 1.2))
        self.painter.setBrush(metal if is_sure else Qt.BrushStyle.NoBrush)
        dome = QRectF(x - HEAD_WIDE_PX / 2, top - HEAD_PX, HEAD_WIDE_PX, 2 * HEAD_PX)
        self.painter.drawChord(dome, 0, 180 * 16)
        if is_sure:
            shaft = QRectF(x - SHAFT_PX / 2, top, SHAFT_PX, WALL_PX + 2)
            self.painter.drawRect(shaft)
