"""Paints layers bent round, seen along the bend: holes where they come to lie, radius, angle."""

from collections.abc import Callable
from dataclasses import replace

from PySide6.QtCore import QCoreApplication, QPointF, QRectF
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from armorplan.desktop.picture_colours import leather
from armorplan.desktop.shapes_bending import (
    Spot,
    face,
    formed_size,
    outlines,
    radii,
    slide_mm,
    spot_at,
)
from armorplan.desktop.shapes_words import mm_text, number_text
from armorplan.desktop.widgets.shape_sheet_painting import (
    PAD_PX,
    Sheet,
    arrow,
    solid,
    write,
    write_line,
)
from armorplan.geometry.pictures import BendPicture

MOST_PX_A_MM = 7.0
USUAL_LINES = 11
LONGEST_LEG = 1.0
"""A leg of more than twice so many radii is drawn no longer, with strokes across its end."""
LEAST_LEG_MM = 18.0
POST_PX = 3.0
WASHER = "washer"
SLIDE_SEEN_MM = 0.2

Place = Callable[[Spot], QPointF]


def bend_height(sheet: Sheet, picture: BendPicture, *, lines: int = USUAL_LINES) -> float:
    """Return the height with the bend drawn so many lines of text high, in logical pixels."""
    return lines * sheet.line_px + _legend_px(sheet, picture) + 2 * PAD_PX


def paint_bend(painter: QPainter, sheet: Sheet, picture: BendPicture, box: QRectF) -> None:
    """Paint the bend into a box, its layers named below it."""
    if not picture.layers or picture.angle_deg <= 0:
        return
    legend = _legend_px(sheet, picture)
    room = box.adjusted(PAD_PX, PAD_PX, -PAD_PX, -PAD_PX - legend)
    drawn = _shortened(picture)
    place, px_a_mm = _placing(drawn, room.adjusted(8, 4, -8, -8))
    _paint_layers(painter, sheet, drawn, place)
    _paint_cuts(painter, sheet, picture, drawn, place)
    _paint_holes(painter, sheet, drawn, place)
    _paint_radius(painter, sheet, drawn, place, px_a_mm)
    foot = QRectF(room.left(), room.bottom() + PAD_PX / 2, room.width(), legend)
    _paint_legend(painter, sheet, picture, foot)


def _legend_px(sheet: Sheet, picture: BendPicture) -> float:
    lines = len(picture.layers) + (2 if slide_mm(picture) > SLIDE_SEEN_MM else 1)
    return lines * sheet.line_px + 4


def _shortened(picture: BendPicture) -> BendPicture:
    """Return a bend with long legs cut off, those of each layer by as much."""
    most = max(LONGEST_LEG * picture.radius_mm, LEAST_LEG_MM)
    cuts = [leg - most if leg > 2 * most else 0.0 for leg in picture.legs_mm]

    def cut(legs: tuple[float, float]) -> tuple[float, float]:
        first, second = (max(0.0, leg - by) for leg, by in zip(legs, cuts, strict=True))
        return first, second

    layers = (replace(each, legs_mm=each.legs_mm and cut(each.legs_mm)) for each in picture.layers)
    return replace(picture, legs_mm=cut(picture.legs_mm), layers=tuple(layers))


