"""Paints what lies over the parts of the drawing table, in mm, with words in pixels."""

from collections.abc import Sequence
from math import hypot

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPainterPath, QPolygonF

from armorplan.desktop.colours import Colours
from armorplan.desktop.shape_edit_over import Ghost, OverTable
from armorplan.desktop.shape_edit_scene import TableAxis, TableRow, TableScene, middle
from armorplan.desktop.shape_edit_words import backbone_words, up_words
from armorplan.desktop.widgets.parts_items import ring_path
from armorplan.desktop.widgets.shape_edit_items import TablePart, cosmetic, hole_path
from armorplan.desktop.widgets.shape_edit_labels import TableLabels
from armorplan.pattern.parts import Part, Ring, heading

RING_OUT_PX = 3.0
LEAST_RING_PX = 6.0
ARROWS_MOST = 3
"""Of more parts none shows which way is up."""
BESIDE_PX = 22.0
"""How far the second arrow stands beside the first."""
NUMBER_OFF_PX = 12.0
WAY_OFF_PX = 22.0
LINKS_MOST = 40
"""Of more joints the lines to their other layers would hide the drawing."""
NUMBERS_SCALE = 1.6
"""Below so many pixels to the mm the numbers of a row would stand on each other."""


class TablePainter:
    """One painting of what lies over the parts."""

    def __init__(
        self,
        painter: QPainter,
        scene: TableScene,
        items: Sequence[TablePart],
        over: OverTable,
        colours: Colours,
    ) -> None:
        self._painter, self._scene, self._items = painter, scene, items
        self._over, self._colours, self._scale = over, colours, painter.worldTransform().m11()
        self._labels = TableLabels(painter, colours)

    def paint(self) -> None:
        """Paint all, what matters most last."""
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        parts = self._over.choice.parts
        self._labels.names(self._items, parts if len(parts) <= ARROWS_MOST else ())
        self._spare()
        self._rows()
        for axis in self._scene.axes:
            self._axis(axis)
        for ghost in self._over.ghosts:
            self._ghost(ghost)
        for part in self._over.choice.parts:
            self._chosen_part(self._scene.pattern.part(part))
        self._chosen_outlines()
        self._links()
        self._chosen_holes()
        self._moved()
        self._labels.marks(self._over.marks, self._items)

    # --- what is in the pattern ---------------------------------------------------------------

    def _spare(self) -> None:
        """Outlines that are no part are dotted, with their ids."""
        for one in self._scene.spare:
            self._painter.setPen(cosmetic(self._colours.quiet, 1.6, Qt.PenStyle.DotLine))
            self._painter.drawPath(ring_path(one.ring))
            at = QPointF(*middle(one.ring))
            self._labels.write(one.id, at, QPointF(0, 0), self._colours.quiet)

    def _rows(self) -> None:
        holes = self._over.choice.holes
        chosen = {row.seam for hole in holes for row in self._scene.rows_of(hole)}
        quiet = cosmetic(self._colours.quiet, 1.0, Qt.PenStyle.DashLine)
        lit = cosmetic(self._colours.focus, 2.0, Qt.PenStyle.DashLine)
        for row in self._scene.rows:
            self._painter.setPen(lit if row.seam in chosen else quiet)
            self._painter.drawPolyline(QPolygonF([QPointF(*at) for at in row.line]))
            if row.seam in chosen and self._scale > NUMBERS_SCALE:
                self._numbers(row)

    def _numbers(self, row: TableRow) -> None:
        """Number the holes of a row on the side that is farther from the middle of the part."""
        x, y = middle(self._scene.pattern.part(row.part).outline)
        for number, (at_x, at_y) in enumerate(row.line, start=1):
            away = hypot(at_x - x, at_y - y) or 1.0
            off = QPointF((x - at_x) / away, (y - at_y) / away) * NUMBER_OFF_PX
            radius_px = self._scene.pattern.hole(row.holes[number - 1]).diameter_mm / 2
            off = off * (1 + radius_px * self._scale / NUMBER_OFF_PX)
            self._labels.write(f"{number}", QPointF(at_x, at_y), off, self._colours.text)

    def _axis(self, axis: TableAxis) -> None:
        is_chosen = axis.form in self._over.choice.forms
        colour = self._colours.focus if is_chosen else self._colours.paused
        self._painter.setPen(cosmetic(colour, 3.0 if is_chosen else 1.6, Qt.PenStyle.DashDotLine))
        ends = [QPointF(*end) for end in axis.ends]
        self._painter.drawLine(*ends)
        self._painter.setPen(cosmetic(colour, 7.0))
        self._painter.drawPoints(QPolygonF(ends))
        told = [axis.form]
        told += [f"r {axis.radius_mm:g} mm"] if axis.radius_mm is not None else []
        told += [f"{axis.angle_deg:g}°"] if axis.angle_deg is not None else []
        if is_chosen:
            self._labels.write(", ".join(told), (ends[0] + ends[1]) / 2, QPointF(0, -14), colour)

    # --- what is chosen -----------------------------------------------------------------------

    def _chosen_part(self, part: Part) -> None:
        path = self._lit(part.outline)
        if len(self._over.choice.parts) > ARROWS_MOST:
            return
        at = path.boundingRect().center()
        self._labels.arrow(at, heading(part.up_deg), up_words(), self._colours.focus)
        if part.backbone_deg is not None:
            way = heading(part.backbone_deg)
            aside = QPointF(-way[1], way[0]) * (BESIDE_PX / self._scale)
            self._labels.arrow(at + aside, way, backbone_words(), self._colours.paused, side=1)

    def _chosen_outlines(self) -> None:
        choice, scene = self._over.choice, self._scene
        for ring in (
            *(scene.pattern.slot(name).outline for name in choice.slots),
            *(scene.spare_outline(name).ring for name in choice.spare),
        ):
            self._lit(ring)

    def _lit(self, ring: Ring) -> QPainterPath:
        path = ring_path(ring)
        for pen in (cosmetic(self._colours.panel, 7.0), cosmetic(self._colours.focus, 3.5)):
            self._painter.strokePath(path, pen)
        return path

    def _chosen_holes(self) -> None:
        """A ring of its own around each, so that many small ones are seen from afar."""
        out_mm, least_mm = RING_OUT_PX / self._scale, LEAST_RING_PX / self._scale
        holes = [self._scene.pattern.hole(name) for name in self._over.choice.holes]
        for pen in (cosmetic(self._colours.panel, 6.0), cosmetic(self._colours.focus, 3.0)):
            self._painter.setPen(pen)
            for hole in holes:
                radius_mm = max(hole.diameter_mm / 2 + out_mm, least_mm)
                self._painter.drawEllipse(QPointF(*hole.centre), radius_mm, radius_mm)

    def _moved(self) -> None:
        pen = cosmetic(self._colours.focus, 2.0, Qt.PenStyle.DashLine)
        for name, at in self._over.moved.items():
            hole = self._scene.pattern.hole(name)
            self._painter.setPen(cosmetic(self._colours.quiet, 1.2))
            self._painter.drawLine(QPointF(*hole.centre), QPointF(*at))
            way = QPointF(*at) - QPointF(*hole.centre)
            self._painter.strokePath(hole_path(hole).translated(way), pen)
            if name == next(iter(self._over.moved)):
                told = f"{way.x():+.4g}, {way.y():+.4g} mm"
                off = QPointF(0, -WAY_OFF_PX)
                self._labels.write(told, QPointF(*at), off, self._colours.text)

    def _links(self) -> None:
        """Join a chosen hole to those of the other layers of its joint."""
        pattern = self._scene.pattern
        self._painter.setPen(cosmetic(self._colours.focus, 1.2))
        for joint in self._over.choice.joints(self._scene)[:LINKS_MOST]:
            line = [QPointF(*pattern.hole(hole).centre) for hole in pattern.joint(joint).stack]
            self._painter.drawPolyline(QPolygonF(line))

    # --- what is not in the pattern -----------------------------------------------------------

    def _ghost(self, ghost: Ghost) -> None:
        colour = self._colours.paused
        self._painter.setPen(cosmetic(colour, 2.0, Qt.PenStyle.DashLine))
        if ghost.outline:
            self._painter.drawPath(ring_path(ghost.outline))
        self._painter.setPen(cosmetic(colour, 2.0))
        for at, across_mm in ghost.holes:
            self._painter.drawEllipse(QPointF(*at), across_mm / 2, across_mm / 2)
        self._painter.setPen(cosmetic(colour, 1.4))
        for one, other in ghost.pairs:
            self._painter.drawLine(QPointF(*one), QPointF(*other))
