"""The way from the bench to the corrections and versions of its pattern."""

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.corrections_desk import CorrectionsBench, CorrectionsDesk
from armorplan.desktop.widgets.bringing_up import bring_up
from armorplan.desktop.widgets.corrections_page import CorrectionsPage


class CorrectionsDoor(QObject):
    """Opens the page once; it speaks of the pattern of whatever is at the bench."""

    def __init__(self, bridge: Bridge, bench: CorrectionsBench, window: QWidget) -> None:
        super().__init__(window)
        self._window = window
        self._page: CorrectionsPage | None = None
        self.desk = CorrectionsDesk(bridge, bench, self)
        bridge.opened.connect(self._look_again)

    def show_page(self) -> None:
        """Show the page, at the pattern of the build at the bench."""
        if self._page is None:
            self._page = CorrectionsPage(self.desk, self._window)
        page = self._page
        page.begin()
        bring_up(page)

    def _look_again(self) -> None:
        if self._page is not None and self._page.isVisible():
            self._page.begin()

    def close(self) -> None:
        """Close the page, and wait for what it has begun."""
        if self._page is not None:
            self._page.close()
        self.desk.close()
