"""The way from the bench to a drawing that is brought in, and back with the pattern it became."""

from pathlib import Path

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from armorplan.desktop.bridge import Bridge
from armorplan.desktop.bring_desk import BringDesk
from armorplan.desktop.bring_kept import Begun, BegunFile
from armorplan.desktop.bring_protocol import BringCore
from armorplan.desktop.opening import Opener
from armorplan.desktop.widgets.bring_page import BringPage
from armorplan.desktop.widgets.bringing_up import bring_up


class BringDoor(QObject):
    """Opens the page once; what is written is laid on the bench."""

    def __init__(self, bridge: Bridge, opener: Opener, core: BringCore, window: QWidget) -> None:
        super().__init__(window)
        self._bridge = bridge
        self._opener = opener
        self._window = window
        self._page: BringPage | None = None
        self.desk = BringDesk(core, BegunFile(), self)
        self.desk.wrote.connect(self._lay_out)

    def show_page(self) -> None:
        """Show the page where it was left."""
        page = self._page
        if page is None:
            page = self._page = BringPage(self.desk, self._window)
            page.left_for_bench.connect(self._go_to_bench)
        page.begin()
        bring_up(page)

    def bring(self, drawing: Path) -> None:
        """Show the page and read a drawing."""
        self.show_page()
        if self._page is not None:
            self._page.open(Begun(file=drawing))

    def _go_to_bench(self) -> None:
        """What is written is done with: the page closes, and begins anew the next time."""
        self.desk.put_away()
        if self._page is not None:
            self._page.close()
        self._window.raise_()
        self._window.activateWindow()

    def _lay_out(self, folder: Path, _left_open: object) -> None:
        self._bridge.said.emit(self.tr("Written in {0}.").format(folder))
        self._opener.open(folder)

    def close(self) -> None:
        """Close the page, and wait for what it has begun."""
        if self._page is not None:
            self._page.close()
        self.desk.close()
