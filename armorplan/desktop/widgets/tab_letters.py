"""The letter of a tab that is open already: it leads into the tab, where Qt would do nothing."""

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtGui import QKeySequence, QShortcutEvent
from PySide6.QtWidgets import QTabWidget


class TabLetters(QObject):
    """``taken`` says that the letter of the tab that is shown was pressed with Alt."""

    taken = Signal()

    def __init__(self, tabs: QTabWidget) -> None:
        super().__init__(tabs)
        self._tabs = tabs
        tabs.tabBar().installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() is QEvent.Type.Shortcut and isinstance(event, QShortcutEvent):
            shown = self._tabs.tabText(self._tabs.currentIndex())
            if event.key() == QKeySequence.mnemonic(shown):
                self.taken.emit()
                return True
        return super().eventFilter(watched, event)
