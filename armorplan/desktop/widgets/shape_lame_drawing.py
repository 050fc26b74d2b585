"""Paints lames from the side at one angle of the limb: plates, their numbers, gaps and overlaps."""

from dataclasses import dataclass
from itertools import combinations, pairwise
from math import hypot

from PySide6.QtCore import QCoreApplication, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPen, QPolygonF

from armorplan.desktop.picture_colours import leather
from armorplan.desktop.shapes_words import SOUND, mm_text, standing_colour
from armorplan.desktop.widgets.shape_mark_painting import paint_standing
from armorplan.desktop.widgets.shape_sheet_painting import Sheet, solid, write
from armorplan.desktop.widgets.stack_painting import spread
from armorplan.geometry.pictures import Bar, Overlap, Position

BACK_PX, SMALL_BACK_PX = 5.0, 3.0
PIVOT_PX, SMALL_PIVOT_PX = 3.5, 2.0
GAP_PX, TICK_PX, LEAD_PX = 3.0, 6.0, 1.6
_GROUND_ALPHA = 120


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """A position laid on the page: where it lies, and how many pixels a mm has."""

    position: Position
    move: QPointF
    scale: float

    def at(self, spot: tuple[float, float]) -> QPointF:
        """Return where a spot in mm lies on the page."""
        return self.move + QPointF(*spot) * self.scale

    def pairs(self) -> list[tuple[Bar, Bar, Overlap]]:
        """Return each two neighbours, the upper one first, with what lies over each other."""
        told = {frozenset((one.outer, one.inner)): one for one in self.position.overlaps}
        found = []
        for upper, lower in pairwise(self.position.bars):
            overlap = told.get(frozenset((upper.part, lower.part)))
            if overlap is not None:
                found.append((upper, lower, overlap))
        return found


def bounds_of(position: Position) -> QRectF:
    """Return what a position covers, in mm; empty without plates."""
    spots = [spot for bar in position.bars for spot in (*bar.back, *bar.pivots)]
    if not spots:
        return QRectF()
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return QRectF(QPointF(min(xs), min(ys)), QPointF(max(xs), max(ys)))


def scale_of(position: Position, room: QRectF) -> float:
    """Return how many pixels a mm may have for a position to fit."""
    bounds = bounds_of(position)
    wide = room.width() / max(bounds.width(), 1.0)
    return max(min(wide, room.height() / max(bounds.height(), 1.0)), 0.05)


def laid(position: Position, room: QRectF, scale: float) -> Drawn:
    """Lay a position into the middle of a room."""
    move = room.center() - bounds_of(position).center() * scale
    return Drawn(position=position, move=move, scale=scale)


def paint_plates(painter: QPainter, sheet: Sheet, drawn: Drawn, *, small: bool) -> None:
    """Paint the plates, then what opens between them; large ones with their numbers."""
    bars = drawn.position.bars
    for at, bar in enumerate(bars):
        _paint_bar(painter, sheet, (drawn, bar), layer=len(bars) - at, small=small)
    for upper, lower, overlap in drawn.pairs():
        if overlap.overlap_mm < 0:
            _paint_gap(painter, sheet, (drawn, upper, lower), overlap)
    if not small:
        for number, bar in enumerate(bars, start=1):
            write(painter, sheet, _number_at(drawn, bar), str(number))


def _paint_bar(
    painter: QPainter, sheet: Sheet, place: tuple[Drawn, Bar], *, layer: int, small: bool
) -> None:
    """A lame from the side: a heavy bar at the back, and thin lines from it to its pivots."""
    drawn, bar = place
    back, pivots = [drawn.at(s) for s in bar.back], [drawn.at(s) for s in bar.pivots]
    fill = QColor(leather(sheet.colours, "lame", layer))
    fill.setAlpha(_GROUND_ALPHA)
    painter.setPen(solid(sheet.colours.line, 1.0))
    painter.setBrush(fill)
    painter.drawPolygon(QPolygonF([*back, *reversed(pivots)]))
    painter.setPen(solid(sheet.colours.edge, SMALL_BACK_PX if small else BACK_PX))
    painter.drawPolyline(QPolygonF(back))
    painter.setPen(solid(sheet.colours.edge, 1.4))
    painter.setBrush(QColor(sheet.colours.panel))
    size = SMALL_PIVOT_PX if small else PIVOT_PX
    for pivot in pivots:
        painter.drawEllipse(pivot, size, size)


