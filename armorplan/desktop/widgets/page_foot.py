"""What pages in windows of their own share: the button that closes them, and a size on the screen."""

from PySide6.QtWidgets import QDialog, QDialogButtonBox, QWidget

FRAME_PX = 40
"""Kept free of the screen for the frame of the window."""


def close_box(page: QDialog) -> QDialogButtonBox:
    """Return the button that closes a page; Enter in a field of the page does not press it."""
    box = QDialogButtonBox(QDialogButtonBox.StandardButton.Close, page)
    box.button(QDialogButtonBox.StandardButton.Close).setAutoDefault(False)
    box.rejected.connect(page.close)
    return box


def fit_screen(page: QWidget, wide_px: int, high_px: int) -> None:
    """Make a page so large, or as large as the screen has room for it."""
    room = page.screen().availableSize()
    page.resize(min(wide_px, room.width() - FRAME_PX), min(high_px, room.height() - FRAME_PX))
