"""Which way is up on a part as it is drawn, in words, and at which of its faces one looks."""

from math import cos, radians, sin

from PySide6.QtCore import QCoreApplication, QPointF
from PySide6.QtGui import QPainterPath, QPolygonF

from armorplan.app.rows import DiagramPart

EIGHTH_DEG = 45.0
NEAR_DEG = 5.0
"""What lies farther from one of the eight ways is told in degrees, too."""
_WAYS = (
    "to the right",
    "up the page and to the right",
    "up the page",
    "up the page and to the left",
    "to the left",
    "down the page and to the left",
    "down the page",
    "down the page and to the right",
)
_SIGNS = "→↗↑↖←↙↓↘"
STEM_SHARE, HEAD_SHARE, HALF_SHARE = 0.06, 0.45, 0.3
"""Of an arrow's length: half its stem's width, its head's length, half its head's width."""


def _tr(text: str) -> str:
    return QCoreApplication.translate("UpWords", text)


def _eighth(up_deg: float) -> int:
    return round(up_deg / EIGHTH_DEG) % len(_WAYS)


def way_words(up_deg: float) -> str:
    """Say which way on the page an angle points: ``to the left``; 0 is right, 90 is up."""
    eighth = _eighth(up_deg)
    said = _tr(_WAYS[eighth])
    off = (up_deg - eighth * EIGHTH_DEG + 180.0) % 360.0 - 180.0
    return said if abs(off) <= NEAR_DEG else f"{said} ({up_deg % 360.0:.0f}°)"


def way_sign(up_deg: float) -> str:
    """Return the arrow that stands for it in running text."""
    return _SIGNS[_eighth(up_deg)]


def face_words(part: DiagramPart) -> str:
    """Say that the face which will lie inward is the one drawn; empty where it is the outer."""
    return _tr("drawn from inside") if part.from_inside else ""


def beside_arrow(part: DiagramPart) -> str:
    """Return what stands beside the arrow on a part."""
    up, face = _tr("up"), face_words(part)
    return f"{up}, {face}" if face else up


def up_spoken(part: DiagramPart) -> str:
    """Say which way is up on a part, and its face if that is the inner one."""
    up = _tr("up on the wearer lies {way}").format(way=way_words(part.up_deg))
    face = face_words(part)
    return f"{up}, {face}" if face else up


def up_short(part: DiagramPart) -> str:
    """Say the same in few signs, for a line of a list."""
    up = _tr("up {sign}").format(sign=way_sign(part.up_deg))
    face = face_words(part)
    return f"{up}, {face}" if face else up


def up_arrow(middle: QPointF, length: float, up_deg: float) -> QPainterPath:
    """Return an arrow about a point; y counts down the page, the angle up it."""
    along = QPointF(cos(radians(up_deg)), -sin(radians(up_deg))) * length
    aside = QPointF(-along.y(), along.x())
    tail, tip = middle - along / 2, middle + along / 2
    neck = tip - along * HEAD_SHARE
    stem, half = aside * STEM_SHARE, aside * HALF_SHARE
    path = QPainterPath()
    path.addPolygon(
        QPolygonF(
            [tail + stem, neck + stem, neck + half, tip, neck - half, neck - stem, tail - stem]
        )
    )
    path.closeSubpath()
    return path
