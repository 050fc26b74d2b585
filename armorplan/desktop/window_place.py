"""Where the window opens: no larger than the screen, and wholly on it; and how that is kept."""

from PySide6.QtCore import QByteArray, QPoint, QRect

TITLE_PX = 32
EDGE_PX = 4
"""Room kept for the title bar and the frame, which are not known before the window is shown."""


def within(place: QRect, room: QRect) -> QRect:
    """Return a window's place made to fit a screen.

    Args:
        place: where the window would stand, without its frame, in logical pixels.
        room: what of the screen is free for windows, in logical pixels.
    """
    free = room.adjusted(EDGE_PX, TITLE_PX, -EDGE_PX, -EDGE_PX)
    size = place.size().boundedTo(free.size())
    left = _between(place.left(), free.left(), free.left() + free.width() - size.width())
    top = _between(place.top(), free.top(), free.top() + free.height() - size.height())
    return QRect(QPoint(left, top), size)


def _between(at: int, least: int, most: int) -> int:
    return max(least, min(at, most))


def hex_of(state: QByteArray) -> str:
    """Return what Qt saved of a place or of shares as text for the settings."""
    return bytes(state.toHex().data()).decode("ascii")


def bytes_of(state: str) -> QByteArray:
    """Return what Qt can restore from; what is no such text gives nothing to restore."""
    return QByteArray.fromHex(QByteArray(state.encode("ascii", "ignore")))