def _number_at(drawn: Drawn, bar: Bar) -> QPointF:
    """Return a spot within a plate, nearer its back than its pivots."""
    if not bar.pivots:
        return drawn.at(bar.back[len(bar.back) // 2])
    x = sum(spot[0] for spot in bar.back) / len(bar.back)
    y = sum(spot[1] for spot in bar.back) / len(bar.back)
    px = sum(spot[0] for spot in bar.pivots) / len(bar.pivots)
    py = sum(spot[1] for spot in bar.pivots) / len(bar.pivots)
    return drawn.at((0.65 * x + 0.35 * px, 0.65 * y + 0.35 * py))


def _paint_gap(
    painter: QPainter, sheet: Sheet, place: tuple[Drawn, Bar, Bar], overlap: Overlap
) -> None:
    """An opening: a hatched wedge from the pivots, and a heavy measured line across it."""
    drawn, upper, lower = place
    colour = QColor(standing_colour(standing_of(overlap), sheet.colours))
    one, other = drawn.at(upper.back[-1]), drawn.at(lower.back[0])
    if lower.pivots:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QBrush(colour, Qt.BrushStyle.BDiagPattern))
        painter.drawPolygon(QPolygonF([drawn.at(lower.pivots[0]), one, other]))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(colour, GAP_PX, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    painter.drawLine(one, other)
    away = other - one
    long = hypot(away.x(), away.y()) or 1.0
    tick = QPointF(-away.y(), away.x()) / long * TICK_PX
    for end in (one, other):
        painter.drawLine(end - tick, end + tick)


def standing_of(overlap: Overlap) -> str:
    """Return how an overlap stands, as a word of the measures."""
    return overlap.severity.value if overlap.severity else SOUND


def overlap_words(drawn: Drawn, overlap: Overlap) -> str:
    """Say an overlap by the numbers of its plates, the outer first."""
    order = {bar.part: str(n) for n, bar in enumerate(drawn.position.bars, start=1)}
    pair = QCoreApplication.translate("shapes", "{0} over {1}").format(
        order.get(overlap.outer, "?"), order.get(overlap.inner, "?")
    )
    return f"{pair}: {overlap_mm(overlap)}"


def overlap_mm(overlap: Overlap) -> str:
    """Say what lies under the neighbour, or how wide the gap is."""
    if overlap.overlap_mm < 0:
        gap = QCoreApplication.translate("shapes", "gap {0}")
        return gap.format(mm_text(-overlap.overlap_mm))
    return mm_text(overlap.overlap_mm)


def paint_words(
    painter: QPainter, sheet: Sheet, drawn: Drawn, column: QRectF, *, led: bool
) -> None:
    """Write each overlap in a column, in the order of the plates.

    Where ``led``, a line leads from what is not sound to where it is; of the others the numbers tell.
    """
    told = drawn.pairs()
    spots = [_between(drawn, upper, lower) for upper, lower, _ in told]
    wanted = [spot.y() for spot in spots] if led else [column.top()] * len(told)
    middles = spread(wanted, sheet.line_px, column)
    grave = [at for at, each in enumerate(told) if led and standing_of(each[2]) != SOUND]
    places = {at: QPointF(column.left() - 2, middles[at]) for at in grave}
    uncross(spots, places)
    for at, (_, _, overlap) in enumerate(told):
        y = middles[at]
        if at in places:
            y = places[at].y()
            colour = standing_colour(standing_of(overlap), sheet.colours)
            painter.setPen(QPen(QColor(colour), LEAD_PX))
            painter.drawLine(spots[at], places[at])
        _paint_told(painter, sheet, QPointF(column.left(), y - sheet.line_px / 2), drawn, overlap)


def uncross(spots: list[QPointF], places: dict[int, QPointF]) -> None:
    """Give words each other's places until no two lines to them cross.

    Each change makes the lines shorter, so that it comes to an end.
    """
    pairs = list(combinations(sorted(places), 2))
    for _ in range(len(pairs) ** 2 + 1):
        crossing = [
            (one, other)
            for one, other in pairs
            if _cross((spots[one], places[one]), (spots[other], places[other]))
        ]
        if not crossing:
            return
        one, other = crossing[0]
        places[one], places[other] = places[other], places[one]


def _cross(one: tuple[QPointF, QPointF], other: tuple[QPointF, QPointF]) -> bool:
    def side(line: tuple[QPointF, QPointF], spot: QPointF) -> float:
        along, to = line[1] - line[0], spot - line[0]
        return along.x() * to.y() - along.y() * to.x()

    return (
        side(one, other[0]) * side(one, other[1]) < 0
        and side(other, one[0]) * side(other, one[1]) < 0
    )


def _between(drawn: Drawn, upper: Bar, lower: Bar) -> QPointF:
    """Return the middle between the nearest edges of two neighbours at the back."""
    return (drawn.at(upper.back[-1]) + drawn.at(lower.back[0])) / 2


def _paint_told(
    painter: QPainter, sheet: Sheet, corner: QPointF, drawn: Drawn, overlap: Overlap
) -> None:
    severity = standing_of(overlap)
    side = sheet.line_px * 0.75
    mark = QRectF(corner.x(), corner.y() + (sheet.line_px - side) / 2, side, side)
    paint_standing(painter, mark, severity, standing_colour(severity, sheet.colours))
    font = QFont(sheet.font)
    font.setBold(overlap.overlap_mm < 0)
    painter.setFont(font)
    painter.setPen(QColor(sheet.colours.text))
    words = QPointF(mark.right() + 4, corner.y() + sheet.metrics.ascent())
    painter.drawText(words, overlap_words(drawn, overlap))
    painter.setFont(sheet.font)