def _placing(picture: BendPicture, room: QRectF) -> tuple[Place, float]:
    """Return where a spot in mm is drawn, and the scale in px/mm."""
    xs, ys = zip(*(spot for ring in outlines(picture) for spot in ring), strict=True)
    wide, high = max(max(xs) - min(xs), 1.0), max(max(ys) - min(ys), 1.0)
    scale = max(min(room.width() / wide, room.height() / high, MOST_PX_A_MM), 0.05)
    middle = QPointF((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2)

    centre = room.center()

    def place(spot: Spot) -> QPointF:
        x, y = spot
        return QPointF(
            centre.x() + (x - middle.x()) * scale, centre.y() + (y - middle.y()) * scale
        )

    return place, scale


def _paint_layers(painter: QPainter, sheet: Sheet, picture: BendPicture, place: Place) -> None:
    painter.setPen(solid(sheet.colours.edge, 1.4))
    for at, ring in enumerate(outlines(picture)):
        painter.setBrush(QColor(_fill(sheet, picture, at)))
        painter.drawPolygon(QPolygonF([place(spot) for spot in ring]))


def _fill(sheet: Sheet, picture: BendPicture, at: int) -> str:
    if picture.layers[at].kind == WASHER:
        return sheet.colours.bar
    return leather(sheet.colours, picture.layers[at].kind, len(picture.layers) - at)


def _paint_cuts(
    painter: QPainter, sheet: Sheet, whole: BendPicture, drawn: BendPicture, place: Place
) -> None:
    """Two strokes across the end of a leg say that it goes on, or that its length is not known."""
    layers = radii(drawn)
    inner, outer = face(drawn, layers[-1][0]), face(drawn, layers[0][1], 0)
    for end, is_cut in (
        (0, whole.legs_mm[0] > drawn.legs_mm[0]),
        (-1, whole.legs_mm[1] > drawn.legs_mm[1]),
    ):
        if whole.legs_known and not is_cut:
            continue
        one, other = place(inner[end]), place(outer[end])
        beyond = (other - one) * 0.35
        painter.setPen(QPen(QColor(sheet.colours.text), 1.6))
        inward = place(inner[1 if end == 0 else -2]) - one
        step = inward * (5 / max((inward.x() ** 2 + inward.y() ** 2) ** 0.5, 1.0))
        for move in (QPointF(0, 0), step):
            painter.drawLine(one - beyond + move, other + beyond + move + step)


def _paint_holes(painter: QPainter, sheet: Sheet, picture: BendPicture, place: Place) -> None:
    """Paint the holes of the outer and of the inner row, each through its own layers."""
    layers = radii(picture)
    colours = sheet.colours
    inside, through = layers[-1], layers[0]
    for at in picture.inner_deg:
        _stroke(painter, place, picture, (inside[0], inside[1], at), colours.running)
    for at in picture.outer_deg:
        _stroke(painter, place, picture, (through[0], through[1], at), colours.early)


def _stroke(
    painter: QPainter,
    place: Place,
    picture: BendPicture,
    hole: tuple[float, float, float],
    colour: str,
) -> None:
    inner, outer, at = hole
    ends = place(spot_at(picture, inner, at)), place(spot_at(picture, outer, at))
    painter.setPen(QPen(QColor(colour), POST_PX))
    painter.drawLine(*ends)


def _paint_radius(
    painter: QPainter, sheet: Sheet, picture: BendPicture, place: Place, px_a_mm: float
) -> None:
    """Draw an arrow from the centre, or from as near it as there is room, to the inner face."""
    tip = place(spot_at(picture, picture.radius_mm, 0))
    long = min(picture.radius_mm * px_a_mm, 5.0 * sheet.line_px)
    tail = tip + QPointF(0.0, long)
    arrow(painter, tail, tip, sheet.colours.quiet)
    words = f"R {number_text(picture.radius_mm)} mm, {number_text(picture.angle_deg)}°"
    write(painter, sheet, tail + QPointF(0, sheet.line_px / 2), words)


def _paint_legend(painter: QPainter, sheet: Sheet, picture: BendPicture, box: QRectF) -> None:
    line = QRectF(box.left(), box.top(), box.width(), sheet.line_px)
    side = sheet.line_px * 0.7
    for at, layer in enumerate(picture.layers):
        swatch = QRectF(line.left(), line.top() + 2, side * 1.6, side)
        painter.setPen(solid(sheet.colours.edge, 1.0))
        painter.setBrush(QColor(_fill(sheet, picture, at)))
        painter.drawRect(swatch)
        words = line.adjusted(side * 1.6 + 8, 0, 0, 0)
        write_line(painter, sheet, words, f"{layer.name}, {mm_text(layer.thick_mm)}")
        line.translate(0, sheet.line_px)
    indented = line.adjusted(side * 1.6 + 8, 0, 0, 0)
    write_line(painter, sheet, indented, _formed_words(picture))
    line.translate(0, sheet.line_px)
    if slide_mm(picture) > SLIDE_SEEN_MM:
        middle = line.center().y()
        for at, colour in enumerate((sheet.colours.early, sheet.colours.running)):
            painter.setPen(QPen(QColor(colour), POST_PX))
            x = line.left() + 6 + at * 10
            painter.drawLine(QPointF(x, middle - side / 2), QPointF(x, middle + side / 2))
        words = line.adjusted(side * 1.6 + 8, 0, 0, 0)
        parted = QCoreApplication.translate("shapes", "holes at the ends part by {0}")
        write_line(painter, sheet, words, parted.format(mm_text(slide_mm(picture))))


def _formed_words(picture: BendPicture) -> str:
    if not picture.legs_known:
        return QCoreApplication.translate("shapes", "its size once bent is not known")
    wide, high = formed_size(picture)
    said = QCoreApplication.translate("shapes", "formed {0} × {1}")
    return said.format(number_text(wide), mm_text(high))
