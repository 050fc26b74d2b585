"""Baths of the week: trays with what they hold, and where one is changed for another."""

from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFontMetricsF, QPainter, QPainterPath, QPen

from armorplan.desktop.colours import Colours
from armorplan.desktop.picture_colours import mixed
from armorplan.desktop.week_layout import Lane
from armorplan.desktop.widgets.week_sheet import PAD_PX, Sheet

_SLANT_PX = 7.0
LEVEL_PX = 9.0
_TINT = 0.55
_WEAVES = (
    Qt.BrushStyle.BDiagPattern,
    Qt.BrushStyle.Dense5Pattern,
    Qt.BrushStyle.CrossPattern,
    Qt.BrushStyle.HorPattern,
    Qt.BrushStyle.FDiagPattern,
    Qt.BrushStyle.VerPattern,
    Qt.BrushStyle.DiagCrossPattern,
)
"""Each colour of a bath has a weave of its own beside its hue and its name."""


def tray_path(box: QRectF) -> QPainterPath:
    """Return the outline of a tray: wider at its rim."""
    slant = min(_SLANT_PX, box.width() / 4)
    path = QPainterPath()
    path.moveTo(box.topLeft())
    path.lineTo(box.topRight())
    path.lineTo(box.right() - slant, box.bottom())
    path.lineTo(box.left() + slant, box.bottom())
    path.closeSubpath()
    return path


def family_brush(
    family: str, families: tuple[str, ...], colours: Colours
) -> tuple[QColor, QBrush]:
    """Return the tint and the weave of what a bath holds."""
    place = families.index(family) if family in families else 0
    hues = (colours.running, colours.drying, colours.paused, colours.ready, colours.early)
    hue = hues[place % len(hues)]
    return QColor(mixed(colours.panel, hue, _TINT)), QBrush(
        QColor(hue), _WEAVES[place % len(_WEAVES)]
    )


def paint_liquid(painter: QPainter, sheet: Sheet, lane: Lane) -> None:
    """Paint below each dip what the bath holds until it is changed, and the changes."""
    geometry, families = sheet.geometry, sheet.geometry.week.families
    left, right = geometry.x(sheet.seen[0]), geometry.x(sheet.seen[1])
    held, since = lane.of.holds, min(left, 0.0)
    for block in lane.blocks:
        box, family = geometry.boxes[block.key], block.bars[0].family
        if family != held:
            wash_px = lane.of.change_min / 60 * geometry.px_an_hour if held else 0.0
            _paint_level(painter, sheet, (since, box.left() - wash_px), box, (held, families))
            if held:
                _paint_change(painter, sheet, box, wash_px)
            held, since = family, box.left()
    if lane.blocks:
        box = geometry.boxes[lane.blocks[-1].key]
        _paint_level(painter, sheet, (since, max(right, box.right())), box, (held, families))


def _paint_level(
    painter: QPainter,
    sheet: Sheet,
    across: tuple[float, float],
    box: QRectF,
    what: tuple[str, tuple[str, ...]],
) -> None:
    family, families = what
    left = max(across[0], sheet.geometry.x(sheet.seen[0]))
    right = min(across[1], sheet.geometry.x(sheet.seen[1]))
    if not family or right <= left:
        return
    tint, weave = family_brush(family, families, sheet.colours)
    level = QRectF(left, box.bottom(), right - left, LEVEL_PX)
    painter.fillRect(level, tint)
    painter.fillRect(level, weave)


def _paint_change(painter: QPainter, sheet: Sheet, box: QRectF, wash_px: float) -> None:
    """A clean gap before a dip of another colour, with its word where that fits."""
    wide = max(wash_px, 6.0)
    gap = QRectF(box.left() - wide, box.center().y(), wide, box.height() / 2 + LEVEL_PX)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(sheet.colours.panel))
    painter.drawRect(gap)
    painter.setPen(QPen(QColor(sheet.colours.text), 1.2))
    words = sheet.change
    metrics = QFontMetricsF(sheet.font)
    if metrics.horizontalAdvance(words) + PAD_PX <= gap.width():
        painter.setFont(sheet.font)
        painter.setPen(QColor(sheet.colours.text))
        painter.drawText(gap, Qt.AlignmentFlag.AlignCenter, words)
    else:
        middle = gap.center().x()
        for aside in (-1.5, 1.5):
            painter.drawLine(
                QPointF(middle + aside, gap.top() + 3), QPointF(middle + aside, gap.bottom() - 3)
            )


def changes_in(lane: Lane) -> int:
    """Return how often a bath is changed from one colour to another."""
    families = [lane.of.holds, *(block.bars[0].family for block in lane.blocks)]
    return sum(bool(one) and one != other for one, other in pairwise(families))
