"""Letters of the bench view: fonts by pixels, measured and written within a box."""

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QFontMetricsF, QPainter

from armorplan.desktop.bench_layout import SMALL

MANY_PX = 10**5
KEPT = 2000
"""So many measures are kept: the same texts are tried in many sizes, at every change."""
LEAST_PX = 8
_TRIAL_PX = 200


def letters(font: QFont, px: int, *, bold: bool = False) -> QFont:
    """Return a font of the same family in so many pixels, digits of one width."""
    made = QFont(font)
    made.setPixelSize(max(1, px))
    made.setBold(bold)
    return made


def capital_share(font: QFont) -> float:
    """Return what a capital is of the font's pixel size."""
    return QFontMetricsF(letters(font, _TRIAL_PX)).capHeight() / _TRIAL_PX


class FontMeasure:
    """Measures texts in a font; fulfils ``bench_layout.Measure``."""

    def __init__(self, font: QFont) -> None:
        self._font = font
        self._known: dict[tuple[str, int, int, bool], int] = {}

    def __call__(self, text: str, wide: int, px: int, *, bold: bool = False) -> int:
        """Return how high a text is, wrapped at words."""
        if not text:
            return 0
        asked = text, wide, px, bold
        if asked not in self._known:
            if len(self._known) > KEPT:
                self._known.clear()
            self._known[asked] = self._measured(text, wide, px, bold=bold)
        return self._known[asked]

    def _measured(self, text: str, wide: int, px: int, *, bold: bool) -> int:
        metrics = QFontMetrics(letters(self._font, px, bold=bold))
        room = QRect(0, 0, max(wide, 1), MANY_PX)
        return metrics.boundingRect(room, int(Qt.TextFlag.TextWordWrap), text).height()


def fitted(font: QFont, word: str, px: int, wide: int) -> QFont:
    """Return bold letters of ``px`` pixels, plain or smaller where a word has no room in them."""
    for size in range(px, LEAST_PX, -1):
        for bold in (True, False):
            made = letters(font, size, bold=bold)
            if QFontMetrics(made).horizontalAdvance(word) <= wide:
                return made
    return letters(font, LEAST_PX)


def shrunk(font: QFont, text: str, px: int, wide: float) -> QFont:
    """Return letters of ``px`` pixels, smaller where a line has no room in them; never below small ones."""
    for size in range(px, round(SMALL * px), -1):
        made = letters(font, size)
        if QFontMetrics(made).horizontalAdvance(text) <= wide:
            return made
    return letters(font, round(SMALL * px))


def write(
    painter: QPainter,
    box: QRectF,
    text: str,
    font: QFont,
    colour: str,
    align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
) -> None:
    """Write a text upright in the middle of a box, wrapped at words."""
    painter.setFont(font)
    painter.setPen(QColor(colour))
    painter.drawText(box, align | Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap, text)


def write_line(
    painter: QPainter,
    box: QRectF,
    text: str,
    font: QFont,
    colour: str,
    align: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignLeft,
) -> None:
    """Write a text on one line, shortened at its end where it is too long."""
    metrics = QFontMetrics(font)
    told = metrics.elidedText(text, Qt.TextElideMode.ElideRight, int(box.width()))
    painter.setFont(font)
    painter.setPen(QColor(colour))
    painter.drawText(box, align | Qt.AlignmentFlag.AlignVCenter, told)
