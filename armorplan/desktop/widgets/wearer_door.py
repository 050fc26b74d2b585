"""The way from the bench to fitting its pattern to a wearer, and back with the fitted pattern."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from armorplan.app.wearer_desk import WearerCore
from armorplan.desktop.bridge import Bridge
from armorplan.desktop.draft_desk import DraftReader
from armorplan.desktop.opening import Opener
from armorplan.desktop.wearer_desk import WearerDesk
from armorplan.desktop.widgets.bringing_up import bring_up
from armorplan.desktop.widgets.wearer_page import WearerPage
from armorplan.workshop.shelf import Shelf


class WearerDoor(QObject):
    """Opens the page once; what is written is laid on the bench."""

    def __init__(
        self,
        bridge: Bridge,
        opener: Opener,
        shelf: Callable[[], Shelf],
        drafts: DraftReader,
        own: tuple[Path, QWidget],
    ) -> None:
        file, window = own
        super().__init__(window)
        self._bridge, self._opener, self._window = bridge, opener, window
        self._page: WearerPage | None = None
        self._is_ours = False
        self.desk = WearerDesk(bridge, WearerCore(shelf, file), drafts, self)
        self.desk.wrote.connect(self._lay_out)
        bridge.opened.connect(self._look_again)
        opener.refused.connect(self._stay_out)

    def show_page(self) -> None:
        """Show the page, at the pattern of the build at the bench."""
        if self._page is None:
            self._page = WearerPage(self.desk, self._window)
        page = self._page
        page.begin()
        bring_up(page)

    def _look_again(self) -> None:
        """Another build is shown: the page speaks of its pattern, unless we laid it there ourselves.

        Who fits one pattern to several wearers goes on from the pattern, not from what was fitted.
        """
        if self._is_ours:
            self._is_ours = False
            return
        self.desk.forget()
        if self._page is not None and self._page.isVisible():
            self._page.begin()

    def _lay_out(self, folder: Path) -> None:
        self._bridge.said.emit(self.tr("Written in {0}.").format(folder))
        self._is_ours = True
        self._opener.open(folder)

    def _stay_out(self) -> None:
        self._is_ours = False

    def close(self) -> None:
        """Close the page, and wait for what it has begun."""
        if self._page is not None:
            self._page.close()
        self.desk.close()
