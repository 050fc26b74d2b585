"""Brings a window to the front."""

from PySide6.QtWidgets import QWidget


def bring_up(window: QWidget) -> None:
    """Show a window above all others, and give it the keyboard."""
    window.show()
    window.raise_()
    window.activateWindow()
