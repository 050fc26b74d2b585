"""Marks of what a timer tells, each with a silhouette of its own, so colour never stands alone."""

from PySide6.QtCore import QCoreApplication, QPointF, QRectF
from PySide6.QtGui import QPainter, QPainterPath, QPolygonF

from armorplan.app.bells import BellKind
from armorplan.desktop.colours import Colours
from armorplan.desktop.glyph_box import filling

WORDS = {
    BellKind.DUE: "time is up",
    BellKind.OPENS: "can begin now",
    BellKind.CLOSES: "begin, it closes",
    BellKind.WATCH: "look and turn",
    BellKind.LATE: "late, see to it",
}
AHEAD = {
    BellKind.DUE: "until {0}",
    BellKind.OPENS: "opens {0}",
    BellKind.CLOSES: "closes {0}",
    BellKind.WATCH: "look at {0}",
    BellKind.LATE: "too late from {0}",
}
PASSED = {
    BellKind.DUE: "was due {0}",
    BellKind.OPENS: "open since {0}",
    BellKind.CLOSES: "closes {0}",
    BellKind.WATCH: "look due {0}",
    BellKind.LATE: "late since {0}",
}


def bell_word(kind: BellKind) -> str:
    """Return what a moment says once it has come, in the person's language."""
    return QCoreApplication.translate("BellKind", WORDS[kind])


def ahead_text(kind: BellKind, clock: str) -> str:
    """Say when a moment comes: ``until 16:20``, ``opens 16:20``."""
    return QCoreApplication.translate("BellKind", AHEAD[kind]).format(clock)


def passed_text(kind: BellKind, clock: str) -> str:
    """Say when a moment came: ``was due 16:20``, ``open since 16:20``."""
    return QCoreApplication.translate("BellKind", PASSED[kind]).format(clock)


def bell_colour(colours: Colours, kind: BellKind) -> str:
    """Return the colour of a moment's mark and word on every ground of a theme."""
    return {
        BellKind.DUE: colours.running,
        BellKind.OPENS: colours.ready,
        BellKind.CLOSES: colours.drying,
        BellKind.WATCH: colours.paused,
        BellKind.LATE: colours.alarm,
    }[kind]


def paint_bell(painter: QPainter, box: QRectF, kind: BellKind, colour: str) -> None:
    """Paint a moment's mark into a box (device-independent pixels), in ``#rrggbb``."""
    with filling(painter, box, colour) as square:
        painter.translate(square.topLeft())
        painter.scale(square.width() / 100, square.width() / 100)
        painter.drawPath(_SHAPES[kind])


def _polygons(*outlines: tuple[tuple[float, float], ...]) -> QPainterPath:
    path = QPainterPath()
    for outline in outlines:
        path.addPolygon(QPolygonF([QPointF(x, y) for x, y in outline]))
        path.closeSubpath()
    return path


def _sand() -> QPainterPath:
    """Sand run through: lids above and below, the glass between them drawn in to a neck."""
    return _polygons(
        ((8, 2), (92, 2), (92, 16), (8, 16)),
        ((16, 20), (84, 20), (57, 50), (84, 80), (16, 80), (43, 50)),
        ((8, 84), (92, 84), (92, 98), (8, 98)),
    )


def _apart() -> QPainterPath:
    """Two leaves of a gate, swung apart."""
    return _polygons(
        ((36, 4), (36, 96), (0, 50)),
        ((64, 4), (64, 96), (100, 50)),
    )


def _together() -> QPainterPath:
    """Two points that come upon a post from both sides."""
    return _polygons(
        ((0, 18), (36, 50), (0, 82)),
        ((43, 0), (57, 0), (57, 100), (43, 100)),
        ((100, 18), (64, 50), (100, 82)),
    )


def _eye() -> QPainterPath:
    """An open eye; the ring round its middle is left out."""
    path = QPainterPath(QPointF(0, 50))
    path.quadTo(QPointF(50, -18), QPointF(100, 50))
    path.quadTo(QPointF(50, 118), QPointF(0, 50))
    hollow = QPainterPath()
    hollow.addEllipse(QPointF(50, 50), 23, 23)
    middle = QPainterPath()
    middle.addEllipse(QPointF(50, 50), 11, 11)
    return path.subtracted(hollow).united(middle)


def _spent() -> QPainterPath:
    """A star of eight short points with a bar left out across it: no way on."""
    rim = [(50, 0), (62, 21), (85, 15), (79, 38), (100, 50), (79, 62), (85, 85), (62, 79)]
    rim += [(50, 100), (38, 79), (15, 85), (21, 62), (0, 50), (21, 38), (15, 15), (38, 21)]
    bar = QPainterPath()
    bar.addRect(QRectF(22, 42, 56, 16))
    return _polygons(tuple(rim)).subtracted(bar)


_SHAPES: dict[BellKind, QPainterPath] = {
    BellKind.DUE: _sand(),
    BellKind.OPENS: _apart(),
    BellKind.CLOSES: _together(),
    BellKind.WATCH: _eye(),
    BellKind.LATE: _spent(),
}
