"""What lies under a place on the drawing table, and the edge of what a key names."""

from collections.abc import Sequence
from math import hypot

from PySide6.QtCore import QPointF
from PySide6.QtGui import QPainterPath

from armorplan.desktop.shape_edit_scene import AXIS, HOLE, PART, SLOT, SPARE, TableScene
from armorplan.desktop.widgets.parts_items import ring_path
from armorplan.desktop.widgets.shape_edit_items import TablePart, hole_path
from armorplan.pattern.parts import Point

REACH_PX = 12.0
"""Half of the least target size (WCAG 2.2, success criterion 2.5.8: 24 px)."""
AXIS_PX = 6.0
RING_OFF_PX = 6.0


def key_at(scene: TableScene, items: Sequence[TablePart], at: QPointF, scale: float) -> str:
    """Return what lies at a place at a scale in pixels to the mm: a hole before a slot, line, part."""
    found = _hole_at(items, at, REACH_PX / scale) or _slot_at(items, at)
    found = found or _axis_at(scene, at, AXIS_PX / scale)
    return found or _part_at(items, at) or _spare_at(scene, at)


def _hole_at(items: Sequence[TablePart], at: QPointF, reach_mm: float) -> str:
    found: list[tuple[float, str]] = []
    for item in items:
        if not item.boundingRect().contains(at):
            continue
        for hole in item.part.holes:
            away = hypot(hole.centre[0] - at.x(), hole.centre[1] - at.y())
            if away <= max(min(reach_mm, 2 * hole.diameter_mm), hole.diameter_mm / 2):
                found.append((away, HOLE + hole.id))
    return min(found)[1] if found else ""


def _slot_at(items: Sequence[TablePart], at: QPointF) -> str:
    slots = (s for item in items if item.boundingRect().contains(at) for s in item.part.slots)
    return next((SLOT + slot.id for slot in slots if ring_path(slot.outline).contains(at)), "")


def _axis_at(scene: TableScene, at: QPointF, reach_mm: float) -> str:
    near = (axis.form for axis in scene.axes if _off_line_mm(at, axis.ends) <= reach_mm)
    return next((AXIS + form for form in near), "")


def _spare_at(scene: TableScene, at: QPointF) -> str:
    return next((SPARE + one.id for one in scene.spare if ring_path(one.ring).contains(at)), "")


def _part_at(items: Sequence[TablePart], at: QPointF) -> str:
    return next((PART + item.part.id for item in items if item.outline.contains(at)), "")


def edge_of(scene: TableScene, key: str, scale: float) -> QPainterPath:
    """Return the outline of a thing, in mm; around a hole a square somewhat larger."""
    pattern, name = scene.pattern, key.partition(":")[2]
    if key.startswith(PART):
        return ring_path(pattern.part(name).outline)
    if key.startswith(SLOT):
        return ring_path(pattern.slot(name).outline)
    if key.startswith(SPARE):
        return ring_path(scene.spare_outline(name).ring)
    path = QPainterPath()
    if key.startswith(HOLE):
        off = RING_OFF_PX / scale
        path.addRect(hole_path(pattern.hole(name)).boundingRect().adjusted(-off, -off, off, off))
        return path
    for axis in scene.axes:
        if axis.form == name:
            path.moveTo(QPointF(*axis.ends[0]))
            path.lineTo(QPointF(*axis.ends[1]))
    return path


def _off_line_mm(at: QPointF, ends: tuple[Point, Point]) -> float:
    """Return how far a place lies off a line from end to end, in mm."""
    (ax, ay), (bx, by) = ends
    length2 = (bx - ax) ** 2 + (by - ay) ** 2 or 1.0
    along = ((at.x() - ax) * (bx - ax) + (at.y() - ay) * (by - ay)) / length2
    along = min(max(along, 0.0), 1.0)
    return hypot(ax + along * (bx - ax) - at.x(), ay + along * (by - ay) - at.y())
