"""Comes into the bench view and goes back: it has the window to itself."""

from collections.abc import Iterable

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMainWindow, QStackedWidget, QToolBar, QWidget

from armorplan.desktop.settings import BENCH_WHOLE_SCREEN, Settings
from armorplan.desktop.widgets.bench_view import BenchView

KEPT = (
    "bench_view",
    "take_back",
    "restore",
    "quiet",
    "quiet_all",
    "next_look",
    "sound_on",
    "show_help",
    "show_keys",
    "leave",
)
"""Actions whose keys work in the bench view, too; all others speak of what is out of sight there."""


class BenchDoor(QObject):
    """Holds the usual panels and the bench view as two pages of the window.

    ``turned`` says whether the bench view is in sight now.
    """

    turned = Signal(bool)

    def __init__(
        self, window: QMainWindow, usual: QWidget, view: BenchView, settings: Settings
    ) -> None:
        super().__init__(window)
        self._settings = settings
        self._was_state = window.windowState()
        self._window, self._usual, self.view = window, usual, view
        self._was_at: QWidget | None = None
        self._pages = QStackedWidget(window)
        self._pages.setObjectName("window_views")
        self._pages.addWidget(usual)
        self._pages.addWidget(view)
        window.setCentralWidget(self._pages)
        view.left.connect(self.leave)
        view.leaves.widened.connect(self._widen)

    @property
    def is_open(self) -> bool:
        """Whether the bench view is in sight."""
        return self._pages.currentWidget() is self.view

    def keep(self, actions: Iterable[QAction]) -> None:
        """Have the keys of these work in the bench view."""
        for action in actions:
            if action.objectName() in KEPT:
                self.view.addAction(action)

    def turn(self) -> None:
        """Come into the bench view, or go back."""
        if self.is_open:
            self.leave()
        else:
            self._enter()

    def _enter(self) -> None:
        self._was_at = self._window.focusWidget()
        self._was_state = self._window.windowState()
        self._show_bars(shown=False)
        self._pages.setCurrentWidget(self.view)
        self._widen()
        self.view.come()
        self.turned.emit(True)

    def _widen(self) -> None:
        """Take the whole screen if that is wanted, else be as large as before."""
        whole = self._settings.value(BENCH_WHOLE_SCREEN)
        state = Qt.WindowState.WindowFullScreen if whole else self._was_state
        self._window.setWindowState(state)

    def leave(self) -> None:
        """Go back to the usual panels, and to where the keyboard was."""
        if not self.is_open:
            return
        self.view.go()
        self._pages.setCurrentWidget(self._usual)
        self._show_bars(shown=True)
        self._window.setWindowState(self._was_state)
        self.turned.emit(False)
        if self._was_at is not None:
            self._was_at.setFocus()

    def close(self) -> None:
        """Give the window back for good, and wait for what is still being reckoned."""
        self.leave()
        self.view.end_jobs()

    def _show_bars(self, *, shown: bool) -> None:
        for bar in (self._window.menuBar(), self._window.statusBar()):
            bar.setVisible(shown)
        for tools in self._window.findChildren(QToolBar):
            tools.setVisible(shown)
