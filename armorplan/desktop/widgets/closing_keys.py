"""One habit for the windows beside the bench: Esc closes them where nothing else takes it, and Ctrl+W."""

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence, QShortcut
from PySide6.QtWidgets import QWidget


class ClosingKeys(QObject):
    """Watches a window for Esc that no field or picture within it took: these drop what is in hand first."""

    def __init__(self, page: QWidget, *, has_ctrl_w: bool = False) -> None:
        """``has_ctrl_w``: the window has a button that goes by Ctrl+W already."""
        super().__init__(page)
        self._page = page
        page.installEventFilter(self)
        if not has_ctrl_w:
            QShortcut(QKeySequence("Ctrl+W"), page, page.close)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            is_plain = event.modifiers() == Qt.KeyboardModifier.NoModifier
            if is_plain and event.key() == Qt.Key.Key_Escape:
                self._page.close()
                return True
        return super().eventFilter(watched, event)
