"""Breaks a title over a few lines of a given width."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QFontMetricsF


def wrapped(text: str, metrics: QFontMetricsF, width_px: float, most: int) -> tuple[str, ...]:
    """Return at most ``most`` lines; what does not fit ends in an ellipsis."""
    lines: list[str] = []
    words = text.split()
    while words and len(lines) < most - 1:
        line = words.pop(0)
        while words and metrics.horizontalAdvance(f"{line} {words[0]}") <= width_px:
            line = f"{line} {words.pop(0)}"
        lines.append(metrics.elidedText(line, Qt.TextElideMode.ElideRight, width_px))
    if words:
        lines.append(metrics.elidedText(" ".join(words), Qt.TextElideMode.ElideRight, width_px))
    return tuple(lines)
